"""Each sowing has what it needs in its own time: seed that wakes in spring, a second grass for one
winter, and quiet over what comes up."""

from collections.abc import Iterator
from datetime import date, timedelta

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.audit.open_ground import nothing_lives
from turfplan.message import Message, within
from turfplan.records.book_names import of_herbicide
from turfplan.records.plan_task import Task

# Operations of the book that have no role of their own.
PREVENTER, FEEDING, WAY_BACK, LOOK = (
    "preemergent",
    "feed_nitrogen",
    "spring_transition",
    "inspect.germination",
)
# Sentences that keep people off.
KEEP_OFF = "keep_off."
RYE_RATE = "feeding.rye_rate"
# Sentences with which a plan says why it gives none of what is looked for.
NOTHING_SOWN = (
    "watering.verdict.rain_doubtful",
    "watering.verdict.no_water_seed",
    "watering.verdict.no_water_plants",
)
NO_STARTER = (
    "feeding.starter.compost_feeds",
    "feeding.starter.blackout",
    "feeding.starter.fed_before",
    "feeding.starter.cold",
    "feeding.starter.year_full",
)

# The sentences with which a plan says that no run of a stage fits the hours there are for it, or
# that rain or cold spares it its water.
NOT_WATERED = (
    *(f"watering.week.no_run_fits{bound}" for bound in ("", "_home", "_day", "_ground")),
    "watering.week.rain_does_it",
    "watering.week.grass_rests",
)
GERMINATION, ESTABLISHMENT, SOAK_RELAID, RELAID = (
    f"watering.stage.{name}" for name in ("germination", "establishment", "soak_relaid", "relaid")
)
WEEK = 7

UNFED = ("feeding.left_out.blackout", "feeding.left_out.no_day", "feeding.left_out.year_full")


def mown_from(case: Case) -> date | None:
    """The day on which what was sown has been mown three times: some weeks after its first cut."""
    cuts = [cut.end for cut in case.all("first_cut")]
    return max(cuts) + timedelta(case.days("seeding.third_mowing")) if cuts else None


def no_barrier_over_seedlings(case: Case) -> Iterator[Fault]:
    """No preventer goes on after seed before the seedlings have been mown three times."""
    grown, rest = mown_from(case), timedelta(case.days("seeding.no_dressing"))
    for sowing in case.all("sowing"):
        for barrier in case.jobs(PREVENTER):
            early = barrier.start < sowing.end + rest or (grown and barrier.start < grown)
            if barrier.start >= sowing.start and early:
                yield fault("barred_over_seedlings", barrier, sowing, day=barrier.start)


def one_barrier_in_a_spring(case: Case) -> Iterator[Fault]:
    """No preventer goes on while one of the history still works: as long as it keeps seed."""
    for use in case.brief.history.herbicides:
        known = case.book.herbicides.get("_".join(use.active_ingredient.lower().split()))
        if known is None or not known.prevents:
            continue
        lasts = round(case.book.fact(of_herbicide(known.id, "hold")).high_si)
        for barrier in case.jobs(PREVENTER):
            if use.on <= barrier.start <= use.on + timedelta(lasts):
                yield fault("barred_twice", barrier, day=barrier.start, given=use.on)


def kept_off_what_is_new(case: Case) -> Iterator[Fault]:
    """Every job that sows, plants or relays says until when people keep off."""
    for task in case.to_do("sowing", "planting", "relaying"):
        if not any(isinstance(h, Message) and h.key.startswith(KEEP_OFF) for h in task.how):
            yield fault("new_grass_trodden", task, day=task.end)


def not_fed_before_mown(case: Case) -> Iterator[Fault]:
    """Between the seed, with its starter, and its first cut nothing is fed; a second grass is. A
    first cut after the last day of the plan is handed over."""
    if case.brief.seeding.intent == "winter_overseed":
        return
    yield from _fed_before_end(case)
    for sowing in case.all("sowing"):
        for cut in case.to_do("first_cut"):
            for feeding in case.jobs(FEEDING):
                if sowing.end <= feeding.start < cut.start and not cut.held:
                    yield fault("fed_before_mown", feeding, cut, day=feeding.start, mown=cut.start)


def _fed_before_end(case: Case) -> Iterator[Fault]:
    """What is fed after the seed where its first cut comes after the plan."""
    known = case.book.operations
    cuts = [
        item.start
        for item in case.plan.handover
        if item.operation in known and known[item.operation].plays("first_cut")
    ]
    for sowing in case.all("sowing") if cuts else ():
        for feeding in case.jobs(FEEDING):
            if sowing.end <= feeding.start < min(cuts):
                yield fault("fed_before_mown", feeding, sowing, day=feeding.start, mown=min(cuts))


def _watered_freely(case: Case, *stages: str) -> bool:
    """Whether the law lets anybody water on every day, and the plan says of none of these stages
    (by their keys) that the hours hold no run of it, or that rain or cold spares it.
    """
    water, state = case.brief.water, case.plan.state
    banned = water.banned or (state is not None and state.of_kind("banned"))
    lawful = not (banned or water.allowed_weekdays or water.allowed_hours or water.parity)
    if water.possible is False or not lawful:
        return False
    said = [told for told in case.plan.cautions if isinstance(told, Message)]
    unheld = [dict(told.values).get("stage") for told in said if told.key in NOT_WATERED]
    return not any(isinstance(stage, Message) and stage.key in stages for stage in unheld)


def woken_seed_is_watered(case: Case) -> Iterator[Fault]:
    """Seed that rests over winter is kept moist from its waking on, where the law lets anybody
    water on every day, unless the plan says that the hours hold no run of it.
    """
    if not _watered_freely(case, GERMINATION):
        return
    stages = {
        task.stage.id: task.start for task in case.all_jobs("water") if task.stage is not None
    }
    for sowing in _resting(case):
        kept_moist = stages.get("germination")
        if kept_moist is None or kept_moist <= sowing.end:
            yield fault("woken_seed_dry", sowing, day=sowing.start)


def woken_seed_is_fed(case: Case) -> Iterator[Fault]:
    """Seed that rests over winter has its starter as it wakes, unless the plan says why not."""
    said = {reason.key for reason in case.plan.campaign_reason if isinstance(reason, Message)}
    for sowing in _resting(case):
        if not case.all("starter") and said.isdisjoint(NO_STARTER):
            yield fault("woken_seed_unfed", sowing, day=sowing.start)


def not_said_unsown(case: Case) -> Iterator[Fault]:
    """Where a plan says that nothing is sown or planted for want of water, nothing is."""
    said = (value for caution in case.plan.cautions for value in within(caution))
    keys = {value.key for value in said if isinstance(value, Message)}
    if not keys.isdisjoint(NOTHING_SOWN):
        for task in case.to_do("sowing", "planting"):
            yield fault("sown_though_refused", task, day=task.start)


def _resting(case: Case) -> Iterator[Task]:
    """The sowings of seed that rests over winter, of which the spring lies in the plan."""
    for sowing in case.to_do("sowing"):
        if sowing.plays("dormant") and LOOK in case.by_id:
            yield sowing


def _of_second_grass(case: Case) -> list[Task]:
    """The sowings of ryegrass for one winter that are still to be done."""
    return case.to_do("sowing") if case.brief.seeding.intent == "winter_overseed" else []


def second_grass_has_low_cut(case: Case) -> Iterator[Fault]:
    """The lawn is cut low for a second grass, whatever was done to it in summer; bare ground has
    nothing to cut."""
    if nothing_lives(case):
        return
    most = 2 * case.days("order.low_cut_before_seed_most")
    for sowing in _of_second_grass(case):
        if not any(0 <= (sowing.start - cut.end).days <= most for cut in case.all("low_cut")):
            yield fault("second_grass_uncut", sowing, day=sowing.start, most_days=most)


def _stages(case: Case, *names: str) -> list[Task]:
    """The waterings of some stages, over ones too, in order of time."""
    runs = [t for t in case.all_jobs("water") if t.stage is not None and t.stage.id in names]
    return sorted(runs, key=lambda run: run.start)


def second_grass_is_watered(case: Case) -> Iterator[Fault]:
    """A second grass is kept moist from its seed on, and watered until its first cut, where nothing
    but its need decides."""
    if not _watered_freely(case, GERMINATION, ESTABLISHMENT):
        return
    cuts = [cut.start for cut in case.all("first_cut")]
    for sowing in _of_second_grass(case):
        runs = _stages(case, "germination", "establishment")
        until = min([*cuts, case.plan.horizon.end]) - timedelta(1)
        # What the evening does not hold soaks it in the night after, and daily water follows.
        begins = bool(runs) and runs[0].start <= sowing.end + timedelta(2)
        if not begins or max(run.end for run in runs) < until:
            yield fault("second_grass_dry", sowing, day=sowing.start)


def relaid_turf_is_watered(case: Case) -> Iterator[Fault]:
    """Turf that was lifted is soaked once it is laid again, by the morning after, and watered until
    it has rooted."""
    if not _watered_freely(case, SOAK_RELAID, RELAID):
        return
    rooting = timedelta(case.days("water.rooting_days") - 1)
    for laid in case.to_do("relaying"):
        night = laid.end + timedelta(1)
        soaked = any(
            run.start <= night and laid.end <= run.end for run in _stages(case, "soak_relaid")
        )
        runs = _stages(case, "relaid")
        until = min(laid.end + rooting, case.plan.horizon.end)
        if not soaked or not runs or max(run.end for run in runs) < until:
            yield fault("relaid_turf_dry", laid, day=laid.end)


def second_grass_is_fed_in_time(case: Case) -> Iterator[Fault]:
    """The first food of a second grass comes the weeks after its seed that the book tells of."""
    weeks = case.book.fact("feeding.rye_first")
    least, most = round(weeks.low_si), round(weeks.high_si)
    for sowing in _of_second_grass(case):
        fed = [
            task
            for task in case.all_jobs(FEEDING)
            if RYE_RATE in task.facts and task.start > sowing.end
        ]
        first = min(fed, key=lambda task: task.start, default=None)
        if first is not None and not least <= (first.start - sowing.end).days <= most + WEEK:
            yield fault(
                "second_grass_fed_off_time",
                first,
                sowing,
                day=first.start,
                least_days=least,
                most_days=most,
            )


def second_grass_is_fed(case: Case) -> Iterator[Fault]:
    """A second grass is fed some weeks after its seed, unless the plan says why it cannot be."""
    notes = [note for ledger in case.plan.ledgers for note in ledger.notes]
    told = [dict(note.values).get("why") for note in notes if isinstance(note, Message)]
    if any(isinstance(why, Message) and why.key in UNFED for why in told):
        return
    for sowing in _of_second_grass(case):
        if not any(
            RYE_RATE in task.facts and task.start > sowing.end for task in case.all_jobs(FEEDING)
        ):
            yield fault("second_grass_unfed", sowing, day=sowing.start)


def second_grass_goes(case: Case) -> Iterator[Fault]:
    """The lawn is given back to the grass below, where its spring lies in the plan."""
    for sowing in _of_second_grass(case):
        spring = any(
            window.operation == WAY_BACK
            and sowing.end < window.start
            and window.end <= case.plan.horizon.end
            for window in case.plan.windows
        )
        if spring and not any(task.start > sowing.end for task in case.all_jobs(WAY_BACK)):
            yield fault("second_grass_stays", sowing, day=sowing.start)


INVARIANTS = (
    no_barrier_over_seedlings,
    one_barrier_in_a_spring,
    kept_off_what_is_new,
    not_fed_before_mown,
    woken_seed_is_watered,
    woken_seed_is_fed,
    second_grass_has_low_cut,
    second_grass_is_watered,
    relaid_turf_is_watered,
    second_grass_is_fed_in_time,
    second_grass_is_fed,
    second_grass_goes,
    not_said_unsown,
)
