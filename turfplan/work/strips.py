"""A pass that takes several days goes on strip by strip, each finished on its own day.

A strip has its own low cut, cores, mix, seed and water: so the cut is fresh, the holes are open and
the seed lies in fresh mix, wet the same evening, on the last day of the job as on its first.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from turfplan.message import Message, Quantity, sentences
from turfplan.phrases import strips as phrases
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.days_off import is_heard
from turfplan.work.drafts import Draft, Pass
from turfplan.work.emergence import waits_for_spring
from turfplan.work.labour import working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import SOWING
from turfplan.work.phases.level import long_pass
from turfplan.work.slopes import washes
from turfplan.work.thatch import stripped_mm

# What belongs to a seeded strip beside its pass.
WITH_SEED: Final = (*SOWING, "starter_feed", "roll", "cover")
# What a seeded strip has some days after its seed, each strip in its turn.
AFTER_SEED: Final = ("mow_old", "first_mow")
# The work on ground without grass in its order; what opens it goes with the first lift, else with
# the seed.
OPENING: Final = ("till", "raise_fittings")
OF_OPEN_GROUND: Final = ("clear_stand", *OPENING, "fill", "nurse_cover", "grade")
OPEN_GROUND: Final[tuple[str, ...]] = (*OF_OPEN_GROUND, *WITH_SEED)


def in_strips(setting: ResolvedLawn, campaign: Campaign, drafts: Sequence[Draft]) -> list[Draft]:
    """The drafts, with the jobs of each pass of several days sharing their days strip by strip."""
    shared: dict[str, Draft] = {}
    for session in campaign.sessions:
        for layer in session.passes:
            jobs = _jobs(session, layer, drafts)
            spread = next((job for job in jobs if job.operation == "topdress"), None)
            if spread is None or spread.duration_days < _least_days(setting):
                continue
            shared |= _shared(setting, spread, jobs)
    return [shared.get(draft.id, draft) for draft in drafts]


def _least_days(setting: ResolvedLawn) -> int:
    """From how many days on a pass goes strip by strip: where no week-end holds it any more."""
    if setting.strip_days is not None:
        return setting.strip_days
    longest = max((b - a + 1 for a, b in setting.calendar.work.ranges), default=1)
    return min(setting.days("work.pass_days_most"), longest) + 1


def _jobs(session: Session, layer: Pass, drafts: Sequence[Draft]) -> list[Draft]:
    """The jobs of one pass that a strip can have to itself, in order of work."""
    own = [d for d in drafts if d.session == session.number]
    jobs = [d for d in own if d.operation in ("topdress", "incorporate", "mow")]
    jobs = [d for d in jobs if d.position == layer.number]
    if layer is session.passes[0]:
        cuts = [d for d in own if d.operation == "mow_low"]
        jobs += [max(cuts, key=lambda d: d.position)] if cuts else []
        jobs += [d for d in own if d.operation == "core_aerate"]
    if session.sows and layer is session.passes[-1]:
        jobs += [d for d in own if d.operation in WITH_SEED]
    return jobs


def _shared(setting: ResolvedLawn, spread: Draft, jobs: Sequence[Draft]) -> dict[str, Draft]:
    """The jobs of one pass, each as long as all of them together take."""
    hours = sum(job.person_hours for job in jobs)
    days = max(spread.duration_days, working_days(setting, hours))
    heard = any(is_heard(setting, job.operation) for job in jobs)
    area_m2 = setting.plot.area_m2 * setting.levelling.covered_share / days
    names = tuple(job.id for job in sorted(jobs, key=lambda job: _turn(setting, job)))
    told = _told_at_pass(setting, spread, days, area_m2)
    # Strips are what is done where one pass keeps the people busy so long.
    without = long_pass(setting, spread)
    return {
        job.id: replace(
            job,
            duration_days=days,
            strips=names,
            heard=heard,
            cautions=(
                *(caution for caution in job.cautions if caution not in without),
                told
                if job is spread
                else phrases.keeps_step(n=days, area=Quantity(area_m2, "area")),
            ),
        )
        for job in jobs
    }


def at_once_on_a_slope(
    setting: ResolvedLawn, campaign: Campaign, drafts: Sequence[Draft]
) -> list[Draft]:
    """The drafts, with the work on open ground of a slope done on the same days: each lift with
    what is loosened before it and covers it after, and the seed with its grade and cover.

    A storm in the night would carry off whatever lies loose.
    """
    if not (setting.on_open_ground and washes(setting)):
        return list(drafts)
    lifts = [d for d in drafts if d.operation == "fill"]
    stripped = stripped_mm(setting.brief, setting.book) > 0
    opening = [
        d for d in drafts if d.operation in OPENING or (stripped and d.operation == "clear_stand")
    ]
    shared: dict[str, Draft] = {}
    for lift in lifts:
        first, last = lift is lifts[0], lift is lifts[-1]
        cover = "nurse_cover" if last else f"nurse_cover.lift.{lift.position}"
        jobs = [d for d in drafts if d is lift or d.id == cover]
        jobs += opening if first else []
        shared |= _on_same_days(setting, lift, jobs)
    grade = next((d for d in drafts if d.operation == "grade"), None)
    sowing = next((d for d in drafts if d.operation in SOWING), grade)
    if grade is not None and sowing is not None:
        # Seed that sleeps in the ground has its starter when it wakes.
        late = ("starter_feed",) if waits_for_spring(campaign) else ()
        jobs = [
            d for d in drafts if d.operation in ("grade", *WITH_SEED) and d.operation not in late
        ]
        same = _on_same_days(setting, sowing, jobs if lifts else [*opening, *jobs])
        # In winter the ground is frozen or sodden on one of several days.
        most = setting.days("work.pass_days_most") if late else None
        if most is None or all(draft.duration_days <= most for draft in same.values()):
            shared |= same
    return [shared.get(draft.id, draft) for draft in drafts]


def _on_same_days(setting: ResolvedLawn, main: Draft, jobs: Sequence[Draft]) -> dict[str, Draft]:
    """Jobs of a slope, each as long as all of them together take, in order of work."""
    if len(jobs) < 2:
        return {}
    days = max(main.duration_days, working_days(setting, sum(job.person_hours for job in jobs)))
    names = tuple(job.id for job in sorted(jobs, key=lambda job: OPEN_GROUND.index(job.operation)))
    heard = any(is_heard(setting, job.operation) for job in jobs)
    told = phrases.slope_strips(n=days, area=Quantity(main.area_m2 / days, "area"))
    return {
        job.id: replace(
            job,
            duration_days=days,
            strips=names,
            heard=heard,
            beside=None if job is main else main.id,
            cautions=(*job.cautions, told),
        )
        for job in jobs
    }


def _turn(setting: ResolvedLawn, job: Draft) -> tuple[int, int]:
    """The place of a job in the order of work of a strip: mown before it, dragged after it."""
    turn = setting.book.operations[job.operation].turn
    if turn is not None:
        return turn, 0
    return setting.book.operations[
        "topdress"
    ].turn or 0, 1 if job.operation == "incorporate" else -1


def _told_at_pass(setting: ResolvedLawn, spread: Draft, days: int, area_m2: float) -> Message:
    """How a pass is done in strips, and how many people would have it done within few days."""
    on_rain = setting.brief.water.possible is False
    how = phrases.strip_by_strip_on_rain if on_rain else phrases.strip_by_strip
    volume = Quantity(spread.loose_m3 / days, "loose")
    told = how(n=days, area=Quantity(area_m2, "area"), volume=volume)
    most = setting.days("work.pass_days_most")
    needed = math.ceil(setting.labour.people * days / most)
    return sentences(told, phrases.more_hands(needed=needed, most=most) if days > most else None)


def cut_by_strip(drafts: Sequence[Draft]) -> list[Draft]:
    """The drafts, with the first cuts going over the strips one by one where seed did."""
    sowing = next((d for d in drafts if d.operation in SOWING and d.strips), None)
    if sowing is None or sowing.duration_days == 1:
        return list(drafts)
    days = sowing.duration_days
    return [
        replace(
            draft,
            duration_days=days,
            by_strip=True,
            cautions=(*draft.cautions, phrases.in_their_turn(n=days)),
        )
        if draft.operation in AFTER_SEED
        else draft
        for draft in drafts
    ]


def strip_lags(drafts: Sequence[Draft]) -> list[Lag]:
    """The jobs of a strip go side by side: the same first and, being as long, the same last day."""
    by_id = {draft.id: draft for draft in drafts}
    strips = Reason("level.strips", phrases.side_by_side())
    at_once = Reason("slope.at_once", phrases.slope_at_once(), ("site.slope_cover",))
    same = DayStep(0)
    lags = []
    for draft in drafts:
        place = draft.strips.index(draft.id) if draft.strips else 0
        before = by_id.get(draft.strips[place - 1]) if place else None
        if before is not None:
            ends = before.start_node, draft.start_node
            reason = at_once if before.operation in OF_OPEN_GROUND else strips
            lags.append(Lag(f"strips:{draft.id}", *ends, Strength.HARD, reason, same, same))
    return lags
