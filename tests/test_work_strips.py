"""The jobs that a strip has to itself."""

from dataclasses import replace
from math import ceil

from planning import brief_of
from resolved_lawns import setting_of
from test_work_season import drafted
from turfplan.message import Quantity, as_written, sentences
from turfplan.phrases import strips as phrases
from turfplan.records.book_names import OperationName
from turfplan.records.constraints import DaySet, DayStep, Strength
from turfplan.work.campaigns import Session
from turfplan.work.drafts import Draft
from turfplan.work.labour import working_days
from turfplan.work.lawn import Labour
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.phases.level import long_pass
from turfplan.work.strips import (
    _jobs,
    _least_days,
    _shared,
    _turn,
    cut_by_strip,
    in_strips,
    strip_lags,
)

SETTING, CAMPAIGN, _ = drafted({"leveling": {"depth": "1 in"}})


def seeded_session() -> Session:
    """The session whose last pass is sown on, with two passes."""
    session = next(s for s in CAMPAIGN.sessions if s.sows)
    layer = session.passes[-1]
    return replace(session, passes=(replace(layer, number=1), replace(layer, number=2)))


def task(operation: OperationName, position: int, session: int, key: str | None = None) -> Draft:
    """A task of a session."""
    timing = Timing(CARE, session=session, position=position)
    wording = Wording(as_written("to test"))
    return make(SETTING, operation, key or str(position), timing=timing, wording=wording)


def test_each_pass_has_its_own_jobs() -> None:
    """The last low cut and the cores go with the first pass, seed and what belongs to it with the
    last; a mow goes before its own pass, looks and orders with none.
    """
    session = seeded_session()
    number = session.number
    drafts = [
        task("mow_low", 1, number),
        task("mow_low", 2, number),
        task("core_aerate", 1, number),
        task("topdress", 1, number),
        task("incorporate", 1, number),
        task("mow", 2, number),
        task("topdress", 2, number),
        task("incorporate", 2, number),
        task("overseed", 1, number),
        task("starter_feed", 1, number),
        task("roll", 1, number),
        task("cover", 1, number),
        task("inspect", 1, number, "germination"),
        task("order_material", 1, number),
        task("topdress", 1, number + 1, "9"),
    ]
    first, last = ([d.id for d in _jobs(session, layer, drafts)] for layer in session.passes)
    assert first == ["topdress.1", "incorporate.1", "mow_low.2", "core_aerate.1"]
    assert last[:3] == ["mow.2", "topdress.2", "incorporate.2"]
    assert last[3:] == ["overseed.1", "starter_feed.1", "roll.1", "cover.1"]
    unseeded = replace(session, sows=False)
    assert [d.id for d in _jobs(unseeded, unseeded.passes[-1], drafts)] == last[:3]


def test_only_a_pass_of_several_days_goes_on_in_strips() -> None:
    """From so many days on its jobs share its days, itself among them."""
    session = seeded_session()
    campaign = replace(CAMPAIGN, sessions=(session,))
    long = replace(task("topdress", 1, session.number), duration_days=4)
    short = replace(task("topdress", 2, session.number), duration_days=1)
    cores = task("core_aerate", 1, session.number)
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    found = {d.id: d for d in in_strips(setting, campaign, [long, short, cores])}
    assert set(found["topdress.1"].strips) == {"topdress.1", "core_aerate.1"}
    assert found["core_aerate.1"].duration_days == 4
    assert found["topdress.2"].strips == ()


def hours(draft: Draft, person_hours: float, days: int = 1) -> Draft:
    """A task that takes so long."""
    return replace(draft, person_hours=person_hours, duration_days=days)


def test_the_jobs_of_a_pass_share_the_days_that_all_of_them_take() -> None:
    """Two for six hours: 40 hours of four jobs are four days though the pass takes three alone."""
    setting = replace(SETTING, labour=Labour(2, 6.0, 15.0, 7))
    spread = replace(hours(task("topdress", 1, 1), 30.0, 3), loose_m3=8.0)
    jobs = [hours(task("core_aerate", 1, 1), 5.0), spread, hours(task("mow", 1, 1), 5.0)]
    found = _shared(setting, spread, jobs)
    assert {d.duration_days for d in found.values()} == {working_days(setting, 40.0)}
    assert working_days(setting, 40.0) == 4 and len(found) == 3
    area = Quantity(SETTING.plot.area_m2 * SETTING.levelling.covered_share / 4, "area")
    volume = Quantity(2.0, "loose")
    most = setting.days("work.pass_days_most")
    assert found["topdress.1"].cautions[-1] == sentences(
        phrases.strip_by_strip(n=4, area=area, volume=volume),
        phrases.more_hands(needed=ceil(2 * 4 / most), most=most),
    )
    assert found["mow.1"].cautions[-1] == phrases.keeps_step(n=4, area=area)
    alone = _shared(setting, hours(spread, 30.0, 5), [hours(spread, 30.0, 5)])
    assert alone["topdress.1"].duration_days == 5, "the pass takes no less than by itself"


def test_a_strip_covers_its_part_of_what_is_filled() -> None:
    """Half of half of the lawn."""
    half = replace(SETTING.levelling, bands=(replace(SETTING.levelling.bands[0], share=0.5),))
    setting = replace(SETTING, levelling=half, labour=Labour(2, 6.0, 15.0, 7))
    spread = hours(task("topdress", 1, 1), 1.0, 2)
    found = _shared(setting, spread, [spread])["topdress.1"]
    assert dict(found.cautions[-1].values)["area"] == Quantity(setting.plot.area_m2 / 4, "area")


def test_a_pass_in_strips_says_its_days_and_its_people_once() -> None:
    """What a long pass says of them is of the pass alone, and gives way."""
    setting = replace(SETTING, labour=Labour(1, 6.0, 15.0, 7))
    spread = hours(task("topdress", 1, 1), 30.0, 5)
    own = phrases.side_by_side()
    spread = replace(spread, cautions=(own, *long_pass(setting, spread)))
    assert len(spread.cautions) == 2
    told = _shared(setting, spread, [spread])["topdress.1"].cautions
    assert told[0] == own and [caution.key for caution in told[1:]] == ["sentences"]


def test_the_order_of_work_in_a_strip_is_mown_cored_spread_dragged_sown() -> None:
    """A mow without a place of its own goes before the pass, what drags it in after it."""
    names: list[OperationName] = [
        "overseed",
        "incorporate",
        "topdress",
        "mow",
        "core_aerate",
        "mow_low",
    ]
    spread = hours(task("topdress", 1, 1), 1.0, 4)
    jobs = [spread if n == "topdress" else task(n, 1, 1) for n in names]
    found = _shared(SETTING, spread, jobs)["topdress.1"]
    order = ["mow_low.1", "core_aerate.1", "mow.1", "topdress.1", "incorporate.1", "overseed.1"]
    assert list(found.strips) == order
    assert _turn(SETTING, task("mow", 1, 1)) < _turn(SETTING, spread) < (4, 1)
    assert _turn(SETTING, task("incorporate", 1, 1)) == (4, 1)
    assert _turn(SETTING, task("mow", 1, 1)) == (4, -1)


def test_strips_are_heard_where_one_of_their_machines_is() -> None:
    """Not where none of them makes noise."""
    spread = hours(task("topdress", 1, 1), 1.0, 4)
    cored = _shared(SETTING, spread, [spread, task("core_aerate", 1, 1)])
    assert all(d.heard for d in cored.values())
    assert not _shared(SETTING, spread, [spread])["topdress.1"].heard


def test_a_pass_goes_in_strips_where_no_week_end_holds_it() -> None:
    """From three days on with Saturdays and Sundays, from two with Sundays, or as it is set."""
    day = SETTING.first_day

    def least(*ranges: tuple[int, int], strip_days: int | None = None) -> int:
        calendar = replace(SETTING.calendar, work=DaySet.of(ranges))
        return _least_days(replace(SETTING, calendar=calendar, strip_days=strip_days))

    assert least((day, day + 1), (day + 7, day + 7)) == 3
    assert least((day, day), (day + 7, day + 7)) == 2
    assert least((day, day + 30)) == 3
    assert least() == 2
    assert least((day, day + 1), strip_days=7) == 7


def test_a_pass_of_as_many_days_as_strips_begin_with_goes_by_strips() -> None:
    """One of a day less does not."""
    session = seeded_session()
    campaign = replace(CAMPAIGN, sessions=(session,))
    setting = replace(SETTING, strip_days=3)
    for days, strips in ((3, True), (2, False)):
        spread = hours(task("topdress", 1, session.number), 1.0, days)
        (found,) = in_strips(setting, campaign, [spread])
        assert bool(found.strips) is strips
    assert in_strips(setting, campaign, [task("mow", 1, session.number)])[0].strips == ()


def test_first_cuts_go_over_the_strips_that_seed_went_over() -> None:
    """For as many days; nothing else does, and none where seed took no strips."""
    seed = replace(hours(task("overseed", 1, 1), 1.0, 4), strips=("topdress.1", "overseed.1"))
    cut, look = task("first_mow", 1, 0), task("inspect", 1, 0)
    old = task("mow_old", 1, 0)
    found = cut_by_strip([seed, cut, look, old])
    assert [(d.duration_days, d.by_strip) for d in found] == [
        (4, False),
        (4, True),
        (1, False),
        (4, True),
    ]
    assert found[1].cautions[-1] == phrases.in_their_turn(n=4)
    assert cut_by_strip([replace(seed, strips=()), cut]) == [replace(seed, strips=()), cut]


def test_jobs_of_a_strip_begin_with_the_one_before_them() -> None:
    """Each is bound to the job before it in the order of work, the first to none."""
    names = ("mow_low.1", "topdress.1", "overseed.1")
    operations: tuple[OperationName, ...] = ("mow_low", "topdress", "overseed")
    drafts = [replace(hours(task(n, 1, 1), 1.0, 4), strips=names) for n in operations]
    lags = strip_lags([*drafts, task("inspect", 1, 1)])
    assert [(lag.before, lag.after) for lag in lags] == [
        ("mow_low.1", "topdress.1"),
        ("topdress.1", "overseed.1"),
    ]
    assert all(lag.minimum == lag.maximum == DayStep(0) for lag in lags)
    assert all(lag.strength is Strength.HARD for lag in lags)
    assert lags[0].id == "strips:topdress.1"
    assert strip_lags([drafts[1], drafts[2]])[0].before == "topdress.1"
    assert len(strip_lags([drafts[1], drafts[2]])) == 1, "what has no task binds nothing"
