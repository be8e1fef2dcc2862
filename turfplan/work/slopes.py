"""What a slope forbids: machines that slide or tip, loose straw, and at last a lawn."""

from collections.abc import Sequence

from turfplan.message import Message, Number
from turfplan.phrases import slopes as phrases
from turfplan.records.book_names import FactName
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.parts import PlotPart

# Machines that are heavier than a mower; the roller is drawn by hand and runs away all the same.
HEAVY = ("core_aerate", "dethatch", "roll")


def slope_share(setting: ResolvedLawn) -> float:
    """The slope, as a share (0.1 is 10 %); 0 where nobody said."""
    return (setting.brief.site.slope_percent or 0.0) / 100


def washes(setting: ResolvedLawn) -> bool:
    """Whether rain carries off what lies open here: bare ground is covered the day it is worked."""
    return slope_share(setting) >= setting.book.si("site.slope_cover")


def is_pegged(setting: ResolvedLawn) -> bool:
    """Whether straw would slide off the slope: a mat that is pegged down covers it."""
    return slope_share(setting) >= setting.book.si("site.slope_pegged")


def on_a_bank(setting: ResolvedLawn) -> bool:
    """Whether water and loose material run here: nothing is soaked at once."""
    return slope_share(setting) > setting.book.si("site.slope_steep")


def straw_area_m2(setting: ResolvedLawn) -> float:
    """The ground that is to be sown, sheds water and is covered with straw, m2.

    All that is sown on a slope, else what is sown of steep parts; of turf that is mended the spots.
    """
    mended_m2 = setting.plot.area_m2 * setting.mended_share
    if washes(setting):
        return mended_m2 * setting.sowing.share
    return mended_m2 * sum(part.share for part in steep_sown(setting))


def steep_sown(setting: ResolvedLawn) -> tuple[PlotPart, ...]:
    """The steep parts of a lawn that are sown."""
    unsown = setting.sowing.unsown
    return tuple(p for p in setting.plot.parts if p.kind == "steep" and p.name not in unsown)


def too_steep(setting: ResolvedLawn) -> Message | None:
    """Why nothing can be planned on such a slope; None where it can."""
    slope, book = slope_share(setting), setting.book
    share = Number(slope, "percent")
    if slope > book.si("site.slope_lawn"):
        return phrases.no_lawn(slope=share, most=Number(book.si("site.slope_lawn"), "percent"))
    if slope > book.si("site.slope_mower") and setting.brief.work.by != "contractor":
        most = Number(book.si("site.slope_mower"), "percent")
        return phrases.no_mower(slope=share, most=most)
    return None


def without_machines(
    setting: ResolvedLawn, drafts: Sequence[Draft]
) -> tuple[list[Draft], tuple[Message, ...]]:
    """The drafts without what a household's machines cannot do on this slope, and that it is so."""
    limit: FactName = "site.slope_aerator"
    steep = slope_share(setting) > setting.book.si(limit)
    if not steep or setting.brief.work.by == "contractor":
        return list(drafts), ()
    left = [draft for draft in drafts if draft.operation not in HEAVY]
    if len(left) == len(drafts):
        return left, ()
    gone = {draft.id for draft in drafts if draft.operation in HEAVY}
    marks = {d.id for d in left if d.operation == "locate_utilities" and d.anchor in gone}
    told = phrases.no_heavy_machines(
        slope=Number(slope_share(setting), "percent"),
        most=Number(setting.book.si(limit), "percent"),
    )
    return [draft for draft in left if draft.id not in marks], (told,)
