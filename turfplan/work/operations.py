"""Makes one task of an operation: its hours, its days, its words, its cautions."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from turfplan.book.words import book_message
from turfplan.message import Message, Quantity, Value
from turfplan.phrases import places
from turfplan.records.book_names import FactName, OperationName
from turfplan.work.days_off import heard_when
from turfplan.work.drafts import Draft
from turfplan.work.labour import person_hours, working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import mix_parts
from turfplan.work.pesticide_law import LABEL, told_of_law

# Which task the network places first: seed, then passes, then what hangs on them.
SOW, LAST_PASS, PASS, SURFACE, CARE, PREPARE, FINISH = range(7)


@dataclass(frozen=True, slots=True)
class Timing:
    """When a task is wished and what it keeps step with, as a draft holds it; days are ordinals."""

    priority: int
    session: int = 0
    position: int = 1
    ideal: int | None = None
    anchor: str | None = None
    offset: int = 0
    window: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Wording:
    """What is said of a task: why it is done, and what stands in place of the book's sentences.

    `values` fill the places of the book's sentences; `cautions` come after those of the operation.
    `why_late` is why it is done on a day late in its season.
    """

    why: Message
    values: Mapping[str, Value] = field(default_factory=dict)
    name: Message | None = None
    title: Message | None = None
    how: tuple[Message, ...] | None = None
    go: Message | None = None
    fallback: Message | None = None
    cautions: tuple[Message, ...] = ()
    why_late: Message | None = None


@dataclass(frozen=True, slots=True)
class Extent:
    """How much there is to do: area in m2, loose material in m3, settled depth in mm.

    No area is the whole lawn; `where` is what a part of it is called, `where_step` what is done
    about its bounds. `more_hours` of a person come beside those of the operation.
    """

    area_m2: float | None = None
    loose_m3: float = 0.0
    depth_mm: float = 0.0
    more_hours: float = 0.0
    where: Message | None = None
    where_step: Message | None = None


WHOLE_LAWN = Extent()


def make(
    setting: ResolvedLawn,
    operation: OperationName,
    key: str | None = None,
    *,
    timing: Timing,
    wording: Wording,
    extent: Extent = WHOLE_LAWN,
    facts: tuple[FactName, ...] = (),
) -> Draft:
    """A draft of `operation`; its id is the operation, or `operation.key`."""
    entry = setting.book.operations[operation]
    area = setting.plot.area_m2 if extent.area_m2 is None else extent.area_m2
    hours = person_hours(setting, entry, area, extent.loose_m3) + extent.more_hours
    return Draft(
        id=f"{operation}.{key}" if key else operation,
        operation=operation,
        key=key,
        phase=entry.phase,
        why=wording.why,
        priority=timing.priority,
        session=timing.session,
        position=timing.position,
        ideal=timing.ideal,
        anchor=timing.anchor,
        offset=timing.offset,
        duration_days=working_days(setting, hours),
        person_hours=round(hours, 2),
        words=wording.values,
        name=wording.name,
        title=wording.title,
        how=wording.how,
        go=wording.go,
        fallback=wording.fallback,
        cautions=(
            *_cautions(setting, operation, entry.cautions),
            *heard_when(setting, operation),
            *_law(setting, entry.cautions),
            *wording.cautions,
        ),
        facts=facts,
        depth_mm=extent.depth_mm,
        loose_m3=extent.loose_m3,
        window=timing.window,
        why_late=wording.why_late,
        where=extent.where,
        where_step=_where_step(extent),
        area_m2=area,
    )


def _where_step(extent: Extent) -> Message | None:
    """The first step of a job that is not for the whole lawn."""
    if extent.where is None or extent.where_step is not None:
        return extent.where_step
    if not extent.area_m2:
        return places.first(where=extent.where)
    return places.first_of(where=extent.where, area=Quantity(extent.area_m2, "area"))


def _law(setting: ResolvedLawn, ids: tuple[str, ...]) -> tuple[Message, ...]:
    """What the law says where a weed killer or another such product may be used."""
    told = told_of_law(setting) if LABEL in ids else None
    return () if told is None else (told,)


def _cautions(
    setting: ResolvedLawn, operation: OperationName, ids: tuple[str, ...]
) -> tuple[Message, ...]:
    """The cautions that this operation carries on this site, with this mix."""
    if not ids:
        return ()
    kinds = handled(setting, operation)
    applies: dict[str, bool | None] = {
        "tree_roots": setting.near_trees,
        "tree_lifting": setting.near_trees,
        "tree_digging": setting.near_trees,
        "silica": bool(kinds & {"sand", "soil"}),
        "watering_law": setting.brief.water.possible is not False,
    }
    heavy = "lifting" if "sand" in kinds else "lifting_soil" if "soil" in kinds else "lifting_any"
    if "loader" in setting.brief.work.machines:
        # Barrows are not what is filled.
        heavy = "lifting_any"
    return tuple(
        book_message(setting.book, f"cautions.{heavy if i == 'lifting' else i}.text")
        for i in ids
        if applies.get(i, True)
    )


def handled(setting: ResolvedLawn, operation: OperationName) -> frozenset[str]:
    """The kinds of material that an operation moves: of the mix, but soil alone in deep hollows,
    and none with plants."""
    if operation == "plant":
        return frozenset()
    if operation == "lift_and_fill":
        return frozenset({"soil"})
    materials = setting.book.materials
    return frozenset(materials[item].kind for item in mix_parts(setting) if item in materials)
