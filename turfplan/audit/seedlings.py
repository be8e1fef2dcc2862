"""Seed is neither torn up, buried nor washed away, and somebody can keep it moist."""

from collections.abc import Iterator
from datetime import timedelta

from turfplan.audit.case import Case, last_day_of
from turfplan.audit.faults import Fault, fault
from turfplan.audit.order_of_work import germination_of
from turfplan.audit.sowings import mown_from

COVER, TOUCH_UP = "cover", "touch_up"


def seed_not_torn_up(case: Case) -> Iterator[Fault]:
    """No tines and no blades go through seedlings."""
    rest = case.days("seeding.no_dressing")
    for sowing in case.to_do("sowing"):
        for task in case.to_do("coring", "thatching"):
            if 0 < (task.start - sowing.start).days < rest:
                yield fault("seed_torn_up", task, sowing, day=task.start, sown=sowing.start)


def seed_not_buried(case: Case) -> Iterator[Fault]:
    """Nothing is spread over seed, seedlings or young plants until they can bear it: some weeks
    after they are in the ground, and after their first cut.
    """
    rest, grown = case.days("seeding.no_dressing"), mown_from(case)
    for sowing in case.all("sowing", "planting"):
        for layer in (*case.to_do("spreading"), *case.jobs(TOUCH_UP)):
            since = (layer.start - last_day_of(sowing)).days
            if since > 0 and (since < rest or (grown is not None and layer.start < grown)):
                yield fault("dressed_over_seed", layer, sowing, day=layer.start, sown=sowing.end)


def somebody_waters(case: Case) -> Iterator[Fault]:
    """Nobody is away in the first weeks of seed or plants."""
    weeks, water = case.days("seeding.watering_commitment"), case.brief.water
    if water.timer or (water.timer is None and water.zones):
        return
    for sowing in case.to_do("sowing", "planting"):
        for span in case.brief.calendar.away:
            lasts = (span.start - sowing.end).days < weeks and span.end >= sowing.start
            if lasts and not sowing.plays("dormant"):
                yield fault(
                    "seed_unwatched", sowing, day=sowing.start, first=span.start, last=span.end
                )


def seed_has_water(case: Case) -> Iterator[Fault]:
    """Where nothing can be watered, seed and plants go in only where the plan's own account of
    water has as much rain as the young grass uses until it is up or has rooted.
    """
    if case.brief.water.possible is not False:
        return
    for sowing in case.to_do("sowing", "planting"):
        if sowing.plays("dormant"):
            continue
        until = sowing.end + timedelta(_tender_days(case, planted=sowing.plays("planting")))
        weeks = [
            week.entries
            for ledger in case.plan.ledgers
            for week in ledger.weeks
            if ledger.item == "water" and week.end >= sowing.end and week.start <= until
        ]
        use = -sum(week.get("evapotranspiration", 0.0) for week in weeks)
        if sum(week.get("rain", 0.0) for week in weeks) < use:
            yield fault("seed_without_water", sowing, day=sowing.start)


def _tender_days(case: Case, *, planted: bool) -> int:
    """The days until the slowest seed of the lawn is up, or plants have rooted."""
    up = [] if planted else [days.high_si for days in germination_of(case)]
    return round(max(up, default=case.book.fact("water.rooting_days").low_si))


def slope_covered(case: Case) -> Iterator[Fault]:
    """On a slope that sheds water, seed is covered at once."""
    slope = (case.brief.site.slope_percent or 0.0) / 100
    if slope < case.book.si("site.slope_cover"):
        return
    most = case.days("order.cover_most")
    covers = case.all_jobs(COVER)
    for sowing in case.to_do("sowing"):
        # The days may give way, and an owner may move the cover: the plan then no longer hangs it
        # on the seed.
        late = [
            cover
            for cover in covers
            if sowing.id in cover.depends_on
            and not cover.held
            and not 0 <= (cover.end - sowing.end).days <= most
        ]
        if late or not covers:
            yield fault(
                "seed_uncovered",
                sowing,
                day=sowing.end,
                slope_percent=round(slope * 100),
                most_days=most,
            )


INVARIANTS = (seed_not_torn_up, seed_not_buried, somebody_waters, seed_has_water, slope_covered)
