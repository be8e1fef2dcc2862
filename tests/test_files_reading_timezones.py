"""Time zones of places: the packed squares never say anything else than the exact borders."""

import subprocess
import sys
from random import Random

import pytest
from tzfpy import get_tz

from turfplan.files.reading import timezones
from turfplan.files.reading.timezones import timezone_at


def test_packed_squares_agree_with_the_borders() -> None:
    """On 4,000 random places of the globe; the sea has no zone."""
    random = Random(11)
    for _ in range(4000):
        latitude, longitude = random.uniform(-89.9, 89.9), random.uniform(-180, 180)
        exact = get_tz(longitude, latitude)
        assert timezone_at(latitude, longitude) == (None if exact.startswith("Etc/") else exact), (
            latitude,
            longitude,
        )


@pytest.mark.parametrize(
    ("latitude", "longitude", "zone"),
    [
        (41.68, -86.25, "America/Indiana/Indianapolis"),
        (41.71, -86.90, "America/Chicago"),
        (36.99, -109.60, "America/Denver"),
        (-37.81, 144.96, "Australia/Melbourne"),
        (51.48, -0.01, "Europe/London"),
        (90.0, 0.0, None),
        (0.0, -180.0, None),
        (0.0, 180.0, None),
    ],
)
def test_places_near_borders_and_edges(latitude: float, longitude: float, zone: str | None) -> None:
    """Beside a border the exact one is asked (IANA zones of these cities: common knowledge); edges
    of the globe answer too.
    """
    assert timezone_at(latitude, longitude) == zone


def test_most_of_the_land_needs_no_borders() -> None:
    """Half of the squares that keep a zone on land are packed; the middle of Kansas is one of them,
    unloaded.
    """
    _, names, squares = timezones._pack()
    assert len(names) > 150
    assert sum(number != timezones.ASK for number in squares) > 40_000
    code = (
        "import sys; from turfplan.files.reading.timezones import timezone_at\n"
        "print(timezone_at(38.4, -98.8), 'tzfpy' in sys.modules)\n"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.split() == ["America/Chicago", "False"]
