"""Care of a lawn that is neither filled nor sown: thatch and cores in their own seasons, and the
height from the first cut of the year on."""

from collections.abc import Iterator, Sequence
from datetime import date

from turfplan.message import Message, cut_height, length_mm
from turfplan.phrases import care_alone as phrases
from turfplan.records.book_names import OperationName, ThinCause, of_species
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mowing import due_height_mm, mown_height_mm
from turfplan.work.operations import CARE, SURFACE, Extent, Timing, Wording, make
from turfplan.work.parts import cored_share
from turfplan.work.past_of_lawn import barriers_torn
from turfplan.work.phases.open_turf import (
    coring_cautions,
    coring_words,
    open_to_tines,
    spring_coring,
)
from turfplan.work.thatch import dethatches
from turfplan.work.year_seasons import half_of_window

PACKED: ThinCause = "packed"
FIRST_CUT: OperationName = "begin_mowing"


def care_alone(setting: ResolvedLawn) -> list[Draft]:
    """The tasks of care in seasons of their own; none where anything is filled, sown or planted."""
    if not setting.care_alone:
        return []
    return [*_thatch(setting), *_cores(setting), *_first_cut(setting)]


def season_in_care(setting: ResolvedLawn, operation: OperationName) -> OpenDays | None:
    """The days on which an operation that opens the turf is done in care: of cool-season grass
    those of late summer and autumn where the plan has them, for weeds and heat follow a spring.

    Of several those whose best day lies in the plan come first. None where none lies in it.
    """
    first, last = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
    ahead = [w for w in setting.open(operation) if w.end >= first and w.start <= last]
    ahead = [w for w in ahead if first <= w.best <= last] or ahead
    southern = setting.climate.southern
    late = [
        w
        for w in ahead
        if setting.cool and half_of_window(setting.book, w, southern=southern) == "autumn"
    ]
    return next(iter(late or ahead), None)


def opened_in(setting: ResolvedLawn, window: OpenDays) -> bool:
    """Whether care opens the turf in the days of a window, and so tears what lies on it."""
    seasons = (
        season_in_care(setting, "dethatch") if dethatches(setting) else None,
        season_in_care(setting, "core_aerate") if _asks_for_cores(setting) else None,
    )
    return setting.care_alone and any(
        season is not None and season.start <= window.end and window.start <= season.end
        for season in seasons
    )


def first_cut_days(setting: ResolvedLawn, drafts: Sequence[Draft]) -> list[Allowed]:
    """The first cut of the year keeps to its season."""
    windows = {w.best.toordinal(): w for w in setting.open("first_mow")}
    return [
        Allowed(
            f"window:{draft.id}",
            draft.start_node,
            DaySet.of([draft.window]),
            Strength.ADVICE,
            Reason("window.first_mow", _why_then(setting, window), window.facts),
            opens=True,
        )
        for draft in drafts
        if draft.id == FIRST_CUT and draft.window is not None
        if (window := windows.get(draft.ideal or 0)) is not None
    ]


def _why_then(setting: ResolvedLawn, window: OpenDays) -> Message:
    """Why the first cut falls into its season; that of warm-season grass is no low cut here."""
    return window.reason if setting.cool else phrases.first_cut_season()


def _within(setting: ResolvedLawn, window: OpenDays) -> tuple[int, int]:
    """A window without its days before and after the plan, as ordinals."""
    start, end = window.start.toordinal(), window.end.toordinal()
    return max(start, setting.first_day), min(end, setting.last_day)


def _best(setting: ResolvedLawn, window: OpenDays) -> int:
    start, end = _within(setting, window)
    return min(max(window.best.toordinal(), start), end)


def _thatch(setting: ResolvedLawn) -> Iterator[Draft]:
    """The cut before the blades, and the blades."""
    season = season_in_care(setting, "dethatch") if dethatches(setting) else None
    if season is None:
        return
    best, usual = _best(setting, season), of_species(setting.turf.species.id, "mow_height")
    height = setting.book.fact(usual)
    low_mm = max(height.low_si, mown_height_mm(height.high_si))
    yield make(
        setting,
        "mow_low",
        "1",
        timing=Timing(SURFACE, anchor="dethatch", offset=-1),
        wording=Wording(
            phrases.mow_before_blades(),
            {"height": cut_height(low_mm)},
            how=(phrases.mow_once(), phrases.clippings()),
            go=phrases.mow_dry(),
            fallback=phrases.mow_wet(),
        ),
        facts=(usual,),
    )
    gently = setting.turf.species.dethatch == "light"
    steps = (
        phrases.by_rake() if gently else phrases.blades(),
        phrases.clear(),
        _recovery(setting),
    )
    yield make(
        setting,
        "dethatch",
        timing=Timing(SURFACE, ideal=best, window=_within(setting, season)),
        wording=Wording(
            phrases.dethatch(
                thatch=length_mm(setting.turf.thatch_mm),
                limit=length_mm(setting.book.si("dethatch.limit")),
            ),
            how=steps,
            cautions=barriers_torn(setting, best),
        ),
        facts=("dethatch.limit",),
    )


def _recovery(setting: ResolvedLawn) -> Message:
    """What turf that was opened needs until it has closed again."""
    n = setting.days("dethatch.rest_before_dressing")
    dry = setting.brief.water.possible is False
    return phrases.rests_on_rain(n=n) if dry else phrases.rests(n=n)


def _asks_for_cores(setting: ResolvedLawn) -> bool:
    """Whether soil or thatch asks for cores: what packs, and thatch that holes help to rot."""
    fine = _packs(setting)
    thick = setting.turf.thatch_mm > setting.book.si("dethatch.limit")
    return (fine or thick) and open_to_tines(setting) and not setting.on_open_ground


def _packs(setting: ResolvedLawn) -> bool:
    """Whether the soil packs under feet and wheels: a fine one, or one of which it was told."""
    site = setting.brief.site
    told = PACKED in site.thin_cause and PACKED not in site.cleared
    return told or setting.book.soils[setting.plot.soil].fine


def _cores(setting: ResolvedLawn) -> Iterator[Draft]:
    """Cores in their season, some days after the blades where thatch comes down too."""
    season = season_in_care(setting, "core_aerate") if _asks_for_cores(setting) else None
    if season is None:
        return
    southern = setting.climate.southern
    rising = half_of_window(setting.book, season, southern=southern) == "spring"
    if setting.cool and rising and not spring_coring(setting):
        return
    best, days = _best(setting, season), _within(setting, season)
    thatch = season_in_care(setting, "dethatch") if dethatches(setting) else None
    if thatch is not None:
        rested = _best(setting, thatch) + setting.days("dethatch.rest_before_dressing")
        best = rested if best < rested <= days[1] else best
    yield make(
        setting,
        "core_aerate",
        "1",
        timing=Timing(SURFACE, ideal=best, window=days),
        wording=Wording(
            phrases.cores_of_soil() if _packs(setting) else phrases.cores_of_thatch(),
            coring_words(setting),
            fallback=phrases.cores_fallback(),
            cautions=coring_cautions(setting),
        ),
        extent=Extent(setting.plot.area_m2 * cored_share(setting.plot.parts)),
    )


def _first_cut(setting: ResolvedLawn) -> Iterator[Draft]:
    """The first cut of the year, with the height to which grass is mown from then on."""
    first, last = setting.first_day, setting.last_day
    windows = (w for w in setting.open("first_mow") if first <= w.best.toordinal() <= last)
    window = next(windows, None)
    seasons = {setting.book.species[grass].season for grass in setting.turf.stand}
    if window is None or len(seasons) > 1:
        # A stand of both seasons is mown long before both of them grow.
        return
    usual = of_species(setting.turf.species.id, "mow_height")
    height = setting.book.fact(usual)
    least, most = (length_mm(mm, kind="height") for mm in (height.low_si, height.high_si))
    due = cut_height(due_height_mm((height.low_si + height.high_si) / 2))
    yield make(
        setting,
        FIRST_CUT,
        timing=Timing(CARE, ideal=window.best.toordinal(), window=_within(setting, window)),
        wording=Wording(
            phrases.first_cut(),
            {"height": due},
            title=phrases.first_cut_title(least=least, most=most),
        ),
        facts=(*window.facts, usual),
    )
