"""The ways through a season that are compared.

Which sessions of growth take the passes, and when seed goes down.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.book.words import book_message, grass_name
from turfplan.calendar_days import DAYS
from turfplan.message import Day, Message
from turfplan.phrases import campaigns as phrases
from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import CARE, CampaignName, FactName, of_family
from turfplan.records.constraints import DaySet
from turfplan.work.campaign_costs import cost_of_kind
from turfplan.work.campaign_reasons import why_campaign
from turfplan.work.drafts import OpenDays, Pass
from turfplan.work.filling import cost_of_filling
from turfplan.work.ground_fill import fill_window
from turfplan.work.lag_steps import growth_step
from turfplan.work.lateness import (
    dressing_closes_before,
    held_open,
    held_open_to_sow,
    up_before_the_end,
)
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.passes import SEEDED, plan_passes, sessions_needed
from turfplan.work.year_seasons import Half, half_of_window, season_of

TWO_YEARS = 2


@dataclass(frozen=True, slots=True)
class Session:
    """One stretch of growth in which passes are spread.

    Its number, the open days, its passes, whether it ends with seed.
    """

    number: int
    window: OpenDays
    passes: tuple[Pass, ...]
    sows: bool


@dataclass(frozen=True, slots=True)
class Campaign:
    """One way through the season, with its cost in the judgement of the trade (less is better)."""

    id: CampaignName
    name: Message
    why: tuple[Message, ...]
    sessions: tuple[Session, ...]
    sow_window: OpenDays | None
    cost: float

    @property
    def sow_on_pass(self) -> bool:
        """True where the seed goes on the last pass."""
        return any(session.sows for session in self.sessions)

    @property
    def late(self) -> bool:
        """True where one of its windows is held open beyond its last safe day."""
        windows = [session.window for session in self.sessions]
        return any(w is not None and w.safe_end is not None for w in (*windows, self.sow_window))

    @property
    def passes(self) -> tuple[Pass, ...]:
        """Every pass in order."""
        return tuple(p for session in self.sessions for p in session.passes)


# A campaign by its name, and why it is ruled out.
RuledOut = tuple[Message, Message]


def campaigns(setting: ResolvedLawn) -> tuple[tuple[Campaign, ...], tuple[RuledOut, ...]]:
    """The campaigns worth comparing, best first by cost, and those ruled out at once."""
    if setting.sowing.intent == "winter_overseed" and setting.on_open_ground:
        never = phrases.nothing_to_cover(grass=grass_name(setting.book, setting.turf.species.id))
        return (), ((_name(setting, (), None), never),)
    sessions, sows = _sessions_in_reach(setting), _sow_choices(setting)
    possible: list[Campaign] = []
    ruled_out: list[RuledOut] = [
        (_name(setting, (), window), phrases.missed(day=Day(window.end)))
        for window in setting.openings.missed
        if window.operation == setting.sowing.operation
    ]
    found, against = _through(setting, sessions, sows)
    possible += found
    ruled_out += against
    # Then with what ends soon, or has just ended, held open while the climate may be off.
    late_sessions = (
        held_open(setting, sessions, "topdress")
        if setting.levelling.bands and not setting.on_open_ground
        else sessions
    )
    late_sows = held_open_to_sow(setting, sows)
    if (late_sessions, late_sows) != (sessions, sows):
        late, _ = _through(setting, late_sessions, late_sows)
        possible += [campaign for campaign in late if campaign.late]
    if not (possible or ruled_out or setting.openings.closed):
        ruled_out.append((_name(setting, (), None), phrases.no_season()))
    wanted = setting.brief.season.campaign
    chosen = [c for c in possible if wanted in ("auto", c.id)]
    if wanted != "auto":
        not_asked = phrases.not_asked(campaign=wanted)
        ruled_out += [(c.name, not_asked) for c in possible if c.id != wanted]
    ranked = sorted(chosen, key=lambda c: (c.cost, _first_day(c)))
    return tuple(ranked[: round(setting.book.si("campaign.candidates_most"))]), tuple(
        dict.fromkeys(ruled_out)
    )


def _through(
    setting: ResolvedLawn, sessions: list[OpenDays], sows: Sequence[OpenDays | None]
) -> tuple[list[Campaign], list[RuledOut]]:
    """Every campaign through these sessions to these sowings, and what rules others out."""
    possible: list[Campaign] = []
    ruled_out: list[RuledOut] = []
    for sow in sows:
        before = _lifts_before(setting, sow) if setting.on_open_ground else sessions
        for stretch, why_not in _stretches(setting, before, sow):
            if why_not:
                ruled_out.append((_name(setting, stretch, sow), why_not))
            else:
                campaign = _campaign(setting, stretch, sow)
                if all(session.passes for session in campaign.sessions):
                    possible.append(campaign)
    return possible, ruled_out


def _first_day(campaign: Campaign) -> date:
    days = [s.window.start for s in campaign.sessions]
    return min([*days, campaign.sow_window.start] if campaign.sow_window else days or [date.max])


def _in_reach(setting: ResolvedLawn, windows: Iterable[OpenDays]) -> list[OpenDays]:
    """The windows of which some day is still to come and inside the plan's days."""
    return [
        w
        for w in windows
        if w.end.toordinal() >= setting.first_day and w.start.toordinal() <= setting.last_day
    ]


def _sessions_in_reach(setting: ResolvedLawn) -> list[OpenDays]:
    return _in_reach(setting, setting.open("topdress")) if setting.levelling.bands else []


def _lifts_before(setting: ResolvedLawn, sow: OpenDays | None) -> list[OpenDays]:
    """The days in which ground without grass is filled for a sowing: one session, or none."""
    window = fill_window(setting, sow) if setting.levelling.bands else None
    return [] if window is None else _in_reach(setting, [window])


def _sow_choices(setting: ResolvedLawn) -> list[OpenDays | None]:
    """The windows in which this lawn could be seeded or planted; [None] when it is neither."""
    if setting.sowing.operation is None:
        return [None]
    if setting.levelling.left and not setting.levelling.bands:
        open_now = _in_reach(setting, setting.open(setting.sowing.operation))
        return [w for w in open_now if dressing_closes_before(setting, w)]
    if setting.sowing.intent == "winter_overseed":
        return list(_in_reach(setting, _from_autumn_on(setting, setting.open("overseed"))))
    choices = up_before_the_end(setting, _in_reach(setting, setting.open(setting.sowing.operation)))
    if setting.cool and setting.sowing.operation in ("seed", "overseed"):
        # Seed that cannot come up before winter may wait for spring in the ground: a named plan B.
        choices += _in_reach(setting, setting.open("dormant_seed"))
    return list(choices)


def _from_autumn_on(setting: ResolvedLawn, windows: Iterable[OpenDays]) -> Iterator[OpenDays]:
    """Windows that are best in autumn or winter, the others less their days of spring and summer:
    where soil is never hot, grass that is to sleep under ryegrass still grows on the first of them.
    """
    cool, southern = ("autumn", "winter"), setting.climate.southern
    for window in windows:
        days = (window.start + timedelta(n) for n in range((window.end - window.start).days + 1))
        seasons = ((day, season_of(setting.book, day, southern=southern)) for day in days)
        first = next(((day, season) for day, season in seasons if season in cool), None)
        if window.season in cool:
            yield window
        elif first is not None:
            start, season = first
            best = min(start + (window.best - window.start), window.end)
            yield replace(window, start=start, best=best, season=season)


def _stretches(
    setting: ResolvedLawn, sessions: list[OpenDays], sow: OpenDays | None
) -> Iterable[tuple[tuple[OpenDays, ...], Message | None]]:
    """Runs of sessions that could carry the fill for this seeding, each with what rules it out."""
    need = sessions_needed(setting)
    if need == 0:
        yield (), None
        return
    before = [w for w in sessions if sow is None or w.start <= sow.end]
    if len(before) < need:
        few = (
            phrases.few_sessions(sessions=need, n=len(before))
            if before
            else phrases.no_session(n=need)
        )
        yield tuple(before), few
        return
    for count in range(need, need + 1 + round(setting.book.si("campaign.extra_sessions"))):
        if sow is not None and len(before) >= count:
            yield tuple(before[-count:]), None
        elif sow is None:
            for first in range(len(before) - count + 1):
                yield tuple(before[first : first + count]), None


def _kind(
    setting: ResolvedLawn, stretch: tuple[OpenDays, ...], sow: OpenDays | None
) -> CampaignName:
    """The campaign that these sessions and this seeding make."""
    if setting.sowing.intent == "winter_overseed":
        return "winter_cover"
    if sow is None and setting.on_open_ground:
        return "bare_ground"
    if not stretch and sow is None:
        return CARE if setting.care_alone else "hollows"
    if not setting.cool:
        return "two_years" if len({w.start.year for w in stretch}) > 1 else "summer"
    if sow is not None and sow.operation == "dormant_seed":
        return "dormant"
    return _cool_kind([_half(setting, w) for w in stretch], _half(setting, sow) if sow else None)


def _cool_kind(sessions: Sequence[Half], sowing: Half | None) -> CampaignName:
    """The campaign of a cool-season grass by the halves of its sessions and its seeding."""
    if len(sessions) > 2 or (len(sessions) == 2 and sessions[0] == sessions[1]):
        return "two_years"
    if len(sessions) == 2:
        return "spring_then_autumn" if sessions[-1] == "autumn" else "autumn_then_spring"
    return sowing or (sessions[-1] if sessions else "autumn")


def _name(setting: ResolvedLawn, stretch: tuple[OpenDays, ...], sow: OpenDays | None) -> Message:
    """The name of the campaign that these sessions and this seeding make, with its year."""
    kind = _kind(setting, stretch, sow)
    name = book_message(setting.book, f"campaigns.{kind}.name")
    last = _last(stretch, sow)
    if last is None:
        return name
    begins = date.fromordinal(setting.first_day)
    start = max(last.start, begins) if last.end >= begins else last.start
    first = max(stretch[0].start, begins).year if stretch else start.year
    if kind != "two_years" or first == start.year:
        return phrases.in_year(name=name, year=str(start.year))
    years = start.year - first + 1
    if years > TWO_YEARS:
        name = phrases.over_years(n=years)
    return phrases.in_years(name=name, first=str(first), last=str(start.year))


def _last(stretch: tuple[OpenDays, ...], sow: OpenDays | None) -> OpenDays | None:
    """The window that ends a campaign: of the seeding, else of the last session."""
    return sow or (stretch[-1] if stretch else None)


def _half(setting: ResolvedLawn, window: OpenDays) -> Half:
    """The half of the growing year that a window lies in."""
    return half_of_window(setting.book, window, southern=setting.climate.southern)


def following_autumn(setting: ResolvedLawn, sow: OpenDays) -> date | None:
    """The last day of the autumn window after seed of a cool-season grass that goes in in spring.

    None for any other seed.
    """
    if (
        not setting.cool
        or _half(setting, sow) != "spring"
        or sow.operation not in ("seed", "overseed")
    ):
        return None
    autumns = [
        w
        for w in (*setting.openings.missed, *setting.open(sow.operation))
        if w.operation == sow.operation and _half(setting, w) == "autumn"
    ]
    if not autumns:
        return None
    later = [w.end for w in autumns if w.start > sow.end]
    return min(later) if later else max(w.end for w in autumns) + timedelta(days=DAYS)


@reckoned_once
def room(setting: ResolvedLawn, window: OpenDays) -> int:
    """How many passes a session has time for at the growth of its days.

    A week's slack is left for rain and weekends.
    """
    every_day = DaySet(((setting.first_day, setting.last_day),))
    return max(
        1, _pass_days(setting, window, every_day, round(setting.book.si("passes.slack_days")))
    )


def crowded(setting: ResolvedLawn, campaign: Campaign) -> tuple[Session, int] | None:
    """The first session with more passes than its days can hold, with how many those are.

    Then no dates can be found.

    They hold as many as follow each other, each on the first working day on which it may be spread.
    """
    for session in campaign.sessions:
        most = _pass_days(setting, session.window, setting.calendar.work, 0)
        if len(session.passes) > most:
            return session, most
    return None


def _pass_days(setting: ResolvedLawn, window: OpenDays, days: DaySet, slack: int) -> int:
    """How many passes follow each other in a window on `days`.

    Each comes `slack` days later than it might.
    """
    book, season = setting.book, setting.turf.species.season
    units = 0.0 if setting.on_open_ground else book.si(of_family("passes.growth_{season}", season))
    grow = growth_step(setting.climate, season, setting.first_day, setting.last_day, units)
    least, count = setting.pass_interval_days, 0
    day = days.next(max(window.start.toordinal(), setting.first_day))
    while day is not None and day <= window.end.toordinal():
        count += 1
        day = days.next(max(grow(day), day + least) + slack)
    return count


def _campaign(
    setting: ResolvedLawn,
    stretch: tuple[OpenDays, ...],
    sow: OpenDays | None,
) -> Campaign:
    """The campaign of a run of sessions."""
    kind = _kind(setting, stretch, sow)
    on_pass = (
        sow is not None
        and setting.sowing.operation in SEEDED
        and sow.operation != "dormant_seed"
        and setting.sowing.intent != "winter_overseed"
        and not setting.on_open_ground
        and bool(stretch)
    )
    passes = plan_passes(setting, [room(setting, window) for window in stretch], on_pass)
    sessions = tuple(
        Session(
            number,
            window,
            tuple(p for p in passes if p.session == number),
            on_pass and number == len(stretch),
        )
        for number, window in enumerate(stretch, 1)
    )
    name = _name(setting, stretch, sow)
    why = why_campaign(setting, kind, sow, passes=bool(sessions))
    campaign = Campaign(kind, name, why, sessions, sow, 0.0)
    return replace(campaign, cost=cost_from_now(setting, campaign))


def cost_from_now(setting: ResolvedLawn, campaign: Campaign) -> float:
    """What a campaign costs that goes on from the first day of `setting`, without what is over."""
    ahead = tuple(
        session.window
        for session in campaign.sessions
        if session.window.end.toordinal() >= setting.first_day
    )
    late = setting.book.si("campaign.cost_late") if campaign.late else 0.0
    own = _cost(setting, campaign.id, ahead, campaign.sow_window)
    return own + late + cost_of_filling(setting, campaign.passes)


def _cost(
    setting: ResolvedLawn, kind: CampaignName, stretch: tuple[OpenDays, ...], sow: OpenDays | None
) -> float:
    """What a campaign costs in the judgement of the trade.

    Its kind, its sessions, and the waiting for its end.
    """
    book, last = setting.book, _last(stretch, sow)
    ends = None if sow is None else _half(setting, sow)
    waiting = 0.0
    a_year: FactName = (
        "campaign.cost_year_bare" if setting.worked == "bare" else "campaign.cost_year_of_waiting"
    )
    if last is not None:
        days = last.start.toordinal() - setting.first_day
        waiting = max(0.0, (days - book.si("campaign.waiting_grace")) / DAYS)
    return (
        cost_of_kind(setting, kind, ends)
        + waiting * book.si(a_year)
        + book.si("campaign.cost_session") * len(stretch)
    )
