"""What must be done first is done first."""

from collections.abc import Iterator, Sequence

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, FaultKind, fault
from turfplan.book.facts import Fact
from turfplan.message import Message
from turfplan.records.book_names import of_species
from turfplan.records.plan_task import Task

# Operations of the book that have no role of their own.
CAUSE, LIFTING, FITTINGS = "diagnose", "lift_and_fill", "raise_fittings"
RAKED, TREATED = "rake_moss", "open_turf.moss_treated_off"
PERMIT, BARES = "permit", ("kill_stand", "clear_stand", "till")


def after_what_it_hangs_on(case: Case) -> Iterator[Fault]:
    """No open task begins before one that it names as coming first.

    Orders, lifting and fittings are judged by themselves.
    """
    for task in case.open:
        for name in task.depends_on:
            first = case.by_id.get(name)
            if first is None or first.end <= task.start or first.start == task.start:
                # What is worked in as it is spread begins with it.
                continue
            if task.series is not None and first.start <= task.start:
                # Strips that are sown are watered while the others wait.
                continue
            judged_elsewhere = first.plays("ordering") or first.operation in (LIFTING, FITTINGS)
            if first.closed is None and not first.overdue and not judged_elsewhere:
                yield fault(
                    "before_what_it_hangs_on", task, first, day=task.start, first_day=first.end
                )


def cause_before_fill(case: Case) -> Iterator[Fault]:
    """The look for the cause comes first, by the days that it needs to bear fruit."""
    lead = case.days("order.diagnose_lead")
    for look in case.jobs(CAUSE):
        for fill in (*case.to_do("spreading"), *case.jobs(LIFTING)):
            if (fill.start - look.end).days < lead:
                yield fault(
                    "filled_before_cause",
                    fill,
                    look,
                    day=fill.start,
                    cause=look.end,
                    least_days=lead,
                )


def permit_before_ground_is_bare(case: Case) -> Iterator[Fault]:
    """Nothing is killed, stripped, loosened or lifted before the permit that its new grass lives
    on."""
    lead = case.days("order.permit_lead")
    for permit in case.jobs(PERMIT):
        # One for relaid turf alone says nothing of seed.
        bares = (LIFTING,) if permit.id != PERMIT else BARES
        for job in case.jobs(*bares):
            if (job.start - permit.end).days < lead:
                yield fault(
                    "bared_before_permit",
                    job,
                    permit,
                    day=job.start,
                    permit=permit.end,
                    least_days=lead,
                )


def moss_raked_out(case: Case) -> Iterator[Fault]:
    """Where a look says that treated moss comes off in a task of its own, that task is there."""
    raked = any(task.operation == RAKED for task in case.plan.tasks)
    for look in case.jobs(CAUSE):
        told = any(isinstance(line, Message) and line.key == TREATED for line in look.how)
        if told and not raked:
            yield fault("moss_not_raked_out", look)


def mown_low_first(case: Case) -> Iterator[Fault]:
    """Tines and blades go through grass that has been cut low."""
    cuts = case.all("low_cut")
    for task in case.to_do("coring", "thatching"):
        if cuts and not any(cut.start <= task.start for cut in cuts):
            yield fault("not_mown_low", task, day=task.start)


def thatch_before_tines(case: Case) -> Iterator[Fault]:
    """Thatch is taken off before cores are taken, so that the holes stay open."""
    cores = case.to_do("coring")
    for thatch in case.to_do("thatching"):
        if cores and not any(core.start >= thatch.start for core in cores):
            yield fault("thatched_after_tines", thatch, *cores, day=thatch.start)


def pass_after_tines(case: Case) -> Iterator[Fault]:
    """Where the ground is levelled, holes are filled: a pass or seed follows the tines."""
    passes = case.to_do("spreading")
    for core in case.to_do("coring"):
        if (
            passes
            and not case.to_do("sowing")
            and not any(layer.start >= core.start for layer in passes)
        ):
            yield fault("tines_without_pass", core, day=core.start)


def lifted_before_pass(case: Case) -> Iterator[Fault]:
    """Deep hollows are filled before the thin passes level the rest."""
    yield from _before_every_pass(case, case.jobs(LIFTING), "lifted_after_pass")


def fittings_before_pass(case: Case) -> Iterator[Fault]:
    """Heads and covers come up before they are buried."""
    yield from _before_every_pass(case, case.jobs(FITTINGS), "fittings_after_pass")


def _before_every_pass(case: Case, jobs: Sequence[Task], kind: FaultKind) -> Iterator[Fault]:
    for job in jobs:
        for layer in case.to_do("spreading"):
            # These rules may give way; a plan that keeps them names the job before the pass.
            # Strip by strip both go on side by side.
            by_strip = (job.start, job.end) == (layer.start, layer.end)
            if job.id in layer.depends_on and job.end > layer.start and not by_strip:
                yield fault(kind, job, layer, day=job.end, pass_day=layer.start)


def first_cut_after_seed(case: Case) -> Iterator[Fault]:
    """Seed has had the days that it needs to come up before it is cut."""
    least = min((days.low_si for days in germination_of(case)), default=0.0)
    for sowing in case.to_do("sowing"):
        for cut in case.to_do("first_cut"):
            # Where seed went strip by strip, so may the cut: each strip has its days.
            by_strip = cut.duration_days == sowing.duration_days
            waits = (cut.start - sowing.start, cut.end - sowing.end) if by_strip else ()
            if min(waits, default=cut.start - sowing.end).days < least:
                yield fault("first_cut_too_early", cut, sowing, day=cut.start, sown=sowing.end)


def germination_of(case: Case) -> Iterator[Fact]:
    """How long each grass takes to come up that may be in the seed: the one that was asked for,
    else any of the same season; quicker ones than those of the seed do no harm here."""
    seeding, main = case.brief.seeding, case.brief.dominant.species
    if not case.to_do("sowing"):
        return
    named = seeding.species or (
        case.book.winter_cover if seeding.intent == "winter_overseed" else None
    )
    for grass in [named] if named else [g.species for g in case.plan.lawn.grass] + [main]:
        days = case.book.get(of_species(grass, "germination_days"))
        if days is not None:
            yield days


INVARIANTS = (
    after_what_it_hangs_on,
    cause_before_fill,
    permit_before_ground_is_bare,
    moss_raked_out,
    mown_low_first,
    thatch_before_tines,
    pass_after_tines,
    lifted_before_pass,
    fittings_before_pass,
    first_cut_after_seed,
)
