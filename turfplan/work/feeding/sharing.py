"""How the nitrogen of a year is shared out among the days that could take a feeding."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

from turfplan.book.entries import Book
from turfplan.message import Quantity
from turfplan.phrases import feeding as phrases
from turfplan.work.feeding.slots import OTHER, FeedingSlot, Skips, tightest_gap_days


def share_out(
    book: Book, slots: Sequence[FeedingSlot], left_g_m2: float, skipped: Skips
) -> list[tuple[FeedingSlot, float]]:
    """The nitrogen left (g/m2), shared out by growth; what fits in no feeding is left out."""
    least = book.si("feeding.least_rate")
    if left_g_m2 < least:
        skipped += [(slot.key, phrases.left_out_covered()) for slot in slots]
        return []
    chosen = _chosen(slots, left_g_m2, tightest_gap_days(book), skipped)
    while chosen:
        rates = _rates(chosen, left_g_m2, least)
        if min(rates) >= least - 1e-9:
            apart = _apart(chosen, round(book.low_si("feeding.least_gap")))
            return list(zip(apart, rates, strict=True))
        weakest = min(range(len(chosen)), key=lambda n: (chosen[n].opens_year, rates[n]))
        skipped.append(
            (chosen[weakest].key, phrases.left_out_too_little(rate=Quantity(least, "rate")))
        )
        del chosen[weakest]
    return []


def _rates(chosen: Sequence[FeedingSlot], left_g_m2: float, least_g_m2: float) -> list[float]:
    """What each of the slots takes, by growth; one that opens the year takes the least rate (g/m2)
    even where grass has only begun to grow."""
    weights, caps = [s.weight for s in chosen], [s.cap_g_m2 for s in chosen]
    rates = water_fill(weights, caps, left_g_m2)
    held = [s.opens_year and rate < least_g_m2 for s, rate in zip(chosen, rates, strict=True)]
    if not any(held):
        return rates
    first = [
        min(least_g_m2, s.cap_g_m2) if hold else 0.0 for s, hold in zip(chosen, held, strict=True)
    ]
    open_caps = [0.0 if hold else cap for cap, hold in zip(caps, held, strict=True)]
    others = water_fill(weights, open_caps, max(0.0, left_g_m2 - sum(first)))
    return [one + other for one, other in zip(first, others, strict=True)]


def _chosen(
    slots: Sequence[FeedingSlot], left_g_m2: float, gap: int, skipped: Skips
) -> list[FeedingSlot]:
    """The slots to use, in order of time: those of stronger growth first, a gap apart.

    One more than the fewest that hold the nitrogen, so that it goes along with growth rather than
    in as big doses as may be.
    """
    strong = sorted(slots, key=lambda s: (s.rank, -s.weight, s.best))
    apart: list[FeedingSlot] = []
    for slot in strong:
        if all(abs((slot.best - other.best).days) >= gap for other in apart):
            apart.append(slot)
        elif slot.rank != OTHER:
            skipped.append((slot.key, phrases.left_out_too_close(n=gap)))
    if sum(s.cap_g_m2 for s in apart) < left_g_m2:
        # Days of strong growth leave no room between them: as many feedings as fit go first.
        packed = _packed(slots, gap)
        if sum(s.cap_g_m2 for s in packed) > sum(s.cap_g_m2 for s in apart):
            return packed
    fewest = next(
        (n for n in range(1, len(apart)) if sum(s.cap_g_m2 for s in apart[:n]) >= left_g_m2 - 1e-9),
        len(apart),
    )
    skipped += [
        (slot.key, phrases.left_out_fewer()) for slot in apart[fewest + 1 :] if slot.rank != OTHER
    ]
    return sorted(apart[: fewest + 1], key=lambda s: s.best)


def _packed(slots: Sequence[FeedingSlot], gap: int) -> list[FeedingSlot]:
    """As many of the slots as fit, a gap apart, in order of time."""
    packed: list[FeedingSlot] = []
    for slot in sorted(slots, key=lambda s: (s.best, s.rank)):
        if not packed or (slot.best - packed[-1].best).days >= gap:
            packed.append(slot)
    return packed


def _apart(slots: Sequence[FeedingSlot], least: int) -> list[FeedingSlot]:
    """The slots with their days cut so that any days of two are `least` days apart."""
    cut = list(slots)
    for number, (one, two) in enumerate(pairwise(slots)):
        slack = max(0, (two.best - one.best).days - least)
        before, after = cut[number], cut[number + 1]
        cut[number] = replace(before, end=min(before.end, one.best + timedelta(slack // 2)))
        cut[number + 1] = replace(after, start=max(after.start, two.best - timedelta(slack // 2)))
    return cut


def water_fill(weights: Sequence[float], caps: Sequence[float], total: float) -> list[float]:
    """Parts of a total in proportion to their weights, none above its cap; the rest is left."""
    rates = [0.0] * len(weights)
    open_parts = set(range(len(weights)))
    left = total
    while open_parts and left > 1e-9:
        weight = sum(weights[i] for i in open_parts)
        wished = {i: left * weights[i] / weight for i in open_parts}
        full = {i for i in open_parts if rates[i] + wished[i] >= caps[i] - 1e-12}
        if not full:
            for i in open_parts:
                rates[i] += wished[i]
            break
        for i in full:
            left -= caps[i] - rates[i]
            rates[i] = caps[i]
        open_parts -= full
    return rates
