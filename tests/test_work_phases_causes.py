"""Why grass is thin, or ground uneven, comes first and holds what would be lost on it."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from types import SimpleNamespace
from typing import Any, get_args

import pytest

from planning import brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from tiers import sampled
from told import told, typed
from turfplan.files.reading.book import load_book
from turfplan.records.book_names import ThinCause
from turfplan.records.brief import BumpCause
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.work.drafts import Band
from turfplan.work.phases.cause_seasons import _shows, answered_looks
from turfplan.work.phases.causes import (
    _open_ground,
    _thawed,
    causes_looked_for,
    live_bump,
    thin_causes,
    waits_for,
)

NOW = datetime(2027, 2, 1, 12, tzinfo=UTC)


BOOK = load_book()


def measured(quantity: str, value: float, on: date, number: int = 1) -> JournalEntry:
    """An entry of what was found."""
    return JournalEntry(
        number=number,
        at=NOW,
        kind="measured",
        quantity=quantity,  # type: ignore[arg-type]
        value=value,
        on=on,
    )


@pytest.mark.full
@pytest.mark.parametrize("cause", sampled(get_args(ThinCause), "grubs", "salt"))
def test_each_cause_comes_before_order_and_seed(cause: str) -> None:
    """There is a look with its own words, and order, pass and seed wait for it."""
    plan = plan_of({"site": {"thin_cause": cause}})
    look = next(task for task in plan.tasks if task.id == f"diagnose.{cause}")
    assert (first(plan, "topdress").start - look.end).days >= 14
    assert (first(plan, "overseed").start - look.end).days >= 14
    assert first(plan, "order_material").start >= look.end
    assert len(look.how) >= 4
    assert any("Held until it is answered" in str(line) for line in plan.holds)


# Grubs, insects and disease have seasons of their own.
EARLY = [cause for cause in get_args(ThinCause) if cause not in ("grubs", "insects", "disease")]
FARGO = {"place": {"postal_code": "58102"}, "lawn": {"grass": "kentucky_bluegrass"}}
CHRISTCHURCH = {
    "lawn": {"grass": "perennial_ryegrass", "area": "300 m2"},
    "place": {"postal_code": None, "latitude": -43.5, "longitude": 172.6, "country": "NZ"},
}


def look_for(plan: Plan, cause: str) -> date:
    """The day of the look for a cause."""
    return next(task.start for task in plan.tasks if task.id == f"diagnose.{cause}")


@pytest.mark.full
@pytest.mark.parametrize("cause", sampled(EARLY, "moss", "unknown"))
def test_the_look_stands_in_the_first_weeks(cause: str) -> None:
    """What makes grass thin is looked for as soon as it can be seen, months before autumn work, so
    that there is time to mend it; marks of buried lines come first where it is dug for.
    """
    plan = plan_of({"site": {"thin_cause": cause}, "season": {"from": date(2027, 3, 1)}})
    look = look_for(plan, cause)
    assert look <= date(2027, 4, 5) and first(plan, "mow_low").start > date(2027, 8, 1)
    asked = [t for t in kind(plan, "locate_utilities") if t.start <= look]
    assert bool(asked) == (cause in {"salt", "packed", "drought", "moss", "traffic", "spill"})
    assert all((look - t.start).days >= 5 for t in asked)


@pytest.mark.full
def test_uneven_ground_is_looked_into_in_the_first_weeks_too() -> None:
    """Moles are not left to dig until August."""
    plan = plan_of({"site": {"bump_cause": "moles"}, "season": {"from": date(2027, 3, 1)}})
    (look,) = kind(plan, "diagnose")
    assert look.start < date(2027, 3, 21) and first(plan, "order_material").start > look.end


@pytest.mark.full
def test_nobody_looks_before_there_is_something_to_see() -> None:
    """Frozen ground is not dug, and shade is counted once the grass grows, north and south."""
    north = {"site": {"thin_cause": ["moss", "shade"]}, "season": {"from": date(2027, 1, 10)}}
    plan = plan_of(FARGO, north, now=datetime(2027, 1, 10, 12, tzinfo=UTC))
    assert date(2027, 3, 20) < look_for(plan, "moss") < look_for(plan, "shade") < date(2027, 5, 10)
    winter = {"site": {"thin_cause": ["moss", "shade"]}, "season": {"from": date(2027, 7, 1)}}
    plan = plan_of(CHRISTCHURCH, winter, now=datetime(2027, 7, 1, 12, tzinfo=UTC))
    assert look_for(plan, "moss") < date(2027, 8, 1)
    assert look_for(plan, "shade") >= look_for(plan, "moss")


@pytest.mark.full
def test_grubs_are_counted_while_they_are_near_the_surface_with_marks_of_their_own() -> None:
    """In spring, and again before autumn's work once the next have hatched: a count of April says
    nothing of those of September. Late in the year one count and one request serve."""
    causes = {"site": {"thin_cause": ["packed", "grubs"]}}
    spring = plan_of(causes, {"season": {"from": date(2027, 3, 1)}})
    assert look_for(spring, "packed") < date(2027, 4, 1) < look_for(spring, "grubs")
    assert look_for(spring, "grubs") < date(2027, 5, 1)
    hatched = look_for(spring, "hatched")
    assert date(2027, 8, 10) <= hatched <= first(spring, "topdress").start - timedelta(14)
    asked = {t.id: t.start for t in kind(spring, "locate_utilities")}
    assert asked["locate_utilities.cause"] < look_for(spring, "packed")
    for key in ("grubs", "hatched"):
        assert 5 <= (look_for(spring, key) - asked[f"locate_utilities.{key}"]).days <= 28
    late = {"season": {"from": date(2027, 8, 1)}}
    plan = plan_of(causes, late, now=datetime(2027, 7, 25, 12, tzinfo=UTC))
    assert look_for(plan, "grubs") >= date(2027, 8, 10)
    assert {t.id for t in kind(plan, "locate_utilities")} == {
        "locate_utilities.cause",
        "locate_utilities",
    }


COLUMBUS = {
    "place": {"postal_code": "43215"},
    "lawn": {"grass": "kentucky_bluegrass", "condition": "patchy", "thin_share": 0.2},
    "leveling": None,
    "seeding": {"intent": "patch"},
    "site": {"thin_cause": ["grubs"]},
}


@pytest.mark.full
@pytest.mark.parametrize(
    ("today", "opens", "closes"),
    [
        (date(2026, 9, 20), date(2026, 9, 20), date(2026, 10, 5)),
        (date(2026, 11, 28), date(2027, 4, 1), date(2027, 4, 30)),
        (date(2027, 6, 5), date(2027, 8, 10), date(2027, 8, 25)),
    ],
)
def test_a_count_of_grubs_waits_for_their_season_and_no_longer(
    today: date, opens: date, closes: date
) -> None:
    """Not for a sowing a year away; what it holds follows from it."""
    now = datetime(today.year, today.month, today.day, 12, tzinfo=UTC)
    plan = plan_of(COLUMBUS, {"season": {"from": today}}, now=now)
    assert opens <= look_for(plan, "grubs") <= closes
    assert (first(plan, "overseed").start - look_for(plan, "grubs")).days >= 14
    late = any("The look for grubs is from" in told(line) for line in plan.holds)
    assert late == (opens > today)


@pytest.mark.full
def test_in_the_south_grubs_have_the_other_half_of_the_year() -> None:
    """They are beetles from December to early February."""
    place = {"postal_code": None, "latitude": -37.8, "longitude": 145.0, "country": "AU"}
    changes = {"place": place, "season": {"from": date(2027, 12, 5)}}
    now = datetime(2027, 12, 5, 12, tzinfo=UTC)
    plan = plan_of(changes, {"site": {"thin_cause": ["grubs"]}}, now=now)
    assert date(2028, 2, 5) <= look_for(plan, "grubs") <= date(2028, 2, 25)


OCALA = {
    "place": {"postal_code": "34471", "state": "FL"},
    "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
    "leveling": None,
    "seeding": {"intent": "plant", "form": "plugs", "spacing": "12 in"},
    "site": {"thin_cause": ["insects"]},
}


@pytest.mark.full
def test_insects_are_looked_for_in_warm_weeks_and_planting_waits() -> None:
    """A look in February finds no chinch bug and clears nothing: it is told from when on."""
    plan = plan_of(OCALA, {"season": {"from": date(2027, 2, 10)}})
    assert date(2027, 3, 20) <= look_for(plan, "insects") <= date(2027, 5, 1)
    assert (first(plan, "plant").start - look_for(plan, "insects")).days >= 14
    (line,) = [told(line) for line in plan.holds if "look for insects" in told(line)]
    assert "from warm weeks in spring" in line


@pytest.mark.full
def test_where_summers_are_cool_insects_are_looked_for_while_grass_grows() -> None:
    """Leatherjackets eat from autumn to spring: nobody waits for heat that does not come."""
    there = {"postal_code": None, "latitude": 53.4, "longitude": -2.2, "country": "GB"}
    lawn = {"lawn": {"grass": "perennial_ryegrass"}, "site": {"thin_cause": ["insects"]}}
    plan = plan_of(lawn, {"place": there})
    assert look_for(plan, "insects") < date(2027, 5, 1)
    assert "Leatherjackets" in " ".join(told(how) for how in first(plan, "diagnose").how)


@pytest.mark.full
@pytest.mark.parametrize(
    ("today", "first_day", "last_day"),
    [
        (date(2027, 3, 15), date(2027, 4, 25), date(2027, 6, 1)),
        (date(2027, 9, 10), date(2027, 9, 10), date(2027, 9, 20)),
    ],
)
def test_disease_is_looked_for_when_it_spreads_where_there_is_time(
    today: date, first_day: date, last_day: date
) -> None:
    """Brown patch of March is last year's: the look has until May. Shortly before the seed it is
    looked at as it is, and holds nothing for a year."""
    lawn = {"lawn": {"condition": "patchy"}, "place": {"postal_code": "27607"}}
    asked = {"site": {"thin_cause": ["disease"]}, "season": {"from": today}}
    now = datetime(today.year, today.month, today.day, 12, tzinfo=UTC)
    plan = plan_of(lawn, asked, {"leveling": None}, now=now)
    assert first_day <= look_for(plan, "disease") <= last_day
    assert first(plan, "overseed").start.year == 2027


@pytest.mark.full
def test_insects_are_still_found_while_autumn_is_mild() -> None:
    """What was killed in summer is looked into in late September: no wait until June."""
    now = datetime(2027, 9, 20, 12, tzinfo=UTC)
    asked = {"site": {"thin_cause": ["insects"]}, "season": {"from": date(2027, 9, 20)}}
    plan = plan_of(COLUMBUS, asked, now=now)
    assert look_for(plan, "insects") < date(2027, 10, 1)


@pytest.mark.full
def test_sod_of_spring_is_not_held_for_grubs_that_hatch_in_late_summer() -> None:
    """In Brisbane a count of winter serves planting in spring and early summer."""
    place = {"postal_code": None, "latitude": -27.5, "longitude": 153.0, "country": "AU"}
    lawn = {"grass": "bermuda_common", "condition": "patchy", "thin_share": 0.3}
    asked = {"seeding": {"intent": "plant", "form": "sod"}, "site": {"thin_cause": ["grubs"]}}
    now = datetime(2027, 6, 10, 12, tzinfo=UTC)
    begins = {"season": {"from": date(2027, 6, 10)}, "leveling": None}
    plan = plan_of({"place": place, "lawn": lawn}, asked, begins, now=now)
    assert [task.id for task in kind(plan, "diagnose")] == ["diagnose.grubs"]
    assert first(plan, "plant").start < date(2028, 1, 1)


@pytest.mark.full
@pytest.mark.parametrize("form", ["sod", "plugs"])
@pytest.mark.parametrize("site", [None, {"thin_cause": ["unknown"]}])
def test_dead_turf_of_an_unknown_cause_holds_plants(
    form: str, site: dict[str, list[str]] | None
) -> None:
    """Whether the owner says that nobody knows, or nothing."""
    plan = plan_of(OCALA, {"seeding": {"form": form, "spacing": None}}, {"site": site})
    look = look_for(plan, "unknown")
    assert (first(plan, "plant").start - look).days >= 14
    assert any("nobody knows yet" in told(line) for line in plan.holds)
    known = plan_of(OCALA, {"site": {"thin_cause": ["unknown"], "cleared": ["unknown"]}})
    assert not kind(known, "diagnose")


@pytest.mark.full
def test_what_does_not_live_is_logged_as_left() -> None:
    """Packed soil and dogs are put right or not; grubs are found alive or not."""
    plan = plan_of({"site": {"thin_cause": ["packed", "dogs", "disease"]}})
    words = {task.id: " ".join(map(typed, task.how)) for task in kind(plan, "diagnose")}
    assert "live_cause" in words["diagnose.disease"]
    for name in ("diagnose.packed", "diagnose.dogs"):
        assert "measured cause_left 1" in words[name] and "live" not in words[name].split()


@pytest.mark.full
def test_answer_in_the_brief_opens() -> None:
    """What was looked for and is over asks for no look; hours of sun answer shade."""
    cleared = plan_of({"site": {"thin_cause": ["dogs"], "cleared": ["dogs"]}})
    assert not kind(cleared, "diagnose")
    assert not cleared.holds
    light = plan_of({"site": {"thin_cause": ["shade"], "sun_hours": 7}})
    assert not kind(light, "diagnose")
    bumps = plan_of({"site": {"bump_cause": "moles", "cleared": ["moles"]}})
    assert not kind(bumps, "diagnose")


def again(plan: Plan, *entries: JournalEntry) -> Plan:
    """The plan made again after entries, in late August."""
    now = datetime(2027, 8, 21, 12, tzinfo=UTC)
    return plan_of(
        {"site": {"thin_cause": ["grubs"]}, "season": {"from": date(2027, 8, 1)}},
        now=now,
        journal=entries,
        previous=plan,
    )


@pytest.mark.full
@pytest.mark.parametrize(
    ("quantity", "value"), [("live_cause", 1.0), ("cause_left", 1.0), ("grubs", 130.0)]
)
def test_live_cause_stops_order_and_seed(quantity: str, value: float) -> None:
    """Found alive, it is looked for again after a month, and order, pass and seed wait for that."""
    brief = {"site": {"thin_cause": ["grubs"]}, "season": {"from": date(2027, 8, 1)}}
    plan = plan_of(brief, now=datetime(2027, 7, 25, 12, tzinfo=UTC))
    found = again(plan, measured(quantity, value, date(2027, 8, 20)))
    look = next(task for task in found.tasks if task.id == "diagnose.again")
    assert (look.start - date(2027, 8, 20)).days >= 30
    sowings = [t for t in found.tasks if t.plays("sowing", "spreading") and t.status != "CANCELLED"]
    assert all((task.start - look.end).days >= 14 for task in sowings)
    over = again(
        plan,
        measured(quantity, value, date(2027, 8, 20)),
        measured(quantity, 0.0, date(2027, 8, 21), 2),
    )
    assert all(task.id != "diagnose.again" for task in over.tasks)


def over(task: str, on: date, number: int, kind: str = "done") -> JournalEntry:
    """An entry of a task that is done or skipped."""
    return JournalEntry(number=number, at=NOW, kind=kind, task=task, on=on)  # type: ignore[arg-type]


TWO_LOOKS = {
    "leveling": {"lows": [{"depth": "1.25 in", "share": 0.06}, {"depth": "0.5 in", "share": 0.15}]},
    "site": {"thin_cause": "dogs"},
}


@pytest.mark.parametrize("how", ["done", "skipped"])
def test_what_is_answered_is_no_hold(how: str) -> None:
    """Each stop goes with its own look, and both stay away from every later plan."""
    plan = plan_of(TWO_LOOKS)
    looks = {task.id for task in kind(plan, "diagnose")}
    assert looks == {"diagnose", "diagnose.dogs"} and len(plan.holds) == 2
    day = look_for(plan, "dogs")
    now = datetime(day.year, day.month, day.day, 20, tzinfo=UTC)
    one, other = over("diagnose.dogs", day, 1, how), over("diagnose", day, 2, how)
    half = plan_of(TWO_LOOKS, now=now, journal=(one,), previous=plan)
    assert len(half.holds) == 1 and "cause of the bumps" in str(half.holds[0])
    none = plan_of(TWO_LOOKS, now=now, journal=(one, other), previous=half)
    assert none.holds == () and not any("Held until" in str(said) for said in none.cautions)


def test_a_count_of_grubs_is_answered_once_the_next_ones_are_counted_too() -> None:
    """The count of spring alone leaves the stop."""
    grubs = {"site": {"thin_cause": ["grubs"]}, "season": {"from": date(2027, 3, 1)}}
    plan = plan_of(grubs)
    first_day, later = look_for(plan, "grubs"), look_for(plan, "hatched")
    counted = over("diagnose.grubs", first_day, 1)
    now = datetime(2027, 5, 20, 12, tzinfo=UTC)
    spring = plan_of(grubs, now=now, journal=(counted,), previous=plan)
    assert any("Held until it is answered" in str(said) for said in spring.holds)
    both = (counted, over("diagnose.hatched", later, 2))
    now = datetime(later.year, later.month, later.day, 20, tzinfo=UTC)
    autumn = plan_of(grubs, now=now, journal=both, previous=spring)
    assert not any("Held until" in str(said) for said in autumn.holds)


def test_another_look_answers_what_was_found_alive() -> None:
    """From the day on which it is due; one that was done before the cause was found does not."""
    due = date(2027, 9, 20).toordinal()
    assert answered_looks({"diagnose.again": due}, (), due) == {"diagnose.again"}
    assert answered_looks({"diagnose.again": due - 1}, (), due) == frozenset()
    assert answered_looks({"topdress.1": due}, ("diagnose",), None) == {"diagnose"}


BARE = {
    "lawn": {"condition": "bare", "area": "2000 ft2"},
    "leveling": {"depth": "5 in"},
    "site": {"thin_cause": ["packed"], "bump_cause": "construction"},
}


@pytest.mark.full
def test_a_stop_is_kept_on_bare_ground_with_two_causes() -> None:
    """No look but the last frees the order: with the cause of the bumps and packed soil both looked
    for, what was found alive holds order, fill and seed."""
    plan = plan_of(BARE)
    order = first(plan, "order_material").start
    found = order - timedelta(10)
    now = datetime(found.year, found.month, found.day, 12, tzinfo=UTC)
    again = plan_of(BARE, now=now, journal=(measured("live_cause", 1.0, found),), previous=plan)
    look = next(task for task in again.tasks if task.id == "diagnose.again")
    held = [
        task
        for task in again.tasks
        if task.plays("ordering", "delivery", "spreading", "sowing") and task.status != "CANCELLED"
    ]
    assert {task.operation for task in held} >= {"order_material", "delivery", "fill"}
    assert all(task.start >= look.end for task in held), [(t.id, t.start) for t in held]


@pytest.mark.full
def test_deep_hollows_of_which_nobody_said_the_cause_are_looked_into_first() -> None:
    """A dip deeper than a pass may fill comes back over what made it; a thin even fill not."""
    lows = {"leveling": {"depth": "0.25 in", "lows": [{"depth": "2 in", "share": 0.05}]}}
    plan = plan_of(lows)
    look = next(task for task in plan.tasks if task.id == "diagnose")
    work = [task for task in plan.tasks if task.plays("spreading", "ordering")]
    assert work and all(task.start >= look.end for task in work)
    assert "Nobody knows yet" in told(look.why)
    assert any("cause of the bumps" in str(line) for line in plan.holds)
    assert not kind(
        plan_of({**lows, "site": {"bump_cause": "traffic", "cleared": ["traffic"]}}), "diagnose"
    )
    assert not kind(plan_of({**lows, "site": {"cleared": ["unknown"]}}), "diagnose")
    assert not kind(plan_of({"leveling": {"depth": "0.5 in"}}), "diagnose")


@pytest.mark.full
def test_bare_ground_is_not_spoken_of_as_turf() -> None:
    """No thatch, no edge of turf and no thin grass where nothing grows; and what is held is told as
    it is: lime does not wait."""
    plan = plan_of(BARE, {"lawn": {"thatch": None}})
    said = " ".join(
        [
            *(told(line) for task in kind(plan, "diagnose") for line in task.how),
            *(str(line) for line in (*plan.holds, *plan.assumptions)),
        ]
    )
    assert "no grass stands there" in said and "lime do not wait" in said
    for word in ("turf edge", "thatch", "Thatch", "thin grass"):
        assert word not in said


@pytest.mark.full
def test_packed_ground_that_is_tilled_later_is_not_asked_to_be_soft_before() -> None:
    """Where the plan loosens the ground itself, the look ends when its depth is known."""
    tilled, kept = plan_of(BARE), plan_of({"site": {"thin_cause": ["packed"]}})
    said = {
        name: " ".join(
            told(line) for task in plan.tasks for line in task.how if "packed" in task.id
        )
        for name, plan in (("tilled", tilled), ("kept", kept))
    }
    assert "reaches below it" in said["tilled"] and "goes in a hand" not in said["tilled"]
    assert "goes in a hand" in said["kept"] and "reaches below it" not in said["kept"]


@pytest.mark.full
@pytest.mark.parametrize("country", ["US", "GB"])
def test_insects_are_a_cause_with_their_looks(country: str) -> None:
    """Each kind with its grass, its season and what shows it; treated by the label alone."""
    there = {"postal_code": None, "latitude": 51.5, "longitude": -1.0, "country": "GB"}
    place = {"place": there} if country == "GB" else {}
    plan = plan_of({"site": {"thin_cause": ["insects"]}}, place)
    look = next(task for task in plan.tasks if task.id == "diagnose.insects")
    said = " ".join(told(line) for line in look.how)
    for word in ("Chinch bugs", "armyworms", "Billbugs", "label", "licensed"):
        assert word in said
    assert (first(plan, "overseed").start - look.end).days >= 14


@pytest.mark.full
def test_thin_without_a_cause_is_asked() -> None:
    """Where the owner says thin and not why, the plan asks; dense grass is not asked about."""
    thin, dense = plan_of(), plan_of({"lawn": {"condition": "dense"}})
    assert any("why the grass is thin" in str(line) for line in thin.assumptions)
    assert not any("why the grass is thin" in str(line) for line in dense.assumptions)


@pytest.mark.full
def test_grubs_found_alive_in_spring_are_looked_for_again_when_they_are_back() -> None:
    """A month later they are beetles and eggs: nothing would be found, and nothing be over."""
    plan = plan_of(COLUMBUS)
    now = datetime(2027, 5, 11, 12, tzinfo=UTC)
    entry = measured("grubs", 130.0, date(2027, 5, 10))
    found = plan_of(COLUMBUS, now=now, journal=(entry,), previous=plan)
    look = look_for(found, "again")
    assert look >= date(2027, 8, 10)
    assert (first(found, "overseed").start - look).days >= 14


@pytest.mark.full
def test_where_the_year_has_no_seasons_grubs_are_counted_on_any_day() -> None:
    """In Singapore nobody waits for August."""
    place = {"postal_code": None, "latitude": 1.3, "longitude": 103.8, "country": "SG"}
    lawn = {"grass": "zoysia", "condition": "patchy", "thin_share": 0.3}
    asked = {"seeding": {"intent": "plant", "form": "sod"}, "site": {"thin_cause": ["grubs"]}}
    begins = {"season": {"from": date(2027, 6, 20)}, "leveling": None}
    now = datetime(2027, 6, 20, 12, tzinfo=UTC)
    plan = plan_of({"place": place, "lawn": lawn}, asked, begins, now=now)
    assert look_for(plan, "grubs") < date(2027, 7, 15)


def test_a_short_autumn_is_not_lost_for_a_second_count() -> None:
    """In Calgary seed has to go in before a count of August would let it: that of May serves."""
    place = {"postal_code": None, "latitude": 51.05, "longitude": -114.1, "country": "CA"}
    plan = plan_of(COLUMBUS, {"place": place})
    assert plan.task("diagnose.hatched") is None
    assert first(plan, "overseed").start < date(2027, 9, 15)


def test_unknown_deaths_of_warm_season_turf_are_looked_into_once_insects_show() -> None:
    """In Tampa the look has until March: planting in May leaves the time."""
    plan = plan_of(OCALA, {"place": {"postal_code": "33602"}, "site": None})
    assert date(2027, 3, 10) <= look_for(plan, "unknown") <= date(2027, 4, 10)
    assert (first(plan, "plant").start - look_for(plan, "unknown")).days >= 14


def test_grubs_are_near_the_surface_from_a_warmth_of_the_soil_on() -> None:
    """On a day of just that warmth too."""
    book = load_book()
    least = book.si("site.grubs_soil")
    for soil_c, near in ((least, True), (least - 0.01, False)):
        climate = SimpleNamespace(soil_c=lambda day, c=soil_c: c, air_mean_c=(20.0,) * 365)
        setting: Any = SimpleNamespace(book=book, climate=climate)
        shows = _shows(setting, "surface")
        assert shows is not None and shows(date(2027, 5, 1)) is near


@pytest.mark.parametrize(("told", "looks"), [("frost", True), (None, False)])
def test_a_cause_of_bumps_that_was_told_is_looked_into_though_the_fill_waits(
    told: str | None, *, looks: bool
) -> None:
    """It is mended before the season that fills, and holds nothing of a plan that does not."""
    setting = setting_of(brief_of({"site": {"bump_cause": told} if told else {}}))
    left = replace(setting, levelling=replace(setting.levelling, bands=(), left=(Band(40.0, 0.1),)))
    assert (live_bump(left) is not None) is looks
    assert not any("bumps" in message.key for message in waits_for(left))


def test_causes_that_were_told_are_looked_into_where_hollows_are_lifted_alone() -> None:
    """Relaid turf on packed ground thins as what lay there before it."""
    setting = setting_of(
        brief_of({"site": {"thin_cause": ["packed", "traffic"]}, "seeding": {"intent": "none"}})
    )
    lifted = replace(setting.levelling, bands=(), lift_share=0.1, lift_depth_mm=50.0)
    assert thin_causes(replace(setting, levelling=lifted)) == ("packed", "traffic")
    none = replace(setting.levelling, bands=())
    assert thin_causes(replace(setting, levelling=none)) == ()


def test_a_spade_waits_for_frost_to_leave_and_goes_in_at_once_where_there_is_none() -> None:
    """Two weeks after a probe goes in, where winter freezes the ground."""
    cold = setting_of(brief_of({"place": {"postal_code": "55401"}}))
    assert _thawed(cold) - _open_ground(cold) == round(BOOK.si("order.spade_after_probe"))
    mild = replace(cold, climate=replace(cold.climate, air_mean_c=(8.0,) * 365))
    assert _thawed(mild) == _open_ground(mild)
    later = replace(cold, first_day=_open_ground(cold))
    assert _thawed(later) == later.first_day, "what is asked for in summer is dug at once"


@pytest.mark.full
def test_insects_are_looked_for_again_before_plants_that_go_in_weeks_later() -> None:
    """In the week before the sod, where a brood has passed since the first look; once where they
    follow each other."""
    houston = {
        "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
        "place": {"postal_code": "77057", "state": "TX"},
        "leveling": {"depth": "0 in"},
        "seeding": {"intent": "plant", "form": "sod"},
        "site": {"thin_cause": ["insects"]},
    }
    use = {"active_ingredient": "prodiamine", "on": date(2027, 2, 20)}
    late = plan_of(houston, {"history": {"herbicides": [use]}})
    (again,) = [task for task in late.tasks if task.id == "inspect.insects"]
    sod = first(late, "plant").start
    assert timedelta(0) < sod - again.start <= timedelta(10)
    assert sod - look_for(late, "insects") > timedelta(28)
    assert any("Chinch bugs" in told(line) for line in again.how)
    soon = plan_of(houston)
    assert first(soon, "plant").start - look_for(soon, "insects") < timedelta(35)
    assert not [task for task in soon.tasks if task.id == "inspect.insects"]


@pytest.mark.full
def test_drought_on_a_lawn_that_is_made_anew_asks_for_no_rest_of_the_old_grass() -> None:
    """What is killed anyway is not watered for two weeks to see whether it rests."""
    anew = {"seeding": {"intent": "renovate"}, "leveling": {"depth": "1 in"}}
    renewed = plan_of({"site": {"thin_cause": ["drought"]}}, anew)
    kept = plan_of({"site": {"thin_cause": ["drought"]}})
    for plan, waits in ((renewed, False), (kept, True)):
        (look,) = [task for task in plan.tasks if task.id == "diagnose.drought"]
        assert any("for two weeks" in told(line) for line in look.how) is waits


@pytest.mark.parametrize("cause", get_args(BumpCause))
def test_no_cause_of_bumps_is_passed_over(cause: BumpCause) -> None:
    """Each holds the fill until it has been looked into; traffic is led elsewhere, with no hole."""
    hollows = {"leveling": {"depth": "0.25 in", "lows": [{"depth": "2 in", "share": 0.05}]}}
    setting = setting_of(brief_of(hollows, {"site": {"bump_cause": cause}}))
    look = next(d for d in causes_looked_for(setting, None) if d.id == "diagnose")
    assert live_bump(setting) == cause
    steps = [message.key for message in look.how or ()]
    assert ("prepare.traffic.lead" in steps) is (cause == "traffic")
    over = setting_of(brief_of(hollows, {"site": {"bump_cause": cause, "cleared": [cause]}}))
    assert live_bump(over) is None


def test_a_cause_that_nobody_knows_is_not_named_as_one() -> None:
    """What is held, and what has to be known before the work, ask why the grass is thin."""
    plan = plan_of(OCALA, {"seeding": {"form": "plugs", "spacing": None}}, {"site": None})
    said = [told(line) for line in plan.holds]
    words = [told(m) for key, m in plan.on_sheets.items() if ".known." in key]
    assert any(re.search("why (the grass is thin|no grass stands there)", line) for line in said)
    assert words and all(line.startswith("It is known why") for line in words)
    assert not any("a cause that" in line for line in (*said, *words))
