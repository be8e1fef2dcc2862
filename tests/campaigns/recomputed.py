"""Amounts of random lawns reckoned anew from the brief, plan.json and the book's own files, by
arithmetic that shares no code with the package.

Each check names the publication of its formula; what it compares is rounded as it is told.
"""

import json
import math
import tempfile
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from campaigns.records import Campaign, Figures
from command import run as command
from planning import ROOT

# Exact factors of NIST Special Publication 811, appendix B.8.
FOOT, POUND, GALLON = 0.3048, 0.45359237, 3.785411784
YARD3, FT2 = (3 * FOOT) ** 3, FOOT**2
# One of each unit that the book or a plan writes, in m, m2, m3, kg, kg/m3, kg/m2, hours or none.
UNITS = {
    "": 1.0, "%": 0.01, "in": FOOT / 12, "ft": FOOT, "m": 1.0, "mm": 0.001, "m2": 1.0,
    "ft2": FT2, "ft3": FOOT**3, "m3": 1.0, "yd3": YARD3, "L": 0.001, "gal": GALLON / 1000,
    "kg": 1.0, "lb": POUND, "g/cm3": 1000.0, "lb/yd3": POUND / YARD3, "g/m2": 0.001,
    "kg/m2": 1.0, "lb/1000ft2": POUND / (1000 * FT2), "min": 1 / 60, "h/yd3": 1 / YARD3,
    "h/1000ft2": 1 / (1000 * FT2), "loads": 1.0, "bales": 1.0, "pieces": 1.0,
    "1/1000ft2": 1 / (1000 * FT2),
}  # fmt: skip
PLACES = {
    "tall_fescue": ("17601", "PA"),
    "perennial_ryegrass": ("98115", "WA"),
    "kentucky_bluegrass": ("55406", "MN"),
    "bermuda_common": ("30606", "GA"),
    "zoysia": ("37205", "TN"),
    "centipede": ("29201", "SC"),
}
SOILS = ("sand", "loamy sand", "sandy loam", "loam", "silt loam", "clay loam", "clay")
FINE = ("silt loam", "clay loam", "clay")
MACHINES = ("aerator", "dethatcher", "topdresser", "loader", "roller")
# Work whose hours hang on the whole lawn, or on the material of the task, and nothing else.
TIMED = (
    "mow_low", "mow", "core_aerate", "dethatch", "topdress", "fill", "incorporate", "overseed",
    "seed", "roll", "first_mow", "feed_nitrogen", "lime", "last_mow", "touch_up", "till", "grade",
    "slit", "starter_feed", "order_material", "soil_test", "dry_material",
)  # fmt: skip
SPREADING = ("topdress", "fill")
# Of the book: by hand, then by which machines it is done and at which figure, the first that holds.
BY_MACHINE = {
    "load_wheel_spread": (
        ({"loader", "topdresser"}, "spread_both"),
        ({"loader"}, "spread_loader"),
        ({"topdresser"}, "spread_topdresser"),
    ),
    "lift_spread": (({"loader"}, "lift_loader"),),
    "tread": (({"roller"}, "roll"),),
}


@dataclass(frozen=True)
class Reckoned:
    """One lawn: its brief as it was written, its plan as it was read, and the tables of the book.

    `seen` counts what was compared.
    """

    brief: Mapping[str, Any]
    plan: Mapping[str, Any]
    book: Mapping[str, Any]
    seen: Counter[str]

    def same(self, kind: str, got: float, wanted: float, off: float = 0.0) -> None:
        """Fails where a number is not what it should be, within `off` and a ten-thousandth."""
        self.seen[kind] += 1
        assert abs(got - wanted) <= off + 1e-4 * abs(wanted), f"{kind}: {got} where {wanted}"

    def fact(self, file: str, *names: str) -> float:
        """A fact of the book: its value, or the middle of its range, in the units above."""
        held = self.book[file]
        for name in names:
            held = held[name]
        state, named = self.brief["place"]["state"], ".".join(names)
        for region in self.book["regions"]:
            if state in region["states"]:
                facts = region.get("facts", {})
                held = facts.get(named, facts.get(f"{file}.{named}", held))
        value = held.get("value", (held.get("low", 0) + held.get("high", 0)) / 2)
        return float(value) * UNITS[held["unit"]]

    def tasks(self, *operations: str) -> list[Mapping[str, Any]]:
        """The tasks of these operations in order of time."""
        return [task for task in self.plan["tasks"] if task["operation"] in operations]

    @property
    def area(self) -> float:
        """Of the lawn, m2."""
        return quantity(self.brief["lawn"]["area"])


def quantity(text: str) -> float:
    """A number and a unit in the units above."""
    number, unit = text.split()
    return float(number) * UNITS[unit]


def amount(task: Mapping[str, Any], item: str) -> float | None:
    """An amount of a task by its inside value; None where it has none."""
    return next((float(a["value"]) for a in task["amounts"] if a["item"] == item), None)


def lawn(chance: Random, book: Mapping[str, Any]) -> dict[str, Any]:
    """A brief that nobody wrote."""
    grass = chance.choice(sorted(PLACES))
    postal, state = PLACES[grass]
    us = chance.random() < 0.6
    area = f"{chance.randint(8, 90) * 100} ft2" if us else f"{chance.randint(60, 900)} m2"
    depth = f"{chance.randint(1, 6) / 8} in" if us else f"{chance.randint(3, 20)} mm"
    sown = grass != "zoysia" and chance.random() < 0.6
    bare = sown and chance.random() < 0.3
    acidity = chance.choice([n for n in book["lime"]["lime"] if n.startswith("goal_65_acidity_")])
    seed = {"rate": f"{chance.randint(2, 8)} lb/1000ft2"} if chance.random() < 0.4 else {}
    tag = {"purity_percent": chance.randint(80, 99), "germination_percent": chance.randint(70, 95)}
    cans = [f"{chance.randint(6, 14)} mm" for _ in range(12)]
    water = chance.choice(
        (
            {"application_rate": f"{chance.randint(3, 14) / 10} in/h"},
            {"catch_cans": cans, "catch_minutes": chance.choice((10, 15, 20))},
        )
    )
    return {
        "units": "us" if us else "metric",
        "lawn": {
            "id": "reckoned",
            "grass": grass,
            "area": area,
            "soil": chance.choice(SOILS),
            "condition": "bare" if bare else chance.choice(("dense", "thin")),
            "thatch": chance.choice(("0.2 in", "0.6 in")),
        },
        "place": {"postal_code": postal, "country": "US", "state": state},
        "leveling": {
            "depth": depth,
            "settle_percent": chance.choice((0, 10, 15)),
            **({} if bare or chance.random() < 0.5 else {"material": chance.choice(MIXES)}),
        },
        "seeding": {"intent": "overseed", **seed, **tag} if sown else {"intent": "none"},
        "water": {"possible": True, "timer": True, **water},
        "soil_test": {
            "on": "2027-01-10",
            "ph": 5.0,
            "acidity_cmol_kg": int(acidity.rsplit("_", 1)[1]) / 10,
        },
        "feeding": {
            "analysis": chance.choice(("28-3-6", "16-4-8", "24-0-11", "10-10-10")),
            "slow_release_percent": 30,
            "lime_cce_percent": chance.choice((70, 90, 100)),
        },
        "season": {"from": "2027-02-15"},
        "work": {
            "people": chance.randint(1, 4),
            "hours_per_day": chance.choice((4, 6, 8)),
            "haul_distance": f"{chance.choice((10, 40, 80))} m",
            "machines": chance.sample(MACHINES, chance.randint(0, 3)),
        },
    }


MIXES = ("sand", "topsoil_sand", "topsoil_sand_compost")


def written(brief: Mapping[str, Any]) -> str:
    """A brief as TOML."""
    lines = [f"{key} = {json.dumps(v)}" for key, v in brief.items() if not isinstance(v, dict)]
    for table, values in brief.items():
        if isinstance(values, dict):
            lines.append(f"[{table}]")
            lines += [f"{key} = {_toml(key, value)}" for key, value in values.items()]
    return "\n".join(lines) + "\n"


def _toml(key: str, value: Any) -> str:
    return str(value) if key in ("on", "from") else json.dumps(value)


def twins(lawn: Reckoned) -> None:
    """SI and customary values of an amount are one (NIST SP 811)."""
    for task in lawn.plan["tasks"]:
        for item in task["amounts"]:
            if item["unit"] not in UNITS or item["unit_us"] not in UNITS:
                continue
            us = item["value_us"] * UNITS[item["unit_us"]]
            step = 0.06 * UNITS[item["unit"]] + 0.06 * UNITS[item["unit_us"]]
            fine = step if item["item"].startswith("water") else step / 50
            lawn.same("twins", item["value"] * UNITS[item["unit"]], us, fine)


def volumes(lawn: Reckoned) -> None:
    """Area times depth and the settling allowance (geometry: half an inch on 1,000 ft2 is 1.543
    yd3), with room for cores under straight sand on a fine soil.
    """
    leveling, passes = lawn.brief["leveling"], lawn.tasks(*SPREADING)
    loose = 1 + leveling["settle_percent"] / 100
    if not lawn.plan["handover"]:
        depths = sum(amount(task, "depth") or 0.0 for task in passes) / 1000
        asked = quantity(leveling["depth"])
        # What is left may be told as no more than the touch-up takes.
        if any("than the touch-up takes" in note["text"] for note in lawn.plan["ranked"]):
            assert asked / 2 <= depths < asked, f"{depths} of {asked}"
        else:
            lawn.same("depths", depths, asked, 2e-5)
    cores = 0.0
    if leveling.get("material") == "sand" and lawn.brief["lawn"]["soil"] in FINE:
        cores = lawn.fact("practice", "aerate", "core_volume_depth")
    for task in passes:
        depth, volume = (amount(task, "depth") or 0.0) / 1000, amount(task, "volume") or 0.0
        wanted = (lawn.area * (depth + more) * loose for more in (0.0, cores))
        # Told rounded up: by a hundredth of a cubic yard or metre, or half a percent.
        short = volume - min(wanted, key=lambda v: abs(v - volume))
        lawn.same("volumes", max(0.0, short), 0.0, max(0.01, volume * 0.005) + 1e-5)
        assert short > -1e-5, f"{task['id']}: {volume} is less than its depth takes"


def weights(lawn: Reckoned) -> None:
    """Volume times the densities of the parts (USDA-SCS and trade tables in the book); barrows are
    whole.
    """
    mix = next((line for line in lawn.plan["order"] if line["item"] == "mix"), None)
    if mix is None:
        return
    density = sum(
        part["share"] * lawn.fact("materials", part["item"], "density") for part in mix["parts"]
    )
    barrow = lawn.fact("practice", "labour", "barrow")
    for task in lawn.tasks(*SPREADING):
        volume = amount(task, "volume") or 0.0
        lawn.same("weights", amount(task, "weight") or 0.0, volume * density, 1e-3)
        if (barrows := amount(task, "barrow loads")) is not None:
            lawn.same("barrows", barrows, math.ceil(volume / barrow - 1e-6))


def orders(lawn: Reckoned) -> None:
    """What is bought covers what is spread, by no more than a step of sale, the least load, or one
    bag of each part; parts and truckloads add up, and orders to what comes (geometry).
    """
    lines = [line for line in lawn.plan["order"] if line["item"] == "mix"]
    users = lawn.tasks(*SPREADING, "touch_up")
    needed = sum(amount(task, "volume") or 0.0 for task in users)
    bought = sum(line["value"] for line in lines)
    step = YARD3 / 4 if lawn.brief["units"] == "us" else 0.1
    least = lawn.fact("practice", "delivery", "least_bulk") + step
    most = 0.0
    for line in lines:
        lawn.same("parts", sum(part["value"] for part in line["parts"]), line["value"], 1e-5)
        if not line["loads"]:
            most += 0.05 * len(line["parts"])
            continue
        lawn.same("loads", sum(line["loads"]), line["value"], 1e-5)
        lawn.same("steps_of_sale", line["value"] / step, round(line["value"] / step), 1e-4)
        most += max(step, least if line["value"] <= least else 0.0)
    lawn.seen["orders_cover"] += 1
    assert -1e-4 <= bought - needed <= most + 1e-4, f"bought {bought}, needed {needed}"
    asked = sum(amount(task, "volume") or 0.0 for task in lawn.tasks("order_material"))
    lawn.same("orders_add_up", asked, sum(line["value"] for line in lines if line["loads"]), 1e-4)


def seed(lawn: Reckoned) -> None:
    """Rate times area over pure live seed: 95 % pure and 85 % germinating is 80.75 % (USDA-SCS bulk
    seed factors); rates of overseeding and of new lawns are the book's.
    """
    asked, grass = lawn.brief["seeding"], lawn.brief["lawn"]["grass"]
    new = lawn.brief["lawn"]["condition"] == "bare"
    name = "seed_rate_new" if new else "seed_rate_overseed"
    for task in lawn.tasks("seed", "overseed"):
        rate = quantity(asked["rate"]) if "rate" in asked else lawn.fact("species", grass, name)
        live = asked["purity_percent"] * asked["germination_percent"] / 10_000
        lawn.same("seed_rates", (amount(task, "seed rate") or 0.0) / 1000, rate, 1e-8)
        kg = amount(task, "seed") or 0.0
        lawn.same("seed_by_weight", kg, rate * lawn.area / live, 1e-5)
        lawn.same(
            "seed_held_back",
            amount(task, "seed held back") or 0.0,
            kg * lawn.fact("practice", "seeding", "reserve"),
            1e-5,
        )


def nitrogen(lawn: Reckoned) -> None:
    """Product is nitrogen over the first number of the bag (28-3-6: 3.57 lb for 1 lb, extension
    worksheets); potash and slow nitrogen are their shares of it.
    """
    analysis = [int(n) / 100 for n in lawn.brief["feeding"]["analysis"].split("-")]
    slow = lawn.brief["feeding"]["slow_release_percent"] / 100
    for task in lawn.tasks("feed_nitrogen", "starter_feed"):
        rate, product = amount(task, "nitrogen"), amount(task, "product_rate")
        if rate is None:
            continue
        total = amount(task, "nitrogen_total") or 0.0
        lawn.same("nitrogen", total, rate * lawn.area / 1000, 0.0006 * (1 + lawn.area / 1000))
        if product is None:
            continue
        lawn.same("product_rates", product, rate / analysis[0], 0.006)
        whole = amount(task, "product") or 0.0
        lawn.same("product", whole, product * lawn.area / 1000, 0.0006 * (1 + lawn.area / 1000))
        for item, share in (("potash", product * analysis[2]), ("slow_nitrogen", rate * slow)):
            told = amount(task, item)
            if told is not None:
                lawn.same(item, told, share, 0.002)


def lime(lawn: Reckoned) -> None:
    """Pure lime of Penn State's table over the calcium carbonate equivalent (5 lb at 70 % is 7.14),
    no surface dressing over what the state allows at once.
    """
    grass, test = lawn.brief["lawn"]["grass"], lawn.brief["soil_test"]
    state = f"us_{lawn.brief['place']['state'].lower()}"
    table = lawn.book["lime"]["lime"]
    goal = table.get(f"{state}_ph_goal_{grass}", table[f"ph_goal_{grass}"])["value"]
    tenths = round(test["acidity_cmol_kg"] * 10)
    row = f"goal_{round(goal * 10)}_acidity_{tenths}"
    given = lawn.tasks("lime")
    if row not in table or not given:
        return
    cce = lawn.brief["feeding"]["lime_cce_percent"] / 100
    wanted = lawn.fact("lime", "lime", row) / cce
    most = lawn.fact(
        "lime", "lime", f"{state}_single_max" if f"{state}_single_max" in table else "single_max"
    )
    rates = [(amount(task, "lime rate") or 0.0) / 1000 for task in given]
    if lawn.brief["lawn"]["condition"] == "bare":
        parts = 1
    else:
        parts = math.ceil(wanted / most - 1e-9)
        assert max(rates) <= most + 1e-6, f"{max(rates)} kg/m2 of lime at once"
    assert len(given) <= parts, f"{len(given)} limings of {parts}"
    for task, rate in zip(given, rates, strict=True):
        lawn.same("lime_rates", rate, wanted / parts, 1e-6)
        lawn.same("lime", amount(task, "lime") or 0.0, rate * lawn.area, 0.0006 * (1 + lawn.area))


# What may take several days, a strip on each.
BY_STRIP = ("topdress", "fill", "lift_and_fill", "plant", "seed", "overseed", "dormant_seed")


def minutes(lawn: Reckoned) -> None:
    """Litres are minutes times the rate over the area, for each run of a series; the rate is the
    mean of the cans over their minutes (Irrigation Association's audit guidelines).
    """
    water = lawn.brief["water"]
    if "catch_cans" in water:
        cans = [quantity(can) * 1000 for can in water["catch_cans"]]
        rate = sum(cans) / len(cans) * 60 / water["catch_minutes"]
    else:
        rate = float(water["application_rate"].split()[0]) * FOOT / 12 * 1000
    for task in lawn.tasks("water"):
        runs, told = len(list(days_of(task["series"]))), amount(task, "water")
        litres = task["series"]["minutes"] / 60 * rate * lawn.area * runs
        wetted = (told or 0.0) / litres
        # Work of several days goes on strip by strip, and what is done of it is watered.
        jobs = (job for name in BY_STRIP for job in lawn.tasks(name))
        strips = {job["duration_days"] for job in jobs} | {1}
        share = min((round(wetted * n) / n for n in strips), key=lambda part: abs(part - wetted))
        assert 0 < share <= 1, f"{task['id']}: {told} L where the whole lawn takes {litres}"
        lawn.same("run_minutes", told or 0.0, litres * share, 0.06)


def unevenness(lawn: Reckoned) -> None:
    """Of all water at least what falls beyond the driest quarter's share is lost to the grass
    (low-quarter distribution uniformity, Irrigation Association), week by week.
    """
    water = lawn.brief["water"]
    if "catch_cans" in water:
        cans = sorted(quantity(can) for can in water["catch_cans"])
        quarter = cans[: len(cans) // 4]
        even = sum(quarter) / len(quarter) / (sum(cans) / len(cans))
    else:
        even = lawn.fact("water", "water", "uniformity_assumed")
    even = max(even, lawn.fact("water", "water", "uniformity_floor"))
    ledger = next(one for one in lawn.plan["ledgers"] if one["item"] == "water")
    for week in ledger["weeks"]:
        entries = week["entries"]
        spilt = (entries["watering"] + entries["rooted"]) * (1 - even)
        lawn.seen["weeks_of_water"] += 1
        assert -entries["lost"] >= spilt - 0.01, f"{week['start']}: {entries}"


def days_of(series: Mapping[str, Any]) -> Iterator[date]:
    """The days of a series."""
    day, last = (date.fromisoformat(series[end]) for end in ("from", "to"))
    while day <= last:
        named = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")[day.weekday()]
        if named in (series["weekdays"] or [named]) and day.isoformat() not in series["skip"]:
            yield day
        day += timedelta(1)


def hours(lawn: Reckoned) -> None:
    """The book's figures per area, per volume and per job (its judgements, from trade lists), with
    one's own machines and a longer way; days are whole.
    """
    work, book = lawn.brief["work"], lawn.book["operations"]
    way = max(1.0, quantity(work["haul_distance"]) / lawn.fact("practice", "labour", "haul_reach"))
    for task in lawn.tasks(*TIMED):
        entry, total = book[task["operation"]], 0.0
        for name in (fact.removeprefix("labour.") for fact in entry["labour"]):
            ways = BY_MACHINE.get(name, ())
            done = next((n for needed, n in ways if needed <= set(work["machines"])), name)
            figure = lawn.fact("practice", "labour", done)
            unit = lawn.book["practice"]["labour"][done]["unit"]
            if unit == "h/yd3":
                total += figure * (amount(task, "volume") or 0.0) * way
            else:
                total += figure * (lawn.area if unit == "h/1000ft2" else 1.0)
        extra = entry.get("hours_min")
        if extra and entry.get("machine") not in work["machines"]:
            total += lawn.fact("practice", *extra.split("."))
        lawn.same("hours", task["person_hours"], total, 0.011)
        days = math.ceil(total / (work["people"] * work["hours_per_day"]) - 1e-6)
        lawn.seen["days_of_work"] += 1
        assert task["duration_days"] >= max(1, days), f"{task['id']}: {task['duration_days']} days"


CHECKS = (twins, volumes, weights, orders, seed, nitrogen, lime, minutes, unevenness, hours)


def book_tables() -> dict[str, Any]:
    """The files of the book that are read, by name."""
    names = ("practice", "materials", "species", "lime", "operations", "water")
    folder = ROOT / "turfplan" / "data"
    tables: dict[str, Any] = {
        name: tomllib.loads((folder / f"{name}.toml").read_text()) for name in names
    }
    overlays = sorted((folder / "regions").glob("*.toml"))
    return tables | {"regions": [tomllib.loads(path.read_text()) for path in overlays]}


def faults_of(lawn: Reckoned, checks: Sequence[Any] = CHECKS) -> list[str]:
    """What is not as it was reckoned, one for each check."""
    found = []
    for check in checks:
        try:
            check(lawn)
        except AssertionError as fault:
            found.append(f"{check.__name__}: {fault}")
    return found


def planned(
    brief: Mapping[str, Any],
    book: Mapping[str, Any],
    folder: Path,
    seen: Counter[str] | None = None,
) -> Reckoned | None:
    """The lawn of a brief as the command plans it; None where it cannot be done as asked."""
    home = Path(tempfile.mkdtemp(dir=folder))
    (home / "lawn.toml").write_text(written(brief))
    done = command(
        "plan", str(home / "lawn.toml"), "-o", str(home / "out"), "--today", "2027-02-01"
    )
    assert (home / "out" / "plan.json").exists(), done.stderr
    plan = json.loads((home / "out" / "plan.json").read_text())
    return (
        None
        if plan["conflict"]
        else Reckoned(brief, plan, book, Counter() if seen is None else seen)
    )


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails with every lawn that has an amount which is not as it is reckoned here."""
    book, seen, faults, refused = book_tables(), Counter[str](), list[str](), 0
    for number in range(seed, seed + count):
        reckoned = planned(lawn(Random(number), book), book, folder, seen)
        refused += reckoned is None
        if reckoned is not None:
            faults += [f"lawn {number}: {fault}" for fault in faults_of(reckoned)]
    assert not faults, "\n".join(faults)
    return {"refused": refused, "compared": sum(seen.values()), **dict(sorted(seen.items()))}


CAMPAIGN = Campaign("recomputed", size=200, seed=1300, unit="lawns", run=run)
