"""Days that a careful expert would and would not take: holds, looks, spring before a cool summer,
coasts without frost.
"""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from test_work_campaigns import days_of
from told import told
from turfplan.files.reading.book import load_book
from turfplan.message import as_written, listed
from turfplan.phrases import day_limits as phrases
from turfplan.records.book_names import of_herbicide
from turfplan.records.constraints import Strength
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.campaigns import campaigns
from turfplan.work.day_limits import _watering_people, _window, day_constraints
from turfplan.work.drafts import Draft
from turfplan.work.operations import CARE, Timing, Wording, make


@pytest.mark.full
def test_the_same_weed_killer_twice_holds_from_the_last_time() -> None:
    """Two treatments with one ingredient are two holds: the later one decides."""
    uses = [
        {"active_ingredient": "prodiamine", "on": day}
        for day in (date(2027, 3, 20), date(2027, 5, 20))
    ]
    plan = plan_of({"history": {"herbicides": uses}, "leveling": {"depth": "0.25 in"}})
    sowing = next(t for t in plan.tasks if t.operation in ("overseed", "dormant_seed"))
    assert sowing.start >= date(2027, 5, 20) + timedelta(weeks=16)


def test_each_session_is_looked_at_within_days_of_its_last_pass() -> None:
    """The look at the leaf tips hangs on its own session, also where there are several (order:
    look_after_pass).
    """
    plan = plan_of({"leveling": {"depth": "1 in"}, "seeding": {"intent": "none"}})
    looks = [t for t in plan.tasks if t.id.startswith("inspect.leaf_tips.")]
    assert len(looks) > 1
    for look in looks:
        assert any(6 <= (look.start - p.end).days <= 14 for p in kind(plan, "topdress")), look.id
        assert (look.window.end - look.window.start).days < 120


@pytest.mark.full
def test_catch_cans_stand_out_when_seed_that_slept_is_about_to_wake() -> None:
    """Dormant seed rests dry over winter and is kept moist from its waking on: the watering is
    measured once pipes are full again, ahead of the first run.
    """
    plan = plan_of({"leveling": None, "seeding": {"intent": "dormant"}})
    (sowing,), (check,) = kind(plan, "dormant_seed"), kind(plan, "irrigation_check")
    moist = [run for run in kind(plan, "water") if run.start > sowing.end]
    spring = date(sowing.end.year + (sowing.end.month > 6), 3, 1)
    assert check.start > spring > sowing.end
    assert check.end < min(run.start for run in moist) <= check.end + timedelta(days=30)


@pytest.mark.full
def test_spring_work_on_cool_grass_ends_before_midsummer_where_heat_never_ends_it() -> None:
    """In a cool summer no pass, coring or scarifying falls within four weeks of the hottest day
    (windows: cool_spring_work_rest).
    """
    leeds = {"postal_code": None, "country": "GB", "latitude": 53.8, "longitude": -1.5}
    plan = plan_of(
        {
            "place": leeds,
            "lawn": {"grass": "perennial_ryegrass", "thatch": "15 mm"},
            "leveling": {"depth": "20 mm"},
        }
    )
    for task in (t for name in ("topdress", "core_aerate", "dethatch") for t in kind(plan, name)):
        assert not date(task.start.year, 7, 1) <= task.start <= date(task.start.year, 8, 15), (
            task.id
        )


def test_frost_free_coast_is_sown_in_autumn() -> None:
    """Where neither frost nor cold ends the season, passes still go on in autumn, and the seed with
    them.
    """
    plan = plan_of({"place": {"postal_code": "92103"}, "lawn": {"soil": "sandy loam"}})
    assert plan.campaign == "autumn" and first(plan, "overseed").start.month in (9, 10, 11)


@pytest.mark.full
def test_sand_over_clay_is_left_to_who_asks_for_it() -> None:
    """Bermuda on clay gets a blend like the soil; on loam thin straight sand; on clay sand only
    when asked for.
    """
    wish = {"place": {"postal_code": "30606"}, "seeding": {"intent": "none"}}
    on = [
        plan_of(wish, {"lawn": {"grass": "bermuda_hybrid", "soil": soil}}).lawn.mix
        for soil in ("clay", "loam")
    ]
    assert [str(mix) for mix in on] == ["topsoil and sand, half and half", "straight fine sand"]
    asked = plan_of(
        wish,
        {"lawn": {"grass": "bermuda_hybrid", "soil": "clay"}},
        {"leveling": {"material": "sand"}},
    )
    assert str(asked.lawn.mix) == "straight fine sand"


def sown(grass: str, product: str, on: date) -> date | None:
    """The day this grass is sown in Georgia after a treatment, or None where nothing can be
    done.
    """
    plan = plan_of(
        {
            "lawn": {"grass": grass},
            "place": {"postal_code": "30606"},
            "leveling": {"depth": "0 in"},
            "history": {"herbicides": [{"active_ingredient": product, "on": on}]},
        },
        options=False,
    )
    return next((t.start for t in plan.tasks if t.plays("sowing")), None)


@pytest.mark.full
def test_a_product_that_harms_the_grass_holds_its_seed_for_longer() -> None:
    """Siduron may go with seed of zoysia (Purdue), and harms bermudagrass (trials of 2004): sixteen
    weeks are kept free.
    """
    treated = date(2027, 4, 1)
    zoysia, bermuda = sown("zoysia", "siduron", treated), sown("bermuda_common", "siduron", treated)
    assert zoysia is not None and zoysia < treated + timedelta(weeks=16)
    assert bermuda is not None and bermuda >= treated + timedelta(weeks=16)


def test_what_is_held_for_harm_says_why() -> None:
    """The seeding names the product, the grass and who found the harm; a grass that is not harmed
    hears nothing.
    """
    plan = plan_of(
        {
            "lawn": {"grass": "bermuda_common"},
            "place": {"postal_code": "30606"},
            "leveling": {"depth": "0 in"},
            "history": {"herbicides": [{"active_ingredient": "Siduron", "on": date(2027, 4, 1)}]},
        },
    )
    said = " ".join(reason.text for reason in first(plan, "seed").not_earlier)
    assert (
        "Siduron of Thu, Apr 1, 2027 harms young" in said
        and "Crop Science" in said
        and "16 weeks" in said
    )


def test_the_hold_of_an_unknown_product_is_told_in_weeks() -> None:
    """As many as its days are."""
    use = {"active_ingredient": "nonesuch", "on": date(2027, 5, 20)}
    plan = plan_of({"history": {"herbicides": [use]}, "leveling": {"depth": "0.25 in"}})
    sowing = next(t for t in plan.tasks if t.operation in ("overseed", "dormant_seed"))
    days = round(load_book().fact(of_herbicide("unknown", "hold")).high_si)
    assert days % 7 == 0 and sowing.start >= date(2027, 5, 20) + timedelta(days)
    texts = [told(limit.text) for limit in (*sowing.not_earlier, *sowing.not_later)]
    assert any(f"{days // 7} weeks" in text for text in texts if "nonesuch" in text)


def asked(plan: Plan) -> list[Task]:
    """The requests to offices: for marks, and for a permit to water."""
    return [*kind(plan, "locate_utilities"), *kind(plan, "permit")]


@pytest.mark.full
@pytest.mark.parametrize(
    "changes",
    [
        {"site": {"thin_cause": ["packed", "grubs"]}},
        {"calendar": {"holidays": "work", "weekdays": ["sun"]}},
        {"water": {"allowed_weekdays": ["sat"]}, "calendar": {"weekdays": ["sat", "sun"]}},
        {
            "lawn": {"area": "400 m2", "grass": "perennial_ryegrass"},
            "place": {"postal_code": None, "latitude": 52.4, "longitude": 9.7, "country": "DE"},
            "leveling": {"depth": "12 mm"},
        },
    ],
    ids=["causes", "sundays alone", "permit", "Germany"],
)
def test_offices_are_asked_on_days_of_business(changes: dict[str, Any]) -> None:
    """Marks and permits are asked for from Monday to Friday, never on a public holiday, by people
    who work in the garden on weekends too; the days before digging are counted from there.
    """
    plan = plan_of(changes)
    requests = asked(plan)
    public = set(plan.holidays.days) if plan.holidays is not None else set()
    assert requests and all(t.start.weekday() < 5 and t.start not in public for t in requests)
    dug = [t for t in plan.tasks if t.plays("coring", "thatching")]
    for work in dug:
        before = [t for t in kind(plan, "locate_utilities") if t.start < work.start]
        last = max(t.start for t in before)
        between = [last + timedelta(n + 1) for n in range((work.start - last).days)]
        assert sum(d.weekday() < 5 and d not in public for d in between) >= 3


@pytest.mark.full
def test_nobody_asks_an_office_while_away() -> None:
    """The household telephones before it leaves, or once it is back."""
    away = {"calendar": {"away": [{"from": "2027-08-16", "to": "2027-08-22"}]}}
    for task in asked(plan_of(away)):
        assert not date(2027, 8, 16) <= task.start <= date(2027, 8, 22)


def test_a_window_holds_on_the_last_day_of_a_job_too() -> None:
    """A sowing of one day is held once; one of three from its first to its last day."""
    setting = setting_of(brief_of())
    campaign = campaigns(setting)[0][0]
    wording = Wording(as_written("to test"))
    one = replace(make(setting, "overseed", timing=Timing(CARE), wording=wording), duration_days=1)
    three = replace(one, duration_days=3)
    assert one.end_node == one.start_node and three.end_node != three.start_node
    for draft, nodes in ((one, [one.id]), (three, [three.start_node, three.end_node])):
        held = [c for c in day_constraints(setting, campaign, [draft]) if "window:" in c.id]
        assert [limit.node for limit in held] == nodes  # type: ignore[union-attr]
        assert [c.id for c in held] == [f"window:{draft.id}", f"window:{draft.id}:last"][
            : len(nodes)
        ]


def test_windows_of_one_reason_tell_it_and_of_several_each() -> None:
    """A reason that two of them share is told once."""
    draft = Draft("mow", "mow", "care", as_written(""), 5)
    days = [days_of("mow", date(2027, month, 1), date(2027, month, 9)) for month in (4, 6, 9)]
    a, b = as_written("a"), as_written("b")
    first, second, other = (
        replace(window, reason=reason) for window, reason in zip(days, (a, a, b), strict=True)
    )
    assert _window(draft, (first, second), Strength.ADVICE).reason.text == a
    several = _window(draft, (first, second, other), Strength.ADVICE).reason.text
    assert several == phrases.either_window(windows=listed((a, b), "or_sentences"))


def test_nobody_sows_what_nobody_waters_but_seed_that_sleeps() -> None:
    """From so many days ahead of an absence to its end."""
    away = {"calendar": {"away": [{"from": "2027-08-16", "to": "2027-08-22"}]}}
    setting = setting_of(brief_of(away))
    seed = Draft("overseed", "overseed", "seed", as_written(""), 0)
    (held,) = _watering_people(setting, seed)
    ahead = round(setting.book.si("seeding.watering_commitment"))
    first, last = date(2027, 8, 16) - timedelta(ahead), date(2027, 8, 22)
    assert [
        day in held.days
        for day in (
            first.toordinal() - 1,
            first.toordinal(),
            last.toordinal(),
            last.toordinal() + 1,
        )
    ] == [True, False, False, True]
    assert _watering_people(setting, replace(seed, operation="dormant_seed")) == []
