"""What is asked for and ordered before the first machine runs."""

from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from test_work_season import drafted
from turfplan.book.words import book_messages
from turfplan.phrases import prepare as phrases
from turfplan.work.drafts import Load
from turfplan.work.phases.prepare import orders_of

DRY: dict[str, Any] = {"water": {"possible": False}, "seeding": {"intent": "dormant"}}


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
