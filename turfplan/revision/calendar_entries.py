"""Entries of a calendar that are no task's own, numbered and stamped against the plan before."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from turfplan.message import Message, as_written
from turfplan.messages.day_entry import leaving
from turfplan.phrases import changes
from turfplan.phrases import entry as phrases
from turfplan.records.numbering import feed_id
from turfplan.records.plan_calendar import CalendarEntry, CalendarEntryKind
from turfplan.records.plan_task import PublishedEntry, Task
from turfplan.revision.feed_entries import timing, uid
from turfplan.revision.news import RevisionRun
from turfplan.revision.reminders import reminders
from turfplan.revision.watering_days import EntryDraft, days_of, watering_days


@dataclass(frozen=True, slots=True)
class EntryRevision:
    """An entry as it is to be published, beside what it was in the plan before (None: it is new).

    `since` is the task whose own entry it takes over with its sequence and its first stamp.
    """

    name: str
    kind: CalendarEntryKind
    tasks: tuple[str, ...]
    published: PublishedEntry
    before: CalendarEntry | None = None
    since: Task | None = None

    @property
    def shows_the_same(self) -> bool:
        """Whether a subscriber sees no difference."""
        return self.before is not None and self.before.published == self.published


def revised_entries(
    run: RevisionRun,
    shown: Sequence[tuple[Task, PublishedEntry, Task | None]],
    retired: frozenset[str],
) -> tuple[EntryRevision, ...]:
    """Every entry that is no task's own; `shown` are the tasks with what is published of them and
    what they were in the plan before, `retired` the ids that have left the feed."""
    before = {entry.id: entry for entry in run.previous.calendar_entries} if run.previous else {}
    tasks = [(task, entry) for task, entry, _ in shown]
    names = {task.id for task, _ in tasks}
    watered = _in_feed_words(watering_days(run, tasks, before, names), retired)
    asked = _in_feed_words(reminders(run, tasks, before.keys()), retired)
    found: dict[str, EntryRevision] = {}
    for drafts in (watered, asked):
        for name, draft in drafts.items():
            kind: CalendarEntryKind = "watering" if drafts is watered else _kind(name)
            found[name] = _drafted(run, name, kind, draft, before.get(name))
    left = _left(run, shown)
    open_jobs = {task.id: task for task, of in tasks if not task.closed and of.end >= run.today}
    visible = {task.id for task, entry in tasks if not entry.hidden}
    for name, entry in before.items():
        if name in found or name in left or (entry.kind == "left" and name in visible):
            continue
        found[name] = _gone(run, entry, open_jobs)
    return tuple((found | left)[name] for name in sorted(found | left))


def _in_feed_words(
    drafts: Mapping[str, EntryDraft], retired: frozenset[str]
) -> dict[str, EntryDraft]:
    return {feed_id(name, retired): draft for name, draft in drafts.items()}


def _kind(name: str) -> CalendarEntryKind:
    return "eve" if name.startswith("eve.") else "week"


def _drafted(
    run: RevisionRun,
    name: str,
    kind: CalendarEntryKind,
    draft: EntryDraft,
    before: CalendarEntry | None,
) -> EntryRevision:
    """An entry that the plan asks for; what is over and lies in the past stays as it was."""
    shown, tasks = draft.published, draft.tasks
    if before is not None and before.published.end < run.today and shown.end < run.today:
        shown, tasks = before.published, before.tasks
    return EntryRevision(name, kind, tasks, shown, before)


def _left(
    run: RevisionRun, shown: Iterable[tuple[Task, PublishedEntry, Task | None]]
) -> dict[str, EntryRevision]:
    """Runs that had entries of their own until now, and leave the calendar for another form."""
    found = {}
    for task, entry, before in shown:
        was = before.published if before is not None else None
        if before is None or was is None or was.hidden or was.cancelled or not entry.hidden:
            continue
        title = as_written(was.summary)
        if run.draft.calendar.watering == "day":
            said = phrases.now_by_day(title=title), phrases.why_by_day()
        else:
            said = phrases.moved_out(title=title), phrases.why_moved_out()
        # What is dropped at the same time says that, and not where it went.
        dropped = entry.model_copy(update={"hidden": False})
        gone = dropped if entry.cancelled else leaving(run.words, was, *said)
        found[task.id] = EntryRevision(task.id, "left", (task.id,), gone, None, before)
    return found


def _gone(run: RevisionRun, entry: CalendarEntry, open_jobs: Mapping[str, Task]) -> EntryRevision:
    """An entry that the plan no longer asks for.

    History stays, a running one ends early, one to come says why it leaves.
    """
    shown = entry.published
    if shown.end >= run.today and not shown.cancelled:
        ran = tuple(day for day in days_of(shown) if day < run.today)
        if entry.kind == "watering" and ran:
            shown = _cut_short(run, shown, ran)
        else:
            shown = leaving(run.words, shown, *_why_it_leaves(run, entry, open_jobs))
    return EntryRevision(entry.id, entry.kind, entry.tasks, shown, entry)


def _cut_short(run: RevisionRun, shown: PublishedEntry, ran: tuple[date, ...]) -> PublishedEntry:
    """An entry of several days without those from today on."""
    change = changes.ended_early(because=changes.because_not_needed())
    told = run.words.text(phrases.changed(change=change))
    update = {
        "description": f"{told}\n{shown.description}",
        "start": ran[0],
        "end": ran[-1],
        "days": ran if len(ran) > 1 else (),
    }
    return shown.model_copy(update=update)


def _why_it_leaves(
    run: RevisionRun, entry: CalendarEntry, open_jobs: Mapping[str, Task]
) -> tuple[Message, Message]:
    """The title and the text of an entry that leaves: where it went, or that it is not needed.

    `open_jobs` are the tasks that are still to be done, by id."""
    title, form = as_written(entry.published.summary), run.draft.calendar
    if entry.kind == "watering" and form.watering == "each":
        return phrases.now_by_run(title=title), phrases.why_by_run()
    if entry.kind == "watering" and form.watering == "none":
        return phrases.moved_out(title=title), phrases.why_moved_out()
    if (entry.kind == "eve" and not form.eve) or (entry.kind == "week" and not form.week):
        return phrases.moved_out(title=title), phrases.why_no_reminder()
    named = open_jobs.get(entry.id.removeprefix("eve.")) if entry.kind == "eve" else None
    if named is not None:
        # The work is not cancelled: it stands in the reminder that another job of its day names.
        return phrases.reminder_moved(title=named.title), phrases.why_reminder_moved()
    return changes.cancelled(title=title), changes.because_not_needed()


def stamped_entry(lawn_id: str, entry: EntryRevision, stamp: datetime) -> CalendarEntry:
    """The entry with its identity, sequence and stamps, as a task has them."""
    before, since = entry.before, entry.since
    sequence, created, modified = 0, stamp, stamp
    if since is not None:
        sequence, created = since.sequence + 1, since.created or stamp
    elif before is not None:
        sequence = before.sequence + (timing(entry.published) != timing(before.published))
        created = before.created
        modified = before.last_modified if entry.shows_the_same else stamp
    return CalendarEntry(
        id=entry.name,
        uid=uid(lawn_id, entry.name),
        kind=entry.kind,
        tasks=entry.tasks,
        sequence=sequence,
        created=created,
        last_modified=modified,
        published=entry.published,
    )


def out_of_grace(entry: EntryRevision, moment: datetime, grace: timedelta) -> bool:
    """Whether an entry that has left was shown as such for long enough."""
    before = entry.before
    if before is None or not (before.published.cancelled and entry.published.cancelled):
        return False
    return moment - before.last_modified > grace
