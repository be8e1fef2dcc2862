"""The ways through a season that are compared: which sessions of growth take the passes, and when seed goes down."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.constraints import DaySet
from turfplan.rules.draft import OpenDays, Pass
from turfplan.rules.passes import SEEDED, plan_passes, sessions_needed
from turfplan.rules.setting import Setting
from turfplan.rules.steps import growth_step
from turfplan.wording import day_text


@dataclass(frozen=True, slots=True)
class Session:
    """One stretch of growth in which passes are spread: its number, the open days, its passes, whether it ends with seed."""

    number: int
    window: OpenDays
    passes: tuple[Pass, ...]
    sows: bool


@dataclass(frozen=True, slots=True)
class Campaign:
    """One way through the season, with what it costs in the judgement of the trade (lower is better)."""

    id: str
    name: str
    why: tuple[str, ...]
    sessions: tuple[Session, ...]
    sow_window: OpenDays | None
    cost: float

    @property
    def sow_on_pass(self) -> bool:
        """True where the seed goes on the last pass."""
        return any(session.sows for session in self.sessions)

    @property
    def passes(self) -> tuple[Pass, ...]:
        """Every pass in order."""
        return tuple(p for session in self.sessions for p in session.passes)


def campaigns(setting: Setting) -> tuple[tuple[Campaign, ...], tuple[tuple[str, str], ...]]:
    """The campaigns worth comparing, best first by cost, and those ruled out at once as (name, reason)."""
    sessions = _sessions_in_reach(setting)
    room = {window.start: _room(setting, window) for window in sessions}
    found: list[Campaign] = []
    ruled_out: list[tuple[str, str]] = [
        (
            _words(setting, (), window)[1],
            f"its last safe day, {day_text(window.end, setting.system)}, is over when the plan begins",
        )
        for window in setting.missed
        if window.operation == setting.sowing
    ]
    for sow in _sow_choices(setting):
        for stretch, why_not in _stretches(setting, sessions, sow):
            if why_not:
                ruled_out.append((_words(setting, stretch, sow)[1], why_not))
            else:
                campaign = _campaign(setting, stretch, sow, room)
                if all(session.passes for session in campaign.sessions):
                    found.append(campaign)
    wanted = setting.brief.season.campaign
    chosen = [c for c in found if wanted in ("auto", c.id)]
    if wanted != "auto":
        ruled_out += [(c.name, f"the brief asks for {wanted}") for c in found if c.id != wanted]
    ranked = sorted(chosen, key=lambda c: (c.cost, _first_day(c)))
    return tuple(ranked[: round(setting.book.si("campaign.candidates_most"))]), tuple(dict.fromkeys(ruled_out))


def _first_day(campaign: Campaign) -> date:
    days = [s.window.start for s in campaign.sessions]
    return min([*days, campaign.sow_window.start] if campaign.sow_window else days or [date.max])


def _in_reach(setting: Setting, windows: Iterable[OpenDays]) -> list[OpenDays]:
    """The windows of which some day is still to come and inside the plan's days."""
    return [w for w in windows if w.end.toordinal() >= setting.first_day and w.start.toordinal() <= setting.last_day]


def _sessions_in_reach(setting: Setting) -> list[OpenDays]:
    return _in_reach(setting, setting.open("topdress")) if setting.bands else []


def _sow_choices(setting: Setting) -> list[OpenDays | None]:
    """The windows in which this lawn could be seeded or planted; [None] when it is neither."""
    if setting.sowing is None:
        return [None]
    if setting.intent == "winter_overseed":
        return list(_in_reach(setting, (w for w in setting.open("overseed") if w.season in ("autumn", "winter"))))
    choices = _in_reach(setting, setting.open(setting.sowing))
    if setting.cool and setting.sowing in ("seed", "overseed"):
        # Seed that cannot come up before winter may wait for spring in the ground: a named plan B.
        choices += _in_reach(setting, setting.open("dormant_seed"))
    return list(choices)


def _stretches(
    setting: Setting, sessions: list[OpenDays], sow: OpenDays | None
) -> Iterable[tuple[tuple[OpenDays, ...], str | None]]:
    """Runs of consecutive sessions that could carry the fill for this seeding date, each with a reason against it or None."""
    need = sessions_needed(setting)
    if need == 0:
        yield (), None
        return
    before = [w for w in sessions if sow is None or w.start <= sow.end]
    if len(before) < need:
        yield tuple(before), f"the fill needs {need} sessions of growth, and {_lie(len(before))} in reach before it"
        return
    for count in range(need, need + 1 + round(setting.book.si("campaign.extra_sessions"))):
        if sow is not None and len(before) >= count:
            yield tuple(before[-count:]), None
        elif sow is None:
            for first in range(len(before) - count + 1):
                yield tuple(before[first : first + count]), None


def _lie(count: int) -> str:
    return "none lies" if count == 0 else "only 1 lies" if count == 1 else f"only {count} lie"


def _words(setting: Setting, stretch: tuple[OpenDays, ...], sow: OpenDays | None) -> tuple[str, str]:
    """The id and the name of the campaign that these sessions and this seeding make."""
    halves = [_half(setting, w) for w in stretch]
    years = {w.start.year for w in stretch}
    sow_half = _half(setting, sow) if sow is not None else None
    if setting.intent == "winter_overseed":
        key = "winter_cover"
    elif not stretch and sow is None:
        key = "hollows"
    elif not setting.cool:
        key = "two_years" if len(years) > 1 else "summer"
    elif sow is not None and sow.operation == "dormant_seed":
        key = "dormant"
    elif len(stretch) > 2 or (len(stretch) == 2 and halves[0] == halves[1]):
        key = "two_years"
    elif len(stretch) == 2:
        key = "spring_then_autumn" if halves[-1] == "autumn" else "autumn_then_spring"
    else:
        key = sow_half or (halves[-1] if halves else "autumn")
    last = sow or (stretch[-1] if stretch else None)
    year = f" {last.start.year}" if last else ""
    return key, f"{setting.book.campaigns[key].name}{year}"


def _half(setting: Setting, window: OpenDays) -> str:
    """Spring or autumn: the half of the growing year that a window's best day lies in."""
    month = (window.best.month + 6 - 1) % 12 + 1 if setting.climate.southern else window.best.month
    return "spring" if month <= 6 else "autumn"


def following_autumn(setting: Setting, sow: OpenDays) -> date | None:
    """The last day of the autumn window after seed of a cool-season grass that goes in in spring; None for any other seed."""
    if not setting.cool or _half(setting, sow) != "spring" or sow.operation not in ("seed", "overseed"):
        return None
    autumns = [
        w
        for w in (*setting.missed, *setting.open(sow.operation))
        if w.operation == sow.operation and _half(setting, w) == "autumn"
    ]
    if not autumns:
        return None
    later = [w.end for w in autumns if w.start > sow.end]
    return min(later) if later else max(w.end for w in autumns) + timedelta(days=365)


def _room(setting: Setting, window: OpenDays) -> int:
    """How many passes a session has time for at the growth of its days, with a week's slack for rain and weekends."""
    every_day = DaySet(((setting.first_day, setting.last_day),))
    return max(1, _pass_days(setting, window, every_day, round(setting.book.si("passes.slack_days"))))


def crowded(setting: Setting, campaign: Campaign) -> tuple[Session, int] | None:
    """The first session with more passes than its days can hold, with how many those are: then no dates can be found.

    They hold as many as follow each other, each on the first working day on which it may be spread.
    """
    for session in campaign.sessions:
        most = _pass_days(setting, session.window, setting.work_days, 0)
        if len(session.passes) > most:
            return session, most
    return None


def _pass_days(setting: Setting, window: OpenDays, days: DaySet, slack: int) -> int:
    """The number of passes that follow each other in a window on `days`, each `slack` days later than it might come."""
    book, season = setting.book, setting.species.season
    units = book.si(f"passes.growth_{season}") if setting.living else 0.0
    grow = growth_step(setting.climate, season, setting.first_day, setting.last_day, units)
    least, count = setting.pass_interval_days, 0
    day = days.next(max(window.start.toordinal(), setting.first_day))
    while day is not None and day <= window.end.toordinal():
        count += 1
        day = days.next(max(grow(day), day + least) + slack)
    return count


def _campaign(
    setting: Setting, stretch: tuple[OpenDays, ...], sow: OpenDays | None, room: Mapping[date, int]
) -> Campaign:
    """The campaign of a run of sessions; `room` says how many passes each has time for, by its first day."""
    key, name = _words(setting, stretch, sow)
    entry = setting.book.campaigns[key]
    on_pass = (
        sow is not None
        and setting.sowing in SEEDED
        and sow.operation != "dormant_seed"
        and setting.intent != "winter_overseed"
        and bool(stretch)
    )
    passes = plan_passes(setting, [room[window.start] for window in stretch], on_pass)
    sessions = tuple(
        Session(number, window, tuple(p for p in passes if p.session == number), on_pass and number == len(stretch))
        for number, window in enumerate(stretch, 1)
    )
    book = setting.book
    last = sow or (stretch[-1] if stretch else None)
    ready = date.fromordinal(setting.first_day)
    waiting = max(0.0, ((last.start - ready).days - book.si("campaign.waiting_grace")) / 365) if last else 0.0
    cost = (
        book.si(entry.cost)
        + waiting * book.si("campaign.cost_year_of_waiting")
        + book.si("campaign.cost_session") * len(stretch)
    )
    if key == "two_years" and setting.cool and sow is not None and _half(setting, sow) == "spring":
        # However long the way, seed at its end meets weeds and its first summer young.
        cost += book.si("campaign.cost_spring")
    why = entry.why if sessions else entry.why_without_passes
    if (
        key == "two_years"
        and not setting.cool
        and setting.mean_fill_mm <= book.si("campaign.fill_strong_summer") + 1e-6
    ):
        why = (f"{setting.length(setting.depth_mm)} is more than this grass takes in one summer.", *why[1:])
    return Campaign(key, name, why, sessions, sow, cost)
