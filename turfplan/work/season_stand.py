"""The stand of one campaign from the first day of the plan on, by the wished days of its work."""

from datetime import date

from turfplan.work.campaigns import Campaign
from turfplan.work.emergence import Emergence, emergence, waits_for_spring
from turfplan.work.ground_fill import kill_lead, least_lead
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.stand import (
    LIVING,
    OPEN_GROUND,
    Stand,
    StandSpan,
    open_ground,
    stage_told,
    stage_worked,
)


def stand_of(setting: ResolvedLawn, campaign: Campaign) -> Stand:
    """What grows on the lawn from the first day of the plan on, if the work has its best days.

    It begins with what the brief describes, as with an empty journal.
    """
    told = stage_told(setting.turf.condition)
    own, start = setting.brief.dominant.species, setting.first_day
    sow = campaign.sow_window
    if setting.sowing.operation is None or sow is None:
        return Stand((StandSpan(told, own, start),))
    worked = stage_worked(setting.turf.condition, setting.sowing.intent)
    lead = least_lead(setting) if worked in OPEN_GROUND else 0
    sown = max(sow.best.toordinal(), start + lead)
    before = [StandSpan(told, own, start)]
    if worked == "killed":
        killed = max(start, sown - kill_lead(setting))
        before.append(StandSpan("killed", own, killed))
    over = worked if worked in LIVING else None
    up = emergence(setting, campaign)
    after = _planted(setting, sown) if up is None else _sown(setting, campaign, up, sown)
    spans = [*before, *(StandSpan(s.stage, s.grass, s.first, over=over) for s in after)]
    return Stand(_closed(spans))


def second_grass_days(setting: ResolvedLawn, campaign: Campaign) -> tuple[int, int] | None:
    """The days (ordinals) on which a winter's ryegrass stands over the lawn, from its sowing until
    the cuts of spring give it back; to the end of the plan where that sees no such spring. None
    where none is sown."""
    sow = campaign.sow_window
    if setting.sowing.intent != "winter_overseed" or sow is None:
        return None
    springs = (w.end.toordinal() for w in setting.open("spring_transition") if w.start > sow.end)
    sown = sow.best.toordinal()
    return sown, max(sown, min((*springs, setting.last_day)))


def open_from(setting: ResolvedLawn, campaign: Campaign) -> date | None:
    """The day from which no grass grows until the lawn is sown or planted; None where some does."""
    spans = stand_of(setting, campaign).days_of(open_ground)
    return date.fromordinal(max(setting.first_day, spans[0][0])) if spans else None


def _planted(setting: ResolvedLawn, day: int) -> list[StandSpan]:
    """The stages of sod, plugs or sprigs that are set on a day."""
    grass = setting.sowing.grass.id
    rooted = day + round(setting.book.fact("order.plant_rooting").high_si)
    return [StandSpan("laid", grass, day), StandSpan("established", grass, rooted)]


def _sown(setting: ResolvedLawn, campaign: Campaign, up: Emergence, day: int) -> list[StandSpan]:
    """The stages of seed that is sown on a day; a winter's ryegrass stays the second grass."""
    grass = setting.sowing.grass.id
    emerged = day + max(up.first, 1)
    grown = max(day + up.undressed, emerged + 1)
    return [
        StandSpan("dormant_seed" if waits_for_spring(campaign) else "sown", grass, day),
        StandSpan("seedlings", grass, emerged),
        StandSpan(
            "second_grass" if setting.sowing.intent == "winter_overseed" else "established",
            grass,
            grown,
        ),
    ]


def _closed(spans: list[StandSpan]) -> tuple[StandSpan, ...]:
    """The spans, each ending on the day before the next; one that would be empty is left out."""
    ends: list[int | None] = [following.first - 1 for following in spans[1:]] + [None]
    return tuple(
        StandSpan(span.stage, span.grass, span.first, last, span.over, span.share)
        for span, last in zip(spans, ends, strict=True)
        if last is None or last >= span.first
    )
