"""What a business says of itself and of its clients is read whole, or every fault of it is told."""

from datetime import date
from pathlib import Path

import pytest

from planning import EXAMPLES, PLAIN
from turfplan.app.inputs import checked_file
from turfplan.business.client_record import Client
from turfplan.business.groups import group_of, in_group
from turfplan.errors import TurfplanError
from turfplan.files.brief_text import brief_text
from turfplan.files.reading.business import read_business, read_client
from turfplan.message import Message

# Invented.
BUSINESS = """
name = "Turf and Tine (invented)"
address = "1 Yard Lane"
lines = ["Licence 000 (invented)"]
language = "en"
country = "US"
closed = [{ from = 2027-07-03, to = 2027-07-11 }]
load_percent = 85
[yard]
latitude = 40.0
longitude = -76.3
room = "30 yd3"
[[machine]]
name = "aerator 1"
kind = "aerator"
area_per_hour = "12000 ft2"
price_per_hour = 30
[[crew]]
name = "north"
people = 3
hours_per_day = 8
weekdays = ["mon", "tue", "wed", "thu"]
machines = ["aerator 1"]
truck = "6 yd3"
[prices]
currency = "USD"
person_hour = 48
material = [{ item = "mix", unit = "yd3", price = 40 }]
[tax]
name = "sales tax"
percent = 6
[[supplier]]
name = "Pit (invented)"
items = ["mix"]
lead_days = 3
[columns]
"Lawn size" = "lawn.area"
[brief.work]
by = "contractor"
"""


def test_a_business_is_read_with_all_that_it_says(tmp_path: Path) -> None:
    """Crews, machines, prices, suppliers; amounts in inside units; none without its file."""
    assert read_business(tmp_path) is None
    (tmp_path / "business.toml").write_text(BUSINESS, encoding="utf-8")
    said = read_business(tmp_path)
    assert said is not None
    assert (said.crew[0].people, said.crew[0].weekdays[-1]) == (3, "thu")
    assert said.machine[0].area_per_hour_m2 == pytest.approx(1114.8, abs=0.1)
    assert said.is_closed(date(2027, 7, 5)) and not said.is_closed(date(2027, 7, 12))
    assert said.columns == {"Lawn size": "lawn.area"}


def test_the_example_is_a_business() -> None:
    """Each table of it is read, and it says that it is invented."""
    said = read_business(EXAMPLES / "business")
    assert said is not None and said.crew and said.machine and said.supplier and said.prices
    assert "invented" in said.name and said.brief and said.columns and said.yard.room_m3


def test_all_faults_of_a_business_are_told_at_once(tmp_path: Path) -> None:
    """With place, value, what is allowed, and the nearest key."""
    wrong = BUSINESS.replace("people = 3", 'peple = "three"').replace('"mon", "tue"', '"mo", "tue"')
    wrong = wrong.replace('"30 yd3"', '"30 ft"').replace("percent = 6", "percent = 160")
    (tmp_path / "business.toml").write_text(wrong, encoding="utf-8")
    with pytest.raises(TurfplanError) as told:
        read_business(tmp_path)
    text = str(told.value)
    for part in ("crew.0.peple", "crew.0.weekdays.0", "yard.room", "tax.percent"):
        assert part in text, part
    assert len(told.value.problems) == 4
    hints = [problem.hint for problem in told.value.problems if problem.hint is not None]
    assert any("people" in str(hint.values) for hint in hints if isinstance(hint, Message))


def test_keys_that_a_business_names_are_keys(tmp_path: Path) -> None:
    """Of the columns of its file, and of what all briefs say."""
    wrong = BUSINESS.replace('"lawn.area"', '"lawn.aera"').replace('by = "con', 'bye = "con')
    (tmp_path / "business.toml").write_text(wrong, encoding="utf-8")
    with pytest.raises(TurfplanError) as told:
        read_business(tmp_path)
    assert len(told.value.problems) == 2 and all(one.hint for one in told.value.problems)


@pytest.mark.parametrize(
    "old, new", [('machines = ["aerator 1"]', 'machines = ["tiller"]'), ("latitude = 40.0\n", "")]
)
def test_names_and_coordinates_of_a_business_agree(old: str, new: str, tmp_path: Path) -> None:
    """A crew has machines that there are, a point both coordinates, suppliers their own name."""
    for text in (BUSINESS.replace(old, new), BUSINESS + '[[supplier]]\nname = "Pit (invented)"\n'):
        (tmp_path / "business.toml").write_text(text, encoding="utf-8")
        with pytest.raises(TurfplanError):
            read_business(tmp_path)


def test_days_on_which_nobody_may_come_are_no_days_of_work(tmp_path: Path) -> None:
    """They leave the weekdays of the brief beside them; where none is left that is told."""
    calendar = {"weekdays": ["mon", "tue", "wed"]}
    (tmp_path / "brief.toml").write_text(brief_text({**PLAIN, "calendar": calendar}))
    said = 'name = "Ash (invented)"\nbarred_weekdays = ["wed"]\n[own]\n"Route" = "north"\n'
    (tmp_path / "client.toml").write_text(said, encoding="utf-8")
    assert checked_file(tmp_path / "brief.toml").brief.calendar.weekdays == ("mon", "tue")
    assert read_client(tmp_path).own == {"Route": "north"}
    (tmp_path / "client.toml").write_text('barred_weekdays = ["mon", "tue", "wed"]\n')
    with pytest.raises(TurfplanError, match="no weekday is left"):
        checked_file(tmp_path / "brief.toml")
    (tmp_path / "client.toml").write_text("barred_weekdays = []\nlatitude = 91\n")
    with pytest.raises(TurfplanError, match="latitude"):
        checked_file(tmp_path / "brief.toml")


def test_a_group_is_a_value_in_a_column(tmp_path: Path) -> None:
    """Without regard to capitals; what nobody has is told with what there is."""
    clients = {name: Client(own={"Route": value}) for name, value in (("a", "North"), ("b", "s"))}
    assert in_group(clients, None) == ("a", "b")
    assert in_group(clients, group_of("route = north")) == ("a",)
    for text in ("route", "=north", "rout=north", "route=nort"):
        with pytest.raises(TurfplanError) as told:
            in_group(clients, group_of(text))
        assert told.value.problems[0].allowed is not None
