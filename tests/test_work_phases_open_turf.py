"""How turf is opened: low cuts, their reason, and the ground that tines may go into."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import first, plan_of
from resolved_lawns import lawn
from test_work_season import drafted
from turfplan.message import Quantity, as_written, cut_height
from turfplan.phrases import open_turf as phrases
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Band, Draft, OpenDays, Pass
from turfplan.work.labour import person_hours
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.open_turf import (
    AHEAD,
    SPRING_SCARIFYING,
    aerates,
    closed_to_tines,
    removes_cores,
    surface,
    told_of_spring_coring,
    too_thick,
)
from turfplan.work.thatch import dethatches, strip_limit

SPONGY: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "thatch": "0.8 in"},
    "place": {"postal_code": "30606"},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.25 in"},
}


def window(best: date, operation: str = "topdress", season: str = "spring") -> OpenDays:
    """A fortnight around its best day."""
    name: Any = operation
    ends = best - timedelta(7), best + timedelta(7)
    return OpenDays(name, season, *ends, best, as_written(""), as_written(""))


def way(*bests: date, sow: OpenDays | None = None, sows: bool = False) -> Campaign:
    """A campaign with a session of one pass around each day; the last goes with seed or not."""
    sessions = tuple(
        Session(
            number,
            window(best),
            (Pass(number, number, 6.0, 1.0, False, 6.0, as_written("")),),
            sows and number == len(bests),
        )
        for number, best in enumerate(bests, 1)
    )
    return Campaign("autumn", as_written(""), (), sessions, sow, 0.0)


SPRING, AUTUMN = date(2027, 4, 20), date(2027, 9, 5)


def found(
    setting: ResolvedLawn, campaign: Campaign, *cuts: float, lift: float = 0.0
) -> list[Draft]:
    """What opens the turf."""
    return surface(setting, campaign, cuts, lift)


def told_of(drafts: list[Draft]) -> list[tuple[str, int, int, str | None, int]]:
    """Id, session, position, anchor and offset of each."""
    return [(d.id, d.session, d.position, d.anchor, d.offset) for d in drafts]


def test_each_session_is_cut_step_by_step_and_cored_the_day_before_its_first_pass() -> None:
    """Cuts are numbered through the season, and by session."""
    campaign = way(date(2027, 8, 1), AUTUMN)
    assert told_of(found(lawn(), campaign, 50.0, 40.0)) == [
        ("mow_low.1", 1, 1, "topdress.1", -1),
        ("mow_low.2", 1, 2, "topdress.1", -1),
        ("core_aerate.1", 1, 1, "topdress.1", -1),
        ("mow_low.3", 2, 1, "topdress.2", -1),
        ("mow_low.4", 2, 2, "topdress.2", -1),
        ("core_aerate.2", 2, 2, "topdress.2", -1),
        ("raise_fittings", 1, 1, "topdress.1", -lawn().days("wish.raise_fittings")),
    ]
    sown = way(sow=window(AUTUMN, "overseed", "autumn"))
    assert told_of(found(lawn(), sown, 40.0)) == [
        ("mow_low.1", 0, 1, "sowing", -1),
        ("core_aerate.1", 0, 1, "sowing", -1),
        ("raise_fittings", 0, 1, "topdress.1", -lawn().days("wish.raise_fittings")),
    ]


def test_thatch_is_taken_off_before_the_first_session_alone() -> None:
    """A cut before the last leads the dethatching by the same days; steel blades in spring are
    warned of.
    """
    setting = lawn({"lawn": {"thatch": "0.7 in"}})
    assert dethatches(setting)
    lead = setting.days("wish.dethatch")
    drafts = found(setting, way(date(2027, 8, 1), AUTUMN), 50.0, 40.0)
    assert told_of(drafts)[:3] == [
        ("mow_low.1", 1, 1, "topdress.1", -lead),
        ("mow_low.2", 1, 2, "topdress.1", -1),
        ("dethatch", 1, 1, "topdress.1", -lead),
    ]
    assert [d.id for d in drafts].count("dethatch") == 1
    warned = [
        any(c.key == SPRING_SCARIFYING for c in d.cautions)
        for campaign in (way(SPRING), way(sow=window(AUTUMN, "overseed")))
        for d in found(setting, campaign)
        if d.operation == "dethatch"
    ]
    assert warned == [True, False]
    ahead = replace(setting, dethatched_ahead=True)
    drafts = found(ahead, way(AUTUMN), 50.0, 40.0)
    assert [d.id for d in drafts if d.operation == "dethatch"] in ([AHEAD], [])
    assert "dethatch" not in {d.id for d in drafts}


def test_thatch_taken_down_ahead_has_a_season_and_a_low_cut_of_its_own() -> None:
    """Best on the season's best day, within the plan."""
    setting = replace(lawn({"lawn": {"thatch": "0.7 in"}}), dethatched_ahead=True)
    season = window(date(2027, 5, 1), "dethatch")
    openings = replace(setting.openings, windows=(season,))
    setting = replace(setting, openings=openings)
    cut, comb = (
        d for d in found(setting, way(AUTUMN), 50.0, 40.0) if d.session == -1 or d.id == AHEAD
    )
    assert (cut.id, cut.anchor, cut.offset) == ("mow_low.ahead", AHEAD, -1)
    assert (comb.id, comb.anchor, comb.offset) == (AHEAD, None, 0)
    assert comb.ideal == season.best.toordinal()
    assert comb.window == (season.start.toordinal(), season.end.toordinal())
    late = replace(setting, first_day=season.best.toordinal() + 3)
    (comb,) = (d for d in found(late, way(AUTUMN), 40.0) if d.id == AHEAD)
    assert comb.ideal == late.first_day
    assert not [d for d in found(setting, way(), 40.0) if d.id == AHEAD]


def test_much_fill_raises_fittings_first_and_hollows_are_lifted() -> None:
    """From so much on where the fill is deepest; over the whole lawn where nobody said that there
    are sprinklers, and never where there are none."""
    setting = lawn({"site": {"sprinklers": True}})
    least = setting.book.si("site.raise_fittings_from")

    def raised(depth_mm: float, lift_mm: float = 0.0, share: float = 0.0, **site: Any) -> list[str]:
        levelling = replace(
            setting.levelling,
            bands=(Band(depth_mm, 1.0),),
            lift_share=share,
            lift_depth_mm=lift_mm,
        )
        brief = setting.brief.model_copy(
            update={"site": setting.brief.site.model_copy(update=site)}
        )
        drafts = found(replace(setting, levelling=levelling, brief=brief), way(AUTUMN), lift=2.0)
        return [d.id for d in drafts if d.operation not in ("core_aerate", "mow_low")]

    assert raised(least) == ["raise_fittings"] and raised(least - 0.1) == []
    assert raised(least, sprinklers=False) == []
    assert raised(least - 1, 20.0, 0.1) == ["raise_fittings", "lift_and_fill", "inspect.relaid"]
    both = ["raise_fittings", "lift_and_fill", "inspect.relaid"]
    assert raised(least - 3, 20.0, 0.1) == both, "a head stands in the hollow"
    assert raised(least - 3, 20.0, 0.1, sprinklers=None) == both[1:]
    assert raised(least - 1, 20.0, 0.1, sprinklers=None) == both


def test_a_lift_has_its_area_volume_depth_and_look() -> None:
    """Days before the first pass; with no pass, looked at once its turf has rooted, and no day to
    keep step with."""
    setting = lawn()
    levelling = replace(setting.levelling, lift_share=0.1, lift_depth_mm=60.0)
    lifted = replace(setting, levelling=levelling)
    ahead, look = lifted.days("wish.lift_and_fill"), lifted.days("wish.relaid_look")
    drafts = {d.id: d for d in found(lifted, way(AUTUMN), lift=2.5)}
    lift = drafts["lift_and_fill"]
    assert (lift.loose_m3, lift.depth_mm, lift.session) == (2.5, 60.0, 1)
    assert (lift.anchor, lift.offset) == ("topdress.1", -ahead)
    operation = setting.book.operations["lift_and_fill"]
    hours = person_hours(lifted, operation, lifted.plot.area_m2 * 0.1, 2.5)
    assert lift.person_hours == pytest.approx(hours, abs=0.006)
    assert told_of([drafts["inspect.relaid"]]) == [("inspect.relaid", 1, 1, "topdress.1", -look)]
    (alone,) = (d for d in found(lifted, way(), lift=2.5) if d.operation == "lift_and_fill")
    assert (alone.session, alone.anchor) == (0, None)
    rooted = lifted.days("water.rooting_days")
    looks = [d for d in found(lifted, way(), lift=2.5) if d.id == "inspect.relaid"]
    assert told_of(looks) == [("inspect.relaid", 0, 1, "lift_and_fill", rooted)]
    borne = replace(lifted, levelling=replace(levelling, lift_borne=0.05))
    (other,) = (d for d in found(borne, way(AUTUMN), lift=2.5) if d.operation == "lift_and_fill")
    assert other.why == phrases.lift_and_fill_borne() != lift.why
    assert dict(lift.why.values)["n"] == 2


def test_a_lift_has_a_cut_of_its_own_over_the_hollows_alone() -> None:
    """By a third at most and within the usual heights; whether a pass follows or nothing does, and
    no step of lowering before a pass hangs on it.
    """
    setting = lawn({"seeding": {"intent": "none"}})
    lifted = replace(
        setting, levelling=replace(setting.levelling, lift_share=0.1, lift_depth_mm=60.0)
    )
    usual = setting.book.fact("species.tall_fescue.mow_height")
    for campaign in (way(AUTUMN), way()):
        drafts = found(lifted, campaign, 50.0, 40.0, lift=2.5)
        (cut,) = (d for d in drafts if d.id == "mow_low.lifting")
        assert (cut.session, cut.anchor) == (-1, "lift_and_fill")
        height = cut.words["height"]
        assert isinstance(height, Quantity)
        assert height.value >= usual.low_si - 1e-9 and height.value >= usual.high_si * 2 / 3 - 1e-9
        mow = setting.book.operations["mow_low"]
        assert cut.person_hours == pytest.approx(
            person_hours(lifted, mow, lifted.plot.area_m2 * 0.1, 0.0), abs=0.006
        )
    assert not [d for d in found(setting, way(AUTUMN), 40.0) if d.id == "mow_low.lifting"]


@pytest.mark.full
@pytest.mark.parametrize(("said", "closed"), [(None, False), (False, True), (True, False)])
def test_cores_are_left_out_of_a_spring_by_the_owners_word(
    *, said: bool | None, closed: bool
) -> None:
    """Of a session whose best day lies in spring, or of the sowing where there is none; warm grass
    is cored in its own season.
    """
    local = {} if said is None else {"spring_aeration": said}
    setting = lawn({"local": local})
    assert closed_to_tines(setting, way(SPRING, AUTUMN), 1) is closed
    assert not closed_to_tines(setting, way(SPRING, AUTUMN), 2)
    assert closed_to_tines(setting, way(sow=window(SPRING, "overseed")), 1) is closed
    assert not closed_to_tines(setting, way(), 1)
    told = told_of_spring_coring(setting, way(SPRING))
    assert len(told) == (0 if said is None else 1)
    if said is False:
        assert told == (phrases.spring_coring_left_out(),)
        assert told_of_spring_coring(setting, way(AUTUMN)) == (phrases.spring_coring_closed(),)
    warm = lawn({"lawn": {"grass": "zoysia"}, "place": {"postal_code": "30606"}}, {"local": local})
    assert not closed_to_tines(warm, way(SPRING), 1)


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "cored"),
    [
        ({}, True),
        ({"leveling": {"depth": "0 in"}}, True),
        ({"leveling": {"depth": "0 in"}, "seeding": {"intent": "dormant"}}, False),
        ({"seeding": {"intent": "none"}}, True),
        ({"seeding": {"intent": "renovate"}}, False),
        ({"site": {"rock_depth": "4 in"}}, True),
        ({"site": {"rock_depth": "3.9 in"}}, False),
    ],
)
def test_cores_are_taken_where_something_is_spread_or_comes_up_at_once(
    changes: dict[str, Any], *, cored: bool
) -> None:
    """Of living turf over no rock."""
    assert aerates(lawn(changes)) is cored


def test_cores_are_taken_away_where_sand_goes_over_clay() -> None:
    """Not of coarser ground, nor under another mix, nor where nothing is spread."""
    sand = {"leveling": {"parts": {"sand": 1.0}}}
    clay = {"lawn": {"soil": "clay"}}
    assert removes_cores(lawn(sand, clay))
    assert not removes_cores(lawn(sand, {"lawn": {"soil": "sand"}}))
    assert not removes_cores(lawn(clay))
    bare = lawn(sand, clay)
    assert not removes_cores(replace(bare, levelling=replace(bare.levelling, bands=())))


def test_tines_are_warned_of_a_septic_field_and_of_roots() -> None:
    """Where they are, of parts that they must spare by name."""

    def warned(*changes: dict[str, Any]) -> int:
        (cored,) = (d for d in found(lawn(*changes), way(AUTUMN)) if d.operation == "core_aerate")
        return len(cored.cautions)

    plain = warned()
    assert warned({"site": {"septic_field": True}}) == plain + 1
    assert warned({"site": {"trees": True}}) > plain
    assert warned({"lawn": {"part": [{"kind": "tree_roots", "share": 0.2}]}}) == plain + 1


def test_nothing_is_spread_or_sown_over_too_much_thatch() -> None:
    """From the limit on; where something is, and turf stays."""
    setting = lawn()
    limit = setting.book.si(strip_limit(setting.turf.species))

    def spongy(thatch_mm: float, base: ResolvedLawn = setting) -> list[str] | None:
        told = too_thick(replace(base, turf=replace(base.turf, thatch_mm=thatch_mm)))
        if told is None:
            return None
        return [item.key.rpartition(".")[2] for item in dict(told.values)["work"].items]  # type: ignore[union-attr]

    assert spongy(limit) == ["levelled", "sown"] and spongy(limit - 0.1) is None
    unsown = lawn({"seeding": {"intent": "none"}})
    assert spongy(limit, unsown) == ["levelled"]
    flat = replace(setting, levelling=replace(setting.levelling, bands=()))
    assert spongy(limit, flat) == ["sown"]
    assert spongy(limit, replace(unsown, levelling=flat.levelling)) is None
    assert spongy(limit, lawn({"seeding": {"intent": "renovate"}})) is None


def test_the_low_cut_says_what_it_is_for() -> None:
    """So that the mix reaches the soil, or the seed."""
    for changes, why in (
        ({}, phrases.mow_low_before_mix()),
        ({"leveling": {"depth": "0 in"}}, phrases.mow_low_before_seed()),
    ):
        cuts = [d for d in drafted(changes)[2].values() if d.operation == "mow_low"]
        assert cuts and {cut.why for cut in cuts} == {why}


@pytest.mark.full
def test_a_creeper_is_cut_low_for_the_blades_and_again_for_the_mix() -> None:
    """Weeks lie between, in which it stands as high again: the blades have the cuts above the
    lowest, or one height twice, the mix all of them, and no step leads from the ones to the others;
    other turf is cut once at each height.
    """
    setting, campaign, _ = drafted(SPONGY)
    for heights, of_blades in (((25.0,), 1), ((35.0, 25.0), 1), ((45.0, 35.0, 25.0), 2)):
        found = surface(setting, campaign, heights, 0.0)
        cuts = [draft for draft in found if draft.operation == "mow_low"]
        (combed,) = (draft for draft in found if draft.operation == "dethatch")
        blades, rested = cuts[:of_blades], cuts[of_blades:]
        assert [cut.id for cut in blades] == [f"mow_low.blades.{n + 1}" for n in range(of_blades)]
        assert [cut.id for cut in rested] == [
            f"mow_low.rested.{n + 1}" for n in range(len(heights))
        ]
        assert [cut.words["height"] for cut in rested] == [cut_height(h) for h in heights]
        assert [cut.words["height"] for cut in blades] == [
            cut_height(h) for h in heights[:of_blades]
        ]
        assert {cut.offset for cut in blades} == {combed.offset} and combed.offset < -7
        assert {cut.offset for cut in rested} == {-1}
        assert all(phrases.mow_low_grown_again() in (cut.how or ()) for cut in rested)
        assert not any(phrases.mow_low_grown_again() in (cut.how or ()) for cut in blades)
        assert rested[0].position > blades[-1].position + 1
    assert {cut.why for cut in blades} == {phrases.mow_low_before_blades()}
    plain, level, _ = drafted({"leveling": {"depth": "0.5 in"}})
    (cut,) = (d for d in surface(plain, level, (40.0,), 0.0) if d.operation == "mow_low")
    assert cut.offset == -1


@pytest.mark.full
@pytest.mark.parametrize(
    ("parts", "share"),
    [
        ([], 1.0),
        ([{"kind": "tree_roots", "share": 0.2}], 0.8),
        ([{"kind": "septic_field", "share": 0.1}, {"kind": "tree_roots", "share": 0.3}], 0.6),
        ([{"kind": "shade", "share": 0.2}], 1.0),
    ],
)
def test_tines_spare_lines_and_roots(parts: list[dict[str, Any]], share: float) -> None:
    """Only the ground that is cored takes time."""
    setting, _, drafts = drafted({"lawn": {"part": parts}})
    draft = next(d for d in drafts.values() if d.operation == "core_aerate")
    area_m2 = setting.plot.area_m2 * share
    hours = person_hours(setting, setting.book.operations["core_aerate"], area_m2)
    assert draft.person_hours == pytest.approx(hours, abs=0.006)


def test_dethatching_in_spring_is_one_light_pass_and_speaks_of_seed_where_some_is_sown() -> None:
    """The steps say what the caution says: once and lightly, not once more across."""
    british = {
        "lawn": {"grass": "kentucky_bluegrass", "thatch": "14 mm", "area": "200 m2"},
        "place": {"postal_code": "", "latitude": 53.8, "longitude": -1.55, "country": "GB"},
        "leveling": {"depth": "3 mm"},
        "seeding": {"intent": "none"},
    }
    spring = first(plan_of({**british, "season": {"campaign": "spring"}}), "dethatch")
    assert spring.how[0] == phrases.dethatch_once()
    assert getattr(spring.why, "key", "") == "open_turf.dethatch.unsown"
