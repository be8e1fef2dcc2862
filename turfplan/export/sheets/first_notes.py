"""What stands above the work on the first sheet."""

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan import Plan, Rank, in_turn

# The ranks that stand on the first sheet.
FIRST_SHEET: tuple[Rank, ...] = ("stop", "law")


def first_notes(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """What stops work, what waits because nobody is there, with ways out, what is late or not done
    as asked, and what the law or a permission asks, each under its rank."""
    waits = [(words.text(phrases.put_off()), text.text) for text in plan.put_off]
    ways = [
        phrases.way_out_line(title=str(o.title), reason=str(o.reason), change=str(o.change))
        for o in (plan.options if waits else ())
    ]
    waits += [(words.text(phrases.way_out()), words.text(way)) for way in ways]
    told = [
        (note.rank, (words.text(Message(f"week.rank.{note.rank}")), note.text.text))
        for note in in_turn(plan.ranked)
        if note.told_first or (note.kind == "caution" and note.rank in FIRST_SHEET)
    ]
    stops = [line for rank, line in told if rank == "stop"]
    return (*stops, *waits, *(line for rank, line in told if rank != "stop"))
