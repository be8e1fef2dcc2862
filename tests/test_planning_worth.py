"""What speaks against a way to go on."""

from dataclasses import replace

import pytest

from test_planning_past_binds import season_of
from turfplan.message import as_written
from turfplan.planning.candidates import Candidate, draft_campaign
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.worth import Worth, last_work, worth_of
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import cost_from_now

NO_END = 0.0


def candidate(dropped: tuple[Allowed | Lag, ...] = ()) -> Candidate:
    """A campaign on its days, with rules that it bends."""
    setting, campaign, season = season_of("0.5 in")
    drafted = draft_campaign(setting, campaign, feeder_for(setting), permit=False)
    dated = date_season(setting, season)
    assert isinstance(dated, Dated)
    bent = replace(dated, schedule=replace(dated.schedule, dropped=dropped))
    parts = (drafted.mix, drafted.feeding, drafted.volumes, season, season, bent)
    return Candidate(setting, campaign, *parts, campaign.cost)


def weighed(
    dropped: tuple[Allowed | Lag, ...] = (),
    history: TaskHistory = TaskHistory(),  # noqa: B008
) -> Worth:
    """What speaks against that campaign."""
    way = candidate(dropped)
    return worth_of(way.setting, way, history, None)


def rule(strength: Strength, name: str = "order", task: str = "topdress.1") -> Allowed:
    """A rule of one task."""
    return Allowed("x", task, DaySet.of([(1, 2)]), strength, Reason(name, as_written("")))


@pytest.mark.parametrize(
    ("strength", "name", "cost"),
    [
        (Strength.STRONG, "order", 25.0),
        (Strength.ADVICE, "order", 0.9),
        (Strength.PREFERENCE, "order", 0.3),
        (Strength.STRONG, "work.day_full", 0.3),
    ],
)
def test_rules_that_are_bent_count_by_their_strength(
    strength: Strength, name: str, cost: float
) -> None:
    """But for those of how people divide their days, and those of work that is over or held."""
    plain = weighed()
    assert weighed((rule(strength, name),)).season - plain.season == pytest.approx(cost)
    for past in (TaskHistory(done={"topdress.1": 1}), TaskHistory(held={"topdress.1": 1})):
        assert weighed((rule(strength, name),), past).season == pytest.approx(plain.season)
    lag = Lag("y", "topdress.1@end", "overseed", strength, Reason(name, as_written("")), DayStep(1))
    over = TaskHistory(overdue={"topdress.1": 1})
    assert weighed((lag,), over).season == pytest.approx(plain.season)


def test_a_campaign_costs_what_is_still_to_come_of_it() -> None:
    """Sessions that are over are no more work."""
    setting, campaign, _ = season_of("0.5 in")
    assert cost_from_now(setting, campaign) == pytest.approx(campaign.cost)
    after = campaign.sessions[-1].window.end.toordinal() + 1
    later = replace(setting, first_day=after)
    session = setting.book.si("campaign.cost_session")
    assert cost_from_now(later, campaign) <= campaign.cost - session * len(campaign.sessions) + 1e-9


def test_a_session_moves_as_one_and_days_far_off_count_as_ten() -> None:
    """Who delivers or marks is told; a lost season weighs more than all days that move."""
    way = candidate()
    dated, book = way.dated, way.setting.book
    days = {d.id: dated.day(d.start_node) for d in way.season.drafts}
    main = ("topdress.1", "overseed")

    def moved(by: int, *names: str) -> Worth:
        return weighed(history=TaskHistory(published={**days, **{n: days[n] - by for n in names}}))

    assert moved(0).promises == NO_END and moved(3, "topdress.1").moved_days == 3
    both = moved(3, *main)
    assert both.promises == pytest.approx(both.moved_days * book.si("campaign.cost_moved_day"))
    assert both.moved_days <= 2 * 3
    ten = 10 * book.si("campaign.cost_moved_day")
    assert moved(400, *main).promises == pytest.approx(ten)
    told = moved(3, "delivery.1").promises
    assert told == pytest.approx(book.si("campaign.cost_told"))
    assert ten < book.si("campaign.cost_year_of_waiting")
    assert ten < book.si("campaign.cost_spring") * book.si("campaign.cost_spring_cool_share")
    assert moved(5, "soil_test").promises == NO_END


def test_fill_and_seasons_that_were_promised_are_not_let_go_for_little() -> None:
    """Fill that is left out, and work that ends in another season, where something was promised."""
    way, past = candidate(), TaskHistory()
    book, bands = way.setting.book, way.setting.levelling.bands
    bare = replace(way.setting, levelling=replace(way.setting.levelling, bands=(), left=bands))
    without = replace(way, setting=bare)
    whole = worth_of(way.setting, without, past, way)
    assert whole.promises == pytest.approx(book.si("campaign.cost_left"))
    assert worth_of(way.setting, without, past, without).promises == NO_END
    assert worth_of(way.setting, without, past, None).promises == NO_END
    assert whole.total == pytest.approx(whole.without_promises + whole.promises)

    def later(by: int) -> Candidate:
        days = {name: day + by for name, day in way.dated.schedule.days.items()}
        return replace(
            way, dated=replace(way.dated, schedule=replace(way.dated.schedule, days=days))
        )

    lost = [worth_of(way.setting, later(by), past, way).promises for by in (-99, 10, 11, 300)]
    assert lost == [NO_END, NO_END, *[pytest.approx(book.si("campaign.cost_season_lost"))] * 2]
    assert worth_of(way.setting, later(300), past, None).promises == NO_END


def test_work_that_is_over_is_no_more_work() -> None:
    """Its hours and its loads; and the last of what is open is known."""
    way = candidate()
    hours = {d.id: d.person_hours for d in way.season.drafts}
    done = TaskHistory(done={"topdress.1": 1, "delivery.1": 1})
    book = way.setting.book
    saved = (hours["topdress.1"] + hours["delivery.1"]) * book.si("campaign.cost_hour")
    saved += book.si("campaign.cost_load")
    assert weighed().work - weighed(history=done).work == pytest.approx(saved)
    ends = {d.id: way.dated.day(d.end_node) for d in way.season.drafts}
    assert last_work(way, TaskHistory()) == (ends["topdress.1"], ends["overseed"])
    assert last_work(way, done) == (0, ends["overseed"])
    over = TaskHistory(done={"topdress.1": 1, "overseed": 1})
    assert last_work(way, over) is None
