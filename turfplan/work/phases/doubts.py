"""Looks that settle what an order waits for: how deep the fill is, which soil, which grass.

Each comes before what it may change is ordered. It is over once somebody has looked, or once the
brief says what was found.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from turfplan.message import Message, length_mm
from turfplan.phrases import buying as buying_phrases
from turfplan.phrases import doubts as phrases
from turfplan.records.book_names import FactName
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import PREPARE, Timing, Wording, make

# As long before the order as a look for a cause: what is found is acted on before money is spent.
_AHEAD: Final[FactName] = "order.diagnose_lead"
_SHORT: Final[FactName] = "by_hand.ribbon_loam"
_LONG: Final[FactName] = "by_hand.ribbon_clay_loam"
DEPTH, SOIL, GRASS = "inspect.depth", "inspect.soil", "inspect.grass"
LOOKS: Final = frozenset({DEPTH, SOIL, GRASS})
# The note that a grass was named by guess, and by which looks it would be known.
_UNSEEN: Final = "unnamed_grass.ask"


def look_of(estimate: Message | None) -> str | None:
    """The id of the look that settles what an estimate waits for; None where none does."""
    return None if estimate is None else _SETTLED_BY.get(estimate.key)


_SETTLED_BY: Mapping[str, str] = MappingProxyType(
    {
        buying_phrases.estimate_depth().key: DEPTH,
        buying_phrases.estimate_soil().key: SOIL,
        buying_phrases.estimate_grass().key: GRASS,
    }
)


def grass_open(setting: ResolvedLawn) -> bool:
    """Whether seed or plants are chosen beside a grass that nobody has named, or looked at well."""
    chosen = setting.brief.seeding.species is not None or setting.on_open_ground
    guessed = any(isinstance(n, Message) and n.key == _UNSEEN for n in setting.assumptions)
    return setting.sowing.operation is not None and guessed and not chosen


def looks_into_doubts(
    setting: ResolvedLawn, doubts: Iterable[tuple[Draft, Message]]
) -> Iterator[Draft]:
    """One look for each doubt of what is bought, ahead of the first order that waits for it;
    `doubts` are orders with what may change them."""
    waiting: dict[str, Draft] = {}
    for draft, told in doubts:
        if (look := look_of(told)) is not None:
            waiting.setdefault(look, draft)
    for look, order in waiting.items():
        ahead = -setting.days(_AHEAD)
        facts = (_AHEAD, _SHORT, _LONG) if look == SOIL else (_AHEAD,)
        timing = Timing(PREPARE, session=-1, anchor=order.id, offset=ahead)
        key = look.partition(".")[2]
        yield make(
            setting, "inspect", key, timing=timing, wording=_WORDS[look](setting), facts=facts
        )


def _depth(setting: ResolvedLawn) -> Wording:
    how = (phrases.depth_string(), phrases.depth_tell())
    return _wording(phrases.depth(), phrases.depth_title(), how)


def _soil(setting: ResolvedLawn) -> Wording:
    short, long = (length_mm(setting.book.si(fact)) for fact in (_SHORT, _LONG))
    how = (phrases.soil_feel(short=short, long=long), phrases.soil_tell())
    return _wording(phrases.soil(), phrases.soil_title(), how)


def _grass(setting: ResolvedLawn) -> Wording:
    how = (phrases.grass_look(), phrases.grass_ask(), phrases.grass_tell())
    return _wording(phrases.grass(), phrases.grass_title(), how)


def _wording(why: Message, title: Message, how: tuple[Message, ...]) -> Wording:
    return Wording(why, title=title, how=how, go=phrases.any_day(), fallback=phrases.later())


_WORDS: Mapping[str, Callable[[ResolvedLawn], Wording]] = MappingProxyType(
    {DEPTH: _depth, SOIL: _soil, GRASS: _grass}
)
