"""Asks for the marks of buried lines before anything goes into the ground."""

from bisect import bisect_right
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import ceil
from typing import Final

from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Message, sentences
from turfplan.phrases import prepare as phrases
from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import FactName, option_of_family
from turfplan.records.constraints import DaySet, DayStep, Lag, Reason, Strength, TableStep
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.feeding.blackouts import state_of
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import PREPARE, Timing, Wording, make
from turfplan.work.phases.cause_seasons import HATCHED

BUSINESS_DAYS = 5  # in a week
# Requests that follow the first one while a job goes on, by number.
_RENEWED = "renewed-"
# The rule that binds them to each other and to their job.
_RULE: Final = "marks_renewed"
# Work that has a request of its own, whatever else the session holds: weeks lie between it and the
# rest.
_OWN = {"diagnose": "cause", "lift_and_fill": "lifting", "plant": "planting"}


def digs(setting: ResolvedLawn, draft: Draft) -> bool:
    """Whether a spade, tine, blade or edge goes into the ground; plugs are set in holes.

    A soil probe is no digging, and not every look for a cause digs.
    """
    if draft.operation == "diagnose":
        cause = setting.book.causes.get(draft.key or "")
        return cause is None or cause.digs
    return "digging" in setting.book.operations[draft.operation].roles or draft.form == "plugs"


def marks_hold(setting: ResolvedLawn) -> FactName:
    """The fact that says how many days a request for marks holds here."""
    book = setting.book
    state = book.known(option_of_family("law.{state}_marks_hold", state_of(setting.brief)))
    return state or "order.locate_ticket_days"


def marks(setting: ResolvedLawn, campaign: Campaign, drafts: Sequence[Draft]) -> list[Draft]:
    """A request for marks before each stretch of work in the ground, which it outlasts."""
    groups: dict[tuple[int, str], list[Draft]] = {}
    for draft in drafts:
        if digs(setting, draft):
            # Blades that go in a season before the tines belong to no session of passes.
            own = "blades" if draft.session < 0 else _own(setting, campaign, draft)
            session = draft.session or (1 if campaign.sessions else 0)
            groups.setdefault((session, own), []).append(draft)
    found: list[Draft] = []
    for (session, own), work in groups.items():
        several = len(campaign.sessions) > 1
        for key, part in _requests(setting, work):
            number = str(session) if several and not own else ""
            named = ".".join(filter(None, (own or key, number)))
            request = _request(setting, session, named or None, part)
            found += [request, *_renewals(setting, campaign, request, part)]
    return found


def _renewals(
    setting: ResolvedLawn, campaign: Campaign, request: Draft, work: Sequence[Draft]
) -> list[Draft]:
    """The requests that follow the first one while a job goes on that outlasts it: as many as its
    longest weeks may ask for. `spare_renewals` are those that its days need not."""
    long = [draft for draft in work if outlasts(setting, draft)]
    if not long:
        return []
    first, ahead, hold = long[0], setting.days("wish.marks"), setting.days(marks_hold(setting))
    step = max(1, hold - _lead(setting))
    span = max(_longest_span(setting, campaign, draft) for draft in long)
    count = max(1, ceil((ahead + span - hold) / _shortest_step(setting)))
    called = phrases.marks_again_title()
    return [
        make(
            setting,
            "locate_utilities",
            ".".join(filter(None, (request.key, f"{_RENEWED}{number}"))),
            timing=Timing(
                PREPARE,
                session=request.session,
                position=request.position,
                anchor=first.id,
                offset=number * step - ahead,
            ),
            wording=Wording(
                phrases.marks_renewed(), name=called, title=called, how=_steps(setting)
            ),
            facts=(marks_hold(setting),),
        )
        for number in range(1, count + 1)
    ]


def renewal_lags(
    setting: ResolvedLawn, drafts: Sequence[Draft], alone: Collection[str] = ()
) -> list[Lag]:
    """Each request is asked for anew in time for new marks to lie when it runs out; the last one
    holds until the job is over. Those that are left `alone` had renewals that nobody needs."""
    hold, in_time = setting.days(marks_hold(setting)), _renewed_by(setting)
    reason = Reason(_RULE, phrases.marks_renewed(), (marks_hold(setting),))
    lags: list[Lag] = []
    for request, renewals, jobs in _chains(setting, drafts, alone):
        for last, new in pairwise((request, *renewals)):
            name, ends = f"{_RULE}:{new.id}", (last.end_node, new.start_node)
            steps = DayStep(1), in_time
            lags.append(Lag(name, *ends, Strength.HARD, reason, *steps, alongside=True))
        last = (request, *renewals)[-1]
        for job in jobs:
            name, ends = f"{_RULE}:{last.id}>{job.id}", (last.end_node, job.end_node)
            until = DayStep(1), DayStep(hold)
            lags.append(Lag(name, *ends, Strength.HARD, reason, *until, alongside=True))
    return lags


def spare_renewals(
    setting: ResolvedLawn, drafts: Sequence[Draft], day: Callable[[str], int]
) -> frozenset[str]:
    """The requests that follow another which holds until its jobs are over, on the days of their
    nodes: nobody needs to ask again."""
    hold = setting.days(marks_hold(setting))
    spare: set[str] = set()
    for request, renewals, jobs in _chains(setting, drafts):
        over = max(day(job.end_node) for job in jobs)
        asked = [day(request.end_node), *(day(renewal.end_node) for renewal in renewals)]
        spare |= {
            renewal.id for number, renewal in enumerate(renewals) if over <= asked[number] + hold
        }
    return frozenset(spare)


def _chains(
    setting: ResolvedLawn, drafts: Sequence[Draft], alone: Collection[str] = ()
) -> Iterator[tuple[Draft, list[Draft], list[Draft]]]:
    """Each request that others follow, or followed, with those and with the jobs that outlast
    it."""
    by_id = {draft.id: draft for draft in drafts}
    for request in [draft for draft in drafts if draft.serves]:
        renewals: list[Draft] = []
        while (new := by_id.get(_after((request, *renewals)[-1]))) is not None:
            renewals.append(new)
        served = [by_id[name] for name in request.serves if name in by_id]
        jobs = [job for job in served if outlasts(setting, job)]
        if jobs and (renewals or request.id in alone):
            yield request, renewals, jobs


def renewed(name: str) -> str:
    """The id of the request that another, by its id, follows while a job goes on."""
    return name.rpartition(f".{_RENEWED}")[0]


def _after(request: Draft) -> str:
    """The id of the request that follows another while a job goes on."""
    base, found, number = request.id.rpartition(f".{_RENEWED}")
    return f"{base}.{_RENEWED}{int(number) + 1}" if found else f"{request.id}.{_RENEWED}1"


def _renewed_by(setting: ResolvedLawn) -> TableStep:
    """From the day of a request to the last on which the next one is made, so that its marks lie
    before the first run out."""
    lead, hold = setting.days("order.locate_lead"), setting.days(marks_hold(setting))
    return _in_time(setting.calendar.business, setting.first_day, setting.last_day, lead, hold)


@reckoned_once
def _in_time(business: DaySet, first: int, last: int, lead: int, hold: int) -> TableStep:
    """The same where marks take so many days of business to come, and hold so many days."""
    working = business.days()
    targets: list[int] = []
    for day in range(first, last + 1):
        marked = bisect_right(working, day + hold) - 1
        targets.append(max(day + 1, working[marked - lead] if marked >= lead else day + 1))
    return TableStep(first, tuple(targets))


def _shortest_step(setting: ResolvedLawn) -> int:
    """The fewest days from a request to the next: over the longest public holidays."""
    hold = setting.days(marks_hold(setting))
    shortest = _least_step(_renewed_by(setting), setting.first_day, setting.last_day - hold)
    return max(1, hold - _lead(setting)) if shortest is None else shortest


@reckoned_once
def _least_step(by: TableStep, first: int, last: int) -> int | None:
    """The fewest days that a step takes from a day between two; None where there is no such day.

    Days of business are known no longer than the plan is.
    """
    return min((by(day) - day for day in range(first, last + 1)), default=None)


def _longest_span(setting: ResolvedLawn, campaign: Campaign, draft: Draft) -> int:
    """The most calendar days from the first to the last day of a job in the weeks of a campaign."""
    windows = [session.window for session in campaign.sessions]
    windows += [campaign.sow_window] if campaign.sow_window else []
    least, more = _span(setting, draft), draft.duration_days - 1
    opens = min((w.start.toordinal() for w in windows), default=setting.first_day) - least
    closes = max((w.end.toordinal() for w in windows), default=setting.last_day)
    days = setting.calendar.work.days()
    spans = (b - a for a, b in zip(days, days[more:], strict=False) if opens <= a and b <= closes)
    return max(spans, default=least)


def _own(setting: ResolvedLawn, campaign: Campaign, draft: Draft) -> str:
    """The key of the request that a task has apart from the rest of its session, if it has one."""
    if draft.operation == "diagnose" and draft.key == "again":
        return "later"
    if draft.operation == "diagnose":
        if draft.key == HATCHED:
            return HATCHED
        # What is looked for in another part of the season has marks of its own.
        cause = setting.book.causes.get(draft.key or "")
        same = cause is None or cause.seen == "ground" or _begins_soon(setting, campaign)
        return _OWN["diagnose"] if cause is None or same else cause.id
    if draft.operation == "slit" and draft.session:
        return "seedbed"
    return _OWN.get(draft.operation, "")


def _begins_soon(setting: ResolvedLawn, campaign: Campaign) -> bool:
    """Whether the work begins while marks that are asked for in the first days still hold."""
    windows = [session.window for session in campaign.sessions]
    windows += [campaign.sow_window] if campaign.sow_window else []
    opens = min((w.start.toordinal() for w in windows), default=setting.first_day)
    return opens - setting.first_day < setting.days(marks_hold(setting))


def _requests(setting: ResolvedLawn, work: list[Draft]) -> list[tuple[str, list[Draft]]]:
    """The work of a session by request: one, or one for thatch where it would not hold as long."""
    earliest, latest = min(d.offset for d in work), max(d.offset for d in work)
    thatch = [d for d in work if d.operation == "dethatch"]
    rest = [d for d in work if d.operation != "dethatch"]
    lead = _lead(setting)
    spans = max(_span(setting, d) for d in work)
    # A day of work a week may lie a week off the wished one.
    needed = lead + (latest - earliest) + spans + len(WEEKDAYS)
    if thatch and rest and needed > setting.book.si(marks_hold(setting)):
        return [("blades", thatch), ("", rest)]
    return [("", work)]


def outlasts(setting: ResolvedLawn, draft: Draft) -> bool:
    """Whether a job takes longer than a request for marks holds: it is asked for anew meanwhile."""
    most = setting.book.si(marks_hold(setting)) - _lead(setting) - len(WEEKDAYS)
    return _span(setting, draft) > most


def _span(setting: ResolvedLawn, draft: Draft) -> int:
    """The calendar days from the first to the last day of a job, at the least."""
    weeks, rest = divmod(
        draft.duration_days - 1, len(setting.brief.calendar.weekdays or WEEKDAYS[-2:])
    )
    return weeks * len(WEEKDAYS) + rest


def _lead(setting: ResolvedLawn) -> int:
    """The calendar days from a request to the marks."""
    return ceil(setting.days("order.locate_lead") * len(WEEKDAYS) / BUSINESS_DAYS)


def _request(setting: ResolvedLawn, session: int, key: str | None, work: Sequence[Draft]) -> Draft:
    first = min(work, key=lambda draft: draft.offset)
    called, why = _words(first)
    request = make(
        setting,
        "locate_utilities",
        key,
        timing=Timing(
            PREPARE,
            session=session,
            position=max(session, 1),
            anchor=first.id,
            offset=-setting.days("wish.marks"),
        ),
        wording=Wording(why, name=called, title=called or _title(setting), how=_steps(setting)),
        facts=(marks_hold(setting),),
    )
    return replace(request, serves=tuple(draft.id for draft in work))


def _words(first: Draft) -> tuple[Message | None, Message]:
    """What a request is called beside others, and why it is made."""
    match first.operation:
        case "diagnose":
            return phrases.marks_cause_title(), phrases.marks_spade()
        case "lift_and_fill":
            return phrases.marks_spade_title(), phrases.marks_spade()
        case "plant":
            return phrases.marks_plugs_title(), phrases.marks_spade()
        case _:
            return None, phrases.marks_tines()


def _title(setting: ResolvedLawn) -> Message | None:
    """What a request is called where there are no sprinklers to flag."""
    return phrases.marks_title() if setting.brief.site.sprinklers is False else None


def _steps(setting: ResolvedLawn) -> tuple[Message, ...]:
    """Whom to ask here, how long the answer holds, and what nobody else marks."""
    in_us, hold = setting.country == "US", marks_hold(setting)
    holds = (
        phrases.marks_hold_unknown()
        if hold == "order.locate_ticket_days"
        else phrases.marks_hold_here(n=setting.days(hold))
    )
    bare = setting.brief.site.sprinklers is False
    return (
        sentences(phrases.marks_ask_us() if in_us else phrases.marks_ask_elsewhere(), holds),
        phrases.marks_own_lines() if bare else phrases.marks_own_sprinklers(),
    )
