"""What is said beside the tasks."""

from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from planning import amount, kind, plan_of
from resolved_lawns import lawn
from told import all_told, told
from turfplan.files.reading.book import load_book
from turfplan.message import Number, Quantity, as_written
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import plan_cautions as cautions
from turfplan.phrases import weed_killers as phrases
from turfplan.planning.plan_header import (
    _alarm,
    _cautions,
    _climate,
    _lawn,
    _mostly_weeds,
    _of_choice,
    _place,
    _site,
    _spring_seed,
    _to_move,
    _why,
    _windows,
)
from turfplan.planning.thatch_left import thatch_left
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import Band, OpenDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.thatch import strip_limit

LIMIT = 100 * load_book().si("seeding.rebuild_weeds")


def weedy(percent: float | None, **changes: Any) -> list[str]:
    """What is said of a lawn with so many weeds."""
    setting = lawn(changes)
    site = setting.brief.site.model_copy(update={"weeds_percent": percent})
    brief = setting.brief.model_copy(update={"site": site})
    return [m.key for m in _mostly_weeds(replace(setting, brief=brief))]


def test_weeds_beyond_the_mark_are_told_by_what_is_done() -> None:
    """Not at it; where the lawn is made anew, never."""
    assert weedy(LIMIT) == weedy(None) == weedy(0) == []
    assert weedy(LIMIT + 1) == [of_ground.weeds().key]
    assert weedy(LIMIT + 1, seeding={"intent": "patch"}) == [of_ground.weeds().key]
    assert weedy(LIMIT + 1, seeding={"intent": "none"}) == [cautions.mostly_weeds().key]
    assert weedy(100, seeding={"intent": "renovate"}) == []


def with_thatch(setting: ResolvedLawn, mm: float) -> ResolvedLawn:
    """The lawn with so much thatch."""
    return replace(setting, turf=replace(setting.turf, thatch_mm=mm))


def test_a_site_is_told_its_thatch_dogs_septic_field_and_slope() -> None:
    """From the limit on, beyond the mark; each where it is."""
    setting = lawn()
    limit = setting.book.si(strip_limit(setting.turf.species))
    assert _site(setting) == []
    assert _site(with_thatch(setting, limit)) == [cautions.thatch_to_come_down()]
    assert cautions.thatch_to_come_down() not in _site(with_thatch(setting, limit - 0.1))
    bare = replace(setting, turf=replace(setting.turf, thatch_mm=limit, condition="bare"))
    assert _site(bare) == []
    assert _site(lawn({"site": {"pets": True}})) == [cautions.dogs()]
    assert len(_site(lawn({"site": {"septic_field": True}}))) == 2
    part = {"lawn": {"part": [{"kind": "septic_field", "share": 0.1}]}}
    assert _site(lawn({"site": {"septic_field": True}}, part)) == []
    steep = 100 * setting.book.si("site.slope_steep")
    slopes = [_site(lawn({"site": {"slope_percent": p}})) for p in (None, 1, steep, steep + 1)]
    assert slopes == [[], [], [], [cautions.steep()]]


def test_thatch_that_no_job_takes_down_is_told_with_the_seasons_for_it() -> None:
    """Between the limit and that of stripping; at most two seasons, from today on."""
    setting = lawn({"seeding": {"intent": "none"}})
    fill = setting.levelling
    flat = replace(setting, levelling=replace(fill, bands=(), left=fill.bands))
    low = setting.book.si("dethatch.limit")
    high = setting.book.si(strip_limit(setting.turf.species))

    def told(mm: float, base: ResolvedLawn = flat) -> list[str]:
        found = thatch_left(with_thatch(base, mm))
        return [dict(m.values)["when"].key.rpartition(".")[2] for m in found]  # type: ignore[union-attr]

    assert told(low) == told(high) == told(low - 0.1) == []
    assert len(told(low + 0.1)) == len(told(high - 0.1)) == 1
    assert told(low + 0.1, setting) == [], "it is taken off under the fill"
    windows = setting.open("dethatch")
    assert len(windows) > 2

    def seasons(today: date) -> list[date]:
        (message,) = thatch_left(with_thatch(replace(flat, today=today), low + 0.1))
        return [d.start for d in dict(dict(message.values)["when"].values)["days"].items]  # type: ignore[union-attr]

    first, second, third = windows[:3]
    assert seasons(first.start) == [first.start, second.start]
    assert seasons(first.end) == [second.start, third.start]
    inside = first.end - timedelta(1)
    assert seasons(inside) == [max(first.start, inside), second.start]
    none = replace(flat, openings=replace(flat.openings, windows=()))
    assert told(low + 0.1, none) == [cautions.thatch_left_no_season().key.rpartition(".")[2]]
    lifted = replace(flat, levelling=replace(flat.levelling, lift_share=0.1))
    assert told(low + 0.1, lifted) != told(low + 0.1)
    care = replace(setting, levelling=replace(fill, bands=()))
    assert told(low + 0.1, care) == [], "care alone takes it down in its own season"
    ended = replace(care, openings=none.openings)
    assert told(low + 0.1, ended) == told(low + 0.1, none), "and says so where it has none"


def test_thatch_of_grass_that_no_dethatcher_spares_is_told_with_the_reason() -> None:
    """Alone or as a part of the stand; not where it is no more than grass bears."""
    low = lawn().book.si("dethatch.limit")
    runners: list[dict[str, Any]] = [{"species": "st_augustine", "share": 1.0}]
    mixed = [
        {"species": "bermuda_common", "share": 0.6},
        {"species": "st_augustine", "share": 0.4},
    ]
    for grass in (runners, mixed):
        setting = lawn(
            {"lawn": {"grass": grass}, "place": {"postal_code": "32607"}},
            {"seeding": {"intent": "none"}},
        )
        (message,) = thatch_left(with_thatch(setting, low + 2))
        assert message.key == "plan_cautions.thatch_not_combed"
        assert thatch_left(with_thatch(setting, low)) == []


def best(setting: ResolvedLawn, *volumes: float, sessions: int = 1) -> Any:
    """A candidate with passes of some volumes, m3."""
    campaign = next(c for c in campaigns(setting)[0] if c.sow_window is not None)
    return SimpleNamespace(
        campaign=replace(campaign, sessions=campaign.sessions[:1] * sessions),
        volumes=SimpleNamespace(passes=dict(enumerate(volumes, 1))),
        mix=SimpleNamespace(
            name=as_written("mix"),
            parts={},
            reason=as_written("why this mix"),
            soil=as_written("its soil"),
        ),
        feeding=SimpleNamespace(cautions=(), starter_reason=as_written("why this starter")),
        season=SimpleNamespace(cautions=(), notes=(), disagreements=(), drafts=()),
    )


def cautions_of(setting: ResolvedLawn, *volumes: float) -> list[str]:
    """The keys of a plan's cautions."""
    verdict: Any = SimpleNamespace(reasons=(), cautions=())
    comparison: Any = SimpleNamespace(best=best(setting, *volumes))
    return [m.key for m in _cautions(setting, verdict, comparison)]


def test_much_to_move_is_told_by_volume_or_by_depth() -> None:
    """From twenty yards on, or an inch in the mean; where nothing is moved, neither."""
    setting = lawn()
    much = setting.book.si("campaign.volume_warning")
    by_hand = cautions.by_hand(volume=Quantity(1, "volume"), loads=Number(1)).key
    assert by_hand in cautions_of(setting, much / 4, much * 3 / 4)
    assert by_hand not in cautions_of(setting, much / 4, much * 0.74)
    deep_mm = setting.book.si("campaign.fill_warning")

    def filled(mm: float) -> ResolvedLawn:
        return replace(setting, levelling=replace(setting.levelling, bands=(Band(mm, 1.0),)))

    assert by_hand in cautions_of(filled(deep_mm), 1.0)
    assert by_hand not in cautions_of(filled(deep_mm - 0.1), 1.0)
    assert by_hand not in cautions_of(filled(deep_mm))
    told = dict(_to_move(setting, [1.0, 2.0]).values)
    barrow = setting.book.si("labour.barrow")
    assert told["volume"].value == 3  # type: ignore[union-attr]
    assert told["loads"].value == -(-1.0 // barrow) + -(-2.0 // barrow)  # type: ignore[union-attr]


def test_the_word_on_water_is_told_where_something_is_sown() -> None:
    """With what the season and the feeding say; of a plan that cannot be, its reasons."""
    words = {name: as_written(name) for name in ("reason", "caution", "season", "feeding")}
    verdict: Any = SimpleNamespace(reasons=(words["reason"],), cautions=(words["caution"],))
    chosen = best(lawn())
    chosen.season.cautions, chosen.feeding.cautions = (words["season"],), (words["feeding"],)

    def told(setting: ResolvedLawn, found: Any) -> list[str]:
        comparison: Any = SimpleNamespace(best=found, rejected=(), conflict=(words["reason"],))
        said = _of_choice(setting, verdict, comparison, None)["cautions"]
        return [str(m) for m in said if m.key == "as_written"]

    assert told(lawn(), chosen) == list(words)
    assert told(lawn(), None) == ["reason", "caution"]
    unsown = replace(lawn(), sowing=replace(lawn().sowing, operation=None))
    assert told(unsown, chosen) == ["season", "feeding"]
    none: Any = SimpleNamespace(best=None, rejected=(), conflict=(words["reason"],))
    choice = _of_choice(lawn(), verdict, none, None)
    assert choice["conflict"].reasons == (words["reason"],) and "campaign" not in choice
    some: Any = SimpleNamespace(best=chosen, rejected=(), conflict=())
    assert _of_choice(lawn(), verdict, some, None)["campaign"] == chosen.campaign.id


def test_why_a_campaign_was_chosen_names_its_mix_and_its_starter() -> None:
    """Where there are passes, and where something is sown that takes one."""
    setting = lawn()
    words = ["why this mix", "why this starter", "its soil"]

    def why(base: ResolvedLawn, sessions: int) -> list[str]:
        found = _why(base, best(setting, sessions=sessions))
        return [str(m) for m in found if m.key == "as_written"]

    assert why(setting, 1) == words and why(setting, 0) == words[1:2]
    unsown = replace(setting, sowing=replace(setting.sowing, operation=None))
    assert why(unsown, 1) == ["why this mix", "its soil"]
    cover = replace(setting, sowing=replace(setting.sowing, intent="winter_overseed"))
    assert why(cover, 1) == ["why this mix", "its soil"]


def test_spring_seed_is_told_where_only_the_owners_end_forces_it() -> None:
    """An autumn beyond the last day; not on it, nor where a campaign was asked for, or no end."""
    setting = lawn({"season": {"until": date(2028, 6, 1)}})
    spring, autumn = (
        OpenDays("overseed", season, day, day, day, as_written(""), as_written(""))
        for season, day in (("spring", date(2028, 4, 20)), ("autumn", date(2028, 9, 5)))
    )
    openings = replace(setting.openings, windows=(spring, autumn))
    known = replace(setting, openings=openings)
    chosen = best(setting)

    def said(base: ResolvedLawn, sow: OpenDays | None = spring) -> int:
        candidate = SimpleNamespace(campaign=replace(chosen.campaign, sow_window=sow))
        found: Any = candidate
        return len(_spring_seed(base, found))

    last = autumn.end.toordinal()
    assert said(replace(known, last_day=last - 1)) == 1
    assert said(replace(known, last_day=last)) == 0
    early = replace(known, last_day=last - 1)
    assert said(early, autumn) == said(early, None) == 0
    for key, value in (("until", None), ("campaign", "spring")):
        season = setting.brief.season.model_copy(update={key: value})
        brief = setting.brief.model_copy(update={"season": season})
        assert said(replace(early, brief=brief)) == 0


def test_the_lawn_and_its_place_are_told_rounded() -> None:
    """Areas to a tenth of a square centimetre, places to eleven metres."""
    setting = lawn()
    plot = replace(setting.plot, area_m2=123.45678)
    uneven = replace(
        setting,
        plot=plot,
        turf=replace(setting.turf, thatch_mm=1.23456),
        levelling=replace(setting.levelling, bands=(Band(9.87654321, 1.0),)),
        climate=replace(setting.climate, latitude=40.123456, longitude=-76.123456),
    )
    facts = _lawn(uneven, "id", None)
    assert (facts.area_m2, facts.thatch_mm, facts.depth_mm) == (123.4568, 1.235, 9.876543)
    assert facts.mix is None and _lawn(uneven, "id", best(setting)).mix == as_written("mix")
    assert _lawn(uneven, "id", best(setting, sessions=0)).mix is None
    place = _place(uneven)
    assert (place.latitude, place.longitude) == (40.1235, -76.1235)


def test_the_curves_of_a_plan_have_a_day_in_five() -> None:
    """From the first of January on; a frost by month and day."""
    climate = lawn().climate
    facts = _climate(climate)
    assert facts.day_of_year == tuple(range(0, 365, 5)) and len(facts.rain_mm) == 73
    assert facts.air_mean_c[3] == round(climate.air_mean_c[15], 1)
    assert facts.rain_mm[7] == round(climate.rain_mm[35], 2)
    odd = _climate(replace(climate, soil_error_c=1.23456, last_frost=None))
    assert (odd.soil_error_c, odd.last_frost) == (1.23, None)


def test_an_alarm_is_days_ahead_at_a_time_or_none() -> None:
    """As the brief asks."""
    setting = lawn()
    alarm = setting.brief.calendar.alarm
    assert alarm is not False and _alarm(setting) == (alarm.days_before, alarm.at)
    calendar = setting.brief.calendar.model_copy(update={"alarm": False})
    silent = replace(setting, brief=setting.brief.model_copy(update={"calendar": calendar}))
    assert _alarm(silent) is None


def test_windows_of_a_plan_wake_nothing_that_is_not_there() -> None:
    """The transition of spring is told where a cover is sown."""
    setting = lawn()
    day = date(2027, 5, 1)
    waking: Any = "spring_transition"
    windows = tuple(
        OpenDays(name, "spring", day, day, day, as_written(""), as_written(""))
        for name in (waking, "topdress")
    )
    known = replace(setting, openings=replace(setting.openings, windows=windows))
    assert [w.operation for w in _windows(known)] == ["topdress"]
    cover = replace(known, sowing=replace(known.sowing, intent="winter_overseed"))
    assert [w.operation for w in _windows(cover)] == ["spring_transition", "topdress"]


@pytest.mark.full
@pytest.mark.parametrize(("percent", "said"), [(0, False), (LIMIT, False), (LIMIT + 1, True)])
def test_a_lawn_that_is_mostly_weeds_is_told_so(percent: float, said: bool) -> None:
    """Beyond the share from which it is built anew."""
    plain = all_told(plan_of().cautions)
    more = [
        text
        for text in all_told(plan_of({"site": {"weeds_percent": percent}}).cautions)
        if text not in plain
    ]
    assert any("weeds" in text for text in more) == said


@pytest.mark.full
def test_a_plan_keeps_its_rain_to_hundredths_of_a_millimetre() -> None:
    """And its temperatures to tenths, so that the file stays short."""
    climate = plan_of(options=False).climate
    for values, digits in (
        (climate.rain_mm, 2),
        (climate.et0_mm, 2),
        (climate.air_mean_c, 1),
        (climate.soil_10cm_c, 1),
    ):
        assert len(values) == len(climate.day_of_year)
        assert list(values) == [round(value, digits) for value in values]
        assert any(value != round(value, digits - 1) for value in values)


@pytest.mark.full
def test_compost_of_ones_own_is_warned_of_where_compost_is_spread() -> None:
    """A weed killer that lives on in clippings is told always, compost of them where the mix holds
    some.
    """
    use = {"active_ingredient": "clopyralid", "on": date(2026, 9, 1)}
    used = {"history": {"herbicides": [use]}}
    sandy = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
    mixed, plain = (
        {told(caution) for caution in plan_of(used, *more, options=False).cautions}
        for more in ((), (sandy,))
    )
    own = told(phrases.own_compost())
    assert own in mixed and own not in plain


@pytest.mark.full
def test_large_fills_tell_how_they_are_moved() -> None:
    """In barrow loads, as many as the passes take in all, where they are moved by hand; by the
    loader where one is at hand, and then no task counts barrows.
    """
    large = {"lawn": {"area": "14000 ft2"}, "leveling": {"depth": "1 in"}}
    by_hand, by_loader = plan_of(large), plan_of(large, {"work": {"machines": ["loader"]}})
    loads = sum(amount(task, "barrow loads") for task in kind(by_hand, "topdress"))
    assert any(f"about {loads:,.0f} barrow loads" in c for c in all_told(by_hand.cautions))
    assert any("move with the loader" in c for c in all_told(by_loader.cautions))
    assert not any("barrow loads" in c for c in all_told(by_loader.cautions))
    assert not any(a.item == "barrow loads" for t in by_loader.tasks for a in t.amounts)
