"""The closed names of the book: what entries may name, and what code may ask for by name."""

from collections.abc import Mapping
from typing import Final, Literal, NamedTuple, NewType, get_args

from turfplan.records.fact_names import (
    Family,
    FamilyOption,
    GroupFact,
    HerbicideFact,
    HerbicideOption,
    MaterialFact,
    SpeciesFact,
    SpeciesOption,
)

# The name of a fact that the loader has seen in the book, made by one of the functions below or
# read in an entry.
NamedFact = NewType("NamedFact", str)
# The name of a fact that the book may lack: it can be asked for with `get` alone.
FactOption = NewType("FactOption", str)
FactName = GroupFact | NamedFact

OperationName = Literal[
    "diagnose",
    "soil_test",
    "locate_utilities",
    "irrigation_check",
    "permit",
    "weed_control",
    "kill_stand",
    "clear_stand",
    "rake_moss",
    "slit",
    "till",
    "order_material",
    "call",
    "collect",
    "delivery",
    "dry_material",
    "raise_fittings",
    "lift_and_fill",
    "mow_low",
    "dethatch",
    "core_aerate",
    "topdress",
    "incorporate",
    "fill",
    "nurse_cover",
    "grade",
    "mow",
    "begin_mowing",
    "seed",
    "overseed",
    "dormant_seed",
    "plant",
    "roll",
    "cover",
    "starter_feed",
    "water",
    "inspect",
    "mow_old",
    "first_mow",
    "feed_nitrogen",
    "lime",
    "amend",
    "preemergent",
    "spring_transition",
    "last_mow",
    "settle_check",
    "touch_up",
]
# What grows on a part of the lawn: `laid` is sod, plugs or sprigs that have not rooted.
StandStage = Literal[
    "turf",
    "thin_turf",
    "killed",
    "bare",
    "sown",
    "seedlings",
    "established",
    "dormant_seed",
    "laid",
    "second_grass",
]
# The words that hold of a season; rules of order ask for them in `when`.
Flag = Literal[
    "living_turf",
    "sow_on_pass",
    "no_passes",
    "grows_on",
    "waits_for_spring",
    "second_grass",
    "sown_in_autumn",
    "open_ground",
    "creeper_dethatched",
    "uncovered",
    "slope",
]
# Numbers that rules work out from the lawn, and that rules of order name like facts.
ComputedNumber = Literal[
    "setting.lead_days",
    "setting.permit_bought",
    "setting.marks_hold",
    "setting.pass_interval",
    "setting.pass_interval_least",
    "setting.fill_settles",
    "setting.regrowth_look",
    "setting.germination_look_least",
    "setting.germination_look_most",
    "setting.old_cut_least",
    "setting.old_cut_most",
    "setting.first_mow_least",
    "setting.first_mow_most",
    "setting.colour_look",
    "setting.colour_look_most",
    "setting.undressed",
    "setting.waking",
    "setting.waking_most",
]
YearSeason = Literal["spring", "summer", "autumn", "winter"]
MachineName = Literal["aerator", "dethatcher", "topdresser", "loader", "roller"]
# What a household hires by the day where it has none of its own.
HiredMachine = Literal["aerator", "dethatcher", "tiller", "roller", "sod_cutter"]
# What one trip to a shop is for: what is sown with its cover and starter, what corrects the soil,
# what is fed over the year, what is laid or sprayed against weeds, what covers fill.
Trip = Literal["seed", "soil", "fertilizer", "preventer", "weed_killer", "covers"]
WindowSetting = Literal["late_nitrogen", "spring_aeration"]
RegionSetting = WindowSetting | Literal["nitrogen_ends"]
Habit = Literal["bunch", "rhizome", "stolon", "stolon and rhizome"]
PlantForm = Literal["sod", "plugs", "sprigs"]
CampaignName = Literal[
    "autumn",
    "spring_then_autumn",
    "spring",
    "autumn_then_spring",
    "dormant",
    "two_years",
    "summer",
    "winter_cover",
    "bare_ground",
    "hollows",
    "care",
]
# That of a lawn that gets neither fill nor seed.
CARE: CampaignName = "care"
# What a choice of mix may hang on.
MixCondition = Literal[
    "open_ground",
    "seeded",
    "beside_water",
    "limed_too_far",
    "shallow",
    "deep",
    "coarse",
    "alike",
    "soil_suits",
    "habit_suits",
]
# Cautions that code says by name; those of an operation are named by it, those of every plan are
# marked `always`.
CautionName = Literal[
    "experts_on_sand",
    "experts_on_depth",
    "experts_on_thatch",
    "experts_on_thatch_alone",
    "spring_scarifying",
    "winter_cover_elsewhere",
    "noxious_grass",
    "lifting_soil",
    "lifting_any",
    "tree_roots",
    "grade",
]
# Why grass is thin, as a brief may say it.
# When a cause can be seen: once the ground is open, while the grass grows, in warm weeks, while
# grubs are near the surface.
CauseSeen = Literal["ground", "growth", "warmth", "surface"]
ThinCause = Literal[
    "salt",
    "shade",
    "packed",
    "grubs",
    "insects",
    "disease",
    "drought",
    "dogs",
    "moss",
    "traffic",
    "spill",
    "unknown",
]
# The words in braces that the instructions of an operation may hold.
FillingWord = Literal[
    "amount",
    "clippings",
    "cores",
    "cover",
    "depth",
    "form",
    "grass",
    "heaps",
    "height",
    "how",
    "last_safe",
    "material",
    "minutes",
    "n",
    "of",
    "plan_b",
    "water_in",
    "dry_soil",
    "what",
]

OPERATIONS: Final = frozenset[str](get_args(OperationName))
COMPUTED: Final = frozenset[str](get_args(ComputedNumber))
FILLING_WORDS: Final = frozenset[str](get_args(FillingWord))
# Words by which a rule of order means any of several operations.
SOWING: Final = "sowing"
# Work in the ground that a request for marks serves.
DIGGING: Final = "digging"
COLLECTIVES: Final[Mapping[str, tuple[OperationName, ...]]] = {
    SOWING: ("seed", "overseed", "dormant_seed"),
    "new_grass": ("seed", "overseed", "dormant_seed", "plant"),
    "spreading": ("topdress", "fill"),
    "marking": ("locate_utilities",),
    "cause": ("diagnose",),
}
# What a household does itself where a business renovates its lawn, if that says nothing else.
BY_HOUSEHOLD: Final[tuple[OperationName, ...]] = (
    "water",
    "mow",
    "mow_old",
    "first_mow",
    "last_mow",
)
PICKS: Final = {"before": ("first", "last", "previous"), "after": ("first", "last", "next")}
# Things that code asks for by name, beside those with a type above.
NAMED_THINGS: Final[Mapping[str, tuple[str, ...]]] = {
    "materials": ("topsoil", "compost", "straw"),
    "mixes": ("topsoil_sand",),
    "herbicides": ("unknown",),
}
# Soils that no texture tells; each has sentences and facts of its own.
OTHER_SOILS: Final = ("peat", "chalk", "subsoil", "rubble")
# The tasks of one operation that have a name of their own, beside those that are numbered.
TASK_KEYS: Final[Mapping[str, tuple[str, ...]]] = {
    "diagnose": (*get_args(ThinCause), "hatched", "again"),
    "soil_test": ("questions",),
    "locate_utilities": ("cause", "later", "blades", "lifting", "planting"),
    "inspect": ("insects", "germination", "colour", "leaf_tips", "relaid", "regrowth", "earlier"),
    "permit": ("relaying",),
    "kill_stand": ("again",),
    "clear_stand": ("dead",),
    "feed_nitrogen": ("planted", "seedlings", "late"),
    "lime": ("fresh", "lift"),
    "mow_low": ("seedbed", "ahead", "blades", "rested", "lifting"),
    "dethatch": ("ahead",),
    "nurse_cover": ("lift",),
    "order_material": ("lifting",),
    "delivery": ("lifting",),
}


class Selector(NamedTuple):
    """What a rule calls tasks by: `operation`, `operation.pick`, `.key` or `.not_key`."""

    operation: str
    pick: str

    @classmethod
    def of(cls, text: str) -> "Selector":
        """The selector that a rule of order writes with a dot."""
        operation, _, pick = text.partition(".")
        return cls(operation, pick)

    def allowed_picks(self, side: str) -> tuple[str, ...]:
        """What may stand after the dot for this operation, on the side `before` or `after`."""
        keys = TASK_KEYS.get(self.operation, ())
        return (*PICKS[side], *keys, *(f"not_{key}" for key in keys))


def of_species(species: str, fact: SpeciesFact) -> NamedFact:
    """A fact that every grass has, or every one that is sown."""
    return NamedFact(f"species.{species}.{fact}")


def option_of_species(species: str, fact: SpeciesOption) -> FactOption:
    """A fact that some grasses have."""
    return FactOption(f"species.{species}.{fact}")


def of_material(material: str, fact: MaterialFact) -> NamedFact:
    """A fact of every material that is spread."""
    return NamedFact(f"materials.{material}.{fact}")


def of_herbicide(herbicide: str, fact: HerbicideFact) -> NamedFact:
    """A fact of an active ingredient."""
    return NamedFact(f"herbicides.{herbicide}.{fact}")


def option_of_herbicide(herbicide: str, fact: HerbicideOption, species: str) -> FactOption:
    """A fact that some active ingredients have for one grass."""
    return FactOption(f"herbicides.{herbicide}.{fact.format(species=species)}")


def share_in_mix(mix: str, part: str) -> NamedFact:
    """The share of one part in a mix."""
    return NamedFact(f"mixes.{mix}.{part}")


def of_family(family: Family, *words: object) -> NamedFact:
    """A fact of which there is one for each of the words that its braces stand for."""
    return NamedFact(_filled(family, words))


def option_of_family(family: FamilyOption, *words: object) -> FactOption:
    """A fact that there may be for some of the words that its braces stand for."""
    return FactOption(_filled(family, words))


def _filled(family: str, words: tuple[object, ...]) -> str:
    for word in words:
        before, _, after = family.partition("{")
        family = f"{before}{word}{after.partition('}')[2]}"
    return family
