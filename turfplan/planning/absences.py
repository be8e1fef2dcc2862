"""What waits for another season because nobody is there to work or to water, and what would spare
it, each dated by every rule before it is offered."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.book.words import grass_name
from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Day, Days, Listed, Message, as_written, listed
from turfplan.phrases import absences as phrases
from turfplan.phrases import ways_out as ways
from turfplan.planning.changed_briefs import ChangedBrief, with_part
from turfplan.planning.ways_out import MOST_OPTIONS, MainWork, Tried, leads_to, work_of
from turfplan.records.brief import Brief, Span
from turfplan.records.plan import Option
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.watering.hose import by_hand

# New dates that are tried before it is given up.
MOST_TRIED = 5


@dataclass(frozen=True, slots=True)
class PutOff:
    """What an absence puts off: as it is told, the absences, and ways to have it in its season."""

    told: Message
    spans: tuple[Span, ...]
    options: tuple[Option, ...]


def put_off(brief: Brief, setting: ResolvedLawn, tried: Tried, *, options: bool) -> PutOff | None:
    """The main work that absences push beyond the season in which it could be done, else None.

    It is dated once as the brief asks and once as if nobody were ever away. Without `options` no
    ways are looked for.
    """
    spans = (*brief.calendar.away, *brief.calendar.unavailable)
    if not spans:
        return None
    at_home = with_part(brief, "calendar", away=(), unavailable=())
    now, there = _dated(tried, brief), _dated(tried, at_home)
    if now is None or there is None or there.season is None:
        return None
    assert now.last is not None and there.last is not None  # dated work has days
    begins, ends = there.season
    weeks = timedelta(setting.days("seeding.watering_commitment"))
    in_it = tuple(span for span in spans if span.start - weeks <= ends and span.end >= begins)
    if now.last <= ends or not in_it:
        return None
    lost = _Lost(brief, setting, in_it, there.last, begins, ends)
    ways_there = _spared(lost, tried, now.last) if options else ()
    return PutOff(_told(lost, tried, now.last), in_it, ways_there)


@dataclass(frozen=True, slots=True)
class _Lost:
    """Main work that could be done on the day `last` of the season from `begins` to `ends`, were
    nobody away on `spans`."""

    brief: Brief
    setting: ResolvedLawn
    spans: tuple[Span, ...]
    last: date
    begins: date
    ends: date

    @property
    def by_hose(self) -> bool:
        """Whether what is sown or planted dries out while nobody is there."""
        return by_hand(self.brief.water) and self.setting.sowing.needs_water

    @property
    def timed(self) -> Brief:
        """The brief with water that runs by itself."""
        return with_part(self.brief, "water", timer=True) if self.by_hose else self.brief


def _dated(tried: Tried, brief: Brief) -> MainWork | None:
    """The main work of a brief, or None where it has none, or cannot be dated."""
    work = work_of(tried, brief)
    return work if work is not None and work.last is not None else None


def _told(lost: _Lost, tried: Tried, until: date) -> Message:
    """Which absence, what waits, from which day until which, and why."""
    away, what = _listed(lost.spans), _what(lost.setting)
    day, then = Day(lost.last), Day(until)
    n = round((until - lost.last).days / len(WEEKDAYS))
    if not lost.by_hose:
        return phrases.work_waits(away=away, what=what, day=day, until=then, n=n)
    timed, weeks = _dated(tried, lost.timed), lost.setting.days("seeding.watering_commitment")
    water_alone = timed is not None and timed.last is not None and timed.last <= lost.ends
    tell = phrases.water_waits if water_alone else phrases.both_wait
    return tell(away=away, what=what, day=day, until=then, n=n, days=weeks)


def _what(setting: ResolvedLawn) -> Message:
    """What waits, in the words of the lawn."""
    filled = bool(setting.levelling.bands)
    if setting.sowing.operation is None:
        return phrases.fill()
    grass = grass_name(setting.book, setting.sowing.grass.id)
    if setting.sowing.operation == "plant":
        return phrases.fill_and_plants(grass=grass) if filled else phrases.plants(grass=grass)
    return phrases.fill_and_seed(grass=grass) if filled else phrases.seed(grass=grass)


def _spared(lost: _Lost, tried: Tried, otherwise: date) -> tuple[Option, ...]:
    """The ways that lead to a day before `otherwise`; of new dates the first that save the season,
    and a contractor where nothing else that needs somebody there does.
    """
    found: list[Option] = []
    saved = False
    for kind in (_somebody_waters, _hired, _later, _sooner, _other_work):
        if kind is _hired and saved:
            continue
        for change in kind(lost):
            work = _dated(tried, change.brief)
            if work is None or work.last is None or work.last >= otherwise:
                continue
            in_season = work.last <= lost.ends
            if kind in (_later, _sooner) and not in_season:
                continue
            found.append(Option(title=change.title, reason=leads_to(work), change=change.lines))
            saved = saved or in_season
            if kind in (_later, _sooner):
                break
    return tuple(found[:MOST_OPTIONS])


def _somebody_waters(lost: _Lost) -> Iterator[ChangedBrief]:
    """Water that runs by itself, or somebody else who waters."""
    calendar = lost.brief.calendar
    if not lost.by_hose:
        return
    yield ChangedBrief(ways.a_timer(), as_written("timer = true"), lost.timed)
    if calendar.away:
        both = (*calendar.unavailable, *calendar.away)
        yield _other_calendar(phrases.neighbour(), lost, (), both)


def _hired(lost: _Lost) -> Iterator[ChangedBrief]:
    """A contractor, who works while nobody is at home; what he sows waters itself."""
    if lost.brief.work.by == "contractor":
        return
    hired = with_part(lost.timed, "work", by="contractor")
    if lost.by_hose:
        lines = as_written('by = "contractor", timer = true')
        yield ChangedBrief(phrases.contractor_and_timer(), lines, hired)
    else:
        yield ChangedBrief(phrases.contractor(), as_written('by = "contractor"'), hired)


def _later(lost: _Lost) -> Iterator[ChangedBrief]:
    """The absences put off until what is done on its day needs nobody any more."""
    weeks = lost.setting.days("seeding.watering_commitment") if lost.by_hose else 0
    after = lost.last + timedelta(weeks + 1)
    for start in (after, after + timedelta(len(WEEKDAYS))):
        by = start - lost.spans[0].start
        if by > timedelta(0):
            moved = {s: Span(**{"from": s.start + by, "to": s.end + by}) for s in lost.spans}
            title = phrases.go_later(days=_listed(moved.values()))
            yield _other_calendar(title, lost, *_moved(lost, moved))


def _sooner(lost: _Lost) -> Iterator[ChangedBrief]:
    """Absences that end as late as the season allows, week by week; what begins after that is given
    up."""
    last = min(lost.ends, max(s.end for s in lost.spans))
    for weeks in range(1, MOST_TRIED + 1):
        end = last - timedelta(weeks * len(WEEKDAYS))
        moved = {
            s: Span(**{"from": s.start, "to": min(s.end, end)})
            for s in lost.spans
            if s.start <= end
        }
        if moved:
            title = phrases.back_by(day=Day(end))
            yield _other_calendar(title, lost, *_moved(lost, moved))


def _moved(lost: _Lost, moved: Mapping[Span, Span]) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    """The days away and without work, with others in place of those that put the work off."""

    def laid(of: tuple[Span, ...]) -> tuple[Span, ...]:
        return tuple(moved.get(s, s) for s in of if s in moved or s not in lost.spans)

    calendar = lost.brief.calendar
    return laid(calendar.away), laid(calendar.unavailable)


def _other_calendar(
    title: Message, lost: _Lost, away: tuple[Span, ...], unavailable: tuple[Span, ...]
) -> ChangedBrief:
    """Other days of absence, as the brief writes those that change."""
    calendar, lines = lost.brief.calendar, []
    if away != calendar.away:
        lines.append(f"away = {_written(away)}")
    if unavailable != calendar.unavailable:
        lines.append(f"unavailable = {_written(unavailable)}")
    brief = with_part(lost.brief, "calendar", away=away, unavailable=unavailable)
    return ChangedBrief(title, as_written(", ".join(lines)), brief)


def _other_work(lost: _Lost) -> Iterator[ChangedBrief]:
    """Sod, seed in spring, seed that waits for spring."""
    brief, sowing = lost.brief, lost.setting.sowing
    if sowing.intent not in ("overseed", "renovate", "patch") or sowing.operation == "plant":
        return
    if "sod" in sowing.grass.plantable:
        yield ChangedBrief(
            phrases.sod(),
            as_written('intent = "plant", form = "sod"'),
            with_part(brief, "seeding", intent="plant", form="sod"),
        )
    if sowing.grass.season == "cool":
        yield ChangedBrief(
            phrases.in_spring(),
            as_written('campaign = "spring"'),
            with_part(brief, "season", campaign="spring"),
        )
        yield ChangedBrief(
            ways.sow_dormant(),
            as_written('intent = "dormant"'),
            with_part(brief, "seeding", intent="dormant"),
        )


def _written(spans: Iterable[Span]) -> str:
    """Spans as the brief writes them."""
    return "[" + ", ".join(f"{{ from = {s.start}, to = {s.end} }}" for s in spans) + "]"


def _listed(spans: Iterable[Span]) -> Listed:
    return listed((Days(s.start, s.end, weekday=False) for s in spans), "and")
