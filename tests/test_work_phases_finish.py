"""The touch-up comes when the last pass has settled, in growth with time for both."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from test_work_campaigns import days_of, opened, plain
from turfplan.message import Message, as_written
from turfplan.phrases import finish as phrases
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import level as of_level
from turfplan.planning.candidates import draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.work.campaigns import Campaign, Session, campaigns
from turfplan.work.drafts import Draft, Pass
from turfplan.work.labour import person_hours
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases import finish as module
from turfplan.work.phases.finish import _last_work, finish


@pytest.mark.full
@pytest.mark.parametrize("depth", ["0.5 in", "2 in"])
def test_the_touch_up_waits_for_the_last_session(depth: str) -> None:
    """Weeks after the wished day of the last pass of all, however many sessions there are."""
    setting = setting_of(brief_of({"leveling": {"depth": depth}}))
    seen = set()
    for campaign in campaigns(setting)[0][:2]:
        found = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
        touched = next((d for d in found.season.drafts if d.operation == "touch_up"), None)
        if touched is None or not campaign.sessions:
            continue
        seen.add(len(campaign.sessions))
        last = max(session.window.best for session in campaign.sessions).toordinal()
        settled = setting.days("order.settle_check_least") + setting.days("order.touch_up_lead")
        assert touched.ideal is not None and touched.ideal >= last + settled
        opens = setting.open("touch_up") or setting.open("topdress")
        assert any(w.start.toordinal() <= touched.ideal <= w.end.toordinal() for w in opens)
    assert seen


BEST = date(2027, 9, 1)
SEED = date(2027, 9, 5)


def way(passes: int = 2, *, sow: date | None = SEED, sows: bool = True) -> Campaign:
    """A session of passes from September on, and seed on a day."""
    layers = tuple(Pass(n, 1, 6.0, 1.0, False, 6.0, as_written("")) for n in range(1, passes + 1))
    window = days_of("topdress", BEST, BEST + timedelta(40))
    sessions = (Session(1, window, layers, sows),) if passes else ()
    seed = None if sow is None else days_of("overseed", sow, sow)
    return Campaign("autumn", as_written(""), (), sessions, seed, 0.0)


def finished(
    setting: ResolvedLawn, campaign: Campaign, spacing: int = 21
) -> tuple[dict[str, Draft], list[Message]]:
    """The check and the touch-up of 2 m3, and what is said where there is none."""
    drafts, notes = finish(setting, campaign, 2.0, spacing)
    return {draft.id: draft for draft in drafts}, notes


def with_window(first: date, last: date, best: date | None = None, **changes: Any) -> ResolvedLawn:
    """The plain lawn with days for a touch-up alone."""
    return opened(days_of("touch_up", first, last, best), **changes)


def checked(last_work: date) -> date:
    """The day on which the touch-up is ready after a last day of work."""
    setting = plain()
    least = setting.days("order.settle_check_least") + setting.days("order.touch_up_lead")
    return last_work + timedelta(least)


def test_the_last_work_is_the_last_pass_or_the_seed_after_it() -> None:
    """Of passes three weeks apart the last comes two times three weeks after the first."""
    setting = opened()
    assert _last_work(setting, way(3), 21) == (BEST + timedelta(42)).toordinal()
    assert _last_work(setting, way(1), 21) == SEED.toordinal()
    assert _last_work(setting, way(1, sow=None), 21) == BEST.toordinal()
    assert _last_work(setting, way(2), 10) == (BEST + timedelta(10)).toordinal()


def test_the_touch_up_waits_until_the_fill_has_settled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Or until young grass bears it; on the best day of its window where that is later."""
    monkeypatch.setattr(module, "undressed_days", lambda setting, campaign: 30)
    work = BEST + timedelta(21)
    ready, least = checked(work), plain().days("windows.least_days")
    assert (ready - work).days > 30
    last = ready + timedelta(least)
    drafts, notes = finished(with_window(BEST, last), way())
    touch, check = drafts["touch_up"], drafts["settle_check"]
    assert touch.ideal == ready.toordinal() and notes == []
    assert (check.anchor, check.offset) == ("touch_up", -plain().days("wish.settle_check"))
    assert check.why == phrases.settle_check_passes()
    assert finished(with_window(BEST, last - timedelta(1)), way()) == ({}, [phrases.next_season()])
    later = ready + timedelta(9)
    best = finished(with_window(BEST, last, later), way())[0]["touch_up"]
    assert best.ideal == later.toordinal()
    short = with_window(BEST, last, last_day=last.toordinal() - 1)
    assert finished(short, way())[0] == {}
    assert finished(replace(short, last_day=last.toordinal()), way())[0]
    monkeypatch.setattr(module, "undressed_days", lambda setting, campaign: 400)
    grown = work + timedelta(400)
    far = with_window(BEST, grown + timedelta(least))
    assert finished(far, way())[0]["touch_up"].ideal == grown.toordinal()


def test_the_touch_up_covers_its_share_in_a_thin_layer(monkeypatch: pytest.MonkeyPatch) -> None:
    """As deep as is missing, but never deeper than any pass may be."""
    monkeypatch.setattr(module, "undressed_days", lambda setting, campaign: 30)
    setting = with_window(BEST, BEST + timedelta(300))
    entry, share = setting.book.operations["touch_up"], setting.book.si("topdress.touch_up_share")
    touch = finished(setting, way())[0]["touch_up"]
    hours = person_hours(setting, entry, setting.plot.area_m2 * share, 2.0)
    assert touch.person_hours == round(hours, 2) and touch.loose_m3 == 2.0
    assert touch.depth_mm == pytest.approx(3.175) and share < 1
    cap = setting.book.si("passes.hard_cap")
    for missing, depth in ((5.0, 5.0), (cap + 9, cap)):
        low = replace(setting, levelling=replace(setting.levelling, missing_mm=missing))
        assert finished(low, way())[0]["touch_up"].depth_mm == depth


def test_no_touch_up_where_nothing_is_low_or_nothing_was_spread() -> None:
    """Hollows that were filled alone are checked; unsown bare ground is filled later."""
    setting = opened()
    level = replace(setting, levelling=replace(setting.levelling, missing_mm=0.0))
    assert finished(level, way()) == ({}, [phrases.nothing_low()])
    assert finished(setting, way(0)) == ({}, [])
    hollows = replace(setting, levelling=replace(setting.levelling, lift_share=0.05))
    drafts, notes = finished(hollows, way(0))
    check = drafts["settle_check"]
    assert (check.anchor, check.why) == ("lift_and_fill", phrases.settle_check_hollows())
    assert check.offset == setting.days("order.settle_check_least") and notes == []
    assert finished(hollows, way())[1] == [phrases.next_season()]
    bare = replace(setting, turf=replace(setting.turf, condition="bare"))
    assert finished(bare, way(sow=None)) == ({}, [of_ground.touch_up_later()])
    assert finished(bare, way())[1] == [phrases.next_season()]
    assert finished(setting, way(sow=None))[1] == [phrases.next_season()]


def test_a_touch_up_of_compost_is_told_in_words_of_its_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """How and when; of any other mix the book's hold."""
    monkeypatch.setattr(module, "undressed_days", lambda setting, campaign: 30)
    setting = with_window(BEST, BEST + timedelta(300))
    for kinds, how, go in (
        ({"sand"}, None, None),
        ({"compost"}, (of_level.compost_touch_up(),), of_level.compost_touch_up_go()),
    ):
        monkeypatch.setattr(module, "handled", lambda setting, operation, kinds=kinds: kinds)
        touch = finished(setting, way())[0]["touch_up"]
        assert (touch.how, touch.go) == (how, go)
