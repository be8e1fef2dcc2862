"""When the lime of a soil test goes on: in parts that the surface takes, months apart, or worked into bare ground."""

from collections.abc import Sequence
from datetime import date, timedelta

from turfplan.constraints import Allowed, DaySet, Reason, Strength
from turfplan.rules.build import CARE, make
from turfplan.rules.draft import Draft
from turfplan.rules.nutrients import LimePlan
from turfplan.rules.setting import Setting

FRESH = "fresh"  # the key of lime that is worked into bare ground before it is sown


def liming(setting: Setting, lime: LimePlan | None) -> list[Draft]:
    """The parts of a liming as tasks: the first as soon as grass grows, each of the others a gap after the one before."""
    if lime is None:
        return []
    if lime.fresh_ground:
        how = "Spread half one way and half across it, and work it in as deep as the ground is loosened, before layer and seed."
        return [
            make(
                setting, "lime", FRESH, why=lime.reason, priority=CARE, anchor="sowing", offset=-setting.days("wish.lime"), how=(how,),
                facts=lime.facts,
            )
        ]  # fmt: skip
    least, most = lime.gap_days
    gap, slip = (least + most) // 2, (most - least) // 4
    drafts: list[Draft] = []
    day = setting.first_day + slip
    for number in range(1, len(lime.parts_g_m2) + 1):
        day = _growing(setting, day)
        if day > setting.last_day:
            break
        drafts.append(
            make(
                setting, "lime", str(number), why=lime.reason, priority=CARE, ideal=day, position=day, facts=lime.facts,
                window=(day - slip, day + slip),
            )
        )  # fmt: skip
        day += gap
    return drafts


def lime_days(drafts: Sequence[Draft]) -> list[Allowed]:
    """Each part of a liming keeps to the weeks around its day, so that the gap between two is kept."""
    return [
        Allowed(
            f"window:{draft.id}", draft.start_node, DaySet.of([draft.window]), Strength.STRONG,
            Reason("window.lime", "Parts of a liming lie months apart, on ground that is not frozen.", ("lime.split_gap",)),
        )
        for draft in drafts if draft.operation == "lime" and draft.window is not None
    ]  # fmt: skip


def _growing(setting: Setting, day: int) -> int:
    """The first day from `day` on at which grass is not at rest: the ground is open then."""
    least = setting.book.si("water.dormant_growth")
    days = (date.fromordinal(day) + timedelta(number) for number in range(366))
    found = next((d for d in days if setting.climate.growth_potential(d, "cool") >= least), None)
    return day if found is None else found.toordinal()
