"""Parts of a lawn that are treated by themselves: what may be filled there, and what is sown."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.book.entries import Book
from turfplan.message import Message, Number, Quantity, length_mm, said
from turfplan.phrases import parts as phrases
from turfplan.records.brief import Brief, LawnPart, PartKind
from turfplan.work.drafts import Band

# Nothing is sown where it must not be watered daily, or where it would not be left alone.
UNSOWN: frozenset[PartKind] = frozenset({"septic_field", "dog_run"})
# Nothing is spread where the cover must not change, or where loose soil would turn to mud.
UNFILLED: frozenset[PartKind] = frozenset({"septic_field", "dog_run"})
# No tines where lines may lie just below, or where roots do.
UNCORED: frozenset[PartKind] = frozenset({"septic_field", "tree_roots"})
NAMES = {
    "septic_field": phrases.septic_field,
    "dog_run": phrases.dog_run,
    "shade": phrases.shade,
    "tree_roots": phrases.tree_roots,
    "steep": phrases.steep,
}


@dataclass(frozen=True, slots=True)
class PlotPart:
    """One part: what it is called and is, its share of the lawn, the deepest fill it bears in mm
    (None: what the lawn bears), its own grass, its hours of sun, and the zone that it lies in
    (None: nobody says)."""

    name: Message
    kind: PartKind
    share: float
    most_mm: float | None
    grass: str | None
    sun_h: float | None
    zone: Message | None = None

    @property
    def filled(self) -> bool:
        """Whether anything may be spread there."""
        return self.most_mm is None or self.most_mm > 0

    @property
    def sown(self) -> bool:
        """Whether anything is sown or planted there."""
        return self.kind not in UNSOWN


def parts_of(brief: Brief, book: Book, area_m2: float) -> tuple[PlotPart, ...]:
    """The parts that a brief names, with what each bears; `area_m2` is the whole lawn's."""
    return tuple(_part(brief, book, part, area_m2) for part in brief.lawn.part)


def _part(brief: Brief, book: Book, part: LawnPart, area_m2: float) -> PlotPart:
    share = part.share or (part.area_m2 or 0.0) / area_m2
    return PlotPart(
        said(part.name) if part.name else NAMES[part.kind](),
        part.kind,
        share,
        _most_mm(brief, book, part.kind),
        part.grass,
        part.sun_hours,
        said(part.zone) if part.zone else None,
    )


def _most_mm(brief: Brief, book: Book, kind: PartKind) -> float | None:
    """The deepest settled fill of a kind of part, mm."""
    if kind in UNFILLED:
        return 0.0
    if kind == "steep":
        return book.si("site.steep_fill_most")
    if kind == "tree_roots":
        sand = (brief.leveling.parts or {}).get("sand", 0.0)
        sandy = brief.leveling.material == "sand" or sand > book.si("topdress.straight_sand")
        return book.si("site.root_fill_most" if sandy else "survey.root_fill")
    return None


def bands_beside(bands: Sequence[Band], parts: Sequence[PlotPart]) -> tuple[Band, ...]:
    """The bands of fill, with parts that bear less taken out of the largest.

    Hollows are taken to lie outside of them: nobody says where they are.
    """
    held = [part for part in parts if part.most_mm is not None]
    if not bands or not held:
        return tuple(bands)
    ground = max(bands, key=lambda band: band.share)
    thinner = [part for part in held if (part.most_mm or 0.0) < ground.depth_mm]
    left = ground.share - sum(part.share for part in thinner)
    found = [band for band in bands if band is not ground]
    if left > 1e-9:
        found.append(replace(ground, share=left))
    found += [Band(part.most_mm, part.share, part.name) for part in thinner if part.most_mm]
    return tuple(sorted(found, key=lambda band: -band.depth_mm))


def bands_without(
    bands: Sequence[Band], parts: Sequence[PlotPart], zone_shares: Mapping[Message, float]
) -> tuple[Band, ...]:
    """Drawn or measured bands with what parts do not bear taken out of them.

    A part takes its area from the bands of its zone; where nobody says which that is, from all of
    them alike, so that what is ordered is right on the whole. `zone_shares` are the shares of the
    lawn that zones take; their bands need not cover them.
    """
    found, used = list(bands), dict[Message | None, float]()
    # Those whose zone is known first: the others lie in what is left of all zones.
    for part in sorted(parts, key=lambda part: part.zone is None):
        if part.most_mm is None:
            continue
        of_zone = [band for band in found if part.zone is None or band.zone == part.zone]
        if part.zone is None:
            room = 1.0 - sum(used.values())
        else:
            room = zone_shares.get(part.zone, 0.0) - used.get(part.zone, 0.0)
        used[part.zone] = used.get(part.zone, 0.0) + part.share
        taken = min(1.0, part.share / room) if room > 0 else 0.0
        for band in of_zone:
            if part.most_mm >= band.depth_mm:
                continue
            found.remove(band)
            if taken < 1:
                found.append(replace(band, share=band.share * (1 - taken)))
            if part.most_mm:
                found.append(Band(part.most_mm, band.share * taken, part.name))
    return tuple(sorted(found, key=lambda band: -band.depth_mm))


def sown_share(parts: Sequence[PlotPart]) -> float:
    """The share of the lawn that may be sown."""
    return 1.0 - sum(part.share for part in parts if not part.sown)


def cored_share(parts: Sequence[PlotPart]) -> float:
    """The share of the lawn that tines may enter."""
    return 1.0 - sum(part.share for part in parts if part.kind in UNCORED)


def said_of(
    part: PlotPart, book: Book, area_m2: float, depth_mm: float, *, sows: bool
) -> list[Message]:
    """What is done about a part: its fill, its seed, and what to mind there."""
    area, share = Quantity(part.share * area_m2, "area"), Number(part.share, "percent")
    found: list[Message] = []
    if depth_mm > 0 and part.most_mm:
        deep = length_mm(min(part.most_mm, depth_mm))
        found.append(phrases.thinner(part=part.name, area=area, share=share, depth=deep))
    elif depth_mm > 0 and part.most_mm is not None:
        found.append(phrases.unfilled(part=part.name, area=area, share=share))
    if sows and not part.sown:
        found.append(phrases.unsown(part=part.name))
    match part.kind:
        case "septic_field":
            week = length_mm(book.si("site.septic_water_week"), "down", "rain")
            found.append(phrases.mind_septic(part=part.name, week=week))
        case "tree_roots":
            found.append(phrases.mind_roots(part=part.name))
        case "steep":
            found.append(phrases.mind_steep(part=part.name))
        case "dog_run":
            found.append(phrases.mind_dogs(part=part.name))
        case _:
            pass
    return found
