"""No agronomic number stands in the rules: every number there is counted, and each that is more than a count has its reason here.

Numbers of turf belong to the book, with unit, source, place or judgement. What may stand in code are definitions: of units,
of the calendar, of a published equation, of how a number is rounded or shown.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from planning import ROOT

RULES = ROOT / "turfplan" / "rules"
COUNTS = {0, 1, 2}
SLACK = {1e-6, 1e-9, 1e-12}

CALENDAR = "the calendar: days of weeks, months and years"
UNITS = "a unit in another: hundredths, minutes, millimetres"
SHOWN = "how a number is rounded or shown, and in which words"
FAO = "an equation of FAO-56 or of the USDA, which names its numbers"
KEPT = "how many answers are kept in memory"

# (module, function or class it stands in) -> (numbers, why they are no facts of turf)
ALLOWED: dict[tuple[str, str], tuple[set[float], str]] = {
    ("blackouts", "_month_day"): ({2027}, CALENDAR),
    ("blackouts", "_pair"): ({3}, "where the day stands in a text like 11-15"),
    ("build", "module"): ({7}, "how many ranks of tasks there are"),
    ("campaign", "_half"): ({6, 12}, CALENDAR),
    ("campaign", "_campaign"): ({365}, CALENDAR),
    ("campaign", "following_autumn"): ({365}, CALENDAR),
    ("compost", "compost_credit"): ({100, 3}, f"{UNITS}; and three times the same value where the brief gives one"),
    ("days", "_longest_run"): ({64}, KEPT),
    ("days", "_hold"): ({7}, CALENDAR),
    ("feed", "module"): ({365}, CALENDAR),
    ("feed", "_starter"): ({1e9}, "no cap: more than any rate"),
    ("feeding_slots", "module"): ({30, 0.05}, f"{CALENDAR}; and a weight that keeps shares defined while grass rests"),
    ("labour", "person_hours"): ({60, 1000}, UNITS),
    ("layers", "module"): ({0.05}, SHOWN),
    ("level", "_zones_text"): ({0.05}, SHOWN),
    ("level", "_site_cautions"): ({100}, UNITS),
    ("liming", "liming"): ({4}, "both parts slip by a quarter of the range at most, so that their gap stays inside it"),
    ("liming", "_growing"): ({366}, CALENDAR),
    ("mowing", "module"): ({2027, 3}, f"{CALENDAR}; and the rule of one third by its own name"),
    ("mowing", "low_cut_steps"): ({0.05}, SHOWN),
    ("mowing", "mowing_notes"): ({13, 15}, CALENDAR),
    ("nitrogen_ledger", "module"): ({4, 365}, f"{SHOWN}; {CALENDAR}"),
    ("nitrogen_ledger", "nitrogen_ledger"): ({7}, CALENDAR),
    ("nutrients", "module"): ({12, 365.25}, CALENDAR),
    ("nutrients", "lime_product_g_m2"): ({100}, UNITS),
    ("nutrients", "lime_plan"): ({100}, UNITS),
    ("nutrients", "_printed"): ({10}, UNITS),
    ("order", "step"): ({60}, "how far before the plan working days are known: two months are more than any lead"),
    ("passes", "module"): ({4}, SHOWN),
    ("passes", "plan_passes"): ({1000}, UNITS),
    ("passes", "_by_zone"): ({1000}, UNITS),
    ("passes", "_step"): ({8}, SHOWN),
    ("passes", "_depths"): ({0.5}, SHOWN),
    ("prepare", "_before_seed"): ({100}, UNITS),
    ("product", "product_cautions"): ({100}, UNITS),
    ("real_years", "between"): ({10}, "eight years of ten, in the words of the sentence"),
    ("seed", "sow"): ({100}, UNITS),
    ("setting", "cut"): ({0.125, 5.0}, SHOWN),
    ("setting", "weekday_days"): ({7}, CALENDAR),
    ("setting", "resolve"): ({60}, "how far before the plan working days are known: two months are more than any lead"),
    ("setting", "_settle"): ({100}, UNITS),
    ("setting", "_bands"): ({0.1}, SHOWN),
    ("setting", "_labour"): ({60, 1000}, UNITS),
    ("steps", "workday_step"): ({256}, KEPT),
    ("steps", "growth_step"): ({64}, KEPT),
    ("water_balance", "module"): ({5.0, 28, 30, 30.4375, 31, 1000.0}, f"{FAO}; {CALENDAR}; {UNITS}"),
    ("water_balance", "depletion_share"): ({0.04, 0.1, 0.8}, FAO),
    ("water_balance", "effective_rain_share"): (
        {0.003804, 0.02426, 0.057697, 0.11556, 0.295164, 0.531747, 0.70917, 0.75, 0.82416, 3, 7.0, 10},
        FAO,
    ),
    ("water_balance", "daily"): ({4, 58, 59, 100, 400}, CALENDAR),
    ("water_balance", "crop_coefficients"): ({12, 13}, CALENDAR),
    ("water_balance", "month_totals"): ({31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}, CALENDAR),
    ("water_ledger", "module"): ({3, 15, 180}, f"{SHOWN}; and how far ahead a lawful day is looked for"),
    ("water_ledger", "_months_of"): ({31}, CALENDAR),
    ("water_ledger", "mature_notes"): ({60}, UNITS),
    ("watering_hours", "module"): ({24, 60}, UNITS),
    ("watering_hours", "longest_gap_days"): ({365, 2027}, CALENDAR),
    ("watering_hours", "law_of"): ({3, 60}, f"{UNITS}; and where the minutes stand in a text like 06:30"),
    ("watering_hours", "_start"): ({5}, SHOWN),
    ("watering_hours", "session_names"): ({9, 11, 13, 15, 17, 20, 60}, "hours that a time of day is called by"),
    ("watering_request", "module"): ({7}, CALENDAR),
    ("watering_series", "_fit"): ({9, 10}, "parts of the water that are tried in turn where the whole does not fit"),
    ("watering_series", "_water"): ({0.01, 0.1}, SHOWN),
    ("watering_series", "_clock"): ({60}, UNITS),
    ("watering_verdict", "_rain_words"): ({13, 15, 28, 2027}, CALENDAR),
    ("watering_verdict", "_hours_words"): ({60}, UNITS),
    ("windows", "_windows_of"): ({64}, KEPT),
    ("windows", "_window"): ({0.5}, SHOWN),
    ("windows", "season_of"): ({3, 4, 12}, CALENDAR),
}


def numbers(path: Path) -> Iterator[tuple[str, float, int]]:
    """Every number of a module that is more than a count: the function it stands in (or the module), and its line."""

    def walk(node: ast.AST, where: str) -> Iterator[tuple[str, float, int]]:
        for child in ast.iter_child_nodes(node):
            inside = child.name if isinstance(child, ast.FunctionDef | ast.ClassDef) else where
            if isinstance(child, ast.Constant) and type(child.value) in (int, float):
                if child.value not in COUNTS and child.value not in SLACK:
                    yield where, child.value, child.lineno
            else:
                yield from walk(child, inside)

    yield from walk(ast.parse(path.read_text(encoding="utf-8")), "module")


MODULES = sorted(RULES.glob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_no_number_of_turf_stands_in_code(path: Path) -> None:
    """Each number of the module is a count, a slack of reckoning, or a definition with its reason."""
    found = [
        f"{path.stem}.py:{line} ({where}): {value}"
        for where, value, line in numbers(path)
        if value not in ALLOWED.get((path.stem, where), (set(), ""))[0]
    ]
    assert not found, "numbers of turf belong into turfplan/data: " + "; ".join(found)


def test_no_reason_is_idle() -> None:
    """No number is allowed that no longer stands where it was allowed."""
    standing: dict[tuple[str, str], set[float]] = {}
    for path in MODULES:
        for where, value, _ in numbers(path):
            standing.setdefault((path.stem, where), set()).add(value)
    assert all(reason for _, reason in ALLOWED.values())
    assert {place: held for place, (held, _) in ALLOWED.items()} == standing


def test_a_number_is_found_where_it_stands(tmp_path: Path) -> None:
    """The scan sees a number in a call, in a sum and in a default, names its function, and passes over counts and texts."""
    module = tmp_path / "some.py"
    module.write_text('def wish(days=21):\n    """35 days."""\n    return make(offset=-7) + 2 * 0.4 + int("14")\n', encoding="utf-8")  # fmt: skip
    assert [(where, value) for where, value, _ in numbers(module)] == [("wish", 21), ("wish", 7), ("wish", 0.4)]
