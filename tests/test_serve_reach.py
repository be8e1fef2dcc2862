"""From where an address can be asked."""

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")

from turfplan.serve.reach import ReachOfAddress, calendar_links, reach_of


@pytest.mark.parametrize(
    ("address", "reach"),
    [
        ("http://127.0.0.1:8765", "machine"),
        ("http://localhost:8765", "machine"),
        ("http://[::1]:8765", "machine"),
        ("http://192.168.1.20:8765", "home"),
        ("http://10.0.0.2", "home"),
        ("http://[fd00::1]", "home"),
        ("http://169.254.3.4", "home"),
        ("http://shed:8765", "home"),
        ("http://shed.local:8765", "home"),
        ("https://lawns.example", "everywhere"),
        ("http://8.8.8.8", "everywhere"),
    ],
)
def test_an_address_says_who_reaches_it(address: str, reach: ReachOfAddress) -> None:
    """This machine alone, the home network, or everywhere."""
    assert reach_of(address) == reach


def test_a_feed_has_two_addresses() -> None:
    """One to give to a calendar program, one that opens it."""
    assert calendar_links("https://l.example", "a") == (
        "https://l.example/feed/a.ics",
        "webcal://l.example/feed/a.ics",
    )
