"""The most nitrogen that the law of a state lets anyone give at once."""

from dataclasses import dataclass
from math import ceil

from turfplan.book.citations import who_says
from turfplan.book.entries import Book
from turfplan.book.facts import Fact
from turfplan.message import Message, Number, Quantity, listed, sentences
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import option_of_family
from turfplan.records.brief import Brief
from turfplan.work.feeding.blackouts import state_of
from turfplan.work.watering.intake import PERCENT


@dataclass(frozen=True, slots=True)
class NitrogenLimits:
    """What one feeding may hold: nitrogen in all, and quick nitrogen; None where no law is known.

    They hold whatever days are closed, and for a starter as for any other feeding.
    """

    total: Fact | None
    quick: Fact | None


def limits_of(brief: Brief, book: Book) -> NitrogenLimits:
    """The published limits of the state that the brief lies in."""
    state = state_of(brief)
    return NitrogenLimits(
        book.get(option_of_family("law.{state}_nitrogen_single_max", state)),
        book.get(option_of_family("law.{state}_nitrogen_soluble_max", state)),
    )


def told_of_limits(brief: Brief, book: Book, largest_g_m2: float) -> tuple[Message, ...]:
    """What is said of the limits: how much, by whom, and how much of the largest feeding must be
    slow, where nobody told of a bag that is judged by itself."""
    limits = limits_of(brief, book)
    source = limits.total or limits.quick
    if source is None or largest_g_m2 <= 0:
        return ()
    parts: list[Message] = []
    if limits.total is not None:
        parts.append(phrases.limit_total(rate=Quantity(limits.total.si, "rate")))
    if limits.quick is not None:
        parts.append(phrases.limit_quick(rate=Quantity(limits.quick.si, "rate")))
    told = phrases.limit_state(limits=listed(parts, "and"), source=who_says(book, source.source))
    if limits.quick is None or brief.feeding.analysis or largest_g_m2 <= limits.quick.si:
        return (told,)
    # In whole per cent, never less than the law asks for.
    slow = ceil(PERCENT * (1 - limits.quick.si / largest_g_m2) - 1e-6) / PERCENT
    return (sentences(told, phrases.limit_slow(share=Number(slow, "percent"))),)
