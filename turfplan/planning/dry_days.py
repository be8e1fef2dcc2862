"""Which days rain that is forecast takes from work that must be dry, and what that moves."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from turfplan.book.entries import Book
from turfplan.message import Day, Message
from turfplan.phrases import changes
from turfplan.phrases import history as phrases
from turfplan.records.constraints import Allowed, Constraint, DaySet, Reason, Strength
from turfplan.records.plan import Plan
from turfplan.work.drafts import Draft
from turfplan.work.watering.season import WeatherDay


def coming_rain(weather: Mapping[date, WeatherDay], today: date) -> dict[date, float]:
    """The rain that is forecast, mm by day from today on."""
    return {day: w.rain_mm for day, w in weather.items() if w.rain_mm is not None and day >= today}


def dry_day_constraints(
    book: Book,
    drafts: Sequence[Draft],
    wet_days: Mapping[date, float],
    work_days: DaySet,
    first: int,
    last: int,
) -> tuple[Constraint, ...]:
    """Spreading keeps off days with rain in the forecast, and off the day after a real soaking, as
    long as other rules let it.

    That holds for every day that it takes: a job of two days starts where both are dry.
    """
    if not wet_days:
        return ()
    bad = _bad_days(book, wet_days)
    dry = {
        length: _dry_starts(bad, work_days, first, last, length)
        for length in {d.duration_days for d in drafts}
    }
    reason = Reason(
        "weather.dry_day",
        phrases.rain_forecast(),
        ("weather.dry_day_rain",),
    )
    return tuple(
        Allowed(
            f"dry:{d.id}",
            d.start_node,
            dry[d.duration_days],
            Strength.STRONG
            if "spreading" in book.operations[d.operation].roles
            else Strength.ADVICE,
            reason,
        )
        for d in drafts
        if book.operations[d.operation].weather == "dry"
    )


def _dry_starts(bad: set[int], work_days: DaySet, first: int, last: int, length: int) -> DaySet:
    """The days from which a job of so many working days meets none that is too wet."""
    if length == 1:
        return DaySet.from_days(d for d in range(first, last + 1) if d not in bad)
    days = [d for d in work_days.days() if first <= d <= last]
    spans = zip(*(days[k:] for k in range(length)), strict=False)
    return DaySet.from_days(span[0] for span in spans if bad.isdisjoint(span))


def _bad_days(book: Book, wet_days: Mapping[date, float]) -> set[int]:
    """The days that are too wet for dry work: those of rain, and the one after a soaking."""
    slight, soaking = book.si("weather.dry_day_rain"), book.si("weather.soaking_rain")
    bad = {d.toordinal() for d, rain in wet_days.items() if rain > slight}
    return bad | {
        (d + timedelta(days=1)).toordinal() for d, rain in wet_days.items() if rain > soaking
    }


def forecast_reasons(
    book: Book, previous: Plan | None, wet_days: Mapping[date, float]
) -> dict[str, Message]:
    """By task of the plan before that needs a dry day and was to be on a wet one, why it cannot
    stay there."""
    if previous is None or not wet_days:
        return {}
    bad = _bad_days(book, wet_days)
    found = {}
    for task in previous.tasks:
        if task.operation in book.operations and book.operations[task.operation].weather == "dry":
            # Of a job of several days the first and the last are known; what lies between may be
            # days off.
            wet = next((day for day in (task.start, task.end) if day.toordinal() in bad), None)
            if wet is not None:
                found[task.id] = changes.because_forecast(day=Day(wet, year=False))
    return found
