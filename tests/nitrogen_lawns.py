"""Lawns that nobody prepared, of every grass and both halves of the earth, for the account of
nitrogen."""

import random
from datetime import UTC, date, datetime, timedelta
from typing import Any, NamedTuple

from planning import brief_of, plan_brief
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan


class Lawn(NamedTuple):
    """A grass at a place, and what is wished for it."""

    grass: str
    latitude: float
    longitude: float
    where: str
    intent: str = "none"

    @property
    def name(self) -> str:
        """How the lawn is called in a test."""
        return f"{self.grass}-{self.where}-{self.intent}"


LAWNS = (
    Lawn("kentucky_bluegrass", 42.0, -93.6, "US-IA", "overseed"),
    Lawn("kentucky_bluegrass", 46.9, -96.8, "US-ND", "overseed"),
    Lawn("kentucky_bluegrass", 43.6, -116.2, "US-ID"),
    Lawn("kentucky_bluegrass", 60.2, 24.9, "FI", "overseed"),
    Lawn("perennial_ryegrass", 47.6, -122.3, "US-WA", "overseed"),
    Lawn("perennial_ryegrass", 51.3, 0.5, "GB", "overseed"),
    Lawn("perennial_ryegrass", -43.5, 172.6, "NZ", "overseed"),
    Lawn("perennial_ryegrass", 55.7, 12.5, "DK"),
    Lawn("tall_fescue", 36.2, -86.8, "US-TN", "overseed"),
    Lawn("tall_fescue", -37.8, 145.0, "AU", "renovate"),
    Lawn("tall_fescue", 41.9, 12.5, "IT", "overseed"),
    Lawn("tall_fescue", 40.0, -76.3, "US-PA", "overseed"),
    Lawn("fine_fescue", 43.7, -70.3, "US-ME", "overseed"),
    Lawn("fine_fescue", 59.3, 18.0, "SE", "overseed"),
    Lawn("fine_fescue", 53.8, -1.5, "GB"),
    Lawn("creeping_bentgrass", 40.0, -76.3, "US-PA", "overseed"),
    Lawn("creeping_bentgrass", 48.5, -123.0, "US-WA"),
    Lawn("bermuda_common", 33.95, -83.3, "US-GA"),
    Lawn("bermuda_common", -26.2, 28.0, "ZA", "overseed"),
    Lawn("bermuda_common", 33.4, -112.0, "US-AZ", "winter_overseed"),
    Lawn("bermuda_common", -27.5, 153.0, "AU"),
    Lawn("bermuda_common", 35.5, -97.5, "US-OK", "overseed"),
    Lawn("bermuda_hybrid", 32.8, -96.8, "US-TX", "plant"),
    Lawn("bermuda_hybrid", 33.95, -83.3, "US-GA"),
    Lawn("bermuda_hybrid", -31.95, 115.9, "AU", "plant"),
    Lawn("zoysia", 36.2, -86.8, "US-TN"),
    Lawn("zoysia", 38.6, -90.2, "US-MO", "plant"),
    Lawn("st_augustine", 29.65, -82.3, "US-FL", "plant"),
    Lawn("st_augustine", 30.4, -91.1, "US-LA"),
    Lawn("st_augustine", 25.8, -80.2, "US-FL"),
    Lawn("st_augustine", -33.9, 151.0, "AU", "plant"),
    Lawn("centipede", 34.0, -81.0, "US-SC"),
    Lawn("centipede", 30.7, -88.0, "US-AL", "overseed"),
    Lawn("centipede", 30.4, -84.3, "US-FL", "plant"),
    Lawn("bahia", 29.65, -82.3, "US-FL", "overseed"),
    Lawn("bahia", 34.0, -81.0, "US-SC"),
    Lawn("buffalo", 38.8, -97.6, "US-KS", "overseed"),
    Lawn("buffalo", 39.7, -105.0, "US-CO"),
)


def brief_for(lawn: Lawn) -> tuple[Brief, date]:
    """The brief of a lawn, the rest of it drawn by its name, with the day on which it begins."""
    draw = random.Random(lawn.name)
    country, _, state = lawn.where.partition("-")
    conditions = ["thin", "dense", "patchy", *(["bare"] if lawn.intent == "renovate" else [])]
    start = date(2027, 1, 15) + timedelta(draw.randrange(330))
    place: dict[str, Any] = {
        "postal_code": None,
        "country": country,
        "latitude": lawn.latitude,
        "longitude": lawn.longitude,
    }
    if state:
        place["state"] = state
    changes: dict[str, Any] = {
        "lawn": {"grass": lawn.grass, "condition": draw.choice(conditions)},
        "place": place,
        "seeding": {"intent": lawn.intent},
        "leveling": {"depth": draw.choice(["0.125 in", "0.25 in"])},
        "feeding": {"clippings": draw.choice(["removed", "returned"])},
        "season": {"from": start},
    }
    if draw.random() < 0.4:
        given = {
            "rate": draw.choice(["0.5 lb/1000ft2", "1 lb/1000ft2"]),
            "on": start - timedelta(draw.randrange(5, 200)),
        }
        changes["history"] = {"nitrogen": [given]}
    return brief_of(changes), start


def planned(lawn: Lawn) -> tuple[Plan, Brief]:
    """The plan of a lawn, made three weeks before it begins, and its brief."""
    brief, start = brief_for(lawn)
    now = datetime(start.year, start.month, start.day, 12, tzinfo=UTC) - timedelta(20)
    return plan_brief(brief, now=now, options=False), brief
