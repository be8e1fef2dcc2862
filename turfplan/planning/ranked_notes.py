"""Ranks what a plan says beside its work, and ties what protects to the tasks it is about."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from turfplan.message import Listed, Message, Value
from turfplan.records.plan import RANKS, NoteKind, Plan, Rank, RankedNote
from turfplan.records.plan_task import Role, Task

_SOWN: tuple[Role, ...] = ("sowing", "planting")
_YOUNG: tuple[Role, ...] = ("sowing", "planting", "relaying")
_FED: tuple[Role, ...] = ("feeding",)
_BOUGHT: tuple[Role, ...] = ("ordering",)
# What is to be put right before anything is ordered.
SHORT_OF_SOIL = tuple(f"soil_findings.topsoil_{how}" for how in ("none", "short", "short_survey"))


class _NotePlace(NamedTuple):
    """The rank of a message, and the roles of the tasks that it is told at too."""

    rank: Rank
    roles: tuple[Role, ...] = ()


def _ranked(
    rank: Rank, *keys: str, roles: tuple[Role, ...] = ()
) -> Iterator[tuple[str, _NotePlace]]:
    return ((key, _NotePlace(rank, roles)) for key in keys)


# By the key of the message, or its beginning up to a dot. What is not named here is advice where it
# is a caution, else information.
PLACES: Mapping[str, _NotePlace] = MappingProxyType(
    dict(
        (
            *_ranked(
                "stop",
                "plan_cautions.mostly_weeds",
                "ground_fill.weeds",
                "plan_cautions.too_little_sun",
                "salt_holds",
                "soil_findings.salts_unknown",
                "soil_findings.salts_too_high",
                "watering.verdict.rain_doubtful",
                "watering.verdict.no_water_seed",
                "watering.verdict.no_water_plants",
                "watering.verdict.gap_seed",
                "watering.verdict.gap_plants",
                "watering.hose.waits",
                roles=_SOWN,
            ),
            *_ranked("stop", "watering.season.nobody_there", roles=("ordering", *_SOWN)),
            *_ranked("stop", "watering.season.nobody_there_relaid", roles=("ordering", "relaying")),
            *_ranked(
                "stop",
                "plan_cautions.thatch_to_strip",
                "plan_cautions.thatch_to_come_down",
                "slopes.no_lawn",
            ),
            *_ranked(
                "stop",
                *SHORT_OF_SOIL,
                roles=("ordering", *_SOWN),
            ),
            *_ranked("safety", "slopes.no_mower", "slopes.no_heavy_machines"),
            *_ranked(
                "damage",
                "light.only_just",
                "soil_findings.salts_wash_first",
                "soil_findings.salts_no_water",
                roles=_SOWN,
            ),
            *_ranked("damage", "watering.hose.part", "watering.hose.part_bare"),
            *_ranked("damage", "past_of_lawn.still_to_come"),
            *_ranked(
                "damage",
                "watering.verdict.rain_seed",
                "watering.verdict.rain_plants",
                "watering.verdict.dormant_doubtful",
                "watering.verdict.dormant_dry",
                "rain_years",
                roles=_SOWN,
            ),
            *_ranked(
                "law",
                "watering.verdict.banned",
                "watering.verdict.dark_hours",
                "watering.verdict.short_hours",
                "watering.verdict.short_hours_plants",
                roles=_SOWN,
            ),
            *_ranked("law", "watering.season.permit", roles=_YOUNG),
            *_ranked(
                "law",
                "watering.week.days_closed",
                "watering.week.all_closed",
                "watering.week.short",
                "watering.week.no_run_fits",
                "watering.week.part_fits",
            ),
            *_ranked(
                "damage",
                "watering.verdict.short_day",
                "watering.verdict.short_day_plants",
                *(
                    f"watering.week.{what}_{bound}"
                    for what in ("no_run_fits", "part_fits")
                    for bound in ("home", "day", "ground")
                ),
                "watering.week.part_fits_ground_fill",
                "watering.week.part_fits_ground_young",
            ),
            *_ranked(
                "law",
                "feeding.blackout",
                "feeding.limit",
                "feeding.water",
                "feeding.bag.quick",
                "feeding.history.blackout",
                "feeding.against.day",
                roles=_FED,
            ),
            *_ranked("law", "passes.compost_beside_water", roles=_BOUGHT),
            *_ranked("law", "book.cautions.noxious_grass", roles=_SOWN),
            # Said once: the feedings are not reckoned with a bag that is not used.
            *_ranked("law", "feeding.bag.phosphorus"),
            *_ranked(
                "law",
                "book.cautions.defer",
                "book.cautions.watering_law",
                "book.cautions.pesticide_label",
                "pesticide_law",
                "book.cautions.fertilizer",
                "book.cautions.storm_drain",
            ),
            *_ranked(
                "safety",
                "plan_cautions.by_hand",
                "plan_cautions.by_loader",
                "book.cautions.utilities",
                "book.cautions.silica",
                "book.cautions.machines",
                "book.cautions.lifting",
                "book.cautions.lifting_soil",
                "book.cautions.lifting_any",
                "reasons.run_out",
            ),
            *_ranked(
                "damage",
                "living.risk",
                "living.risk_others",
                "absences",
                "heap.too_large",
                "plan_cautions.dogs",
                "plan_cautions.steep",
                "plan_cautions.septic_field",
                "plan_cautions.barrier_torn",
                "plan_cautions.laid_thick",
                "watering.verdict.unsaid_seed",
                "watering.verdict.unsaid_plants",
                "watering.advice.mend",
                "passes.too_much_sand",
                "passes.sand_over_clay",
                "passes.too_much_compost",
                "passes.compost_on_high_ph",
                "feeding.bag.too_much",
                "feeding.history",
                "soil_findings.ph_high",
                "soil_findings.on_peat",
                "soil_findings.on_subsoil",
                "soil_findings.on_rubble",
                "soil_findings.rock_no_tines",
                "soil_findings.rock_near",
                "book.cautions.tree_roots",
                "book.cautions.grade",
                "book.cautions.spring_scarifying",
                "book.cautions.winter_cover_elsewhere",
                "level.steep",
                "level.septic_field",
                "level.at_the_house",
                "open_turf.septic_field",
                "open_turf.tree_roots",
            ),
            *_ranked("advice", "plan_cautions.thatch_left", "plan_cautions.thatch_not_combed"),
            *_ranked(
                "information",
                "book.cautions.experts_on_sand",
                "book.cautions.experts_on_depth",
                "soil_findings.salts_borne",
                *(f"living.near_{limit}" for limit in ("cold", "hot", "cool", "dry", "wet")),
                "watering.season.total",
                "watering.season.cost",
                "watering.rooted",
                "watering.season.until_up",
            ),
        )
    )
)
_OTHERWISE: Mapping[NoteKind, Rank] = {
    "caution": "advice",
    "job": "advice",
    "input": "damage",
    "assumption": "information",
    "disagreement": "information",
}
# What was asked for and is not done, or is done late: told first, whatever it protects.
TOLD_FIRST = (
    "lateness",
    "handover.undone",
    "plan_cautions.thatch_left",
    "plan_cautions.thatch_not_combed",
    "climate.rain_doubtful",
    "season.overfull",
    "season.overfull_elsewhere",
    *SHORT_OF_SOIL,
)
# Messages that hold others whole: a row of sentences, a line about one zone.
_HOLDERS = ("sentences", "watering.zone.line")
# These ranks stand on the screen and the first sheet, and at the tasks they are about.
PROTECTS: tuple[Rank, ...] = ("stop", "law")


def ranked_plan(plan: Plan, inputs: Sequence[Message] = ()) -> Plan:
    """The plan with all that it says beside its tasks ranked, its cautions in that order, and
    stops, bans and permissions at the tasks that they are about.

    `inputs` is what was torn or refused of what was read.
    """
    groups: tuple[tuple[NoteKind, Iterable[Message]], ...] = (
        ("caution", plan.cautions),
        ("input", inputs),
        ("disagreement", plan.disagreements),
        ("assumption", plan.assumptions),
    )
    told = [
        RankedNote(
            rank=_rank(plan, message, kind),
            kind=kind,
            text=message,
            tasks=_about(plan, message),
            told_first=_told_first(message),
        )
        for kind, messages in groups
        for message in dict.fromkeys(messages)
    ]
    told += _at_jobs(plan, {note.text for note in told})
    notes = tuple(sorted(told, key=lambda note: RANKS.index(note.rank)))
    cautions = tuple(note.text for note in notes if note.kind == "caution")
    tasks = tuple(_warned(task, notes) for task in plan.tasks)
    return plan.model_copy(update={"ranked": notes, "cautions": cautions, "tasks": tasks})


def _at_jobs(plan: Plan, told: Collection[Message]) -> list[RankedNote]:
    """The cautions of single tasks that are not said of the whole plan, each once."""
    of: dict[Message, list[str]] = {}
    for task in plan.tasks:
        for caution in task.cautions:
            if caution not in told:
                of.setdefault(caution, []).append(task.id)
    return [
        RankedNote(
            rank=_rank(plan, caution, "job"),
            kind="job",
            text=caution,
            tasks=tuple(tasks),
            told_first=_told_first(caution),
        )
        for caution, tasks in of.items()
    ]


def _told_first(message: Message) -> bool:
    return any(message.key == name or message.key.startswith(f"{name}.") for name in TOLD_FIRST)


def place_of(message: Message) -> _NotePlace | None:
    """Where a message stands: the highest place of its own key and of what it holds."""
    found = [place for place in (_own_place(message.key), *_inside(message)) if place is not None]
    return min(found, key=lambda place: RANKS.index(place.rank), default=None)


def _own_place(key: str) -> _NotePlace | None:
    parts = key.removesuffix(".text").split(".")
    names = (".".join(parts[:length]) for length in range(len(parts), 0, -1))
    return next((PLACES[name] for name in names if name in PLACES), None)


def _inside(message: Message) -> Iterator[_NotePlace | None]:
    """The places of the messages that one holds whole; what is quoted within one ranks nothing."""
    if message.key in _HOLDERS:
        values: list[Value] = [value for _, value in message.values]
        for value in values:
            for part in value.items if isinstance(value, Listed) else (value,):
                if isinstance(part, Message):
                    yield place_of(part)


def _rank(plan: Plan, message: Message, kind: NoteKind) -> Rank:
    if message in plan.holds:
        return "stop"
    place = place_of(message) if kind in ("caution", "job") else None
    return place.rank if place is not None else _OTHERWISE[kind]


def _about(plan: Plan, message: Message) -> tuple[str, ...]:
    place = place_of(message)
    if message in plan.holds:
        # What keeps seed or fill waiting is told where it waits.
        place = _NotePlace("stop", (*_SOWN, "spreading"))
    if place is None or place.rank not in PROTECTS:
        # What is told first stands at the tasks that say it themselves.
        said = _told_first(message)
        return tuple(task.id for task in plan.tasks if said and message in task.cautions)
    return tuple(task.id for task in plan.tasks if task.plays(*place.roles))


def _warned(task: Task, notes: Sequence[RankedNote]) -> Task:
    """A task with the stops and the law that are about it first among its cautions."""
    mine = [note.text for note in notes if note.kind == "caution" and task.id in note.tasks]
    if not mine:
        return task
    return task.model_copy(update={"cautions": tuple(dict.fromkeys((*mine, *task.cautions)))})
