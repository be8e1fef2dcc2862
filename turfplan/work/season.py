"""Puts the phases of one campaign together: every task, and every constraint that binds them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.book.words import book_message, operation_name
from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Message, said
from turfplan.phrases import season as phrases
from turfplan.records.book_names import ComputedNumber, Flag, of_family, of_species
from turfplan.records.constraints import Constraint, DayStep, Lag, Reason, Step, Strength
from turfplan.work.buying_lags import buying_lags
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import day_constraints, days_in_time
from turfplan.work.days_off import days_for
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.emergence import emergence, waits_for_spring
from turfplan.work.feeding.amendments import amend_days, amendments, left_for_later
from turfplan.work.feeding.lime import lime_days, lime_left, liming
from turfplan.work.feeding.on_leaves import apart_on_leaves
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.feeding.soil_findings import soil_findings
from turfplan.work.ground_fill import covered, regrowth_look, settling
from turfplan.work.labour import idle_machines
from turfplan.work.lag_steps import workday_step
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.loads import load_lags, loads_of
from turfplan.work.mix_choice import MixChoice
from turfplan.work.mowing import low_cut_steps
from turfplan.work.old_grass import old_cut
from turfplan.work.order import SOWING, order_lags
from turfplan.work.passes import low_floor
from turfplan.work.phases.buying import with_buying
from turfplan.work.phases.care import care
from turfplan.work.phases.care_alone import care_alone, first_cut_days
from turfplan.work.phases.dead_turf import black_moss, dead_turf
from turfplan.work.phases.finish import finish
from turfplan.work.phases.level import level, wished_spacing
from turfplan.work.phases.low_cuts import LIFTING_CUT
from turfplan.work.phases.marks import marks, marks_hold, renewal_lags
from turfplan.work.phases.new_ground import new_ground
from turfplan.work.phases.open_turf import surface, told_of_spring_coring
from turfplan.work.phases.prepare import prepare
from turfplan.work.phases.receive import with_loads
from turfplan.work.phases.seedbed import LAST_CUT, sown_apart
from turfplan.work.phases.seedling_look import look_days
from turfplan.work.phases.sow import look_at_earlier, sow
from turfplan.work.shared_hands import hours_kept
from turfplan.work.slopes import washes, without_machines
from turfplan.work.strips import at_once_on_a_slope, cut_by_strip, in_strips, strip_lags
from turfplan.work.thatch import dethatches, grows_together_first


@dataclass(frozen=True, slots=True)
class FillVolumes:
    """Loose volumes in m3: of each pass by number, of the deep hollows, of the touch-up."""

    passes: Mapping[int, float]
    lift_m3: float
    touch_up_m3: float


def draft_season(
    setting: ResolvedLawn,
    campaign: Campaign,
    mix: MixChoice,
    feeding: FeedingPlan,
    volumes: FillVolumes,
    *,
    permit: bool,
) -> SeasonDraft:
    """Every task of a campaign and every constraint on it; no day is chosen here."""
    computed = computed_numbers(setting, campaign)
    spacing = round(
        computed["setting.pass_interval_least"] * setting.book.si("passes.wished_spacing")
    )
    low_cuts = _low_cuts(setting, campaign)
    finishing, unfinished = finish(setting, campaign, volumes.touch_up_m3, spacing)
    drafts = [
        *prepare(setting, campaign, permit=permit),
        *surface(setting, campaign, low_cuts, volumes.lift_m3),
        *level(setting, campaign, volumes.passes, spacing),
        *new_ground(setting, campaign, volumes.passes),
        *dead_turf(setting, campaign),
        *black_moss(setting),
        *sow(setting, campaign),
        *look_at_earlier(setting),
        *care_alone(setting),
        *care(setting, campaign, feeding),
        *liming(setting, campaign, feeding.lime),
        *amendments(setting, campaign),
        *finishing,
    ]
    alone = "_alone" if setting.care_alone else ""
    experts = (
        (book_message(setting.book, f"cautions.experts_on_thatch{alone}.text"),)
        if dethatches(setting)
        else ()
    )
    drafts, steep = without_machines(setting, drafts)
    drafts = at_once_on_a_slope(setting, campaign, in_strips(setting, campaign, drafts))
    drafts = cut_by_strip(drafts)
    drafts = [*drafts, *marks(setting, campaign, drafts)]
    spacings = {s.number: wished_spacing(setting, s, spacing) for s in campaign.sessions}
    loads = loads_of(setting, campaign, volumes.passes, drafts, spacings)
    kept, left_out = with_a_day(setting, with_loads(setting, drafts, loads))
    tasks = _held_to_seed(with_buying(setting, kept, loads, feeding))
    soil = soil_findings(setting)
    return SeasonDraft(
        tuple(tasks),
        (
            *_constraints(setting, campaign, feeding, tasks, computed),
            *load_lags(setting, tasks, loads),
            *buying_lags(setting, tasks),
        ),
        (
            *soil.notes,
            *left_for_later(setting, campaign),
            *lime_left(setting, campaign, feeding.lime),
            *unfinished,
            *left_out,
            *idle_machines(setting, tasks),
            *told_of_spring_coring(setting, campaign),
        ),
        (*steep, *soil.cautions, *(said(caution) for caution in mix.cautions)),
        (
            *(said(disagreement) for disagreement in mix.disagreements),
            *soil.disagreements,
            *experts,
        ),
        loads,
        days_in_time(setting, campaign, tasks),
    )


def _constraints(
    setting: ResolvedLawn,
    campaign: Campaign,
    feeding: FeedingPlan,
    drafts: Sequence[Draft],
    computed: Mapping[str, float],
) -> tuple[Constraint, ...]:
    """Everything that binds the drafts of a season; `computed` are the numbers of this lawn."""
    return (
        *day_constraints(setting, campaign, drafts),
        *first_cut_days(setting, drafts),
        *([feeding.starter_days] if feeding.starter_days is not None else []),
        *lime_days(drafts),
        *amend_days(drafts),
        *apart_on_leaves(drafts),
        *order_lags(setting, drafts, season_flags(setting, campaign), computed),
        *_full_days(setting, drafts),
        *hours_kept(setting, drafts),
        *strip_lags(drafts),
        *renewal_lags(setting, drafts),
        *_together(setting, drafts),
    )


def season_flags(setting: ResolvedLawn, campaign: Campaign) -> frozenset[Flag]:
    """The words that rules of order may ask for in `when`."""
    dormant = waits_for_spring(campaign)
    flags: dict[Flag, bool] = {
        "living_turf": not setting.on_open_ground,
        "open_ground": setting.on_open_ground,
        "uncovered": not covered(setting),
        "slope": setting.on_open_ground and washes(setting),
        "creeper_dethatched": grows_together_first(setting),
        "sow_on_pass": campaign.sow_on_pass,
        "no_passes": not campaign.sessions,
        "grows_on": not dormant,
        "waits_for_spring": dormant,
        "second_grass": setting.sowing.intent == "winter_overseed",
        "sown_in_autumn": campaign.sow_window is not None
        and not dormant
        and campaign.sow_window.season in ("summer", "autumn"),
    }
    return frozenset(name for name, holds in flags.items() if holds)


def computed_numbers(setting: ResolvedLawn, campaign: Campaign) -> dict[str, float]:
    """The numbers of the order of work that follow from this lawn: days, or units of growth."""
    book, species = setting.book, setting.turf.species
    numbers: dict[ComputedNumber, float] = {
        "setting.lead_days": setting.labour.lead_days,
        # It is answered before what is sown or planted is bought.
        "setting.permit_bought": book.si("delivery.small_lead") + book.si("order.permit_lead"),
        "setting.marks_hold": book.si(marks_hold(setting)),
        "setting.pass_interval": book.si(of_family("passes.growth_{season}", species.season)),
        "setting.pass_interval_least": setting.pass_interval_days,
        "setting.fill_settles": book.si(settling(setting)),
        "setting.regrowth_look": book.si(regrowth_look(setting)),
    }
    cut = old_cut(setting, campaign)
    if cut is not None:
        numbers |= {
            "setting.old_cut_least": cut.least,
            "setting.old_cut_most": cut.due + book.si("setting.first_mow_spread_days"),
        }
    up, look = emergence(setting, campaign), look_days(setting, campaign)
    if up is not None:
        numbers |= {
            "setting.germination_look_least": up.last if look is None else look.least,
            "setting.germination_look_most": up.last + book.si("setting.germination_look_days"),
            "setting.first_mow_least": up.mow_least,
            "setting.first_mow_most": up.mow_most,
            "setting.colour_look": up.colour_least,
            "setting.colour_look_most": up.colour_most,
            "setting.undressed": up.undressed,
            "setting.waking": up.wakes,
            # Every week has a day of work: no weekday of the waking moves the seed.
            "setting.waking_most": up.wakes + len(WEEKDAYS) + book.si("order.starter_most"),
        }
    return {str(name): number for name, number in numbers.items()}


def _low_cuts(setting: ResolvedLawn, campaign: Campaign) -> tuple[float, ...]:
    """The heights in mm of the cuts that lead from the usual height to the floor of this grass."""
    if setting.on_open_ground or (not campaign.sessions and setting.sowing.operation not in SOWING):
        return ()
    if sown_apart(setting, campaign) and not campaign.sessions:
        return ()
    on_seed = campaign.sow_on_pass or not campaign.sessions
    seeded = setting.sowing.operation in SOWING and on_seed and len(campaign.sessions) <= 1
    floor, _ = low_floor(setting, seeded)
    usual = setting.book.fact(of_species(setting.turf.species.id, "mow_height")).high_si
    return low_cut_steps(usual, floor, setting.book.si("mowing.low_cut_sliver"))


def with_a_day(setting: ResolvedLawn, drafts: Sequence[Draft]) -> tuple[list[Draft], list[Message]]:
    """Leaves out what is only wished for where its window holds no day of work, and says so."""
    kept: list[Draft] = []
    notes: list[Message] = []
    for draft in drafts:
        spans: Sequence[tuple[int, int]] = ()
        if setting.book.operations[draft.operation].optional:
            windows = setting.open(draft.operation)
            spans = (
                [draft.window]
                if draft.window
                else [(w.start.toordinal(), w.end.toordinal()) for w in windows]
            )
        reachable = any(
            (day := days_for(setting, draft.operation).next(start)) is not None and day <= end
            for start, end in spans
        )
        if spans and not reachable:
            notes.append(phrases.left_out(operation=operation_name(setting.book, draft.operation)))
        else:
            kept.append(draft)
    return kept, notes


def _held_to_seed(drafts: Sequence[Draft]) -> list[Draft]:
    """Anchors named by what they are (`sowing`) become ids of tasks that exist, or fall away."""
    ids = {d.id for d in drafts}
    sowing = next((d.id for d in drafts if d.operation in SOWING or d.operation == "plant"), None)
    anchored: list[Draft] = []
    for draft in drafts:
        named = sowing if draft.anchor == "sowing" else draft.anchor
        anchor = named if named in ids and named != draft.id else None
        anchored.append(draft if anchor == draft.anchor else replace(draft, anchor=anchor))
    return anchored


def _full_days(setting: ResolvedLawn, drafts: Sequence[Draft]) -> list[Lag]:
    """Jobs that follow each other share a working day only while its hours last."""
    capacity = setting.labour.people * setting.labour.hours_per_day
    next_day = workday_step(setting.calendar.work, setting.first_day, setting.last_day, 1)
    reason = Reason("work.day_full", phrases.day_full())
    # What is spread is worked in, and seed is covered, the same day, by the same people.
    beside = {
        f"topdress.{d.position}": d.person_hours for d in drafts if d.operation == "incorporate"
    }
    for seed in {d.beside for d in drafts if d.beside is not None}:
        beside[seed] = sum(d.person_hours for d in drafts if d.beside == seed)
    lags = _mown_before(drafts, beside, capacity, reason, next_day)
    # What prepares seed that goes on no pass shares its days with it.
    worked = {d.id: d.session for d in drafts}
    apart = next((d.session for d in drafts if d.id == LAST_CUT), 0)
    worked |= {name: 0 for name, session in worked.items() if session == apart}
    for session in sorted(set(worked.values())):
        chain = _chain(setting, [d for d in drafts if worked[d.id] == session])
        used = 0.0
        for before, job in zip((None, *chain), chain, strict=False):
            need = (job.person_hours + beside.get(job.id, 0.0)) / capacity
            if before is not None and job.strips and before.strips == job.strips:
                continue
            fits = used + min(need, 1.0) <= 1.0 + 1e-9 and job.duration_days == 1
            if before is not None and not fits:
                name = f"day_full:{before.id}>{job.id}"
                lags.append(
                    Lag(name, before.end_node, job.start_node, Strength.STRONG, reason, next_day)
                )
                used = 0.0
            whole = max(0, job.duration_days - 1)
            used = (used + need) - whole if job.duration_days == 1 else need - whole
    return lags


def _mown_before(
    drafts: Sequence[Draft],
    beside: Mapping[str, float],
    capacity: float,
    reason: Reason,
    next_day: Step,
) -> list[Lag]:
    """The mowing before a pass comes on the day before where it does not fit beside the pass."""
    passes = {d.position: d for d in drafts if d.operation == "topdress" and not d.strips}
    lags = []
    for mow in (d for d in drafts if d.operation == "mow" and d.position in passes):
        spread = passes[mow.position]
        need = mow.person_hours + spread.person_hours + beside.get(spread.id, 0.0)
        if spread.duration_days == 1 and need > capacity + 1e-9:
            name = f"day_full:{mow.id}>{spread.id}"
            ends = mow.end_node, spread.start_node
            lags.append(Lag(name, *ends, Strength.STRONG, reason, next_day))
    return lags


def _chain(setting: ResolvedLawn, drafts: Sequence[Draft]) -> list[Draft]:
    """The heavy jobs of one session in order of work; of the low cuts only the last is one, and in
    care alone none: that for the blades comes before them."""
    turns = {
        d.id: turn
        for d in drafts
        if (turn := setting.book.operations[d.operation].turn) is not None
    }
    cuts = [d for d in drafts if d.operation == "mow_low" and d.id != LIFTING_CUT]
    steps = sorted(cuts, key=lambda d: d.position)
    earlier = [LIFTING_CUT, *(d.id for d in (steps if setting.care_alone else steps[:-1]))]
    heavy = [d for d in drafts if d.id in turns and d.id not in earlier and d.beside is None]
    return sorted(heavy, key=lambda d: (turns[d.id], d.position))


def _together(setting: ResolvedLawn, drafts: Sequence[Draft]) -> list[Lag]:
    """Spreading and working in, seed and its cover: the same first and last day."""
    by_id = {d.id: d for d in drafts}
    reason = Reason("level.same_day", phrases.same_day())
    most_days = setting.days("order.cover_most")
    covers = any(draft.operation == "cover" for draft in drafts)
    why = phrases.covered_same_day() if covers else phrases.rolled_same_day()
    with_seed = Reason("seed.same_day", why, ("order.cover_most",) if covers else ())
    lags = []
    done_before: dict[str, Draft] = {}
    for draft in drafts:
        if draft.strips:
            continue
        if draft.operation == "incorporate" and (spread := by_id.get(f"topdress.{draft.position}")):
            name = f"same_day:{draft.id}"
            same = DayStep(0)
            lags.append(
                Lag(name, spread.start_node, draft.start_node, Strength.HARD, reason, same, same)
            )
        elif draft.beside in by_id:
            seed, most = by_id[draft.beside], DayStep(most_days)
            first, last = (seed.start_node, draft.start_node), (seed.end_node, draft.end_node)
            for nodes in dict.fromkeys((first, last)):
                name = f"same_day:{nodes[1]}"
                lags.append(Lag(name, *nodes, Strength.HARD, with_seed, DayStep(0), most))
            if (earlier := done_before.get(seed.id)) is not None:
                # The roller does not go over a cover.
                name, nodes = f"in_turn:{draft.id}", (earlier.start_node, draft.start_node)
                lags.append(Lag(name, *nodes, Strength.HARD, with_seed, DayStep(0)))
            done_before[seed.id] = draft
    return lags
