"""Requests for marks: one for each stretch of work in the ground that it outlasts."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from resolved_lawns import lawn
from turfplan.message import as_written
from turfplan.phrases import prepare as phrases
from turfplan.planning.falling import without_renewals
from turfplan.records.constraints import Lag
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Draft, OpenDays, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.marks import (
    _begins_soon,
    _lead,
    _requests,
    _span,
    digs,
    marks,
    marks_hold,
    outlasts,
    renewal_lags,
    spare_renewals,
)

SETTING = lawn()
HOLD, LEAD = round(SETTING.book.si(marks_hold(SETTING))), _lead(SETTING)


def job(name: str, **more: Any) -> Draft:
    """A task of the first session."""
    operation: Any = name.split(".")[0]
    given: dict[str, Any] = {"session": 1, **more}
    key = name.partition(".")[2] or None
    return Draft(name, operation, "level", as_written(""), 1, key=key, **given)


def way(sessions: int = 1, *, after: int = 200, sow: int | None = None) -> Campaign:
    """A campaign whose first session opens so many days after the plan, and its seed."""

    def window(operation: Any, days: int) -> OpenDays:
        day = date.fromordinal(SETTING.first_day + days)
        ends = day, day + timedelta(9), day
        return OpenDays(operation, "spring", *ends, as_written(""), as_written(""))

    made = tuple(
        Session(n, window("topdress", after + 90 * (n - 1)), (), False)
        for n in range(1, sessions + 1)
    )
    seed = None if sow is None else window("overseed", sow)
    return Campaign("autumn", as_written(""), (), made, seed, 0.0)


def asked(campaign: Campaign, *drafts: Draft, setting: ResolvedLawn = SETTING) -> list[Any]:
    """Id, session, position and what it serves of each request."""
    return [
        (d.id.removeprefix("locate_utilities"), d.session, d.position, d.serves)
        for d in marks(setting, campaign, drafts)
    ]


def test_tines_blades_and_holes_dig_and_a_rake_does_not() -> None:
    """Plugs are set in holes; of looks for a cause those that the book says."""
    assert digs(SETTING, job("core_aerate.1")) and not digs(SETTING, job("topdress.1"))
    assert digs(SETTING, job("plant", form="plugs")) and not digs(SETTING, job("plant", form="sod"))
    causes = SETTING.book.causes
    for key in causes:
        assert digs(SETTING, job(f"diagnose.{key}")) is causes[key].digs
    assert {cause.digs for cause in causes.values()} == {True, False}
    assert digs(SETTING, job("diagnose.again")), "what is looked for again may be anywhere"


def test_work_of_a_session_has_one_request_before_the_first_of_it() -> None:
    """Numbered where there are several sessions; what is bound to none belongs to the first."""
    cores = job("core_aerate.1", offset=-1)
    assert asked(way(), cores, job("topdress.1")) == [("", 1, 1, ("core_aerate.1",))]
    second = job("core_aerate.2", session=2)
    assert asked(way(2), cores, second) == [
        (".1", 1, 1, ("core_aerate.1",)),
        (".2", 2, 2, ("core_aerate.2",)),
    ]
    loose = replace(cores, session=0)
    assert asked(way(), loose) == [("", 1, 1, ("core_aerate.1",))]
    assert asked(way(0), loose) == [("", 0, 1, ("core_aerate.1",))]
    assert asked(way(), job("topdress.1")) == []
    early = job("slit", offset=-9, session=0)
    (request,) = marks(SETTING, way(), [cores, replace(early, session=1, operation="core_aerate")])
    assert (request.anchor, request.offset) == ("slit", -SETTING.days("wish.marks"))


def test_some_work_has_a_request_of_its_own() -> None:
    """Lifting, planting, a seedbed, blades in a season of their own, looks for a cause."""
    lift, plugs = job("lift_and_fill"), job("plant", form="plugs")
    assert asked(way(), lift, plugs, job("core_aerate.1")) == [
        (".lifting", 1, 1, ("lift_and_fill",)),
        (".planting", 1, 1, ("plant",)),
        ("", 1, 1, ("core_aerate.1",)),
    ]
    assert asked(way(), job("dethatch.ahead", session=-1)) == [
        (".blades", -1, 1, ("dethatch.ahead",))
    ]
    assert asked(way(), job("slit", session=2)) == [(".seedbed", 2, 2, ("slit",))]
    assert asked(way(), job("slit", session=0))[0][0] == ""
    assert asked(way(), job("diagnose.again"))[0][0] == ".later"
    ground = next(c for c in SETTING.book.causes.values() if c.digs and c.seen == "ground")
    assert asked(way(), job(f"diagnose.{ground.id}"))[0][0] == ".cause"
    other = next((c for c in SETTING.book.causes.values() if c.digs and c.seen != "ground"), None)
    if other is not None:
        assert asked(way(), job(f"diagnose.{other.id}"))[0][0] == f".{other.id}"
        assert asked(way(after=0), job(f"diagnose.{other.id}"))[0][0] == ".cause"


def test_work_begins_soon_while_marks_of_the_first_days_hold() -> None:
    """By the first of its windows; without any at once."""
    assert [_begins_soon(SETTING, way(after=n)) for n in (HOLD - 1, HOLD)] == [True, False]
    assert _begins_soon(SETTING, way(after=HOLD, sow=HOLD - 1))
    assert _begins_soon(SETTING, way(0))


def test_thatch_has_a_request_of_its_own_where_one_does_not_hold_as_long() -> None:
    """Counting the wait for marks, the longest job and a week."""
    room = HOLD - LEAD - 7

    def apart(offset: int, days: int = 1) -> list[str]:
        thatch = job("dethatch", offset=-offset - 1)
        cores = job("core_aerate.1", offset=-1, duration_days=days)
        return [key for key, _ in _requests(SETTING, [thatch, cores])]

    assert apart(room) == [""] and apart(room + 1) == ["blades", ""]
    assert _span(SETTING, job("core_aerate.1", duration_days=2)) == 1
    assert apart(room - 1, 2) == [""] and apart(room, 2) == ["blades", ""]
    alone = [job("dethatch", offset=-99)]
    assert [key for key, _ in _requests(SETTING, alone)] == [""]
    no_thatch = [job("core_aerate.1", offset=-99), job("core_aerate.2", offset=0)]
    assert [key for key, _ in _requests(SETTING, no_thatch)] == [""]


def test_a_job_spans_the_weeks_that_its_working_days_take() -> None:
    """Of two days a week the third lies a week on; of five the sixth."""

    def spans(*weekdays: str) -> list[int]:
        setting = lawn({"calendar": {"weekdays": list(weekdays) or None}})
        return [_span(setting, job("core_aerate.1", duration_days=n)) for n in (1, 2, 3, 6)]

    assert spans("sat", "sun") == spans() == [0, 1, 7, 15]
    assert spans("mon", "tue", "wed", "thu", "fri") == [0, 1, 2, 7]


def test_a_long_job_outlasts_its_marks() -> None:
    """What is left of their days after the wait and a week."""
    room = HOLD - LEAD - 7
    every = lawn({"calendar": {"weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}})
    found = [outlasts(every, job("a", duration_days=n)) for n in (room + 1, room + 2)]
    assert found == [False, True]


def test_a_job_that_outlasts_its_marks_has_others_before_they_run_out() -> None:
    """As many as its weeks ask for, each early enough for new marks to lie when the last end."""
    longer = job("clear_stand", duration_days=12, offset=0)
    drafts = [longer, *marks(SETTING, way(), [longer])]
    first, *later = drafts[1:]
    assert len(later) == 1 and not later[0].serves and first.serves == (longer.id,)
    lags = {(lag.before, lag.after): lag for lag in renewal_lags(SETTING, drafts)}
    between = lags[first.end_node, later[0].start_node].maximum
    until = lags[later[0].end_node, longer.end_node].maximum
    day = SETTING.first_day
    lead = SETTING.days("order.locate_lead")
    assert between is not None and until is not None and until(day) == day + HOLD
    for asked_on in range(day, day + 100):
        again = between(asked_on)
        marked = [d for d in SETTING.calendar.business.days() if d > again][lead - 1]
        assert asked_on < again and marked <= asked_on + HOLD
    twice = replace(longer, duration_days=24)
    requests = marks(SETTING, way(), [twice])
    assert len(requests) > 3
    renewals = renewal_lags(SETTING, [twice, *requests])
    assert len({lag.id for lag in renewals}) == len(renewals) == len(requests)
    short = job("core_aerate.1")
    assert len(marks(SETTING, way(), [short])) == 1
    assert renewal_lags(SETTING, [short, *marks(SETTING, way(), [short])]) == []


def test_requests_that_no_job_needs_on_its_days_are_spare() -> None:
    """From the first on that holds until it is over; what is left of them holds it then."""
    longer = job("clear_stand", duration_days=24, offset=0)
    request, *later = marks(SETTING, way(), [longer])
    drafts = [longer, request, *later]
    first = SETTING.first_day
    asked = {d.start_node: first + 9 * n for n, d in enumerate([request, *later])}

    def spare(over: int) -> frozenset[str]:
        days = {**asked, longer.end_node: first + over}
        return spare_renewals(SETTING, drafts, days.__getitem__)

    names = [d.id for d in later]
    assert len(names) >= 2
    assert spare(HOLD) == set(names) and spare(HOLD + 1) == set(names[1:])
    assert spare(HOLD + 9) == set(names[1:]) and spare(HOLD + 10) == set(names[2:])
    season = SeasonDraft(tuple(drafts), tuple(renewal_lags(SETTING, drafts)))
    for gone, last in ((names, request), (names[1:], later[0])):
        left = without_renewals(SETTING, season, gone)
        assert [d.id for d in left.drafts[1:]] == [request.id, *names[: len(names) - len(gone)]]
        until = [c for c in left.constraints if isinstance(c, Lag) and c.after == longer.end_node]
        assert [c.before for c in until] == [last.end_node]


@pytest.mark.full
@pytest.mark.parametrize("sprinklers", [True, False, None])
def test_a_request_says_whom_to_ask_and_what_nobody_marks(*, sprinklers: bool | None) -> None:
    """Sprinklers of one's own are flagged, where there may be any."""
    setting = lawn({"site": {"sprinklers": sprinklers}})
    (request,) = marks(setting, way(), [job("core_aerate.1")])
    bare = sprinklers is False
    assert request.how is not None
    assert request.how[1] == (phrases.marks_own_lines() if bare else phrases.marks_own_sprinklers())
    assert request.title == (phrases.marks_title() if bare else None)
    parts = dict(request.how[0].values)["parts"].items  # type: ignore[union-attr]
    assert parts[0] == phrases.marks_ask_us()
    metric = {"postal_code": None, "country": "GB", "latitude": 52.0, "longitude": -1.0}
    abroad = lawn({"place": metric})
    (elsewhere,) = marks(abroad, way(), [job("core_aerate.1")])
    assert elsewhere.how is not None
    assert dict(elsewhere.how[0].values)["parts"].items == (  # type: ignore[union-attr]
        phrases.marks_ask_elsewhere(),
        phrases.marks_hold_unknown(),
    )
    assert request.facts == (marks_hold(setting),)


def test_a_request_is_named_by_what_it_is_for() -> None:
    """A spade, plugs, a cause; tines need no name."""
    names = {
        "diagnose.again": phrases.marks_cause_title(),
        "lift_and_fill": phrases.marks_spade_title(),
        "core_aerate.1": None,
    }
    for name, called in names.items():
        (request,) = marks(SETTING, way(), [job(name)])
        assert request.name == called
        spade = phrases.marks_spade() if called else phrases.marks_tines()
        assert request.why == spade
    (plugs,) = marks(SETTING, way(), [job("plant", form="plugs")])
    assert plugs.name == phrases.marks_plugs_title()
