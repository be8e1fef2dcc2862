"""Lawns that nobody asked for: briefs drawn at random, with what makes amounts hard to add up."""

from functools import lru_cache
from random import Random
from typing import Any

from campaigns.recomputed import book_tables, lawn
from planning import plan_brief
from turfplan.errors import TurfplanError
from turfplan.records.brief import parse_brief
from turfplan.records.plan import Plan

COUNT = 36
LIMITS = (None, "2 yd3", "3.7 yd3", "6 yd3", "4.5 m3")
MACHINES = ((), (), (), ("loader",), ("topdresser",), ("aerator",))
ELSEWHERE: tuple[dict[str, Any], ...] = (
    {"country": "GB", "latitude": 53.5, "longitude": -2.0},
    {"country": "NZ", "latitude": -43.5, "longitude": 172.6},
    {"country": "CA", "latitude": 43.7, "longitude": -79.4},
)


@lru_cache(maxsize=1)
def _book() -> dict[str, Any]:
    return book_tables()


def random_brief(number: int) -> dict[str, Any]:
    """The brief of a number, always the same."""
    chance = Random(f"sheets {number}")
    brief = lawn(chance, _book())
    brief["lawn"]["id"] = f"random-{number}"
    brief["leveling"]["depth"] = chance.choice(
        ("0.125 in", "0.3 in", "0.7 in", "1.1 in", "7 mm", "18 mm", "33 mm")
    )
    if chance.random() < 0.3 and brief["lawn"]["condition"] != "bare":
        brief["leveling"]["lows"] = [{"depth": "1.25 in", "share": 0.06}]
    brief["work"]["machines"] = list(chance.choice(MACHINES))
    if (limit := chance.choice(LIMITS)) is not None:
        brief["delivery"] = {"truck_limit": limit}
    test = brief["soil_test"]
    if chance.random() < 0.6:
        test |= {"phosphorus": {"level": "low"}, "potassium": {"level": "low"}}
    if chance.random() < 0.4:
        test |= {"ph": 6.4}
        del test["acidity_cmol_kg"]
        del brief["feeding"]["analysis"]
    if chance.random() < 0.3:
        brief["water"]["allowed_weekdays"] = chance.choice((["tue"], ["mon", "thu"]))
    if chance.random() < 0.3:
        grass = chance.choice(("perennial_ryegrass", "fine_fescue"))
        brief["place"], brief["lawn"]["grass"] = dict(chance.choice(ELSEWHERE)), grass
        brief["units"] = "metric"
    return brief


@lru_cache(maxsize=COUNT)
def random_plan(number: int) -> Plan | None:
    """The plan of a random lawn; None where it cannot be done as asked."""
    try:
        plan = plan_brief(parse_brief(random_brief(number)))
    except TurfplanError:
        return None
    return None if plan.conflict is not None else plan
