"""What stands above the work on the first sheet."""

from collections.abc import Iterator

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan import Plan, Rank

# The ranks that stand on the first sheet.
FIRST_SHEET: tuple[Rank, ...] = ("stop", "law")


def first_notes(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """What stops work, what waits because nobody is there, with ways out, and what the law or a
    permission asks, each under its rank."""
    waits = [(words.text(phrases.put_off()), text.text) for text in plan.put_off]
    ways = [
        phrases.way_out_line(title=str(o.title), reason=str(o.reason), change=str(o.change))
        for o in (plan.options if waits else ())
    ]
    waits += [(words.text(phrases.way_out()), words.text(way)) for way in ways]
    ranked = [(rank, _of_rank(plan, words, rank)) for rank in FIRST_SHEET]
    return tuple(
        note for rank, notes in ranked for note in (*notes, *(waits if rank == "stop" else ()))
    )


def _of_rank(plan: Plan, words: Words, rank: Rank) -> Iterator[tuple[str, str]]:
    """The cautions of one rank for the whole plan, each under it."""
    named = words.text(Message(f"week.rank.{rank}"))
    for note in plan.ranked:
        if note.kind == "caution" and note.rank == rank:
            yield named, note.text.text
