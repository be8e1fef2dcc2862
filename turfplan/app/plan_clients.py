"""Plans all lawns of a data folder that have news, each in its folder, whatever becomes of the
others."""

import hashlib
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

from turfplan.app.client_ends import left_clients
from turfplan.app.client_import import bring_row
from turfplan.app.client_rows import checked_rows
from turfplan.app.client_season import (
    SUMMARY,
    ClientSeason,
    News,
    RowState,
    season_of,
    write_summary,
)
from turfplan.app.client_standing import left_season, standing_of
from turfplan.app.data_folders import clients_in
from turfplan.app.inputs import read_input
from turfplan.app.lawn_day import today_here
from turfplan.app.lawn_glimpse import glimpse_of
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.outputs import warm_up, words_of
from turfplan.app.plan_lawn import PlannedLawn, PlanRun, plan_lawn
from turfplan.app.reader_language import language_of
from turfplan.app.worker_pool import done_by_processes
from turfplan.business.groups import ClientGroup, in_group
from turfplan.errors import TurfplanError
from turfplan.export.sheets.names import operation_name
from turfplan.files.client_form import keep_form
from turfplan.files.data_folder import BRIEF, lawn_folders, lawns_in
from turfplan.files.glance_index import (
    GlanceIndex,
    KnownLawn,
    glance_index,
    inputs_in,
    remove_index,
    stamp_of,
)
from turfplan.files.named_copies import names_of
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.business import read_business
from turfplan.files.reading.clients import ClientRow, read_client_file
from turfplan.files.system_faults import reason_of, unwritable
from turfplan.message import Message, listed
from turfplan.messages import Words
from turfplan.messages.problems import error_text, words_for_errors
from turfplan.phrases import clients as phrases
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan

# Work whose last safe day is so near is told.
NEAR_DAYS = 14
# What is said where the disk took no file.
_UNWRITTEN = frozenset({"files.outputs_unwritten", "files.unwritable"})
# So many changes of a lawn are told in a line.
TOLD_CHANGES = 4


@dataclass(frozen=True, slots=True)
class PlannedClients:
    """What became of all lawns, and why the summary could not be written, if it could not; `unsold`
    are the lawns at which nobody works, since no quote of them is accepted."""

    seasons: tuple[ClientSeason, ...]
    today: date
    problem: TurfplanError | None = None
    unsold: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class ToPlan:
    """A lawn that is to be planned: its folder, the line of its row, and the sum of that; the sum
    of the rules of its group and place; whether a pause, or the wait for an answer, has taken
    days since it was planned; whether nobody works there, since no quote of it is accepted."""

    folder: Path
    line: int = 0
    row: str = ""
    rules: str = ""
    was_paused: bool = False
    unsold: bool = False


@dataclass(frozen=True, slots=True)
class _Done:
    """A lawn that was planned, with the stamp of all that its plan follows from."""

    season: ClientSeason
    known: KnownLawn


SeenLawn = Callable[[ClientSeason, int, int], None]


def plan_clients(
    file: Path | None,
    output: Path,
    *,
    seen: SeenLawn,
    run: PlanRun,
    processes: int = 2,
    group: ClientGroup | None = None,
) -> PlannedClients:
    """Bring the good rows of a file, where one is given, into the data folder `output`, and plan
    its lawns that have news, with `summary.csv`; nothing that befalls one stops the rest.

    `seen` hears of each as it ends, with how many are done and how many there are. Raises
    TurfplanError for a file or a folder that cannot be used at all.
    """
    today = run.today or today_here()
    with _folder_for_many(output), glance_index(output) as index:
        known = {} if run.forget else index.known()
        done: list[ClientSeason] = []
        wanted, faulty = _from_file(file, output, known) if file else (_all(output), ())
        wanted = _of_group(wanted, output, group)
        wanted, resting = standing_of(wanted, output, today, known)
        faulty = (*faulty, *resting)
        rows = len(wanted) + len(faulty)

        def ends(season: ClientSeason) -> None:
            done.append(season)
            seen(season, len(done), rows)

        for season in faulty:
            ends(season)
        news = []
        for lawn in wanted:
            stands = _standing(lawn, known.get(lawn.folder.name), run)
            if stands is None:
                news.append(lawn)
            else:
                ends(stands)
        _plan(news, index, run, processes, ends)
    order = {lawn.folder.name: number for number, lawn in enumerate(wanted)}
    seasons = sorted(done, key=lambda one: (one.line, order.get(one.client, 0)))
    problem = write_summary(output / SUMMARY, seasons, today)
    unsold = frozenset(lawn.folder.name for lawn in wanted if lawn.unsold)
    return PlannedClients(tuple(seasons), today, problem, unsold)


@contextmanager
def _folder_for_many(output: Path) -> Iterator[None]:
    """The data folder, made where it is missing; it goes again where no lawn came into it."""
    made = [folder for folder in (output, *output.parents) if not folder.exists()]
    try:
        output.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise TurfplanError(unwritable(output, error)) from None
    try:
        yield
    finally:
        if made and not lawn_folders(lawns_in(output)):
            remove_index(output)
            with suppress(OSError):
                for folder in made:
                    folder.rmdir()


def _all(output: Path) -> tuple[ToPlan, ...]:
    return tuple(ToPlan(folder) for folder in clients_in(output))


def _of_group(
    wanted: tuple[ToPlan, ...], output: Path, group: ClientGroup | None
) -> tuple[ToPlan, ...]:
    if group is None:
        return wanted
    found = set(in_group(clients_in(output), group))
    return tuple(lawn for lawn in wanted if lawn.folder in found)


def _from_file(
    file: Path, output: Path, known: Mapping[str, KnownLawn]
) -> tuple[tuple[ToPlan, ...], tuple[ClientSeason, ...]]:
    """The lawns of the good rows of a file, brought in, and what is wrong with the others."""
    read, lawns = read_client_file(file, read_business(output)), lawns_in(output)
    sums = {row.line: _sum_of(row, file.parent) for row in read.rows}

    def is_known(row: ClientRow) -> bool:
        lawn = known.get(row.id) if row.problem is None else None
        return lawn is not None and lawn.row == sums[row.line] and lawn.still_holds(lawns / row.id)

    good, faulty = [], []
    left = left_clients(output)
    for row in checked_rows(read, lawns, known=is_known):
        if row.id in left:
            faulty.append(left_season(row.id, left[row.id], row.line))
            continue
        fault = None if is_known(row) and row.problem is None else _brought(row, file, lawns)
        if fault is None:
            good.append(ToPlan(lawns / row.id, row.line, sums[row.line]))
        else:
            faulty.append(fault)
    if good:
        # Where the disk refuses it, the file is only given back in the usual form.
        with suppress(TurfplanError):
            keep_form(output, read)
    return tuple(good), tuple(faulty)


def _sum_of(row: ClientRow, base: Path) -> str:
    """The sum of all that a row says, and of the files that it names."""
    files = stamp_of(base, names_of(row.brief).values()) if isinstance(row.brief, Brief) else {}
    said = json.dumps([row.tables, row.client, files], sort_keys=True, default=str)
    return hashlib.sha256(said.encode()).hexdigest()


def _brought(row: ClientRow, file: Path, lawns: Path) -> ClientSeason | None:
    """Bring a row into its folder; what is wrong where it cannot be."""
    try:
        if row.problem is not None:
            raise row.problem
        bring_row(row, file, lawns / row.id)
    except (TurfplanError, OSError) as error:
        return _fault(row.line, row.id, error)
    return None


def _fault(line: int, client: str, error: Exception, notes: Sequence[str] = ()) -> ClientSeason:
    """What is told of a lawn that a fault of its input, of the disk or of the program stopped."""
    words = words_for_errors(language_of(None))
    state: RowState = "fault"
    if isinstance(error, TurfplanError):
        state = "not written" if _is_of_disk(error) else "bad row"
        told = error_text(error, words, "; ")
    elif isinstance(error, OSError):
        state, told = "not written", words.text(reason_of(error))
    else:
        told = words.text(phrases.fault(what=f"{type(error).__name__}: {error}"))
    return ClientSeason(line=line, client=client, state=state, campaign=told, notes=tuple(notes))


def _is_of_disk(error: TurfplanError) -> bool:
    """Whether nothing but the disk stopped a lawn: its input is none the worse for it."""
    messages = (problem.message for problem in error.problems)
    return all(isinstance(one, Message) and one.key in _UNWRITTEN for one in messages)


def _standing(lawn: ToPlan, known: KnownLawn | None, run: PlanRun) -> ClientSeason | None:
    """What is known of a lawn without news; None where it has to be planned.

    A job that is over since the plan was made is news: sheets say that it is overdue.
    """
    if known is None or run.extras or run.assume_not_done or not known.still_holds(lawn.folder):
        return None
    if lawn.was_paused:
        return None
    season = season_of(known.said)
    if season is None or season.rules != lawn.rules:
        return None
    glance = season.glance
    zone = ZoneInfo(glance.zone) if glance is not None else UTC
    today = run.today or datetime.now(UTC).astimezone(zone).date()
    if glance is None:
        if season.on != today:
            return None
    elif not glance.told_over(today):
        return None
    return season.model_copy(update={"line": lawn.line, "news": "none", "changes": ()})


def _plan(
    lawns: Sequence[ToPlan],
    index: GlanceIndex,
    run: PlanRun,
    processes: int,
    ends: Callable[[ClientSeason], None],
) -> None:
    """Plan lawns in several processes; what is known of each is kept as it ends, so that a run that
    is stopped goes on where it was."""
    if lawns and processes > 1:
        # Read once here, and not in each process that is forked from this one.
        warm_up()
    work = partial(plan_client, run=replace(run, alone=True))
    for lawn, done in done_by_processes(work, lawns, processes):
        if done is None:
            words = words_for_errors(language_of(None))
            lost = words.text(phrases.process_ended())
            name = lawn.folder.name
            ends(ClientSeason(line=lawn.line, client=name, state="fault", campaign=lost))
            continue
        if done.season.state in ("planned", "not possible"):
            index.keep(lawn.folder.name, done.known)
        ends(done.season)


def plan_client(lawn: ToPlan, *, run: PlanRun) -> _Done:
    """Plan the lawn of a folder; every fault of its input, of the disk, and of the program, becomes
    words."""
    folder, notes = lawn.folder, list[str]()
    stamp = stamp_of(folder, inputs_in(folder))
    try:
        given = read_input(folder / BRIEF, of_client=True)
        stamp = {**stamp, **stamp_of(folder, names_of(given.brief).values())}
        journal = journal_beside(folder / BRIEF)
        # What a pause took was not done, nor what nobody has bought: nobody was there.
        nobody = lawn.was_paused or lawn.unsold
        run = replace(run, assume_not_done=run.assume_not_done or nobody)
        done = plan_lawn(given, folder, journal, tell=notes.append, run=run)
        season = _season(lawn, done, tuple(notes))
    except Exception as error:
        season = _fault(lawn.line, folder.name, error, notes)
        return _Done(season, KnownLawn(lawn.row, {}, ""))
    stamp = {**stamp, **stamp_of(folder, done.files)}
    return _Done(season, KnownLawn(lawn.row, stamp, season.model_dump_json()))


def _season(lawn: ToPlan, done: PlannedLawn, notes: tuple[str, ...]) -> ClientSeason:
    """What is said of a plan."""
    plan, client = done.plan, lawn.folder.name
    if plan.conflict is not None:
        return ClientSeason(
            line=lawn.line,
            client=client,
            state="not possible",
            campaign=" ".join(map(str, plan.conflict.reasons)),
            order="; ".join(str(option.title) for option in plan.options),
            notes=notes,
            on=plan.now.astimezone(ZoneInfo(plan.timezone)).date(),
            rules=lawn.rules,
        )
    glance = glimpse_of(plan, entries_of_lawn(lawn.folder))
    news: News = "first" if done.before is None else "changed" if done.has_news else "none"
    return ClientSeason(
        line=lawn.line,
        client=client,
        state="planned",
        campaign=glance.campaign,
        first_work=glance.first_work,
        main_work=glance.main_work,
        order=glance.order,
        notes=notes,
        news=news,
        changes=tuple(_changes(plan, words_of(plan))) if news == "changed" else (),
        glance=glance,
        rules=lawn.rules,
    )


def _changes(plan: Plan, words: Words) -> list[str]:
    """What differs from the plan before, of jobs: which kinds of work moved from which days to
    which, and what else; the first few, and how many there are besides.

    No amounts are told, so that lawns to which the same happens have the same to tell.
    """
    named: dict[tuple[str, str, str], dict[str, None]] = {}
    for change in plan.changes:
        task = plan.task(change.task)
        if task is None or task.series is not None or change.kind == "reworded":
            continue
        days = (str(change.before or ""), str(change.after or ""))
        key = (change.kind, *(days if all(days) and change.kind == "moved" else ("", "")))
        name = operation_name(plan, task.operation, words)
        named.setdefault(key, {}).setdefault(name)
    told = []
    for (kind, before, after), names in named.items():
        title = words.value(listed(tuple(names), "comma"))
        said = phrases.other_change(title=title, kind=words.say(f"changes.kind.{kind}"))
        if before:
            said = phrases.moved(title=title, before=before, after=after)
        told.append(words.text(said))
    if len(told) > TOLD_CHANGES:
        more = words.text(phrases.and_more(n=len(told) - TOLD_CHANGES + 1))
        return [*told[: TOLD_CHANGES - 1], more]
    return told
