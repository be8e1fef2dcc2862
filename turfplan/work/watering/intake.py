"""What ground takes in before water runs off, by texture, slope and cover; runs keep to it."""

from dataclasses import dataclass

from turfplan.book.entries import Book
from turfplan.records.book_names import FactName, of_family
from turfplan.work.watering.run_times import RunTime, WateringZone, run_time

PERCENT = 100
_FACTS: tuple[FactName, ...] = (
    "water.slope_intake_level",
    "water.slope_intake_loss",
    "water.slope_intake_least",
    "water.surface_storage",
    "water.storage_loss_per_percent",
    "water.surface_storage_least",
    "water.soak_gap",
    "water.cycles_most",
)


@dataclass(frozen=True, slots=True)
class Intake:
    """What a slope takes in, mm/h, what it holds on top, mm, and how runs are cut for it."""

    facts: tuple[FactName, ...]

    rate_mm_h: float
    storage_mm: float
    soak_min: float
    most_cycles: int

    def run(self, depth_mm: float, zone: WateringZone) -> RunTime:
        """A depth on a zone in as many cycles as soil and slope ask for."""
        return run_time(
            depth_mm,
            zone,
            intake_mm_h=self.rate_mm_h,
            storage_mm=self.storage_mm,
            soak_min=self.soak_min,
            most_cycles=self.most_cycles,
        )


def intake_of(book: Book, soil: str, slope_percent: float, *, bare: bool = False) -> Intake:
    """The intake of a texture class on a slope; `bare` ground takes in less than turf.

    Raises KeyError for a class that is none.
    """
    beyond = max(0.0, slope_percent - PERCENT * book.si("water.slope_intake_level"))
    share = max(
        book.si("water.slope_intake_least"),
        1 - book.si("water.slope_intake_loss") * beyond,
    )
    cover = book.si("water.bare_intake") if bare else 1.0
    level, per_percent = book.si("water.surface_storage"), book.si("water.storage_loss_per_percent")
    texture: FactName = of_family("water.intake_{soil}", soil)
    return Intake(
        facts=(texture, *_FACTS, "water.bare_intake") if bare else (texture, *_FACTS),
        rate_mm_h=book.si(texture) * share * cover,
        storage_mm=max(book.si("water.surface_storage_least"), level - per_percent * slope_percent),
        soak_min=book.si("water.soak_gap"),
        most_cycles=round(book.si("water.cycles_most")),
    )
