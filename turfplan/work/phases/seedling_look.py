"""The look at what has come up of seed, while bare spots can still be sown again."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from turfplan.message import Day, Days, Message, Number
from turfplan.phrases import looks as phrases
from turfplan.records.book_names import of_species
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.campaigns import Campaign
from turfplan.work.days_off import days_for
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.emergence import Emergence, emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import Timing, Wording, make
from turfplan.work.seed_mix import germination_days, seed_name

LOOK = "inspect.germination"


# The last of the seed is looked for some days after it should be up.
_AFTER = 2
_SOWN_NOW = ("looks.seedlings.bare_spots", "looks.seedlings.bare_spots_on_rain")


@dataclass(frozen=True, slots=True)
class LookDays:
    """When to look: so many days after sowing at least, and wished; `last` is the last day of work
    on which bare spots can still be sown (an ordinal), None where nothing presses."""

    least: int
    wished: int
    last: int | None = None


def look_days(setting: ResolvedLawn, campaign: Campaign) -> LookDays | None:
    """When to look: once the last of the seed should be up, or earlier, as soon as the first of it
    is, where that alone leaves a day to sow bare spots; None without seed."""
    up, sow = emergence(setting, campaign), campaign.sow_window
    if up is None or sow is None:
        return None
    usual = LookDays(up.last, up.last + _AFTER)
    sown, days = _sown_on(setting, sow), days_for(setting, "inspect")
    first, looked = sown + up.first, days.next(sown + usual.wished)
    half = sown + _half_up(up)
    safe = max(
        (_last_safe(w) for w in _sowable(setting, sow) if w.start.toordinal() <= half), default=0
    )
    last = days.previous(safe)
    if last is None or last < first or (looked is not None and looked <= safe):
        return usual
    return LookDays(up.first, min(usual.wished, last - sown), last)


def _sown_on(setting: ResolvedLawn, sow: OpenDays) -> int:
    """The day of work nearest to the best day of a window (an ordinal)."""
    best, days = sow.best.toordinal(), days_for(setting, sow.operation)
    near = [day for day in (days.previous(best), days.next(best)) if day is not None]
    return min(near, key=lambda day: (abs(day - best), day), default=best)


def _half_up(up: Emergence) -> int:
    """The day from sowing on which half of the time is over in which the seed comes up."""
    return (up.first + up.last + 1) // 2


def _sowable(setting: ResolvedLawn, sow: OpenDays) -> Iterator[OpenDays]:
    """The windows in which bare spots can be sown again: that of the seed, and later ones."""
    spring = sow.operation == "dormant_seed"
    if not spring:
        yield sow
    operation = sow.operation if not spring else "seed" if setting.on_open_ground else "overseed"
    yield from (w for w in setting.open(operation) if w.start > sow.best)


def _last_safe(window: OpenDays) -> int:
    return (window.safe_end or window.end).toordinal()


def look_for_seedlings(setting: ResolvedLawn, timing: Timing, last: int | None) -> Draft:
    """The look, where it may be by the last day (an ordinal) on which bare spots can be sown; what
    is done about them is told once it has its day."""
    sown = setting.sowing.grasses
    quick, slow = germination_days(setting.book, sown)
    look = make(
        setting,
        "inspect",
        "germination",
        timing=timing,
        wording=Wording(
            phrases.seedlings(),
            title=phrases.seedlings_title(),
            how=(
                phrases.seedlings_comes_up(
                    grass=seed_name(setting.book, sown), least=Number(quick), most=Number(slow)
                ),
                phrases.seedlings_washed(),
            ),
            go=phrases.seedlings_go(),
            fallback=phrases.next_free_day(),
        ),
        facts=(*(of_species(grass, "germination_days") for grass in sown), "seeding.reserve"),
    )
    if last is None:
        return look
    in_time = DaySet.of([(setting.first_day, last)])
    reason = Reason("look.in_time", phrases.seedlings())
    return replace(
        look,
        shows=Allowed(
            f"look_in_time:{look.id}", look.start_node, in_time, Strength.PREFERENCE, reason
        ),
    )


def told_of_bare_spots(
    setting: ResolvedLawn, campaign: Campaign, day: date, sown: date | None
) -> tuple[Message, ...]:
    """What is done about bare spots that are seen on a day, and that a look before half of the seed
    of a day is up tells of what was washed and dried alone."""
    up = emergence(setting, campaign)
    early = up is not None and sown is not None and (day - sown).days < _half_up(up)
    spots = bare_spots(setting, campaign, day)
    pressed = early and spots.key in _SOWN_NOW
    return (spots, phrases.seedlings_early()) if pressed else (spots,)


def bare_spots(setting: ResolvedLawn, campaign: Campaign, day: date) -> Message:
    """What is done about bare spots that are seen on a day: sown at once with the reserve, or in
    the next season for seed, the reserve kept till then."""
    reserve = Number(setting.book.si("seeding.reserve"), "percent")
    windows = [] if campaign.sow_window is None else [*_sowable(setting, campaign.sow_window)]
    now = [w for w in windows if w.start <= day and day.toordinal() <= _last_safe(w)]
    if now:
        last = max(_last_safe(w) for w in now)
        safe = Day(date.fromordinal(last))
        if setting.brief.water.possible is False:
            return phrases.seedlings_bare_spots_on_rain(reserve=reserve, last_safe=safe)
        return phrases.seedlings_bare_spots(reserve=reserve, last_safe=safe)
    following = min((w for w in windows if w.start > day), key=lambda w: w.start, default=None)
    if following is None:
        return phrases.seedlings_next_season(reserve=reserve)
    days = Days(following.start, following.end, weekday=False)
    return phrases.seedlings_too_late(reserve=reserve, days=days)
