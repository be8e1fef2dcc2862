"""What befalls a lawn is told on its page in plain words, and written as the command writes it."""

from datetime import date
from html import unescape
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")
from starlette.testclient import TestClient

from served import ServedHome  # after the skips
from turfplan.app.typed_amounts import MEASURED as QUANTITIES
from turfplan.app.typed_amounts import measure_of
from turfplan.serve.befell import BAN, LAWN, MEASURED, SEED

DAY = date(2027, 9, 20)
ON = "2027-09-18"


@pytest.fixture
def home(tmp_path: Path) -> ServedHome:
    """A lawn in the autumn of its season."""
    return ServedHome(tmp_path, DAY)


def opened(home: ServedHome, **more: object) -> tuple[TestClient, str]:
    """Who asks, and the address of somebody who ticks; nothing is planned again unless asked."""
    return home.client(
        "http://testserver", **({"replan": None} | more)
    ), f"/lawn/{home.token('edit', 'Ana')}"


def test_all_that_can_be_logged_as_measured_can_be_told() -> None:
    """No quantity is missing on the page."""
    assert {*SEED, *LAWN, *MEASURED, BAN} == set(QUANTITIES)


def test_each_choice_is_offered_in_words(home: ServedHome) -> None:
    """To who ticks, and to nobody else."""
    client, page = opened(home)
    shown = client.get(page).text
    for name in (*SEED, *LAWN, *MEASURED):
        assert f'<option value="{name}">' in shown
    seen = client.get(f"/lawn/{home.token('read', 'Bo')}").text
    assert "befell" not in seen


@pytest.mark.parametrize(
    ("fields", "quantity", "value", "told"),
    [
        ({"what": "seed_washed", "share": "0.75"}, "seed_washed", 0.75, "Rain washed it away, 75%"),
        ({"what": "burned", "so": "yes"}, "burned", 1.0, "Fertilizer has burned the grass"),
        ({"what": "sickness", "so": "over"}, "sickness", 0.0, "no more of this"),
        ({"what": "green_up", "so": "yes"}, "green_up", 0.0, "the grass is not green yet"),
        ({"what": "green_up", "so": "over"}, "green_up", 1.0, "no more of this"),
        ({"what": "water_ban", "days": "14"}, "water_ban", 14.0, "banned for 14 days from Sat"),
        ({"what": "water_ban", "days": "1 week"}, "water_ban", 7.0, "banned for 7 days"),
        ({"what": "water_ban", "days": "0"}, "water_ban", 0.0, "allowed again from Sat, Sep 18"),
        ({"what": "soil_temperature", "value": "50 F"}, "soil_temperature", 10.0, "50 °F"),
        ({"what": "grubs", "value": "50 per m2"}, "grubs", 50.0, "grubs"),
    ],
)
def test_what_is_told_is_written_as_the_command_writes_it(
    home: ServedHome, fields: dict[str, str], quantity: str, value: float, told: str
) -> None:
    """With its day and its writer; the page says it back in words; sent twice it counts once."""
    client, page = opened(home)
    form = {"do": "befell", "on": ON, "key:befell": "page:befell:0", **fields}
    answers = [client.post(page, data=form) for _ in range(2)]
    assert [answer.status_code for answer in answers] == [303, 303], answers[0].text
    (entry,) = home.entries()
    assert (entry.kind, entry.quantity, entry.on) == ("measured", quantity, date(2027, 9, 18))
    assert entry.value == pytest.approx(value) and (entry.by, entry.way) == ("Ana", "page")
    assert told in unescape(client.get(answers[0].headers["location"]).text)
    assert "Was ticked already" in client.get(answers[1].headers["location"]).text


@pytest.mark.parametrize(
    ("fields", "said", "kept"),
    [
        ({"what": "rain", "value": "5 parsecs", "on": ON}, "parsecs", 'value="5 parsecs"'),
        ({"what": "rain", "value": "", "on": "soon"}, "year-month-day", 'value="soon"'),
        ({"what": "water_ban", "days": "some", "on": ON}, "Write a number", 'value="some"'),
        ({"what": "water_ban", "days": "1.5 days", "on": ON}, "whole number", "1.5 days"),
        ({"what": "burned", "so": "?", "on": ON}, "Choose what it was", f'value="{ON}"'),
        ({"what": "oats", "on": ON}, "Choose what it was", f'value="{ON}"'),
        ({"what": "burned", "so": "yes", "on": "2028-09-18"}, "still to come", "2028-09-18"),
        ({"what": "soil_temperature", "value": "900 F", "on": ON}, "This was not", "900 F"),
    ],
)
def test_what_cannot_be_read_or_be_true_is_asked_again(
    home: ServedHome, fields: dict[str, str], said: str, kept: str
) -> None:
    """With all that was filled in; nothing is written, and what can be true can be kept."""
    client, page = opened(home)
    answer = client.post(page, data={"do": "befell", **fields})
    shown = unescape(answer.text)
    assert answer.status_code == 422 and said in shown and kept in shown, shown[-900:]
    assert home.entries() == ()


def test_two_things_told_one_after_the_other_are_two(home: ServedHome) -> None:
    """The key of a form is that of the page as it was seen, with what it tells."""
    client, page = opened(home)
    for what in ("burned", "sickness"):
        form = {"do": "befell", "on": ON, "key:befell": "page:befell:0", "what": what, "so": "yes"}
        assert client.post(page, data=form).status_code == 303
    assert [entry.quantity for entry in home.entries()] == ["burned", "sickness"]


def test_what_befell_moves_the_plan_and_what_moves_nothing_says_why(home: ServedHome) -> None:
    """A look is planned at what burned; seed that nobody has sown cannot be lost."""
    client, page = opened(home, replan=home.replan)
    form = {"do": "befell", "on": ON, "what": "burned", "so": "yes"}
    shown = client.get(client.post(page, data=form).headers["location"]).text
    assert "has the burned grass grown out" in shown
    assert home.plan().task("inspect.burn") is not None
    form = {"do": "befell", "on": ON, "what": "animals", "share": "0.5"}
    shown = client.get(client.post(page, data=form).headers["location"]).text
    assert "No seed that was logged as sown" in shown


def test_a_day_that_was_missed_is_written_with_its_day(home: ServedHome) -> None:
    """Under "Other" of a job: as `not-done --on`."""
    home.day = date(2027, 3, 6)
    client, page = opened(home)
    assert 'name="missed"' in client.get(page).text
    form = {"do": "other", "job": "soil_test", "how": "missed", "missed": "2027-03-05"}
    assert client.post(page, data=form | {"missed": "?"}).status_code == 422
    assert client.post(page, data=form).status_code == 303
    (entry,) = home.entries()
    assert (entry.kind, entry.task, entry.on) == ("not_done", "soil_test", date(2027, 3, 5))


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("50 1/m2", 50.0),
        ("5 per ft2", 53.82),
        ("5 grubs/ft²", 53.82),
        ("50 per square metre", 50.0),
        ("5 in a square foot", 53.82),
    ],
)
def test_grubs_are_counted_as_people_say(typed: str, value: float) -> None:
    """On an area of either unit."""
    assert measure_of("grubs", typed)[1] == pytest.approx(value, abs=0.01)
