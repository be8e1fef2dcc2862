"""What is asked for and ordered before the first machine runs."""

from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from test_work_campaigns import days_of, plain
from test_work_season import drafted
from turfplan.book.words import book_messages
from turfplan.message import as_written
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import prepare as phrases
from turfplan.phrases import weed_killers as killers
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Load
from turfplan.work.emergence import Emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases import prepare as module
from turfplan.work.phases.prepare import _before_seed, _begins, orders_of

DRY: dict[str, Any] = {"water": {"possible": False}, "seeding": {"intent": "dormant"}}


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "asked"),
    [
        ({}, True),
        ({"water": {"possible": True}}, True),
        ({"water": {"possible": None}}, True),
        (DRY, False),
        ({"seeding": {"intent": "none"}}, False),
    ],
)
def test_the_watering_is_measured_where_seed_is_kept_moist(
    changes: dict[str, Any], *, asked: bool
) -> None:
    """Not where there is no water, nor where nothing is sown."""
    setting, _, drafts = drafted(changes)
    assert ("irrigation_check" in drafts) is asked
    if asked:
        assert drafts["irrigation_check"].offset == -setting.days("wish.irrigation_check")
    assert "permit" not in drafts


def test_a_permit_is_asked_for_where_one_is_needed() -> None:
    """Some days ahead of the seed."""
    setting, _, drafts = drafted(permit=True)
    assert drafts["permit"].offset == -setting.days("wish.permit")


def test_a_lawn_is_not_killed_before_its_permit() -> None:
    """It is asked for so long before the killing; and where no seed waits in the ground for
    spring, that is no way out without it.
    """
    setting, _, drafts = drafted({"seeding": {"intent": "renovate"}}, permit=True)
    assert drafts["permit"].anchor == "kill_stand"
    assert drafts["permit"].offset == -setting.days("wish.permit")
    assert drafts["permit"].go == phrases.permit_killed_go()
    assert drafts["permit"].fallback is None
    awake = tuple(w for w in setting.openings.windows if w.operation != "dormant_seed")
    assert len(awake) < len(setting.openings.windows)
    nowhere = replace(setting, openings=replace(setting.openings, windows=awake))
    assert before(nowhere, way(), permit=True)["permit"].fallback == phrases.permit_fallback()


def test_one_order_asks_for_all_loads_of_a_session() -> None:
    """It is named after the first, goes by its delivery, and says how many days there are where
    there are several; bags are ordered from nobody.
    """
    setting = setting_of(brief_of())
    loads = (
        Load(1, 1, (1,), 3.0),
        Load(2, 2, (2,), 3.0, (1, 2), order=2),
        Load(3, 2, (2,), 3.0, (3, 4), order=2),
        Load(4, 3, (3,), 0.1, order=4, bags=True),
    )
    one, several = orders_of(setting, loads)
    assert (one.id, one.anchor, one.loads) == ("order_material.1", "delivery.1", (1,))
    assert (several.id, several.anchor, several.loads) == (
        "order_material.2",
        "delivery.2",
        (2, 3),
    )
    assert (several.session, several.position) == (2, 2)
    assert one.how is None
    usual = book_messages(setting.book, "operations.order_material.how")
    assert several.how == (phrases.order_days(n=2), *usual)
    ahead = setting.labour.lead_days + setting.days("wish.order_ahead")
    assert one.offset == several.offset == -ahead


DAY = date(2027, 9, 10)


def lawn(**changes: Any) -> ResolvedLawn:
    """The plain lawn with the fields of its sowing changed."""
    return replace(plain(), sowing=replace(plain().sowing, **changes))


def with_site(setting: ResolvedLawn, **changes: Any) -> ResolvedLawn:
    """A lawn on another site."""
    site = setting.brief.site.model_copy(update=changes)
    return replace(setting, brief=setting.brief.model_copy(update={"site": site}))


def with_water(setting: ResolvedLawn, **changes: Any) -> ResolvedLawn:
    """A lawn with other water."""
    water = setting.brief.water.model_copy(update=changes)
    return replace(setting, brief=setting.brief.model_copy(update={"water": water}))


def way(operation: str = "overseed", *, sows: bool = True, sessions: int = 1) -> Campaign:
    """A campaign whose sessions end with seed or not."""
    window = days_of(operation, DAY, DAY)
    made = tuple(Session(n, days_of("topdress", DAY, DAY), (), sows) for n in range(sessions))
    return Campaign("autumn", as_written(""), (), made, window, 0.0)


def before(setting: ResolvedLawn, campaign: Campaign, *, permit: bool = False) -> dict[str, Any]:
    """What is done before the seed."""
    return {d.id: d for d in _before_seed(setting, campaign, permit=permit)}


def test_the_watering_is_measured_for_seed_or_for_plants() -> None:
    """In words of each; not without an operation, nor where nobody can water."""
    lifted = replace(plain().levelling, lift_share=0.1)
    unsown = replace(plain().sowing, operation=None)
    relaid = before(replace(plain(), levelling=lifted, sowing=unsown), way())["irrigation_check"]
    assert relaid.anchor == "lift_and_fill" and relaid.why == phrases.irrigation_check_relaid()
    assert "irrigation_check" not in before(replace(plain(), sowing=unsown), way())
    seed = before(plain(), way())["irrigation_check"]
    assert seed.why == phrases.irrigation_check() and seed.anchor == "sowing"
    plants = before(lawn(operation="plant"), way("plant"))["irrigation_check"]
    assert plants.why == phrases.irrigation_check_plants()
    assert "irrigation_check" not in before(lawn(operation=None), way())
    assert "irrigation_check" not in before(with_water(plain(), possible=False), way())
    assert "irrigation_check" in before(with_water(plain(), possible=None), way())


def test_seed_that_waits_for_spring_has_its_water_measured_when_it_wakes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Some days ahead of it; other seed weeks ahead of its sowing, whenever it wakes."""
    up = Emergence(120, 130, 140, 150, 151, 152, 160, 161, 162, 190)
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: up)
    lead = plain().days("order.irrigation_lead")
    usual = -plain().days("wish.irrigation_check")
    assert before(plain(), way("dormant_seed"))["irrigation_check"].offset == 120 - lead
    assert before(plain(), way())["irrigation_check"].offset == usual
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: None)
    assert before(plain(), way("dormant_seed"))["irrigation_check"].offset == usual


def test_weeds_are_treated_where_they_are_worth_it() -> None:
    """From the share of the book on, in turf that is sown."""
    worth = plain().book.si("seeding.weeds_worth_treating") * 100
    weedy = with_site(plain(), weeds_percent=worth)
    found = before(weedy, way())["weed_control"]
    assert (found.anchor, found.offset) == ("sowing", -plain().days("wish.weed_control"))
    assert "weed_control" not in before(with_site(plain(), weeds_percent=worth - 0.1), way())
    assert "weed_control" not in before(with_site(plain(), weeds_percent=None), way())
    assert "weed_control" not in before(with_site(lawn(operation=None), weeds_percent=90), way())
    bare = replace(weedy, turf=replace(weedy.turf, condition="bare"))
    assert "weed_control" not in before(bare, way())


def sprayed(until: int | None, *, unnamed: bool = True) -> Any:
    """A lawn with a weed killer that keeps it free of seed until some days after its first."""
    first = plain().first_day
    day = None if until is None else first + until
    hold = SimpleNamespace(unnamed=unnamed, unread=unnamed and day is not None, until=day)

    class Sprayed(ResolvedLawn):
        """The plain lawn after a weed killer."""

        @property
        def holds(self) -> Any:
            """What it keeps free."""
            return (hold,)

    fields = {name: getattr(plain(), name) for name in ResolvedLawn.__slots__}
    return Sprayed(**fields)


def test_the_bag_of_a_weed_killer_that_still_holds_is_read_at_once() -> None:
    """Where nobody wrote its name down; not on the day on which it holds no more."""
    found = before(sprayed(1), way())["inspect.bag"]
    assert (found.ideal, found.session, found.why) == (plain().first_day, -1, killers.read_bag())
    assert found.how == (killers.read_bag_how(), killers.read_bag_write())
    assert "inspect.bag" not in before(sprayed(0), way())
    assert "inspect.bag" not in before(sprayed(None), way())
    assert "inspect.bag" not in before(sprayed(9, unnamed=False), way())


def permits(
    setting: ResolvedLawn, campaign: Campaign, share: float, permit: bool | None = True
) -> list[tuple[str, str, Any]]:
    """The permits of a lawn of which a share is lifted."""
    lifted = replace(setting, levelling=replace(setting.levelling, lift_share=share))
    asked = before(with_water(lifted, permit=permit), campaign, permit=True)
    found = [d for d in asked.values() if d.operation == "permit"]
    assert all(d.offset == -setting.days("wish.permit") for d in found)
    return [(d.id, d.anchor, d.why) for d in found]


def test_relaid_turf_and_seed_of_one_season_have_one_permit() -> None:
    """Two where the seed is of another, or goes on no session."""
    relaid, alone = phrases.permit(), phrases.permit_relaid()
    seed = ("permit", "sowing", relaid)
    assert permits(plain(), way(), 0.05) == [("permit.relaying", "lift_and_fill", relaid)]
    apart = [("permit.relaying", "lift_and_fill", alone), seed]
    assert permits(plain(), way(sows=False), 0.05) == apart
    assert permits(plain(), way(sessions=0), 0.05) == apart
    assert permits(plain(), way(), 0.0) == [seed]
    assert permits(plain(), way(), 0.05, None) == [seed]
    assert permits(lawn(operation=None), way(), 0.05) == apart[:1]
    assert permits(lawn(operation="dormant_seed"), way(), 0.0) == []
    assert not any(d.startswith("permit") for d in before(plain(), way()))


def test_hours_by_day_are_asked_for_where_the_night_alone_is_open() -> None:
    """Not where days are too few: that permit is asked for, with its hours."""
    night = with_water(plain(), allowed_hours=("18:00-24:00", "00:00-06:00"))
    assert permits(night, way(), 0.0, None) == [("permit", "sowing", phrases.permit_hours())]
    few = with_water(night, allowed_weekdays=("mon",))
    assert permits(few, way(), 0.0) == [("permit", "sowing", phrases.permit())]


def test_a_campaign_begins_with_its_earliest_work() -> None:
    """Of its sessions and its seed, by their best day; with nothing where it has none."""
    early, late = days_of("topdress", DAY - timedelta(30), DAY), days_of("topdress", DAY, DAY)
    made = replace(way(), sessions=(Session(1, late, (), True), Session(2, early, (), True)))
    assert _begins(made) == early
    assert _begins(replace(way(), sessions=(Session(1, late, (), True),))) == late
    sown_first = replace(made, sow_window=days_of("seed", DAY - timedelta(31), DAY))
    assert _begins(sown_first) == sown_first.sow_window
    assert _begins(replace(made, sessions=(), sow_window=None)) is None


def test_soil_for_open_ground_is_asked_for_in_words_of_its_own() -> None:
    """However many deliveries it takes."""
    bare = replace(plain(), turf=replace(plain().turf, condition="bare"))
    (order,) = orders_of(bare, (Load(1, 1, (1,), 3.0), Load(2, 1, (2,), 3.0)))
    assert order.why == of_ground.order()
    assert order.how == (of_ground.order_ask(), of_ground.order_spot())
