"""What the name of a weed killer that nobody wrote down would change: each answer, dated."""

from collections.abc import Iterator
from datetime import date

from turfplan.book.entries import Herbicide
from turfplan.message import Day, Message, listed, sentences
from turfplan.phrases import weed_killers as phrases
from turfplan.planning.changed_briefs import with_part
from turfplan.planning.ways_out import Tried, work_of
from turfplan.records.brief import Brief, HerbicideUse
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.weed_killers import Hold, holds_of


def answers_told(brief: Brief, setting: ResolvedLawn, tried: Tried) -> Message | None:
    """The question for the name, with the day to which each answer leads; None where nothing is
    unnamed, or every answer leads to the same day."""
    if setting.sowing.operation is None:
        return None
    unnamed = next((hold for hold in setting.holds if hold.unnamed), None)
    as_it_is = None if unnamed is None else _day(tried, brief)
    if unnamed is None or as_it_is is None:
        return None
    leads: dict[date, list[Herbicide]] = {}
    for kinds in _by_hold(setting, brief.history.herbicides[unnamed.number - 1]):
        day = _day(tried, _named(brief, unnamed, kinds[0]))
        if day is not None and day < as_it_is:
            leads.setdefault(day, []).extend(kinds)
    if not leads:
        return None
    use = brief.history.herbicides[unnamed.number - 1]
    return sentences(
        phrases.ask_name(on=Day(use.on)),
        *(
            phrases.answer(names=listed((kind.name for kind in kinds), "or"), day=Day(day))
            for day, kinds in sorted(leads.items(), key=lambda found: found[0])
        ),
        phrases.no_answer(day=Day(as_it_is)),
    )


def _by_hold(setting: ResolvedLawn, use: HerbicideUse) -> Iterator[list[Herbicide]]:
    """The killers of the book that seed may follow within the plan, those of one hold together."""
    book, sown, groups = setting.book, setting.sowing.grasses, dict[int, list[Herbicide]]()
    for kind in book.herbicides.values():
        if not kind.in_bags or any(harm.grass in sown for harm in kind.harms):
            continue
        named = use.model_copy(update={"active_ingredient": kind.name})
        (hold,) = holds_of(book, (named,), sown)
        if hold.until is not None:
            groups.setdefault(hold.until, []).append(kind)
    yield from groups.values()


def _named(brief: Brief, hold: Hold, kind: Herbicide) -> Brief:
    """The brief with a name for what was given."""
    uses = list(brief.history.herbicides)
    uses[hold.number - 1] = uses[hold.number - 1].model_copy(
        update={"active_ingredient": kind.name}
    )
    return with_part(brief, "history", herbicides=tuple(uses))


def _day(tried: Tried, brief: Brief) -> date | None:
    """The last day of the main work of a brief, or None where it cannot be dated."""
    work = work_of(tried, brief)
    return None if work is None else work.last
