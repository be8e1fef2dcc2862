"""When sulfur, iron and gypsum go on: what a soil test asks for where pH or sodium is too high."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Message, Number, Quantity, length_mm
from turfplan.phrases import amendments as phrases
from turfplan.records.book_names import FactName
from turfplan.records.constraints import Allowed, Reason
from turfplan.records.items import AmountItem
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.feeding.lime import growing_from, kept_to_windows
from turfplan.work.feeding.lime_need import LIMY, PhGoal, ph_goal, soil_of
from turfplan.work.feeding.product_amounts import G_IN_KG, mass_amount, rate_amount
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.places import grown_place
from turfplan.work.stand import WHOLE
from turfplan.work.watering.water_in import as_water_allows

IRON = "iron"
GYPSUM = "gypsum"
SULFUR: tuple[FactName, FactName] = ("high_ph.sulfur_once", "high_ph.sulfur_year")
# How far a part may slip from its day, of the gap between two.
SLIP = 4


@dataclass(frozen=True, slots=True)
class _Dose:
    """What goes on `parts` times, g/m2 each, `gap_days` apart, with its words and facts."""

    key: str
    item: AmountItem
    rate_item: AmountItem
    what: Message
    g_m2: float
    parts: int
    gap_days: int
    why: Message
    how: tuple[Message, ...]
    facts: tuple[FactName, ...]


def too_high(setting: ResolvedLawn) -> PhGoal | None:
    """The goal of the grass where the soil's pH lies above what it likes; None elsewhere."""
    ph = setting.brief.soil_test.ph
    goal = ph_goal(setting.brief, setting.book, setting.turf.species.id)
    return goal if ph is not None and ph > goal.high else None


def is_sodic(setting: ResolvedLawn) -> bool:
    """True where the sodium was measured, or the ground is known to be sodic."""
    sar = setting.brief.soil_test.sar
    if sar is not None:
        return sar >= setting.book.si("salt.sodic_sar")
    return "sodic" in setting.brief.site.ground


def amendments(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """The parts of each as tasks, on days on which the grass grows and no seedlings stand."""
    return [
        draft
        for dose in _doses(setting)
        for draft in (
            _iron_drafts(setting, campaign, dose)
            if dose.key == IRON
            else _drafts(setting, dose, _quiet(setting, campaign))
        )
    ]


def left_for_later(setting: ResolvedLawn, campaign: Campaign) -> list[Message]:
    """What the days of a plan leave no room for of what the laboratory asks for, told."""
    told: list[Message] = []
    for dose in _doses(setting):
        if dose.key == IRON:
            continue
        given = sum(1 for _ in _drafts(setting, dose, _quiet(setting, campaign)))
        if left := dose.parts - given:
            rate = Quantity(left * dose.g_m2, "rate")
            whole = Quantity(dose.parts * dose.g_m2, "rate")
            told.append(phrases.left_for_later(what=dose.what, rate=rate, whole=whole))
    return told


def gypsum_parts(setting: ResolvedLawn) -> int:
    """In how many parts the gypsum of sodic ground goes on; 0 where none does."""
    return sum(dose.parts for dose in _doses(setting) if dose.key == GYPSUM)


def washed_in(setting: ResolvedLawn) -> int | None:
    """The first day (ordinal) on which all gypsum of a sodic soil has been given and washed down;
    None where none is to be given."""
    dose = next((dose for dose in _doses(setting) if dose.key == GYPSUM), None)
    if dose is None:
        return None
    slip, day = dose.gap_days // SLIP, setting.first_day
    for _ in range(dose.parts):
        grown = _takes(setting, dose, day + slip)
        if grown is None:
            return setting.last_day + 1
        day = grown + dose.gap_days - slip
    return day


def _quiet(setting: ResolvedLawn, campaign: Campaign) -> tuple[int, int] | None:
    """The days around seed or plants on which nothing sharp is spread."""
    sow = campaign.sow_window
    if sow is None:
        return None
    before, after = setting.days("setting.unfed_before_seed"), setting.days("seeding.no_dressing")
    return sow.start.toordinal() - before, sow.end.toordinal() + after


def amend_days(drafts: Sequence[Draft]) -> list[Allowed]:
    """Each part keeps to the weeks around its day, so that the gaps are kept."""
    return kept_to_windows(drafts, "amend", Reason("window.amend", phrases.weeks_of_growth()))


def _doses(setting: ResolvedLawn) -> Iterator[_Dose]:
    goal, test = too_high(setting), setting.brief.soil_test
    if goal is not None:
        yield _iron(setting, goal)
        if test.free_lime is False and soil_of(setting.brief) != LIMY:
            yield _sulfur(setting, goal)
    if test.gypsum_rate_g_m2 and is_sodic(setting):
        yield _gypsum(setting, test.gypsum_rate_g_m2)


def _ph(setting: ResolvedLawn) -> Number:
    return Number(setting.brief.soil_test.ph or 0.0, "plain")


def _iron(setting: ResolvedLawn, goal: PhGoal) -> _Dose:
    return _Dose(
        IRON,
        "iron sulfate",
        "iron sulfate rate",
        phrases.iron(),
        setting.book.si("high_ph.iron_sulfate"),
        1,
        setting.days("high_ph.sulfur_gap"),
        phrases.iron_why(ph=_ph(setting), high=Number(goal.high, "plain")),
        (phrases.iron_how(), phrases.iron_stains()),
        ("high_ph.iron_sulfate", "high_ph.iron_lasts", *goal.facts),
    )


def _sulfur(setting: ResolvedLawn, goal: PhGoal) -> _Dose:
    once, year = (setting.book.si(name) for name in SULFUR)
    watered = _watered_in(setting, phrases.sulfur_how(), phrases.sulfur_how_law())
    return _Dose(
        "sulfur",
        "sulfur",
        "sulfur rate",
        phrases.sulfur(),
        once,
        round(year / once),
        setting.days("high_ph.sulfur_gap"),
        phrases.sulfur_why(ph=_ph(setting), high=Number(goal.high, "plain")),
        (phrases.spread_how(), watered),
        (*SULFUR, "high_ph.sulfur_gap", *goal.facts),
    )


def _watered_in(setting: ResolvedLawn, freely: Message, by_law: Message) -> Message:
    return as_water_allows(
        setting.brief.water, freely=freely, by_law=by_law, on_rain=phrases.washed_in()
    )


def _gypsum(setting: ResolvedLawn, rate_g_m2: float) -> _Dose:
    parts = max(1, ceil(rate_g_m2 / setting.book.fact("salt.gypsum_once").high_si - 1e-9))
    water = length_mm(setting.book.si("salt.leach_half"))
    watered = _watered_in(setting, phrases.gypsum_how(water=water), phrases.gypsum_how_law())
    return _Dose(
        GYPSUM,
        "gypsum",
        "gypsum rate",
        phrases.gypsum(),
        rate_g_m2 / parts,
        parts,
        setting.days("salt.gypsum_gap"),
        phrases.gypsum_why(rate=Quantity(rate_g_m2, "rate")),
        (phrases.spread_how(), watered),
        ("salt.gypsum_once", "salt.gypsum_gap", "salt.sodic_sar", "salt.leach_half"),
    )


def _drafts(setting: ResolvedLawn, dose: _Dose, quiet: tuple[int, int] | None) -> Iterator[Draft]:
    slip = dose.gap_days // SLIP
    day = setting.first_day + slip
    for number in range(1, dose.parts + 1):
        grown = _takes(setting, dose, day)
        if grown is not None and quiet is not None and quiet[0] - slip <= grown <= quiet[1] + slip:
            grown = _takes(setting, dose, quiet[1] + slip + 1)
        if grown is None or grown > setting.last_day:
            return
        window = (grown - slip, grown + slip)
        timing = Timing(CARE, ideal=grown, position=number, window=window)
        yield _draft(setting, dose, timing, f"{dose.key}.{number}")
        day = grown + dose.gap_days


def _draft(setting: ResolvedLawn, dose: _Dose, timing: Timing, key: str) -> Draft:
    """One part of a dose as a task."""
    # Of all that is to be sown: the soil of what waits for another season is corrected too.
    place = grown_place(setting, WHOLE)
    area_m2 = setting.plot.area_m2 * place.share
    amount = Quantity(dose.g_m2 * area_m2 / G_IN_KG, "mass", "up")
    draft = make(
        setting,
        "amend",
        key,
        timing=timing,
        wording=Wording(dose.why, {"what": dose.what, "amount": amount}, how=dose.how),
        extent=place.extent(setting),
        facts=dose.facts,
    )
    return draft.with_amounts(
        mass_amount(dose.item, dose.g_m2, area_m2, dose.why, dose.facts),
        rate_amount(dose.rate_item, dose.g_m2, dose.why, dose.facts),
    )


def _iron_drafts(setting: ResolvedLawn, campaign: Campaign, dose: _Dose) -> Iterator[Draft]:
    """Iron at the first chance of a week or more: it works through leaves, and harms no seed that
    is still to come.

    Where there is no grass, or none that stays, it waits for the new.
    """
    slip, closed = dose.gap_days // SLIP, _closed_to_iron(setting, campaign, dose)
    grown = _awake(setting, setting.first_day)
    while grown is not None and grown <= setting.last_day:
        ends = min((grown + slip, *(first - 1 for first, last in closed if last >= grown)))
        if ends - grown >= len(WEEKDAYS):
            timing = Timing(CARE, ideal=grown, window=(grown, ends))
            yield _draft(setting, dose, timing, dose.key)
            return
        soon = grown + len(WEEKDAYS)
        grown = _awake(setting, max(last for first, last in closed if first <= soon) + 1)


def _closed_to_iron(
    setting: ResolvedLawn, campaign: Campaign, dose: _Dose
) -> list[tuple[int, int]]:
    """The spans (ordinals) in which no iron goes on: over seed until it is past it, and around
    passes: a low cut takes it off, and a pass hides the leaves until they show.
    """
    sow, slip, found = campaign.sow_window, dose.gap_days // SLIP, list[tuple[int, int]]()
    if sow is not None:
        # Of a long season the work takes the days around its best.
        best = sow.best.toordinal()
        begins = max(sow.start.toordinal(), best - slip)
        tender = min(sow.end.toordinal(), best + slip) + setting.days("seeding.no_dressing")
        anew = setting.on_open_ground or setting.sowing.intent == "renovate"
        found.append((min(begins, setting.first_day) if anew else begins, tender - 1))
    if not setting.on_open_ground:
        lasts, shown = setting.days("high_ph.iron_lasts"), setting.days("feeding.after_pass")
        days = [session.window.best.toordinal() for session in campaign.sessions]
        found += [(day - lasts + 1, day + shown) for day in days]
    return found


def _awake(setting: ResolvedLawn, day: int) -> int | None:
    """The first day from `day` on on which the lawn's grass is green: fed, or in good growth."""
    least, season = setting.book.si("water.dormant_growth"), setting.turf.species.season
    days = [_growing(setting, day)]
    for window in setting.open("feed_nitrogen"):
        opens, ends = window.start.toordinal(), window.end.toordinal()
        grown = growing_from(setting, max(day, opens), season, least) if ends >= day else None
        days.append(grown if grown is not None and grown <= ends else None)
    return min((found for found in days if found is not None), default=None)


def _takes(setting: ResolvedLawn, dose: _Dose, day: int) -> int | None:
    """The first day from `day` on at which a dose may go on: gypsum burns nothing and is washed
    down, so it waits only until the ground is open."""
    if dose.key != GYPSUM:
        return _growing(setting, day)
    season, least = setting.turf.species.season, setting.book.si("water.dormant_growth")
    return growing_from(setting, day, season, least)


def _growing(setting: ResolvedLawn, day: int) -> int | None:
    """The first day from `day` on at which the lawn's own grass grows well."""
    least = setting.book.si("feeding.late_growth")
    return growing_from(setting, day, setting.turf.species.season, least)
