"""Whether seed or plants can be kept moist: by allowed days, by hours, by bans, or on rain."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.book.words import grass_name
from turfplan.climate.record import Climate
from turfplan.message import Days, Message, Month, Number, as_written, listed, sentences
from turfplan.phrases import watering as phrases
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.verdict import (
    Verdict,
    days_kept_wet,
    tender_days,
    told_of_water,
    too_few_days,
    watering_verdict,
)

BOOK, COOL = cases.book(), cases.cool_climate()
FESCUE = grass_name(BOOK, "tall_fescue")
ALL_DAYS = {"possible": True}
PLANTS = {"seeding": {"intent": "plant", "form": "sod"}}


def verdict(
    water: dict[str, Any], *zones: WateringZone, climate: Climate = COOL, **parts: Any
) -> Verdict:
    """What is said of tall fescue under a water table."""
    return watering_verdict(cases.brief(water=water, **parts), BOOK, climate, "tall_fescue", zones)


def even(et0_mm: float, rain_mm: float) -> Climate:
    """The cool place with the same water on every day."""
    return replace(COOL, et0_mm=(et0_mm,) * 365, rain_mm=(rain_mm,) * 365)


def test_seed_is_tender_until_it_is_grown_and_plants_until_they_have_rooted() -> None:
    """21 days and two weeks more; plants, or what has no days of germination, three weeks."""
    assert tender_days(cases.brief(water=ALL_DAYS), BOOK, "tall_fescue") == (21, 35)
    assert tender_days(cases.brief(water=ALL_DAYS, **PLANTS), BOOK, "tall_fescue") == (21, 21)
    assert tender_days(cases.brief(water=ALL_DAYS), BOOK, "bermuda_hybrid") == (21, 21)
    assert tender_days(cases.brief(water=ALL_DAYS), BOOK, "perennial_ryegrass") == (10, 24)


def test_days_farther_apart_than_one_need_a_permit() -> None:
    """Every other day is too far; all seven days of a week, or none named, are not."""
    week = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]

    def few(**water: Any) -> bool:
        return too_few_days(cases.brief(water={"possible": True, **water}), BOOK)

    assert few(allowed_weekdays=week[:6]) and few(parity="odd")
    assert not few(allowed_weekdays=week) and not few()


def test_a_gap_rules_seed_out_only_where_no_permit_is_to_be_had() -> None:
    """Unknown, it is needed; refused, the seed is; plants are told of in words of their own."""
    rain = phrases.verdict_rain_nowhere()
    gap = {"possible": True, "allowed_weekdays": ["wed", "sun"]}
    dry = even(5.0, 1.0)
    asked = verdict(gap, climate=dry)
    assert (asked.ok, asked.reasons, asked.needs_permit) == (True, (), True)
    none = verdict({**gap, "permit": False}, climate=dry)
    waits = phrases.verdict_gap_seed(gap=4, grass=FESCUE, days=21)
    assert (none.ok, none.reasons, none.needs_permit) == (False, (sentences(waits, rain),), True)
    sod = verdict({**gap, "permit": False}, climate=dry, **PLANTS)
    waits = phrases.verdict_gap_plants(gap=4, grass=FESCUE, days=21)
    assert sod.reasons == (sentences(waits, rain),)
    free = verdict({"possible": True, "permit": False}, climate=dry)
    assert (free.ok, free.needs_permit) == (True, False)
    assert free.facts[0] == "water.germination_gap" and len(free.facts) == 3


def test_without_water_seed_lives_on_rain_or_not_at_all() -> None:
    """Where rain keeps it wet on some day it is a caution, else a reason."""
    wet, dry = even(2.0, 2.0), even(2.0, 1.9)
    assert any(days_kept_wet(cases.brief(), BOOK, wet, "tall_fescue"))
    assert not any(days_kept_wet(cases.brief(), BOOK, dry, "tall_fescue"))
    on_rain = verdict({"possible": False}, climate=wet)
    assert on_rain.ok and on_rain.reasons == ()
    alone = phrases.verdict_rain_seed(grass=FESCUE)
    assert _parts_of(on_rain.cautions[0])[0] == alone
    never = verdict({"possible": False}, climate=dry)
    assert not never.ok and never.cautions == ()
    nowhere = phrases.verdict_rain_nowhere()
    assert never.reasons == (sentences(phrases.verdict_no_water_seed(grass=FESCUE), nowhere),)
    sod = verdict({"possible": False}, climate=dry, **PLANTS)
    assert sod.reasons == (sentences(phrases.verdict_no_water_plants(grass=FESCUE), nowhere),)
    rained = verdict({"possible": False}, climate=wet, **PLANTS)
    assert _parts_of(rained.cautions[0])[0] == phrases.verdict_rain_plants(grass=FESCUE)


def _parts_of(message: Message) -> list[Any]:
    """The messages that a message is put together of."""
    found: list[Any] = []
    for _, value in message.values:
        if isinstance(value, Message):
            found.append(value)
        elif hasattr(value, "items"):
            found += list(value.items)
    return found


def test_usual_rain_names_the_months_in_which_it_keeps_up_while_grass_grows() -> None:
    """From as much rain as loss on; in a place of frost not the winter, however wet."""
    rain = tuple(2.0 if 151 <= day < 212 else 1.0 for day in range(365))
    place = replace(COOL, et0_mm=(2.0,) * 365, rain_mm=rain)
    told = verdict({"possible": True, "allowed_weekdays": ["sun"], "permit": False}, climate=place)
    waits = phrases.verdict_gap_seed(gap=7, grass=FESCUE, days=21)
    june_july = phrases.verdict_rain_keeps_up(months=listed([Month(6), Month(7)], "comma"))
    assert told.reasons == (sentences(waits, june_july),)
    wet = even(2.0, 3.0)
    told = verdict({"possible": True, "allowed_weekdays": ["sun"], "permit": False}, climate=wet)
    growing = [
        month
        for month in range(1, 13)
        if max(wet.growth_potential(date(2027, month, d), "cool") for d in (1, 15, 28))
        >= BOOK.si("water.dormant_growth")
    ]
    assert 1 not in growing and 7 in growing
    months = listed([Month(n) for n in growing], "comma")
    assert told.reasons == (sentences(waits, phrases.verdict_rain_keeps_up(months=months)),)


def test_a_ban_closes_the_days_from_which_seed_would_meet_it() -> None:
    """35 days ahead of its first day for seed, 21 for plants; each is told with its days."""
    spans = [
        {"from": date(2027, 7, 1), "to": date(2027, 7, 31)},
        {"from": date(2027, 11, 1), "to": date(2027, 11, 10)},
    ]
    water = {"possible": True, "banned": spans}
    for parts, days in (({}, 35), (PLANTS, 21)):
        found = verdict(water, **parts)
        first, last = date(2027, 7, 1) - timedelta(days), date(2027, 7, 31)
        other = date(2027, 11, 1) - timedelta(days), date(2027, 11, 10)
        assert found.closed == ((first, last), other) and found.ok
        said = phrases.verdict_banned(
            banned=Days(date(2027, 7, 1), last, weekday=False),
            closed=Days(first, last, weekday=False),
            days=days,
        )
        assert found.cautions[0] == said and len(found.cautions) == 2


def test_that_nobody_told_of_water_is_said() -> None:
    """A price tells nothing; a rate, days, or that it is possible or not do."""

    def told(**water: Any) -> bool:
        return told_of_water(cases.brief(water=water))

    assert not told() and not told(price_per_m3=2.0)
    assert told(possible=True) and told(possible=False) and told(parity="odd")
    assert told(application_rate="1 in/h", price_per_m3=2.0)
    assert verdict({}).cautions == (phrases.verdict_unsaid_seed(days=35, grass=FESCUE),)
    unsaid = phrases.verdict_unsaid_plants(days=21, grass=FESCUE)
    assert verdict({}, **PLANTS).cautions == (unsaid,)
    assert verdict(ALL_DAYS).cautions == ()


def zone(rate: float, uniformity: float = 1.0, exposure: float = 1.0, settings: int = 1) -> Any:
    """A zone of a rate."""
    return replace(
        WateringZone(None, as_written("lawn"), 100.0, rate, uniformity, exposure=exposure),
        **({} if settings == 1 else {"settings": settings}),
    )


def test_a_day_too_short_for_its_water_is_told_with_the_share_that_fits() -> None:
    """5 mm of the driest month at 1 mm/h through a uniformity of 0.5 takes 10 hours."""
    hot = replace(COOL, et0_mm=(1.0,) * 100 + (5.0,) + (1.0,) * 264)
    two = {"possible": True, "allowed_hours": ["06:00-14:00"]}
    slow = zone(1.0, 0.5)
    said = phrases.verdict_short_hours(
        hours=Number(10.0, "tenth"), allowed=Number(8.0, "tenth"), share=Number(0.8, "percent")
    )
    assert verdict(two, slow, climate=hot).cautions == (said,)
    assert verdict(two, zone(1.25, 0.5), climate=hot).cautions == (), "eight hours just fit"
    assert verdict(two, zone(1.0, 0.5, 0.8), climate=hot).cautions == (), "shade wants less"
    sod = verdict(two, slow, climate=hot, **PLANTS).cautions
    assert [m.key for m in sod] == ["watering.verdict.short_hours_plants"]
    several = [zone(1.0), zone(1.0), zone(0.2)]
    said = phrases.verdict_short_day(
        hours=Number(35.0, "tenth"),
        allowed=Number(24.0, "tenth"),
        share=Number(24 / 35, "percent"),
    )
    (found,) = verdict(ALL_DAYS, *several, climate=hot).cautions
    values = dict(found.values)
    assert found.key == said.key and values["hours"] == Number(pytest.approx(35.0), "tenth")  # type: ignore[arg-type]
    (found,) = verdict(ALL_DAYS, *several, climate=hot, **PLANTS).cautions
    assert found.key == "watering.verdict.short_day_plants"
    assert verdict(ALL_DAYS, climate=hot).cautions == ()


NIGHT = ["18:00-24:00", "00:00-06:00"]


@pytest.mark.parametrize(
    ("hours", "dark"),
    [
        (NIGHT, True),
        (["22:00-05:00"], True),
        (["18:00-24:00", "00:00-06:01"], False),
        (["17:59-18:30"], False),
        ([], False),
    ],
)
def test_hours_of_the_night_alone_are_said_to_hold_nothing_moist(
    hours: list[str], dark: bool
) -> None:
    """Hours by day are asked for, where nobody answered; what is sown is not ruled out."""
    for permit, asks in ((None, dark), (False, False), (True, False)):
        water = {"allowed_hours": hours, "possible": True}
        if permit is not None:
            water["permit"] = permit
        found = watering_verdict(cases.brief(water=water), BOOK, COOL, "tall_fescue")
        assert found.ok and found.needs_permit is asks
        assert ("watering.verdict.dark_hours" in [c.key for c in found.cautions]) is dark


def test_dormant_seed_on_rain_is_told_as_a_risk_and_not_that_nothing_is_sown() -> None:
    """On doubtful rain, and on rain that keeps no seedbed moist; not on known rain that does."""
    doubt = as_written("doubt")
    dry, doubtful = even(5.0, 0.2), replace(even(2.0, 6.0), rain_doubt=doubt)
    asked = {"seeding": {"intent": "dormant"}}
    nobody = {"possible": False}
    of_dry = verdict(nobody, climate=dry, **asked)
    assert of_dry.ok and not of_dry.reasons
    dry_seed = phrases.verdict_dormant_dry(grass=FESCUE)
    assert sentences(dry_seed, phrases.verdict_rain_nowhere()) in of_dry.cautions
    of_doubtful = verdict(nobody, climate=doubtful, **asked)
    assert of_doubtful.ok
    assert phrases.verdict_dormant_doubtful(grass=FESCUE) in of_doubtful.cautions
    assert not verdict(nobody, climate=even(2.0, 6.0), **asked).cautions
    for climate in (dry, doubtful):
        assert not verdict(nobody, climate=climate).ok, "seed that comes up at once is refused"
