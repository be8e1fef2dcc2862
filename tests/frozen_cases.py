"""What the frozen outputs are made of: lawns that nobody wrote by hand, and what happens in an
acted season.

Everything here is drawn from fixed seeds or from the plan as its file shows it; nothing of the
program is imported.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from math import ceil
from random import Random
from typing import Any

TODAY = date(2027, 2, 1)
STEPS = 10
# Lawns whose season is acted: US and metric, both hemispheres, seed, plugs and couch, one of them
# surveyed.
ACTED = (
    "british-metric",
    "cool-overseed",
    "deep-two-inches",
    "southern-hemisphere",
    "st-augustine-plugs",
    "surveyed-us",
)
RANDOM_BRIEFS = 50

# A grass with places where it grows, north and south: a postal code of the US, or country, latitude
# and longitude.
HOMES: dict[str, tuple[tuple[Any, ...], ...]] = {
    "kentucky_bluegrass": (("55406",), ("83702",)),
    "perennial_ryegrass": (("98115",), ("NZ", -43.5, 172.6)),
    "tall_fescue": (("37205",), ("AU", -37.8, 145.0)),
    "fine_fescue": (("04101",), ("GB", 55.9, -3.2)),
    "creeping_bentgrass": (("17601",), ("98115",)),
    "bermuda_common": (("30606",), ("ZA", -26.2, 28.0)),
    "bermuda_hybrid": (("85013",), ("30606",)),
    "zoysia": (("37205",), ("30606",)),
    "st_augustine": (("32607",), ("33139",)),
    "centipede": (("29201",), ("30606",)),
    "bahia": (("32607",), ("29201",)),
    "buffalo": (("67401",), ("80203",)),
}
SOILS = (
    "sand",
    "loamy sand",
    "sandy loam",
    "loam",
    "silt loam",
    "sandy clay loam",
    "clay loam",
    "silty clay",
    "clay",
)
COOL = (
    "kentucky_bluegrass",
    "perennial_ryegrass",
    "tall_fescue",
    "fine_fescue",
    "creeping_bentgrass",
)
WEEKDAYS = ('["sat", "sun"]', '["sat"]', '["mon", "tue", "wed", "thu", "fri"]')
PLANTED = ("bermuda_hybrid", "st_augustine")


def random_brief(seed: int) -> str:
    """A brief as TOML: any grass at home, any soil, fill and wish, from 20 m2 to 5,000 m2."""
    draw = Random(seed)
    grass = draw.choice(sorted(HOMES))
    metric = draw.random() < 0.5
    start = TODAY + timedelta(days=draw.randrange(365))
    away = start + timedelta(days=draw.randrange(30, 200))
    intent = draw.choice(_intents(grass))
    dry = intent in ("none", "dormant") and draw.random() < 0.5
    lines = [
        f'units = "{"metric" if metric else "us"}"',
        "[lawn]",
        f'id = "random-{seed:02}"',
        f'name = "Random lawn {seed:02} (invented)"',
        f'area = "{draw.randint(20, 5000)} m2"',
        f'grass = "{grass}"',
        f'soil = "{draw.choice(SOILS)}"',
        f'thatch = "{draw.choice(("0 in", "0.3 in", "0.6 in"))}"',
        f'condition = "{draw.choice(("dense", "thin", "patchy", "bare"))}"',
        "[place]",
        *_place(draw.choice(HOMES[grass])),
        "[leveling]",
        *_fill(draw, metric),
        "[seeding]",
        f'intent = "{intent}"',
        "[water]",
        "possible = false" if dry else 'application_rate = "1.2 in/h"',
        "[calendar]",
        f"weekdays = {draw.choice(WEEKDAYS)}",
        f"unavailable = [{{from = {away}, to = {away + timedelta(days=draw.randrange(1, 15))}}}]",
        "[season]",
        f"from = {start}",
        "[work]",
        f"people = {draw.randint(1, 6)}",
        "hours_per_day = 6",
    ]
    return "\n".join(lines) + "\n"


def _intents(grass: str) -> tuple[str, ...]:
    if grass in PLANTED:
        return ("none", "plant")
    return ("none", "patch", "overseed", "renovate", *(("dormant",) if grass in COOL else ()))


def _place(place: tuple[Any, ...]) -> list[str]:
    if len(place) == 1:
        return [f'postal_code = "{place[0]}"', 'country = "US"']
    return [f'country = "{place[0]}"', f"latitude = {place[1]}", f"longitude = {place[2]}"]


def _fill(draw: Random, metric: bool) -> list[str]:
    """One depth, or some low spots; a settling of one's own now and then."""
    unit, most = ("mm", 64) if metric else ("in", 2.5)
    parts = 64 if draw.random() < 0.3 else 16

    def depth() -> str:
        return f'depth = "{round(draw.randint(2, parts) * most / 64, 4)} {unit}"'

    if draw.random() < 0.75:
        lines = [depth()]
    else:
        spots = [
            f"{{{depth()}, share = {draw.randint(1, 30) / 100}}}" for _ in range(draw.randint(1, 3))
        ]
        lines = [f"lows = [{', '.join(spots)}]"]
    if draw.random() < 0.5:
        lines.append(f"settle_percent = {draw.randint(0, 20)}")
    return lines


class Script:
    """What happens in an acted season: for each step its day, the words for `log`, and whether a
    forecast is at hand.

    It reads a plan as plan.json holds it. The first load is refused, the first layer is half done
    on its day, one job in six is left without an entry; each step brings one deed of its own.
    """

    def __init__(self, plan: Mapping[str, Any]) -> None:
        work = open_work(plan)
        self.us = plan["lawn"]["units"] == "us"
        self.refused = self.halved = False
        self.days: list[date] = []
        for step in range(STEPS):
            day = date.fromisoformat(
                work[min(ceil(len(work) * (step + 1) / (STEPS + 1)), len(work) - 1)]["start"]
            )
            self.days.append(max(day, self.days[-1] + timedelta(days=1)) if self.days else day)

    def entries(self, step: int, plan: Mapping[str, Any]) -> list[list[str]]:
        """What is logged before the plan of a step is made: the words behind
        `turfplan log BRIEF`.
        """
        day = self.days[step]
        over = [task for task in open_work(plan) if task["end"] < day.isoformat()]
        logged = [self._over(task) for number, task in enumerate(over) if number % 6 != 5]
        coming = [task for task in open_work(plan) if task["start"] >= day.isoformat()]
        late = [task for task in plan["tasks"] if task["overdue"]]
        return logged + self._deed(step, day, coming, late)

    def _over(self, task: Mapping[str, Any]) -> list[str]:
        """The entry for a task whose day has passed."""
        name, on = task["id"], ["--on", task["end"]]
        if "delivery" in task["roles"]:
            word, self.refused = ("delivered" if self.refused else "refused"), True
            return [word, name, *on, "--amount", "4 yd3" if self.us else "3 m3"]
        if "spreading" in task["roles"] and not self.halved:
            self.halved = True
            return [
                "done",
                name,
                *on,
                "--share",
                "0.5",
                "--amount",
                "1.5 yd3" if self.us else "1 m3",
            ]
        return ["done", name, *on]

    def _deed(
        self,
        step: int,
        day: date,
        coming: Sequence[Mapping[str, Any]],
        late: Sequence[Mapping[str, Any]],
    ) -> list[list[str]]:
        """The one thing that is particular to a step."""
        on = ["--on", day.isoformat()]
        second = coming[1 % len(coming)] if coming else None
        if step in (0, 6) and second is not None:
            return [["skipped", second["id"], "--on", second["start"]]]
        if step in (1, 5) and second is not None:
            return [
                [
                    "moved",
                    second["id"],
                    "--to",
                    str(date.fromisoformat(second["start"]) + timedelta(days=7)),
                ]
            ]
        if step == 2:
            return [["rained-off", *on]]
        if step == 3:
            return [
                ["measured", "soil_temperature", "58 F" if self.us else "14 C", *on],
                ["measured", "rain", "14 mm", *on],
            ]
        if step == 7:
            return [
                ["note", "the north corner stays wet"],
                *(["not-done", task["id"]] for task in late[:1]),
            ]
        if step == 8:
            return [
                ["measured", "germination", "1", *on],
                ["measured", "depth_missing", "0.2 in", *on],
            ]
        if step == 9:
            return [["measured", "grass_height", "3 in", *on], ["undo"]]
        return []

    def forecast(self, step: int, plan: Mapping[str, Any]) -> dict[str, Any] | None:
        """A saved forecast in the form of an Open-Meteo answer, with rain on its first two days;
        None for most steps.
        """
        if step not in (4, 8):
            return None
        days = [self.days[step] + timedelta(days=n) for n in range(10)]
        return {
            "latitude": plan["place"]["latitude"],
            "longitude": plan["place"]["longitude"],
            "utc_offset_seconds": 0,
            "daily_units": {
                "time": "iso8601",
                "temperature_2m_max": "°C",
                "temperature_2m_min": "°C",
                "temperature_2m_mean": "°C",
                "precipitation_sum": "mm",
            },
            "daily": {
                "time": [day.isoformat() for day in days],
                "temperature_2m_max": [21.0] * 10,
                "temperature_2m_min": [9.0] * 10,
                "temperature_2m_mean": [15.0] * 10,
                "precipitation_sum": [12.0, 6.0, *[0.0] * 8],
            },
        }


def open_work(plan: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The jobs of a plan that are neither closed nor cancelled nor waterings, by day."""
    return sorted(
        (
            t
            for t in plan["tasks"]
            if t["series"] is None and t["closed"] is None and t["status"] != "CANCELLED"
        ),
        key=lambda t: (t["start"], t["id"]),
    )
