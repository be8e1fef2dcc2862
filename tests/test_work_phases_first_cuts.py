"""The first cuts after seed or plants: their heights, their days, and what is said of them."""

from dataclasses import replace
from typing import Any

import pytest

from resolved_lawns import lawn
from test_work_phases_sow import way
from test_work_season import window
from turfplan.book.words import book_messages
from turfplan.message import cut_height, length_mm
from turfplan.phrases import first_cuts as phrases
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.emergence import emergence
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mowing import due_height_mm
from turfplan.work.old_grass import OldCut, old_cut
from turfplan.work.phases import first_cuts as module
from turfplan.work.phases.first_cuts import CutHeights, first_cuts, heights_after

INCH = 25.4
SOD: dict[str, Any] = {
    "seeding": {"intent": "plant", "form": "sod"},
    "leveling": {"depth": "0 in"},
    "lawn": {"condition": "bare"},
}
BARE: dict[str, Any] = {"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}}
OLD = OldCut(14, 17, 70.0, 50.0, 6)


def kept_low(monkeypatch: pytest.MonkeyPatch, cut: OldCut | None = OLD) -> None:
    """The old grass is cut so, whatever the campaign."""
    monkeypatch.setattr(module, "old_cut", lambda setting, campaign: cut)


def then(kept_mm: float) -> Any:
    """What is said of the next cuts of tall fescue, mown to 3 to 4 in as a rule."""
    return phrases.then(
        height=cut_height(kept_mm),
        due=cut_height(kept_mm * 1.5),
        n=14,
        least=length_mm(lowest(), kind="height"),
        most=length_mm(highest(), kind="height"),
    )


def lowest() -> float:
    """The lowest usual height of tall fescue, mm."""
    return lawn().book.low_si("species.tall_fescue.mow_height")


def highest() -> float:
    """The highest, mm."""
    return lawn().book.fact("species.tall_fescue.mow_height").high_si


def test_heights_are_the_lowest_usual_one_and_half_as_much_again() -> None:
    """Three inches for tall fescue, due at four and a half; then three to four."""
    found = heights_after(lawn(SOD), way(window("plant")))
    assert found.kept == pytest.approx(3 * INCH) and found.due == pytest.approx(4.5 * INCH)
    assert found.usual_least == pytest.approx(3 * INCH)
    assert found.usual_most == pytest.approx(4 * INCH)


def test_new_grass_is_kept_as_low_as_the_old_over_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """50 mm, due at 75."""
    kept_low(monkeypatch)
    assert heights_after(lawn(), way(window())) == CutHeights(50.0, 75.0, lowest(), highest())


def test_nothing_is_cut_where_nothing_is_sown() -> None:
    """Neither without an operation nor without days for it."""
    assert first_cuts(lawn({"seeding": {"intent": "none"}}), way(window())) == []
    assert first_cuts(lawn(), way(None)) == []


def _sown(setting: ResolvedLawn, campaign: Campaign) -> Draft:
    (new,) = first_cuts(setting, campaign)
    return new


def test_new_grass_on_open_ground_has_one_first_cut() -> None:
    """On its best day after sowing; no old grass is spoken of."""
    setting, campaign = lawn(BARE), way(window("seed"))
    up = emergence(setting, campaign)
    assert up is not None and old_cut(setting, campaign) is None
    new = _sown(setting, campaign)
    assert (new.id, new.anchor, new.offset) == ("first_mow", "sowing", up.mow_best)
    gently, even_so = book_messages(setting.book, "operations.first_mow.how")
    assert new.how == (gently, then(lowest())) and new.why == phrases.new_grass_alone()
    assert new.words["height"] == cut_height(lowest() * 1.5) and even_so not in new.how
    assert new.facts == (
        "species.tall_fescue.mow_height",
        "mowing.first_mow_factor",
        "seeding.third_mowing",
    )


def test_without_a_cut_of_the_old_grass_the_new_is_cut_at_its_own_height(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Among old grass it is mown even so."""
    kept_low(monkeypatch, None)
    new = _sown(lawn(), way(window()))
    gently, even_so = book_messages(lawn().book, "operations.first_mow.how")
    assert new.how == (gently, even_so, then(lowest())) and new.why == phrases.new_grass()


def test_old_grass_is_cut_first_when_it_stands_too_tall(monkeypatch: pytest.MonkeyPatch) -> None:
    """17 days after the seed to 70 mm, then kept at 50 every 6 days; the new grass at 50 too."""
    kept_low(monkeypatch)
    old, new = first_cuts(lawn(), way(window()))
    assert (old.id, old.anchor, old.offset) == ("mow_old", "sowing", 17)
    assert old.words["height"] == cut_height(70.0)
    again = phrases.old_grass_lower(
        due=cut_height(due_height_mm(50.0)), height=cut_height(50.0), n=6
    )
    assert old.how is not None and old.how[-2:] == (phrases.old_grass_dry(), again)
    assert old.go == phrases.old_grass_go(due=cut_height(due_height_mm(70.0)))
    assert old.facts == ("order.mow_after_pass", "mowing.full_growth")
    assert new.words["height"] == cut_height(75.0) and new.how is not None
    assert new.how[-1] == then(50.0)


def test_no_watering_is_left_out_where_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """Before the cut of the old grass; where nobody said, it is."""
    kept_low(monkeypatch)
    dry = lawn()
    water = dry.brief.water.model_copy(update={"possible": False})
    dry = replace(dry, brief=dry.brief.model_copy(update={"water": water}))
    old, _ = first_cuts(dry, way(window()))
    assert old.how is not None and phrases.old_grass_dry() not in old.how
    assert len(old.how) == len(book_messages(dry.book, "operations.mow_old.how")) + 1
    unsaid = dry.brief.water.model_copy(update={"possible": None})
    unsaid_lawn = replace(dry, brief=dry.brief.model_copy(update={"water": unsaid}))
    old, _ = first_cuts(unsaid_lawn, way(window()))
    assert old.how is not None and phrases.old_grass_dry() in old.how


def test_plants_are_cut_when_they_hold() -> None:
    """Three weeks after planting at the earliest, at the lowest usual height and half of it."""
    setting = lawn(SOD)
    (cut,) = first_cuts(setting, way(window("plant")))
    assert (cut.id, cut.anchor, cut.offset) == ("first_mow", "plant", 21)
    height = cut_height(lowest() * 1.5)
    gently, _ = book_messages(setting.book, "operations.first_mow.how")
    assert cut.words["height"] == height and cut.go == phrases.plants_go(height=height)
    assert cut.how == (gently, then(lowest()))
    assert cut.name == cut.title == phrases.plants_title()
