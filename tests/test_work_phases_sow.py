"""What is said of sowing."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, first, plan_of
from resolved_lawns import lawn, setting_of
from test_work_season import drafted, window
from told import told
from turfplan.message import Day, Days, Message, as_written
from turfplan.phrases import slopes
from turfplan.phrases import sow as phrases
from turfplan.work.campaigns import Campaign, Session, campaigns
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.labour import person_hours, working_days
from turfplan.work.parts import PlotPart
from turfplan.work.past_of_lawn import young_sowings
from turfplan.work.phases.sow import (
    _deadline,
    _form,
    _laid,
    _long_planting,
    _minded,
    _why,
    look_at_earlier,
    nothing_sown,
    sow,
    sown_share,
)
from turfplan.work.slopes import straw_area_m2
from turfplan.work.watering.hose import hose_hours

HOSE: dict[str, Any] = {"application_rate": None, "possible": True}


def way(sown: OpenDays | None, *, on_pass: bool = False) -> Campaign:
    """A campaign of two sessions, of which the second goes with the seed or not."""
    sessions = tuple(Session(n, window("topdress"), (), on_pass and n == 2) for n in (1, 2))
    return Campaign("autumn", as_written(""), (), sessions, sown, 0.0)


def test_seed_goes_in_on_the_best_day_with_its_last_session_where_it_goes_on_a_pass() -> None:
    """Else in none; without a window nothing is sown."""
    setting = lawn()
    seed, *_ = sow(setting, way(window(), on_pass=True))
    best = date(2027, 9, 5).toordinal()
    assert (seed.id, seed.session, seed.ideal) == ("overseed", 2, best)
    apart, *_ = sow(setting, way(window()))
    assert apart.session == 0
    assert sow(setting, way(None)) == []
    assert sow(lawn({"seeding": {"intent": "none"}}), way(window())) == []
    assert seed.words["last_safe"] == Day(date(2027, 9, 20))


def test_seed_is_rolled_where_the_soil_is_not_fine_and_looked_at_after_it() -> None:
    """Rolled and covered on its days; seed that waits for spring is not rolled."""
    sand = lawn({"lawn": {"soil": "sand"}})
    ids = [d.id for d in sow(sand, way(window()))]
    assert ids == ["overseed", "roll", "inspect.germination"]
    assert [d.id for d in sow(lawn({"lawn": {"soil": "clay"}}), way(window()))] == [
        "overseed",
        "inspect.germination",
    ]
    assert "roll" not in {d.id for d in sow(sand, way(window("dormant_seed")))}
    steep = lawn({"lawn": {"soil": "sand"}, "site": {"slope_percent": 10}})
    seed, roll, cover, look = sow(steep, way(window()))
    assert (roll.id, cover.id) == ("roll", "cover")
    assert (seed.beside, roll.beside, cover.beside) == (None, "overseed", "overseed")
    days = working_days(steep, seed.person_hours + roll.person_hours + cover.person_hours)
    assert {seed.duration_days, roll.duration_days, cover.duration_days} == {days}
    assert look.anchor == "overseed" and look.offset > 0
    (alone, _) = sow(lawn({"lawn": {"soil": "clay"}}), way(window()))
    assert alone.beside is None
    area = sand.plot.area_m2
    hours = person_hours(sand, sand.book.operations["roll"], area)
    (rolled,) = (d for d in sow(sand, way(window())) if d.id == "roll")
    assert rolled.person_hours == pytest.approx(hours, abs=0.006)
    assert rolled.beside == "overseed", "two jobs share their days too"


def test_what_sheds_water_is_covered_by_its_share() -> None:
    """All that is sown from 8 % on, else what is sown of the steep part; of patches these alone."""
    setting = lawn({"seeding": {"intent": "patch"}})
    area = setting.plot.area_m2

    def covered(percent: float | None, share: float = 0.0) -> float:
        site = setting.brief.site.model_copy(update={"slope_percent": percent})
        brief = setting.brief.model_copy(update={"site": site})
        parts = (
            PlotPart(as_written("a"), "steep", share, None, None, None),
            PlotPart(as_written("b"), "shade", 0.5, None, None, None),
        )
        return straw_area_m2(replace(setting, brief=brief, plot=replace(setting.plot, parts=parts)))

    mended = setting.mended_share
    assert mended < 1
    assert covered(8) == pytest.approx(area * setting.sowing.share * mended)
    assert covered(7.9) == covered(None) == 0
    assert covered(None, 0.25) == pytest.approx(area / 4 * mended)


@pytest.mark.parametrize(("percent", "pegged"), [(None, False), (7.9, False), (8.0, True)])
def test_sod_is_pegged_where_seed_would_be_covered(percent: float | None, *, pegged: bool) -> None:
    """From 8 % on."""
    setting = lawn()
    site = setting.brief.site.model_copy(update={"slope_percent": percent})
    sloped = replace(setting, brief=setting.brief.model_copy(update={"site": site}))
    assert (phrases.sod_bank() in _laid(sloped, 100.0, 1)) is pegged


def test_water_from_a_hose_is_told_by_the_part_and_the_hours_that_it_keeps_wet() -> None:
    """Four hours where nobody said; seed that waits for spring is kept wet from then on, with less
    than in a warm season, and nothing is asked of rain."""
    hose = {"water": {**HOSE, "flow": "3 gpm"}, "lawn": {"area": "20000 ft2", "soil": "sand"}}
    setting = lawn(hose)
    told = lawn({"water": {"hours_per_day": 2}})
    hours = [hose_hours(one.brief.water, one.book) for one in (setting, told)]
    assert hours == [4, 2]
    share = sown_share(setting, way(window()))
    assert 0 < share < 1
    seed, *_ = sow(setting, way(window()))
    assert seed.sown_share == share
    told = dict(seed.cautions[-1].values)
    assert told["share"].value == share and told["hours"].value == 4  # type: ignore[union-attr]
    assert told["area"].value == pytest.approx(setting.plot.area_m2 * share)  # type: ignore[union-attr]
    asleep = window("dormant_seed")
    rests = sown_share(setting, way(asleep))
    assert 0 < rests < 1 and sow(setting, way(asleep))[0].sown_share == rests
    water = setting.brief.water.model_copy(update={"possible": False})
    on_rain = replace(setting, brief=setting.brief.model_copy(update={"water": water}))
    assert sown_share(on_rain, way(window())) == sown_share(on_rain, way(asleep)) == 1.0
    assert sown_share(setting, replace(way(asleep), sow_window=None)) == 1.0
    assert sow(lawn(), way(window()))[0].sown_share == 1.0


def test_plants_go_in_by_the_day_and_many_of_them_are_told() -> None:
    """Sod by the area of a day, where it takes several; across a bank."""
    sod = {"seeding": {"intent": "plant", "form": "sod"}, "lawn": {"condition": "bare"}}
    small = lawn(sod, {"lawn": {"area": "200 ft2"}, "leveling": None})
    plants, *_ = sow(small, way(window("plant")))
    assert (plants.form, plants.duration_days) == ("sod", 1)
    assert plants.how is not None
    laid = (phrases.sod_ground(), phrases.sod_joints(), phrases.sod_water())
    assert plants.how[:3] == laid
    assert [said.key for said in plants.how[3:]] == ["wet_at_once.behind"]
    large = lawn(
        sod, {"lawn": {"area": "9000 ft2"}, "leveling": None, "site": {"slope_percent": 8}}
    )
    plants, *_ = sow(large, way(window("plant")))
    days = plants.duration_days
    assert days > round(large.book.si("work.pass_days_most")) and plants.how is not None
    by_day = dict(plants.how[0].values)
    assert by_day["days"] == days
    assert by_day["area"].value == pytest.approx(large.plot.area_m2 / days)  # type: ignore[union-attr]
    assert phrases.sod_bank() in plants.how
    most = round(large.book.si("work.pass_days_most"))
    told = dict(next(c for c in plants.cautions if "needed" in dict(c.values)).values)
    assert (told["days"], told["people"], told["most"]) == (days, 2, most)
    assert told["needed"] == -(-2 * days // most)


def planted(form: str, **more: Any) -> Draft:
    """The planting of a form on a bare lawn."""
    grass = {"lawn": {"condition": "bare", "grass": "bermuda_common"}}
    seeding = {"seeding": {"intent": "plant", "form": form}}
    return sow(lawn(grass, seeding, {"leveling": None}, more), way(window("plant")))[0]


@pytest.mark.parametrize(("form", "told"), [("plugs", True), ("sprigs", True), ("sod", False)])
def test_holes_and_furrows_spare_the_roots_of_trees(form: str, *, told: bool) -> None:
    """Sod is laid on top of them; where no tree stands nothing is said."""
    for trees in (True, False):
        keys = [said.key for said in planted(form, site={"trees": trees}).cautions]
        assert ("book.cautions.tree_digging.text" in keys) is (told and trees)


def wet(form: str, **water: Any) -> list[str]:
    """What is said of the first water of a planting."""
    how = planted(form, water=water).how or ()
    return [s.key.removeprefix("wet_at_once.") for s in how if s.key.startswith("wet_at_once.")]


@pytest.mark.parametrize("form", ["plugs", "sprigs", "sod"])
def test_plants_are_wet_behind_the_planting_in_lawful_hours(form: str) -> None:
    """By leave where the hours of the day hold too little of the work, or lie in the night."""
    assert wet(form) == ["behind"]
    assert wet(form, allowed_hours=["05:00-22:00"])[1:] in (["in_hours"], ["hours_short"])
    assert wet(form, allowed_hours=["06:00-06:10"]) == ["behind", "hours_short"]
    assert wet(form, allowed_hours=["22:00-05:00"]) == ["behind", "no_hours"]
    assert wet(form, allowed_weekdays=["tue"]) == ["behind", "closed_days"]
    assert wet(form, allowed_weekdays=["tue"], permit=True) == ["behind"]
    assert wet(form, possible=False) == []
    dry, watered = planted(form, water={"possible": False}), planted(form)
    assert watered.person_hours > dry.person_hours, "whoever waters is counted"


def at_hand(days: int) -> tuple[Message, ...]:
    """What is said of planting that takes so many days."""
    return _long_planting(lawn(), days)


def test_planting_of_as_many_days_as_a_pass_may_take_says_nothing() -> None:
    """One more is told."""
    most = round(lawn().book.si("work.pass_days_most"))
    assert at_hand(most) == () and len(at_hand(most + 1)) == 1


def test_spring_is_told_to_cost_a_summer_where_summers_are_hot() -> None:
    """Elsewhere it costs weeds alone, for seed anew as among grass."""
    cool = replace(lawn().climate, air_mean_c=(12.0,) * 365)
    for operation, hot, mild in (
        ("overseed", phrases.overseed_spring(), phrases.overseed_spring_cool()),
        ("seed", phrases.seed_spring(), phrases.seed_spring_cool()),
    ):
        setting = replace(lawn(), turf=replace(lawn().turf, condition="bare"))
        assert _why(setting, window(operation, "spring")) == hot
        there = replace(setting, climate=cool)
        assert _why(there, window(operation, "spring")) == mild


def test_dormant_seed_is_not_said_to_replace_a_season_that_is_open() -> None:
    """Where seed could also come up at once."""
    resting, also = window("dormant_seed", "winter"), window("overseed", "winter")
    setting = replace(lawn(), openings=replace(lawn().openings, windows=(resting, also)))
    assert _why(setting, resting) == phrases.dormant_seed_waits()


@pytest.mark.parametrize(
    ("operation", "season", "condition", "why"),
    [
        ("dormant_seed", "winter", "thin", phrases.dormant_seed()),
        ("seed", "autumn", "bare", phrases.seed()),
        ("seed", "spring", "bare", phrases.seed_spring()),
        ("overseed", "spring", "thin", phrases.overseed_spring()),
        ("overseed", "autumn", "thin", phrases.overseed()),
        ("overseed", "autumn", "dense", phrases.overseed_dense()),
    ],
)
def test_why_seed_goes_in_then(operation: str, season: str, condition: str, why: Message) -> None:
    """Spring is second-best for cool-season grass alone."""
    setting = replace(lawn(), turf=replace(lawn().turf, condition=condition))
    openings = setting.openings
    elsewhen = replace(setting, openings=replace(openings, windows=()))
    assert _why(elsewhen, window(operation, season)) == why
    cover = replace(setting, sowing=replace(setting.sowing, intent="winter_overseed"))
    assert operation == "dormant_seed" or _why(cover, window(operation, season)) == (
        phrases.overseed_winter()
    )
    grass = setting.book.species["zoysia"]
    warm = replace(setting, sowing=replace(setting.sowing, grass=grass))
    if operation == "seed":
        assert _why(warm, window(operation, season)) == phrases.seed()


def test_late_seed_is_told_unless_it_waits_for_spring() -> None:
    """Grass that spreads fills gaps, early and late."""
    seed, asleep = (sow(lawn(), way(window(name)))[0] for name in ("overseed", "dormant_seed"))
    assert seed.why_late == phrases.late() and asleep.why_late is None
    covers = [lawn().book.si(f"species.{g}.seed_cover_max") for g in lawn().sowing.grasses]
    assert seed.words["cover"].value == min(covers)  # type: ignore[union-attr]


def test_seed_of_shortly_before_is_looked_at_by_itself() -> None:
    """On the last day of those that find it up; without any there is no look."""
    assert look_at_earlier(lawn()) == []
    begin = date.fromordinal(lawn().first_day)
    sowings = [{"on": begin - timedelta(n), "species": "tall_fescue"} for n in (1, 20)]
    young = lawn({"history": {"sowings": sowings}})
    (look,) = look_at_earlier(young)
    days = [day for _, day in young_sowings(young)]
    assert (look.session, look.ideal) == (-1, max(days)) and len(days) == 2


def test_weed_killers_that_hold_seed_back_are_minded_while_they_do() -> None:
    """To their last day before the plan's first."""
    used = {"active_ingredient": "prodiamine", "on": date(2027, 1, 10)}
    setting = lawn({"history": {"herbicides": [used]}})
    until = max(hold.until or 0 for hold in setting.holds)
    assert until > setting.first_day
    begins = date.fromordinal(until - 30)
    held = [
        len(_minded(replace(setting, first_day=day), opening(begins))) for day in (until - 1, until)
    ]
    assert held[0] == held[1] + 1


def test_weed_killers_that_are_over_before_the_seeds_season_are_not_minded_at_it() -> None:
    """However long they still hold on the plan's first day."""
    used = {"active_ingredient": "pendimethalin", "on": date(2027, 3, 1)}
    setting = lawn({"history": {"herbicides": [used]}})
    until = max(hold.until or 0 for hold in setting.holds)
    assert until > setting.first_day
    plain = len(_minded(lawn(), opening(date(2027, 8, 15))))
    after, before = (opening(date.fromordinal(until + days)) for days in (1, -1))
    assert len(_minded(setting, after)) == plain == len(_minded(setting, before)) - 1
    told = [
        message.key
        for message in plan_of(
            {"history": {"herbicides": [used]}, "season": {"campaign": "autumn"}}
        ).cautions
        if isinstance(message, Message)
    ]
    assert not any(key.startswith("weed_killers") for key in told)


def opening(start: date) -> OpenDays:
    """A season of seed from a day on."""
    end = start + timedelta(60)
    why = as_written("to test")
    return OpenDays("overseed", "autumn", start, end, start + timedelta(20), why, why)


def test_what_is_minded_at_a_sowing() -> None:
    """Dogs, and rain where nobody waters."""
    plain, dogs = lawn(), lawn({"site": {"pets": True}})
    opened = opening(date(2027, 8, 15))
    assert len(_minded(dogs, opened)) == len(_minded(plain, opened)) + 1
    dry = plain.brief.model_copy(
        update={"water": plain.brief.water.model_copy(update={"possible": False})}
    )
    assert phrases.on_rain() in _minded(replace(plain, brief=dry), opened)
    assert phrases.on_rain() not in _minded(plain, opened)


@pytest.mark.full
@pytest.mark.parametrize(
    ("grass", "intent", "operation", "spreads"),
    [
        ("kentucky_bluegrass", "overseed", "overseed", True),
        ("kentucky_bluegrass", "renovate", "seed", False),
        ("tall_fescue", "overseed", "overseed", False),
    ],
)
def test_gaps_are_filled_by_a_grass_that_spreads(
    grass: str, intent: str, operation: str, spreads: bool
) -> None:
    """It is told where seed goes between plants, not where the ground is bare."""
    plan = plan_of(
        {
            "lawn": {"grass": grass},
            "place": {"postal_code": "55406"},
            "seeding": {"intent": intent},
        }
    )
    assert ("fills gaps by itself" in told(first(plan, operation).why)) == spreads


def test_too_little_sun_is_why_nothing_is_sown() -> None:
    """Told where it holds the seed back; nothing is told where it goes in, or was not asked for."""
    dark = setting_of(brief_of({"site": {"sun_hours": 3}}))
    assert dark.sowing.refused is not None and nothing_sown(dark) == (dark.sowing.refused,)
    assert nothing_sown(setting_of(brief_of())) == ()
    unasked = {"site": {"sun_hours": 3}, "seeding": {"intent": "none"}}
    assert nothing_sown(setting_of(brief_of(unasked))) == ()


@pytest.mark.full
@pytest.mark.parametrize(
    ("slope", "covered", "pegged"),
    [
        (None, False, False),
        (7, False, False),
        (8, True, False),
        (14, True, False),
        (15, True, True),
    ],
)
def test_seed_on_a_slope_is_covered_and_pegged(
    slope: float | None, *, covered: bool, pegged: bool
) -> None:
    """With straw from 8 % on, with a mat that is pegged down from 15 % on."""
    _, _, drafts = drafted({"site": {"slope_percent": slope}})
    assert ("cover" in drafts) is covered
    if covered:
        assert (drafts["cover"].how == (slopes.pegged_mat(),)) is pegged


@pytest.mark.full
@pytest.mark.parametrize(
    ("water", "patches"), [({}, False), (HOSE, True), ({**HOSE, "timer": True}, True)]
)
def test_patches_are_what_one_hose_has_to_wet(water: dict[str, Any], *, patches: bool) -> None:
    """Where sprinklers stand the whole lawn is watered; a hose goes to the patches alone."""
    lawn = {"area": "2000 ft2", "condition": "patchy"}
    changes = {"water": water, "seeding": {"intent": "patch"}, "lawn": lawn}
    setting = setting_of(brief_of(changes))
    sowing = sow(setting, campaigns(setting)[0][0])[0]
    assert sowing.sown_share == (setting.book.si("seeding.patch_share") if patches else 1.0)


@pytest.mark.full
@pytest.mark.parametrize(
    ("area", "condition", "flow", "share"),
    [(800, "bare", "15 gpm", 1.0), (1600, "thin", "8 gpm", 1.0), (1600, "bare", "30 gpm", 1.0)],
)
def test_ground_of_which_nobody_said_that_it_slopes_is_level(
    area: int, condition: str, flow: str, share: float
) -> None:
    """One hose keeps as much clay wet as of level ground: on a slope of one in a hundred water
    would run off sooner, and less of it could be sown.
    """
    lawn = {"area": f"{area} ft2", "soil": "clay", "condition": condition}
    intent = "renovate" if condition == "bare" else "overseed"
    changes: dict[str, Any] = {
        "lawn": lawn,
        "water": {**HOSE, "hours_per_day": 2, "flow": flow},
        "seeding": {"intent": intent},
        "leveling": {"depth": "0 in"},
    }
    shares = []
    for slope in (None, 0, 1):
        setting = setting_of(brief_of(changes, {"site": {"slope_percent": slope}}))
        campaign = campaigns(setting)[0][0]
        assert campaign.sow_window is not None
        shares.append(sown_share(setting, campaign))
    assert shares[0] == shares[1] == share > shares[2]


def test_what_is_planted_is_plugs_in_turf_and_sod_on_ground() -> None:
    """As far as the grass has them: one that is sold as sprigs alone goes in as sprigs."""
    zoysia = {"lawn": {"grass": "zoysia"}, "place": {"postal_code": "30606"}}
    turf = setting_of(brief_of(zoysia, {"seeding": {"intent": "plant"}}))
    bare = setting_of(
        brief_of(zoysia, {"seeding": {"intent": "plant"}, "lawn": {"condition": "bare"}})
    )
    assert (_form(turf), _form(bare)) == ("plugs", "sod")
    fescue = setting_of(brief_of({"seeding": {"intent": "plant"}}))
    assert _form(fescue) == "sod"
    grass = turf.sowing.grass.model_copy(update={"plantable": ("sprigs", "plugs")})
    sprigs = replace(bare, sowing=replace(bare.sowing, grass=grass))
    assert _form(sprigs) == "sprigs"


def test_what_is_left_after_the_last_safe_day_is_told() -> None:
    """Dormant seed where winters let it rest, else spring; after spring late summer; for warm
    grass and plants another year.
    """
    setting = setting_of(brief_of())
    autumn, spring = (
        next(w for w in setting.open("overseed") if w.season == season)
        for season in ("autumn", "spring")
    )
    assert setting.open("dormant_seed")
    assert _deadline(setting, autumn)["plan_b"] == phrases.plan_b_dormant()
    assert _deadline(setting, spring)["plan_b"] == phrases.plan_b_late_summer()
    others = tuple(w for w in setting.openings.windows if w.operation != "dormant_seed")
    mild = replace(setting, openings=replace(setting.openings, windows=others))
    assert _deadline(mild, autumn)["plan_b"] == phrases.plan_b_spring()
    planted = replace(autumn, operation="plant")
    assert _deadline(setting, planted)["plan_b"] == phrases.plan_b_next_year()
    rains = Days(date(2027, 10, 1), date(2027, 11, 20), weekday=False)
    again = replace(planted, after=rains)
    assert _deadline(setting, again)["plan_b"] == phrases.plan_b_next_year(), "it is watered"
    dry = setting_of(brief_of({"water": {"possible": False}}))
    assert _deadline(dry, again)["plan_b"] == phrases.plan_b_rains(days=rains)
