"""Ways out where the ground decides: each for its own want, and as the brief would say it."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from planning import plan_of
from test_work_campaigns import days_of, plain
from told import told
from turfplan.book.words import grass_name
from turfplan.message import Days, Listed, as_written, length_mm, listed, said
from turfplan.phrases import ways_out as phrases
from turfplan.planning import ways_by_ground as module
from turfplan.planning.changed_briefs import ChangedBrief, next_year
from turfplan.planning.ways_by_ground import (
    _after_a_season,
    _sown_with,
    _thatch_first,
    _with_a_grass_that_lives,
    _with_a_pot_test,
    _with_less_salt,
    _with_more_sun,
    _without_own_grass,
    _without_thatch,
    by_the_ground,
)
from turfplan.records.brief import Brief, HerbicideUse, LawnPart
from turfplan.work.drafts import OpenDays
from turfplan.work.grass_for_place import grasses_instead
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.light import hours_of
from turfplan.work.salt_holds import too_salty
from turfplan.work.seed_mix import SownArea
from turfplan.work.thatch import strip_limit


def changed(table: str, **values: Any) -> ResolvedLawn:
    """The plain lawn with keys of a table of its brief changed."""
    setting = plain()
    part = getattr(setting.brief, table).model_copy(update=values)
    return replace(setting, brief=setting.brief.model_copy(update={table: part}))


def ways(of: Any, setting: ResolvedLawn) -> list[ChangedBrief]:
    """The ways of one want."""
    return list(of(setting.brief, setting))


def with_grass(setting: ResolvedLawn, grass: str, **sowing: Any) -> ResolvedLawn:
    """A lawn that is sown with another grass."""
    area = SownArea(1.0, {grass: 1.0})
    made = replace(setting.sowing, grass=setting.book.species[grass], areas=(area,), **sowing)
    return replace(setting, sowing=made)


def lit(setting: ResolvedLawn, **changes: Any) -> ResolvedLawn:
    """A lawn in other light."""
    light = setting.plot.light
    assert light is not None
    return replace(setting, plot=replace(setting.plot, light=replace(light, **changes)))


def test_a_pot_test_frees_what_lasts_in_the_soil_and_nothing_else() -> None:
    """Some days after today, or after the season begins; only treatments without an end wait."""
    uses = tuple(
        HerbicideUse.model_validate({"active_ingredient": name, "on": date(2026, 6, 1)})
        for name in ("dicamba", "imazapyr")
    )
    setting = changed("history", herbicides=uses)
    (way,) = ways(_with_a_pot_test, setting)
    days = timedelta(round(setting.book.si("site.pot_test")))
    begins = setting.brief.season.start
    assert begins is not None and begins > setting.today
    after = [use.seed_after for use in way.brief.history.herbicides]
    assert after == [None, begins + days]
    assert way.lines == as_written(f"seed_after = {begins + days}")
    later = replace(setting, today=begins + timedelta(9))
    (way,) = ways(_with_a_pot_test, later)
    assert way.brief.history.herbicides[1].seed_after == later.today + days
    assert ways(_with_a_pot_test, changed("history", herbicides=uses[:1])) == []


def test_grass_that_dies_here_is_replaced_by_three_that_live() -> None:
    """Water is a way where nobody waters; none where it lives, or where it is too dark."""
    setting = with_grass(plain(), "st_augustine")
    light = setting.plot.light
    assert light is not None
    others = grasses_instead(light, "cool")[:3]
    found = ways(_with_a_grass_that_lives, setting)
    assert [way.title for way in found] == [
        phrases.living_grass(grass=grass_name(setting.book, other)) for other in others
    ]
    assert [way.brief.seeding.species for way in found] == list(others)
    assert all(way.another_lawn for way in found) and len(found) == 3
    dry = ways(_with_a_grass_that_lives, lit(setting, watered=False))
    assert dry[0].title == phrases.water_it() and dry[0].brief.water.possible is True
    assert ways(_with_a_grass_that_lives, plain()) == []
    assert ways(_with_a_grass_that_lives, lit(setting, hours=0.5)) == []
    dark = replace(setting, plot=replace(setting.plot, light=None))
    assert ways(_with_a_grass_that_lives, dark) == []


def test_parts_with_a_grass_of_their_own_that_dies_lose_it() -> None:
    """Parts alone, or shapes; what lives stays, and nothing to change is no way."""

    def parts(*grasses: str | None) -> Brief:
        made = tuple(LawnPart.model_construct(grass=grass) for grass in grasses)
        return changed("lawn", part=made).brief

    light = plain().plot.light
    assert light is not None
    way = _without_own_grass(parts("tall_fescue", "st_augustine", None), light)
    assert way is not None
    assert [piece.grass for piece in way.brief.lawn.part] == ["tall_fescue", None, None]
    assert way.lines == phrases.leave_out(table="lawn.part.grass")
    assert _without_own_grass(parts("tall_fescue", None), light) is None
    shape: Any = LawnPart.model_construct(grass="st_augustine")
    shaped = _without_own_grass(changed("lawn", shape=(shape,)).brief, light)
    assert shaped is not None and shaped.lines == phrases.leave_out(table="lawn.shape.grass")
    assert shaped.brief.lawn.shape[0].grass is None
    setting = with_grass(plain(), "st_augustine")
    (only,) = _with_a_grass_that_lives(parts("st_augustine"), setting)
    assert only.title == phrases.no_own_grass()


def sown(
    other: str, intent: str, *, condition: str = "thin", own: str = "tall_fescue"
) -> tuple[str, str, str | None]:
    """How a brief of an intent is sown with another grass: its lines, intent and condition."""
    setting = changed("seeding", intent=intent)
    turf = replace(setting.turf, species=setting.book.species[own], condition=condition)
    lines, brief = _sown_with(setting.brief, replace(setting, turf=turf), other)
    assert brief.seeding.species == other
    return lines, str(brief.seeding.intent), brief.lawn.condition


def test_another_grass_is_bought_in_its_own_way() -> None:
    """Seed of the season goes into the stand, of another on a stand that is killed; what has no
    seed is planted, once that is killed where the season is another. Nobody is told to write that a
    lawn is bare that is not."""
    assert sown("perennial_ryegrass", "overseed")[:2] == (
        'species = "perennial_ryegrass", intent = "overseed"',
        "overseed",
    )
    assert sown("zoysia", "overseed")[1] == "renovate"
    assert sown("zoysia", "overseed", condition="bare")[1] == "overseed"
    assert sown("zoysia", "dormant", condition="bare")[1] == "overseed"
    assert sown("perennial_ryegrass", "dormant")[1] == "dormant"
    lines, intent, condition = sown("bermuda_hybrid", "overseed")
    assert (intent, condition) == ("renovate", "thin")
    assert lines == 'species = "bermuda_hybrid", intent = "renovate", form = "sod"'
    dense = sown("st_augustine", "plant", condition="dense", own="bermuda_common")
    assert dense[1] == "renovate", "what stands dense is killed first"
    assert sown("st_augustine", "plant", own="bermuda_common")[1] == "plant"
    assert sown("bermuda_hybrid", "overseed", condition="bare")[0] == (
        'species = "bermuda_hybrid", intent = "plant"'
    )
    assert sown("bermuda_hybrid", "overseed", own="zoysia")[2] == "thin"
    assert sown("tall_fescue", "plant")[1:] == ("plant", "thin")
    assert sown("zoysia", "plant")[1:] == ("renovate", "thin")


def test_thatch_that_is_a_sponge_is_stripped_or_taken_down_first() -> None:
    """From the limit of its grass on; bare ground has none."""
    book, grass = plain().book, plain().turf.species
    limit = book.si(strip_limit(grass))
    sponge = changed("lawn", thatch_mm=limit)
    strip, first = ways(_without_thatch, sponge)
    assert strip.title == phrases.strip_turf() and strip.brief.seeding.intent == "renovate"
    assert first.brief.lawn.thatch_mm is not None and first.brief.lawn.thatch_mm < limit
    assert first.brief.season.until is None
    assert ways(_without_thatch, changed("lawn", thatch_mm=limit - 0.1)) == []
    assert ways(_without_thatch, changed("lawn", thatch_mm=None)) == []
    bare = changed("lawn", thatch_mm=limit, condition="bare")
    assert ways(_without_thatch, bare) == []
    hybrid = replace(sponge.turf, species=book.species["bermuda_hybrid"])
    deep = changed("lawn", thatch_mm=limit + 50)
    strip, *_ = ways(_without_thatch, replace(deep, turf=hybrid))
    assert strip.title == phrases.strip_turf() and strip.brief.seeding.intent == "renovate"
    assert strip.brief.lawn == replace(deep, turf=hybrid).brief.lawn, "as it is told"
    never = next(e for e in book.species.values() if e.dethatch == "never" and e.seedable)
    deep = replace(deep, turf=replace(deep.turf, species=never))
    assert len(ways(_without_thatch, deep)) == 1


def test_thatch_of_thick_runners_is_cut_with_blades_set_wide_apart() -> None:
    """St. Augustinegrass is stripped, or thinned in its season and measured again;
    every grass of such blades has their spacing."""
    book = plain().book
    own = replace(plain().turf, species=book.species["st_augustine"])
    limit = book.si(strip_limit(own.species))
    strip, cut = ways(_without_thatch, replace(changed("lawn", thatch_mm=limit), turf=own))
    assert strip.title == phrases.strip_turf()
    assert cut.brief.lawn.thatch_mm is not None and cut.brief.lawn.thatch_mm < limit
    wide = [entry.id for entry in book.species.values() if entry.dethatch == "wide"]
    assert {"st_augustine", "centipede"} <= set(wide)
    for grass in wide:
        spacing = length_mm(book.si(f"species.{grass}.dethatch_spacing"))  # type: ignore[arg-type]
        day, turf = timedelta(1), replace(own, species=book.species[grass])
        window = days_of("dethatch", plain().today - day, plain().today + 9 * day)
        opened = replace(plain(), turf=turf, openings=replace(plain().openings, windows=(window,)))
        span = Days(plain().today, plain().today + 9 * day, weekday=False)
        told = phrases.thatch_cut(spacing=spacing, days=listed([span], "and"))
        assert _thatch_first(opened, [window]) == told
        assert _thatch_first(opened, []) == phrases.thatch_cut_next(spacing=spacing)


def test_thatch_is_taken_down_in_seasons_that_end_before_the_start_that_is_offered() -> None:
    """From today on; where none ends before the next growing year, a year later."""
    today, day = plain().today, timedelta(1)
    start = next_year(plain().brief, plain())
    later = start.replace(year=start.year + 1)
    now = days_of("dethatch", today - 9 * day, today + 9 * day)
    across = days_of("dethatch", start - day, start + 9 * day)

    def opened(*windows: OpenDays) -> tuple[date, list[OpenDays]]:
        lawn = replace(plain(), openings=replace(plain().openings, windows=windows))
        return _after_a_season(lawn.brief, lawn)

    assert opened(now, across) == (start, [now])
    assert opened(across) == (later, [across])
    assert opened() == (later, [])
    spans = [Days(today, today + 9 * day, weekday=False)]
    told = phrases.thatch_first(days=listed(spans, "and"))
    assert _thatch_first(plain(), [now]) == told
    assert _thatch_first(plain(), []) == phrases.thatch_first_next()


@pytest.mark.full
@pytest.mark.parametrize("month", range(1, 13))
@pytest.mark.parametrize(("latitude", "longitude"), [(40.0, -76.3), (-45.9, 170.5), (64.1, -21.9)])
def test_no_season_of_a_way_out_ends_after_the_day_that_it_goes_on(
    month: int, latitude: float, longitude: float
) -> None:
    """Of a sponge of cool-season turf, whenever the plan is made."""
    now = datetime(2027, month, 10, 12, tzinfo=UTC)
    place = {"postal_code": None, "latitude": latitude, "longitude": longitude, "country": None}
    lawn = {"grass": "kentucky_bluegrass", "thatch": "1.2 in"}
    plan = plan_of({"lawn": lawn, "place": place, "season": {"from": now.date()}}, now=now)
    thatch = [option for option in plan.options if ".thatch_" in said(option.title).key]
    assert plan.conflict is not None
    for option in thatch:
        start = date.fromisoformat(told(option.change).split("from = ")[1][:10])
        spans = dict(said(option.title).values).get("days")
        found = spans.items if isinstance(spans, Listed) else ()
        assert all(isinstance(span, Days) and span.end < start for span in found)


def test_more_sun_or_another_grass_where_it_is_too_dark() -> None:
    """Only where the seed was refused for it; as much as the grass needs, or any grass."""
    refused = with_grass(plain(), "bermuda_common", refused=as_written("dark"))
    light = refused.plot.light
    assert light is not None
    needs = light.needs_h("bermuda_common")
    dim = lit(refused, hours=needs - 1)
    assert not dim.plot.light.dark  # type: ignore[union-attr]
    found = ways(_with_more_sun, dim)
    assert found[-1].title == phrases.more_sun(hours=hours_of(needs))
    assert found[-1].brief.site.sun_hours == needs
    assert found[-1].brief.site.shade_hours is None
    others = [way.brief.seeding.species for way in found[:-1]]
    assert others == list(dim.plot.light.others("cool"))  # type: ignore[union-attr]
    assert all(way.brief.seeding.intent == "overseed" for way in found[:-1])
    bright = ways(_with_more_sun, lit(refused, hours=needs))
    assert all(way.title != found[-1].title for way in bright) and bright
    dark = lit(refused, hours=light.least_h - 1)
    (sun,) = ways(_with_more_sun, dark)
    assert sun.brief.site.sun_hours == max(needs, light.least_h)
    assert ways(_with_more_sun, lit(plain(), hours=needs - 1)) == []
    assert ways(_with_more_sun, refused) == [], "nobody said how much sun there is"
    warm = replace(dim, turf=replace(dim.turf, species=plain().book.species["zoysia"]))
    warm = lit(warm, hours=8.0)
    planted = {w.brief.seeding.species: w.brief.seeding.intent for w in ways(_with_more_sun, warm)}
    assert planted["bermuda_hybrid"] == "plant" and planted["bermuda_common"] == "overseed"


def test_salt_is_washed_out_or_borne() -> None:
    """Down to what the seed bears; by other seed where there is one, else by plants."""
    salty = changed("soil_test", salts_ds_m=11.0)
    (wash,) = ways(_with_less_salt, salty)
    assert wash.brief.soil_test.salts_ds_m == 6.0
    assert wash.lines == as_written('salts = "6 dS/m"')
    warm = with_grass(changed("soil_test", salts_ds_m=11.0), "zoysia")
    unlit = replace(warm, plot=replace(warm.plot, light=None))
    wash, *plants = ways(_with_less_salt, unlit)
    assert [way.brief.seeding.species for way in plants] == ["seashore_paspalum"]
    assert all(way.brief.seeding.form is not None for way in plants)
    blue = with_grass(changed("soil_test", salts_ds_m=7.0), "kentucky_bluegrass")
    wash, *seeds = ways(_with_less_salt, blue)
    assert wash.brief.soil_test.salts_ds_m == 3.0
    assert seeds[0].brief.seeding.species == "tall_fescue"
    assert all(way.brief.seeding.intent == "overseed" for way in seeds)
    assert ways(_with_less_salt, changed("soil_test", salts_ds_m=10.0)) == []
    assert list(by_the_ground(salty.brief, salty)) == ways(_with_less_salt, salty)
    assert module.MOST_NAMED == 3


def test_a_winter_cover_is_replaced_by_no_grass_that_sleeps() -> None:
    """Where salt or the summer kills the ryegrass of one winter, no other lawn is a way to have it
    green: salt is washed out, and nothing else.
    """
    setting = with_grass(
        changed("soil_test", salts_ds_m=15.0), "st_augustine", intent="winter_overseed"
    )
    assert ways(_with_a_grass_that_lives, setting) == []
    rye = with_grass(setting, "perennial_ryegrass")
    why = too_salty(rye)
    assert why is not None and why.key == "salt_holds.too_salty_cover"
    (wash,) = ways(_with_less_salt, rye)
    assert wash.lines == as_written('salts = "3 dS/m"')
