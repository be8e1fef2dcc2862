"""Plans a lawn into its folder, the first time or again: lock, journal, plan before, plan,
files.
"""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo

from turfplan.app.house_files import refresh_house
from turfplan.app.house_hours import must_give_way
from turfplan.app.inputs import PlanInputs, read_input
from turfplan.app.lawn_identity import drawn_lawn_id, refuse_known_elsewhere
from turfplan.app.lawn_journal import adopted_journal, refuse_lost_entries
from turfplan.app.outputs import Extra, outputs, words_of
from turfplan.book.words import english_of
from turfplan.errors import Problem, TurfplanError
from turfplan.files.journal import read_journal
from turfplan.files.plan_folder import folder_lock, write_outputs
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.plan import read_plan
from turfplan.files.reading.public_holidays import holidays_of_year
from turfplan.message import said
from turfplan.messages import words_for
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.planning import KnownPlace, SoFar, make_plan
from turfplan.planning.lawn_ids import given_lawn_id
from turfplan.planning.shared_hours import elsewhere_of
from turfplan.planning.standing import standing_plan
from turfplan.publishing import publish, sound_plan
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan, RankedNote
from turfplan.work.lawn import country_of, units_of

Tell = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class PlanRun:
    """How a lawn is planned into its folder: as if it were a day in its zone, with what is over
    without an entry not done, without the entries that its journal has lost (`forget`), with
    further files.

    `alone`: the caller has looked that no lawn beside it has its identity. `refreshes_house`: what
    is of the whole house in which the lawn lies is written again with it.
    """

    today: date | None = None
    assume_not_done: bool = False
    forget: bool = False
    extras: Collection[Extra] = ()
    alone: bool = False
    refreshes_house: bool = True


@dataclass(frozen=True, slots=True)
class PlannedLawn:
    """A plan that was made, the one that stood before it, and the names of the files that follow
    from it; a plan with `conflict` was not written.
    """

    plan: Plan
    before: Plan | None
    files: tuple[str, ...] = ()

    @property
    def has_news(self) -> bool:
        """Whether there was a plan before, and something that it published has changed."""
        return self.before is not None and self.plan.revision != self.before.revision

    @property
    def new_notes(self) -> tuple[RankedNote, ...]:
        """What the plan says beside its tasks that the one before did not; nothing of a first
        plan."""
        if self.before is None:
            return ()
        old = self.before
        known = {note.text for note in old.ranked} or {
            *old.cautions,
            *old.assumptions,
            *old.disagreements,
            *(caution for task in old.tasks for caution in task.cautions),
        }
        return tuple(note for note in self.plan.ranked if note.text not in known)


def plan_lawn(
    given: PlanInputs,
    folder: Path,
    journal: Path,
    *,
    tell: Tell,
    run: PlanRun = PlanRun(),
) -> PlannedLawn:
    """Plan a lawn into `folder`, again where it holds a plan, with what `journal` says has
    happened.

    `tell` hears what the user must know of the inputs, before the planning; `run` says how it is
    planned. A plan that cannot be done as asked comes back with its conflict, and the folder stays
    as it was. Raises TurfplanError for inputs that cannot be used, a lawn that is known elsewhere,
    a journal that has lost entries, a folder in use, of another lawn or that cannot be written to,
    that of its house too.
    """
    words = words_for(
        given.language,
        units_of(given.brief),
        english_of(given.book),
        country=country_of(given.brief),
        terminal=True,
    )
    for note in dict.fromkeys(given.notes):
        tell(words.text(note))
    with folder_lock(folder):
        before = plan_before(folder, given.brief.lawn.id)
        known = given_lawn_id(given.brief, before)
        told = (
            refuse_known_elsewhere(known, folder, beside=False if run.alone else None)
            if known is not None
            else ()
        )
        told = (*told, *adopted_journal(journal, folder))
        happened = read_journal(journal)
        for warning in (*told, *happened.warnings):
            tell(words.text(warning))
        if not run.forget:
            refuse_lost_entries(journal, happened, folder, before)
        made = planned(
            replace(given, notes=(*given.notes, *happened.warnings)),
            happened.entries,
            before,
            today=run.today,
            assume_not_done=run.assume_not_done,
        )
        files = {} if made.conflict else outputs(made, words_of(made), run.extras)
        if files:
            write_outputs(folder, files)
    if files and run.refreshes_house:
        refresh_house(folder)
    return PlannedLawn(made, before, tuple(files))


def planned(
    given: PlanInputs,
    entries: Sequence[JournalEntry] = (),
    before: Plan | None = None,
    *,
    today: date | None = None,
    assume_not_done: bool = False,
    lawn_id: str | None = None,
) -> Plan:
    """The plan of a lawn from all that was read, what has happened, and the plan before; nothing is
    read or written.

    A plan that another program or book made stands where nothing else is new. `lawn_id` is the
    identity of a lawn that has none yet, else one is drawn at random. Raises TurfplanError for
    names or wishes that the book does not bear out.
    """
    now = now_of(today, given.climate.timezone)
    place, before = known_place(given), known_by_values(given, before)
    notes = tuple(dict.fromkeys(map(said, given.notes)))
    so_far = SoFar(entries, before, assume_not_done, notes, brief_sha256=given.sha256)
    named = given_lawn_id(given.brief, before) or lawn_id or drawn_lawn_id()
    english = english_of(given.book)
    today_there = now.astimezone(ZoneInfo(given.climate.timezone)).date()
    stands = None
    if not must_give_way(before, given.brief, given.book, given.others, today_there):
        stands = standing_plan(given.book, place, so_far, now=now, brief_sha256=given.sha256)
    if stands is not None:
        # Its own program has judged it, by the rules that it was made by.
        words = words_for(given.language, stands.lawn.units, english, country=stands.place.country)
        return publish(stands, before, now, words)
    draft = make_plan(given.brief, given.book, place, so_far, now=now, lawn_id=named)
    words = words_for(given.language, draft.lawn.units, english, country=draft.place.country)
    return sound_plan(draft, before, now, words, given.brief, given.book)


def known_by_values(given: PlanInputs, before: Plan | None) -> Plan | None:
    """The plan before, which earlier programs knew by the bytes of its brief and of the files that
    it names, as one that knows them by their values: where the bytes are the same nothing is new.
    """
    if before is None:
        return None
    known: dict[str, str | None] = {}
    if before.brief_sha256 in given.earlier_sha256:
        known["brief_sha256"] = given.sha256
    if before.files_sha256 is not None and before.files_sha256 == given.earlier_files_sha256:
        known["files_sha256"] = given.files_sha256
    return before.model_copy(update=known)


def known_place(given: PlanInputs) -> KnownPlace:
    """What was read of the place of a lawn."""
    return KnownPlace(
        given.climate,
        given.ground,
        given.weather,
        given.real_years,
        holidays_of_year,
        given.files_sha256,
        elsewhere_of(given.others),
    )


def replan_lawn(brief: Path, folder: Path, *, tell: Tell, today: date | None = None) -> PlannedLawn:
    """Plan a lawn again from its brief and the journal beside it; raises TurfplanError as
    `plan_lawn` does.
    """
    return plan_lawn(
        read_input(brief), folder, journal_beside(brief), tell=tell, run=PlanRun(today=today)
    )


def plan_before(folder: Path, lawn_id: str | None) -> Plan | None:
    """The plan that the folder holds; that of another lawn is refused with TurfplanError, not
    written over.
    """
    previous = read_plan(folder)
    if previous is not None and lawn_id and previous.lawn_id != lawn_id:
        raise TurfplanError(
            Problem(
                str(folder),
                phrases.another_lawn(),
                previous.lawn_id,
                lawn_id,
                errors.other_folder(),
            )
        )
    return previous


def now_of(today: date | None, timezone: str) -> datetime:
    """The moment a plan is made: the given day's midnight in the lawn's zone, else this moment."""
    if today is None:
        return datetime.now(UTC)
    return datetime.combine(today, time(), ZoneInfo(timezone))
