"""Parts what is told of a job between its two columns, steps and notes, so that both are short.

Heights in mm are reckoned from the widths and sizes of `templates/static/week.css`.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from types import MappingProxyType
from typing import Literal

from turfplan.export.sheets.go_signs import Wait
from turfplan.export.sheets.week_jobs import Job

MM_IN_POINT = 25.4 / 72
# The mean width of a character of running text in em, with a little for the ends of lines.
CHARACTER_EM = 0.42
# The same of titles and figures, which are set bold.
BOLD_EM = 0.44
TEXT, NOTE = 10.5, 10.5
LINE_MM, NOTE_LINE_MM, GAP_MM, NOTE_GAP_MM = 4.52, 4.52, 0.6, 1.1
TICK_MM, TICK_LINE_MM = 7.2, 6.1
# The first row of what is written down, with the space above it, each further one, and one of what
# is told and written in lines over the whole width.
RECORD_MM, USED_MM, WRITTEN_MM = 8.7, 5.7, 6.2
# What the ragged ends of lines lose in a narrow column.
RAGGED_MM = 3.5
# The columns on the narrower paper.
DOING_MM, SIDE_MM, WIDE_MM, ACROSS_MM = 106.0, 48.0, 143.0, 156.0
BETWEEN_TICKS_MM, BETWEEN_FIGURES_MM = 4.0, 6.0
TITLE_POINTS, FIGURE_POINTS, FIGURE_OF_POINTS = 17.5, 24.0, 9.0
SIGN_WIDE_MM, BOX_PAD_MM, GO_WORD_MM = 156.0, 5.5, 16.0
# The shares of the width that the box of what must hold may take; in a draw the first.
GO_SHARES = (50, 42, 36, 58, 64)
# What a last line may run over by: in a paragraph the ends of lines even out.
A_LITTLE = 0.02
# Beside so many notes a reason is one too many.
MANY_NOTES = 4
SideNoteKind = Literal["wrong", "mind", "looks", "why_now"]
# How many characters the words take with which a note begins, what is done before a job begins and
# when else it is done.
NOTE_WORDS: Mapping[SideNoteKind, int] = MappingProxyType(
    {"wrong": 22, "mind": 6, "looks": 20, "why_now": 10}
)
DONE_WORDS, ONLY_WORDS, EACH_DAY_WORDS, WAIT_WORDS = 11, 10, 12, 30
# The same, with its blank lines, of what is written down over the whole width; of the word that
# waiting begins with and `for`, of the last good day, of no later workday.
WRITTEN_WORDS, WAIT_FOR_WORDS, LAST_DAY_WORDS, NO_DAY_WORDS = 52, 14, 15, 13


@dataclass(frozen=True, slots=True)
class Note:
    """What is told of a job beside its steps, with what kind it is of."""

    kind: SideNoteKind
    text: str


@dataclass(frozen=True, slots=True)
class JobColumns:
    """The notes below the steps of a job, those beside them, and how high all of it is; `wide`
    where steps on the whole width take less room than two columns, `figures_beside` where the
    figures stand beside the title."""

    wide: bool
    figures_beside: bool
    below: tuple[Note, ...]
    beside: tuple[Note, ...]
    height: float


def columns(job: Job, *, for_itself: bool) -> JobColumns:
    """Each note goes where the job grows least, a reason only where it does not grow.

    `for_itself` where the first tick of the job holds its own conditions.
    """
    wide = _one_column(job, for_itself=for_itself)
    doing, side = _steps(job, DOING_MM, for_itself=for_itself), _written(job)
    figures = beside_title(job, SIGN_WIDE_MM) > 0
    below: list[Note] = []
    beside: list[Note] = []
    for note in _notes(job):
        here = doing + text_height([_begun(note)], DOING_MM)
        there = side + note_height(_begun(note), SIDE_MM)
        grows = min(here, there) > max(doing, side)
        if note.kind == "why_now" and (grows or len(below) + len(beside) >= MANY_NOTES):
            # The season book gives each reason: here it stands where it takes no room.
            continue
        if max(here, side) < max(doing, there):
            doing = here
            below.append(note)
        else:
            side = there
            beside.append(note)
    if wide < max(doing, side):
        told = tuple(note for note in _notes(job) if note.kind != "why_now")
        return JobColumns(True, figures, below=told, beside=(), height=wide)
    return JobColumns(
        False, figures, below=tuple(below), beside=tuple(beside), height=max(doing, side)
    )


def _one_column(job: Job, *, for_itself: bool) -> float:
    """The height of a job whose steps take the whole width, and its notes a line below them."""
    told = [_begun(note) for note in _notes(job) if note.kind != "why_now"]
    written = f"{job.hours} {job.done_when}" + " " * (WRITTEN_WORDS + 30 * len(job.figures.used))
    return (
        _steps(job, WIDE_MM, for_itself=for_itself)
        + text_height(told, WIDE_MM)
        + lines_of(len(written), ACROSS_MM, NOTE) * WRITTEN_MM
    )


def _begun(note: Note) -> str:
    """A note as long as it is with the words that it begins with."""
    return " " * NOTE_WORDS[note.kind] + note.text


def _notes(job: Job) -> Iterable[Note]:
    if job.wrong:
        yield Note("wrong", job.wrong)
    yield from (Note("mind", text) for text in job.rules.mind)
    if job.looks:
        yield Note("looks", " ".join(look.rstrip(".") + "." for look in job.looks))
    if job.task.why:
        yield Note("why_now", job.task.why.text)


def _steps(job: Job, width: float, *, for_itself: bool) -> float:
    """The height of the steps of a job, with the tick before them that stops it alone."""
    told = text_height([step.text for step in job.task.how], width - TICK_MM, TICK_LINE_MM)
    if for_itself and (job.rules.conditions or job.rules.known):
        first = "; ".join((*job.rules.known, *job.rules.conditions)) + " " * ONLY_WORDS
        first += " " * EACH_DAY_WORDS * (job.task.duration_days > 1)
        wait = f"{job.wait.next_day} {job.wait.last_day} {' '.join(job.wait.then)}"
        wait += " " * WAIT_WORDS
        wait += job.wait.moves
        told += text_height([first], width - TICK_MM, TICK_LINE_MM)
        told += text_height([wait], width - TICK_MM - 4)
    also = " ".join(f"{q.item} {q.planned}" for q in job.figures.others)
    return told + text_height([also and also + " also", " " * 70 * bool(job.map)], width)


def _written(job: Job) -> float:
    """The height of how long it takes, when it is done, and what is written down."""
    done = job.done_when and " " * DONE_WORDS + job.done_when
    told = sum(note_height(text, SIDE_MM) for text in (job.hours, done) if text)
    return told + RECORD_MM + USED_MM * len(job.figures.used)


def sign_shares(go: Sequence[str], wait: Wait, *, alone: bool, inline: bool) -> tuple[int, float]:
    """How many hundredths of the width the box of what must hold takes beside that of waiting, and
    how high both are: what makes them lowest. `alone` where a line about single jobs follows,
    `inline` where a single tick stands beside the words of the box."""
    return min(
        ((s, _sign_height(go, wait, s, alone=alone, inline=inline)) for s in GO_SHARES),
        key=lambda found: found[1],
    )


def _sign_height(go: Sequence[str], wait: Wait, share: int, *, alone: bool, inline: bool) -> float:
    """The height of the higher of the two boxes."""
    left, right = (SIGN_WIDE_MM * part / 100 - BOX_PAD_MM for part in (share, 100 - share))
    one = len(go) == 1 and inline
    goes = _ticked(go, left - GO_WORD_MM * one)
    goes += (LINE_MM + GAP_MM) * (not one) + LINE_MM * alone
    first = len(wait.whose) + WAIT_FOR_WORDS + (len(wait.next_day) or NO_DAY_WORDS)
    second = len(wait.last_day) + LAST_DAY_WORDS
    # The last good day is not parted from its words.
    together = lines_of(first + second, right, TEXT)
    lines = 1 if together == 1 else sum(lines_of(n, right, TEXT) for n in (first, second))
    then = " ".join((*wait.of, *wait.then, wait.moves))
    return max(goes, lines * LINE_MM + 0.8 + text_height([then], right))


def _ticked(texts: Sequence[str], wide: float) -> float:
    """The height of ticks with what they are for, side by side as long as they fit."""
    height, used = 0.0, wide
    for text in texts:
        length = TICK_MM + len(text) * CHARACTER_EM * TEXT * MM_IN_POINT + BETWEEN_TICKS_MM
        if used + length <= wide:
            used += length
            continue
        narrow = wide - TICK_MM - BETWEEN_TICKS_MM - RAGGED_MM
        height += text_height([text], narrow, TICK_LINE_MM)
        used = length
    return height


def beside_title(job: Job, wide: float) -> float:
    """The width that the figures of a job take beside its title, mm; nothing where there is none or
    too little room for them."""
    title = (len(job.task.title.text) + 4) * BOLD_EM * TITLE_POINTS * MM_IN_POINT
    figures = sum(
        (len(figure.value) * FIGURE_POINTS + len(figure.of) * FIGURE_OF_POINTS)
        * BOLD_EM
        * MM_IN_POINT
        + BETWEEN_FIGURES_MM
        for figure in job.figures.large
    )
    alone = len(job.figures.large) == 1
    return figures if figures and (alone or title + figures <= wide) else 0.0


def lines_of(characters: int, wide: float, points: float) -> int:
    """How many lines so many characters take on a width in mm."""
    lines = characters * CHARACTER_EM * points * MM_IN_POINT / max(wide, 10.0)
    return ceil(lines - A_LITTLE) if lines > 1 else ceil(lines)


def text_height(texts: Iterable[str], wide: float, least: float = 0.0) -> float:
    """The height of paragraphs of running text, mm; each takes at least the height of its tick."""
    return sum(
        max(lines_of(len(text), wide, TEXT) * LINE_MM, least) + GAP_MM for text in texts if text
    )


def note_height(text: str, wide: float) -> float:
    """The height of a note."""
    return lines_of(len(text), wide - RAGGED_MM, NOTE) * NOTE_LINE_MM + NOTE_GAP_MM
