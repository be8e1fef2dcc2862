"""What the owner told of light, weed killers and causes of thin grass is kept by the plan."""

from collections.abc import Iterator
from datetime import timedelta

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.message import within
from turfplan.records.brief import HerbicideUse

CAUSE = "diagnose"
# What is done with each machine of one's own.
DONE_WITH = {
    "aerator": ("core_aerate",),
    "dethatcher": ("dethatch", "slit"),
    "topdresser": ("topdress", "touch_up"),
    "loader": ("topdress", "fill", "touch_up"),
    "roller": ("roll", "fill"),
}


def light_for_seed(case: Case) -> Iterator[Fault]:
    """Nothing is sown or planted to last where no grass has sun enough."""
    told = case.brief.site.sun_hours
    least = case.book.si("site.sun_least") / 60
    if told is None or told >= least or case.brief.seeding.intent == "winter_overseed":
        return
    for sowing in case.to_do("sowing", "planting"):
        yield fault("sown_in_the_dark", sowing, day=sowing.start, hours=told, least_hours=least)


def no_seed_on_killer(case: Case) -> Iterator[Fault]:
    """Seed waits for the day that the label, or a pot test, gives; of killers of all growth that
    last in the soil it waits for that alone."""
    for use in case.brief.history.herbicides:
        for sowing in case.to_do("sowing", "planting"):
            allowed = use.seed_after or (
                use.on + timedelta(days=use.hold_days) if use.hold_days is not None else None
            )
            if (allowed is None and _stops(case, use)) or (allowed and sowing.start < allowed):
                yield fault(
                    "sown_on_weed_killer",
                    sowing,
                    day=sowing.start,
                    ingredient=use.active_ingredient,
                )


def _stops(case: Case, use: HerbicideUse) -> bool:
    name = use.active_ingredient.strip().lower().replace("-", "_").replace(" ", "_")
    known = case.book.herbicides.get(name)
    return known is not None and known.stops


def cause_before_seed(case: Case) -> Iterator[Fault]:
    """The look for the cause of thin grass comes before seed, by the days it needs to bear
    fruit."""
    lead = case.days("order.diagnose_lead")
    for look in case.jobs(CAUSE):
        for sowing in case.to_do("sowing", "planting"):
            if (sowing.start - look.end).days < lead:
                yield fault(
                    "sown_before_cause",
                    sowing,
                    look,
                    day=sowing.start,
                    cause=look.end,
                    least_days=lead,
                )


def machines_answered(case: Case) -> Iterator[Fault]:
    """Each machine at hand has work in the plan, or the plan says that it has none."""
    told = {value for said in case.plan.assumptions for value in within(said)}
    for name in case.brief.work.machines:
        if not case.all_jobs(*DONE_WITH[name]) and name not in told:
            yield fault("machine_unanswered", machine=name)


def earlier_seedlings_spared(case: Case) -> Iterator[Fault]:
    """Nothing is spread over seed that was sown before the plan until it can bear it."""
    rest = case.days("seeding.no_dressing")
    renewed = case.brief.seeding.intent == "renovate" or case.brief.lawn.condition == "bare"
    for earlier in () if renewed else case.brief.history.sowings:
        for layer in case.to_do("spreading"):
            if 0 <= (layer.start - earlier.on).days < rest:
                yield fault("dressed_over_earlier_seed", layer, day=layer.start, sown=earlier.on)


INVARIANTS = (
    light_for_seed,
    no_seed_on_killer,
    cause_before_seed,
    earlier_seedlings_spared,
    machines_answered,
)
