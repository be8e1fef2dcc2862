"""The names of tasks as reasons quote them: without amounts, told apart where there are several of
one operation."""

from collections import Counter
from collections.abc import Callable, Mapping
from types import MappingProxyType

from turfplan.book.words import operation_name
from turfplan.message import Message, said
from turfplan.phrases import task_names as phrases
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.growing_year import growing_year
from turfplan.work.lawn import ResolvedLawn

NUMBERED = phrases.numbered(name=said(""), number=1).key
# What a task of an operation is marked by beside others of it: a feeding by its season, a look by
# what is looked at.
_FEEDINGS: Mapping[str, Callable[[], Message]] = {
    "spring": phrases.spring,
    "summer": phrases.summer,
    "autumn": phrases.autumn,
    "winter": phrases.winter,
    "late": phrases.late,
    "planted": phrases.planted,
    "seedlings": phrases.seedlings,
    "rye": phrases.rye,
}
# Those that are called after a quarter of the year.
_QUARTERS = ("spring", "summer", "autumn", "winter", "late")
_JOBS: Mapping[str, Callable[[], Message]] = {
    "fresh": phrases.fresh,
    "colour": phrases.colour,
    "germination": phrases.germination,
    "lifting": phrases.lifting,
    "leaf_tips": phrases.leaf_tips,
    "relaid": phrases.relaid,
}
_MOST = 30  # tasks of one mark; a plan of a few years has fewer
MARKS: Mapping[str, Message] = MappingProxyType(
    {
        **{key: mark() for key, mark in {**_FEEDINGS, **_JOBS}.items()},
        **{
            f"{key}{number}": phrases.repeated(mark=mark(), number=number)
            for key, mark in _FEEDINGS.items()
            for number in range(2, _MOST)
        },
        **{
            f"{key}.{number}": phrases.in_session(mark=mark(), number=number)
            for key, mark in _JOBS.items()
            for number in range(1, _MOST)
        },
    }
)


def plain_titles(setting: ResolvedLawn, season: SeasonDraft) -> Mapping[str, Message]:
    """The names of the tasks of a season, by id: the operation, with its mark, or its number where
    there are several."""
    number = Counter(draft.operation for draft in season.drafts)
    titles = {
        draft.id: plain_title(setting, draft, several=number[draft.operation] > 1)
        for draft in season.drafts
    }
    if growing_year(setting.climate, setting.book, setting.turf.species.id).even:
        titles |= _feedings_by_order(setting, season)
    return titles


def _feedings_by_order(setting: ResolvedLawn, season: SeasonDraft) -> dict[str, Message]:
    """The names of the feedings of a year without seasons: by their order in time."""
    feedings = [d for d in season.drafts if d.operation == "feed_nitrogen"]
    in_order = sorted(feedings, key=lambda draft: (draft.position, draft.id))
    return {
        draft.id: phrases.numbered(
            name=draft.name or operation_name(setting.book, draft.operation), number=number
        )
        for number, draft in enumerate(in_order, 1)
        if (draft.key or "").rstrip("0123456789") in _QUARTERS
    }


def plain_title(setting: ResolvedLawn, draft: Draft, *, several: bool) -> Message:
    """The name of one task without its amounts.

    With its number where there are `several` of its operation.
    """
    name = draft.name or operation_name(setting.book, draft.operation)
    if draft.key is None:
        return name
    if draft.key in MARKS:
        return phrases.marked(name=name, mark=MARKS[draft.key])
    if several and draft.key.isdecimal():
        return phrases.numbered(name=name, number=int(draft.key))
    return name
