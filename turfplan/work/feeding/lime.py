"""When the lime of a soil test goes on: in parts on the surface, or worked into bare ground."""

from collections.abc import Sequence
from datetime import date, timedelta

from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Message, Quantity
from turfplan.phrases import amendments as corrections
from turfplan.phrases import lime as phrases
from turfplan.records.book_names import OperationName
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.feeding.lime_need import tested_soil_goes_under
from turfplan.work.feeding.nutrients import LimePlan
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.places import renewed_place

LIFT = "lift"  # the key of lime that is raked into the last lift of topsoil
FRESH = "fresh"  # the key of lime that is worked into bare ground before it is sown


def liming(setting: ResolvedLawn, campaign: Campaign, lime: LimePlan | None) -> list[Draft]:
    """The parts of a liming as tasks: the first as soon as grass grows, the others a gap apart.

    None goes on shortly before seed or plants, whose starter brings nitrogen, nor on what is young.
    """
    if lime is None:
        return []
    if lime.fresh_ground:
        return [_before_sowing(setting, lime)]
    least, most = lime.gap_days
    slip = (most - least) // 4
    drafts: list[Draft] = []
    opens = max(setting.first_day, _last_limed(setting) + least)
    for number in range(1, len(lime.parts_g_m2) + 1):
        first, last = _window(setting, campaign, opens, 2 * slip)
        if first > setting.last_day:
            break
        day = (first + last) // 2
        drafts.append(
            make(
                setting,
                "lime",
                str(number),
                timing=Timing(CARE, ideal=day, position=day, window=(first, last)),
                wording=Wording(lime.reason),
                facts=lime.facts,
            )
        )
        opens = last + least
    return drafts


def lime_left(setting: ResolvedLawn, campaign: Campaign, lime: LimePlan | None) -> list[Message]:
    """The parts of a liming that the days of the plan leave no room for, told."""
    if lime is None or not (left := lime.parts_g_m2[len(liming(setting, campaign, lime)) :]):
        return []
    rate, whole = Quantity(sum(left), "rate"), Quantity(sum(lime.parts_g_m2), "rate")
    return [corrections.left_for_later(what=corrections.lime(), rate=rate, whole=whole)]


def _window(setting: ResolvedLawn, campaign: Campaign, opens: int, length: int) -> tuple[int, int]:
    """The first stretch of days from `opens` on for a part: grass grows, and nothing is young."""
    first = _growing(setting, opens)
    sow = campaign.sow_window
    if sow is None:
        return first, first + length
    best = sow.best.toordinal()
    room = min(length, best - setting.days("lime.nitrogen_apart") - first)
    if room >= len(WEEKDAYS):
        return first, first + room
    after = _growing(setting, max(first, best + setting.days("seeding.no_dressing")))
    return after, after + length


def _last_limed(setting: ResolvedLawn) -> int:
    """The day of the last lime before the plan; none is long ago."""
    return max((use.on.toordinal() for use in setting.brief.history.lime), default=0)


def _before_sowing(setting: ResolvedLawn, lime: LimePlan) -> Draft:
    """All of it at once, worked into the bare ground; into the last lift where topsoil buries what
    is tilled."""
    ground = renewed_place(setting).extent(setting)
    if tested_soil_goes_under(setting):
        return make(
            setting,
            "lime",
            LIFT,
            timing=Timing(CARE, anchor="grade", offset=0),
            wording=Wording(lime.reason, how=(phrases.how_in_last_lift(),)),
            extent=ground,
            facts=lime.facts,
        )
    return make(
        setting,
        "lime",
        FRESH,
        timing=Timing(CARE, anchor="till", offset=-1),
        wording=Wording(lime.reason, how=(phrases.how_on_fresh_ground(),)),
        extent=ground,
        facts=lime.facts,
    )


def lime_days(drafts: Sequence[Draft]) -> list[Allowed]:
    """Each part of a liming keeps to the weeks around its day, so that the gaps are kept."""
    apart = Reason("window.lime", phrases.months_apart(), ("lime.split_gap",))
    return kept_to_windows(drafts, "lime", apart)


def kept_to_windows(
    drafts: Sequence[Draft], operation: OperationName, reason: Reason
) -> list[Allowed]:
    """The days of the tasks of an operation that have a window of their own."""
    return [
        Allowed(
            f"window:{draft.id}",
            draft.start_node,
            DaySet.of([draft.window]),
            Strength.STRONG,
            reason,
        )
        for draft in drafts
        if draft.operation == operation and draft.window is not None
    ]


def _growing(setting: ResolvedLawn, day: int) -> int:
    """The first day from `day` on at which grass is not at rest: the ground is open then."""
    growing = growing_from(setting, day, "cool", setting.book.si("water.dormant_growth"))
    return day if growing is None else growing


def growing_from(setting: ResolvedLawn, day: int, season: str, least: float) -> int | None:
    """The first day (ordinal) from `day` on with so much of a season's growth potential."""
    days = (date.fromordinal(day) + timedelta(number) for number in range(366))
    growing = next((d for d in days if setting.climate.growth_potential(d, season) >= least), None)
    return None if growing is None else growing.toordinal()
