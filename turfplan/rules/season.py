"""Puts the phases of one campaign together: every task, and every constraint that binds them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from turfplan.constraints import Constraint, Lag, Reason, Strength
from turfplan.rules.campaign import Campaign
from turfplan.rules.care import care, feed_days, feeds_beside_seedlings
from turfplan.rules.days import day_constraints
from turfplan.rules.draft import Draft, SeasonDraft
from turfplan.rules.feed import FeedingPlan
from turfplan.rules.finish import finish
from turfplan.rules.level import level
from turfplan.rules.liming import lime_days, liming
from turfplan.rules.mowing import low_cut_steps
from turfplan.rules.order import SOWING, order_lags
from turfplan.rules.passes import MixChoice, low_floor
from turfplan.rules.prepare import prepare
from turfplan.rules.seed import emergence, sow
from turfplan.rules.setting import Setting
from turfplan.rules.steps import workday_step
from turfplan.rules.surface import aerates, surface

# Tasks that may be left out: the renovation stands without them.
WISHED = ("feed_nitrogen", "lime", "preemergent", "last_mow", "settle_check", "touch_up", "spring_transition")


@dataclass(frozen=True, slots=True)
class Volumes:
    """Loose volumes in m3 that the amounts gave: of each pass by number, of the deep hollows, of the touch-up."""

    passes: Mapping[int, float]
    lift_m3: float
    touch_up_m3: float


def draft_season(
    setting: Setting, campaign: Campaign, mix: MixChoice, feeding: FeedingPlan, volumes: Volumes, *, permit: bool
) -> SeasonDraft:
    """Every task of a campaign and every constraint on it; no day is chosen here."""
    computed = computed_numbers(setting, campaign)
    spacing = round(computed["setting.pass_interval_least"] * setting.book.si("passes.wished_spacing"))
    low_cuts = _low_cuts(setting, campaign)
    feeding, notes = feeds_beside_seedlings(setting, campaign, feeding)
    finishing, unfinished = finish(setting, campaign, volumes.touch_up_m3, spacing)
    drafts = [
        *prepare(setting, campaign, permit=permit, aerates=aerates(setting)),
        *surface(setting, campaign, low_cuts, volumes.lift_m3),
        *level(setting, campaign, volumes.passes, spacing),
        *sow(setting, campaign),
        *care(setting, campaign, feeding),
        *liming(setting, feeding.lime),
        *finishing,
    ]
    drafts, left_out = _with_a_day(setting, drafts)
    notes = (*notes, *unfinished, *left_out)
    drafts = _wash_and_anchor(drafts)
    flags = season_flags(setting, campaign)
    constraints: tuple[Constraint, ...] = (
        *day_constraints(setting, campaign, drafts),
        *feed_days(setting, feeding, drafts),
        *lime_days(drafts),
        *order_lags(setting, drafts, flags, computed),
        *_full_days(setting, drafts),
        *_together(drafts),
    )
    return SeasonDraft(tuple(drafts), constraints, tuple(notes), mix.cautions, mix.disagreements)


def season_flags(setting: Setting, campaign: Campaign) -> frozenset[str]:
    """The words that rules of order may ask for in `when`."""
    dormant = campaign.sow_window is not None and campaign.sow_window.operation == "dormant_seed"
    flags = {
        "living_turf": setting.living,
        "sow_on_pass": campaign.sow_on_pass,
        "no_passes": not campaign.sessions,
        "grows_on": not dormant,
        "sown_in_autumn": campaign.sow_window is not None
        and not dormant
        and campaign.sow_window.season in ("summer", "autumn"),
    }
    return frozenset(name for name, holds in flags.items() if holds)


def computed_numbers(setting: Setting, campaign: Campaign) -> dict[str, float]:
    """The numbers of the order of work that follow from this lawn: days, or units of growth."""
    book, species = setting.book, setting.species
    numbers: dict[str, float] = {
        "setting.lead_days": setting.lead_days,
        "setting.pass_interval": book.si(f"passes.growth_{species.season}"),
        "setting.pass_interval_least": setting.pass_interval_days,
    }
    up = emergence(setting, campaign)
    if up is not None:
        colour = book.fact("setting.colour_look_days")
        numbers |= {
            "setting.germination_most": up.last,
            "setting.germination_look_most": up.last + book.si("setting.germination_look_days"),
            "setting.first_mow_least": up.mow_least,
            "setting.first_mow_most": up.mow_most,
            "setting.colour_look": up.last + colour.low_si,
            "setting.colour_look_most": up.last + colour.high_si,
        }
    return numbers


def _low_cuts(setting: Setting, campaign: Campaign) -> tuple[float, ...]:
    """The heights in mm of the cuts that lead down to the floor of this grass, from its usual height."""
    if setting.condition == "bare" or (not campaign.sessions and setting.sowing not in SOWING):
        return ()
    if setting.sowing == "dormant_seed" and not campaign.sessions:
        return ()
    seeded = setting.sowing in SOWING and len(campaign.sessions) <= 1
    floor, _ = low_floor(setting, seeded)
    usual = setting.book.fact(f"species.{setting.species.id}.mow_height").high_si
    return low_cut_steps(usual, floor, setting.book.si("mowing.low_cut_sliver"))


def _with_a_day(setting: Setting, drafts: Sequence[Draft]) -> tuple[list[Draft], list[str]]:
    """Leaves out what is only wished for where its window holds no day of work, and says so."""
    kept: list[Draft] = []
    notes: list[str] = []
    for draft in drafts:
        spans: Sequence[tuple[int, int]] = ()
        if draft.operation in WISHED:
            windows = setting.open(draft.operation)
            spans = [draft.window] if draft.window else [(w.start.toordinal(), w.end.toordinal()) for w in windows]
        reachable = any((day := setting.work_days.next(start)) is not None and day <= end for start, end in spans)
        if spans and not reachable:
            notes.append(
                f"{setting.book.operations[draft.operation].name}: no day of work lies in its window, so it is left out."
            )
        else:
            kept.append(draft)
    return kept, notes


def _wash_and_anchor(drafts: Sequence[Draft]) -> list[Draft]:
    """Anchors named by what they are (`sowing`) become the ids of tasks that exist; others fall away."""
    from dataclasses import replace

    ids = {d.id for d in drafts}
    sowing = next((d.id for d in drafts if d.operation in SOWING or d.operation == "plant"), None)
    anchored: list[Draft] = []
    for draft in drafts:
        named = sowing if draft.anchor == "sowing" else draft.anchor
        anchor = named if named in ids and named != draft.id else None
        anchored.append(draft if anchor == draft.anchor else replace(draft, anchor=anchor))
    return anchored


def _full_days(setting: Setting, drafts: Sequence[Draft]) -> list[Lag]:
    """Jobs that follow each other share a working day only while its hours last; packed in order, before any date."""
    capacity = setting.people * setting.hours_per_day
    found: list[Lag] = []
    for session in sorted({d.session for d in drafts}):
        chain = _chain([d for d in drafts if d.session == session])
        used = 0.0
        for index, job in enumerate(chain):
            need = job.person_hours / capacity
            if index:
                before = chain[index - 1]
                fits = used + min(need, 1.0) <= 1.0 + 1e-9 and job.duration_days == 1
                if not fits:
                    step = workday_step(setting.work_days, setting.first_day, setting.last_day, 1)
                    reason = Reason(
                        "work.day_full", "The day before is full: the hours of the people at hand are used up."
                    )
                    found.append(
                        Lag(
                            f"day_full:{before.id}>{job.id}",
                            before.end_node,
                            job.start_node,
                            Strength.STRONG,
                            reason,
                            step,
                        )
                    )
                    used = 0.0
            whole = max(0, job.duration_days - 1)
            used = (used + need) - whole if job.duration_days == 1 else need - whole
    return found


def _chain(drafts: Sequence[Draft]) -> list[Draft]:
    """The heavy jobs of one session in their order of work."""
    order = (
        "dethatch",
        "core_aerate",
        "topdress",
        "seed",
        "overseed",
        "dormant_seed",
        "plant",
        "starter_feed",
        "cover",
        "roll",
    )
    lows = [d for d in drafts if d.operation == "mow_low"][-1:]
    heavy = sorted((d for d in drafts if d.operation in order), key=lambda d: (order.index(d.operation), d.position))
    return [d for d in heavy if d.operation == "dethatch"] + lows + [d for d in heavy if d.operation != "dethatch"]


def _together(drafts: Sequence[Draft]) -> list[Lag]:
    """Spreading and working in go on side by side: the same first and last day."""
    from turfplan.constraints import Days

    by_id = {d.id: d for d in drafts}
    reason = Reason(
        "level.same_day", "What is spread is worked in the same day, so that the leaf tips show by evening."
    )
    found = []
    for draft in drafts:
        if draft.operation == "incorporate" and (spread := by_id.get(f"topdress.{draft.position}")):
            found.append(
                Lag(
                    f"same_day:{draft.id}", spread.start_node, draft.start_node, Strength.HARD, reason, Days(0), Days(0)
                )
            )
    return found
