"""No agronomic number stands in the rules: every number there is counted, and each that is more
than a count has its reason here.

Numbers of turf belong to the book, with unit, source, place or judgement. What may stand in code
are definitions: of units, of the calendar, of a published equation, of how a number is rounded or
shown.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from planning import ROOT

RULES = ROOT / "turfplan" / "work"
COUNTS = {0, 1, 2}
SLACK = {1e-6, 1e-9, 1e-12}

CALENDAR = "the calendar: days of weeks, months and years"
UNITS = "a unit in another: hundredths, minutes, millimetres"
SHOWN = "how a number is rounded or shown, and in which words"
FAO = "an equation of FAO-56 or of the USDA, which names its numbers"
KEPT = "how many answers are kept in memory"

# (module, function or class it stands in) -> (numbers, why they are no facts of turf)
ALLOWED: dict[tuple[str, str], tuple[set[float], str]] = {
    ("feeding/blackouts", "_pair"): ({3}, "where the day stands in a text like 11-15"),
    ("shared_hands", "module"): ({0.25}, "hours are told in halves: what is less than half of one"),
    ("phases/wet_at_once", "module"): ({5}, "minutes are told in fives"),
    ("operations", "module"): ({7}, "how many ranks of tasks there are"),
    ("feeding/compost", "compost_credit"): (
        {100, 3},
        f"{UNITS}; and three times the same value where the brief gives one",
    ),
    ("day_limits", "_longest_run"): ({64}, KEPT),
    ("emergence", "_sums"): ({64}, KEPT),
    ("weed_killers", "_hold"): ({7}, CALENDAR),
    ("light", "module"): ({60.0}, UNITS),
    ("light", "daylight_h"): ({64}, KEPT),
    ("unnamed_grass", "module"): ({3}, "of how many grasses a plan is held to what each bears"),
    ("feeding/slots", "module"): (
        {5, 30, 0.05},
        f"{CALENDAR}; how many ranks of days there are; and a weight that keeps shares defined "
        "while grass rests",
    ),
    ("feeding/slots", "_slots_in"): ({7}, CALENDAR),
    ("feeding/feedings", "module"): ({0.005}, SHOWN),
    ("labour", "person_hours"): ({60, 1000}, UNITS),
    ("labour", "hours_of_trucks"): ({60}, UNITS),
    ("phases/receive", "_in_bags"): ({60}, UNITS),
    ("soil_layers", "module"): ({0.05}, SHOWN),
    ("ground_fill", "module"): ({1000}, UNITS),
    ("heap", "cone_m3"): ({3}, "the volume of a cone is a third of that of its cylinder"),
    ("heap", "cone_area_m2"): ({3}, "the volume of a cone is a third of that of its cylinder"),
    ("feeding/lime", "liming"): (
        {4},
        "both parts slip by a quarter of the range at most, so that their gap stays inside it",
    ),
    ("feeding/lime", "growing_from"): ({366}, CALENDAR),
    ("phases/marks", "module"): ({5}, CALENDAR),
    ("mowing", "module"): ({3}, "the rule of one third by its own name"),
    ("mowing", "low_cut_steps"): ({0.05}, SHOWN),
    ("feeding/account", "module"): ({4}, SHOWN),
    ("feeding/account", "nitrogen_ledger"): ({7}, CALENDAR),
    ("feeding/lime_need", "module"): ({10}, UNITS),
    ("feeding/amendments", "module"): (
        {4},
        "parts slip by a quarter of their gap at most, so that they stay apart",
    ),
    ("feeding/nutrients", "_cce_percent"): ({100}, UNITS),
    ("feeding/nutrients", "lime_product_g_m2"): ({100}, UNITS),
    ("feeding/nutrients", "lime_plan"): ({100}, UNITS),
    ("order", "step"): (
        {60},
        "how far before the plan working days are known: two months are more than any lead",
    ),
    ("mix_choice", "module"): ({4}, SHOWN),
    ("passes", "plan_passes"): ({1000}, UNITS),
    ("passes", "_by_zone"): ({1000}, UNITS),
    ("layers", "measurable_mm"): ({8}, SHOWN),
    ("layers", "_depths"): ({0.5}, SHOWN),
    ("layers", "module"): ({200}, "no cap: more passes than any fill asks for"),
    ("filling", "module"): ({1000.0}, UNITS),
    ("phases/prepare", "_before_seed"): ({100}, UNITS),
    ("feeding/bag", "product_cautions"): ({100}, UNITS),
    ("real_years", "between"): ({10}, "eight years of ten, in the words of the sentence"),
    ("rain_years", "of_ten"): ({0.5, 10}, "whole tenths, in the words of the sentence"),
    ("phases/sow", "_laid"): ({100}, UNITS),
    ("lawn", "cut"): ({0.125, 5.0}, SHOWN),
    ("lawn", "weekday_days"): ({7}, CALENDAR),
    ("days_off", "module"): (
        {60},
        "how far before the plan working days are known: two months are more than any lead",
    ),
    ("days_off", "_minutes"): (
        {3, 60},
        f"{UNITS}; and where the minutes stand in a text like 06:30",
    ),
    ("days_off", "_clock"): ({24, 60}, UNITS),
    ("loads", "module"): ({7}, CALENDAR),
    ("slopes", "slope_share"): ({100}, UNITS),
    ("watering/hose", "module"): ({20}, SHOWN),
    ("assumptions", "_settle"): ({100}, UNITS),
    ("assumptions", "module"): ({0.0001}, SHOWN),
    ("assumptions", "_labour"): ({60, 1000}, UNITS),
    ("lag_steps", "workday_step"): ({256}, KEPT),
    ("lag_steps", "growth_step"): ({64}, KEPT),
    ("watering/balance", "module"): ({5.0, 1000.0}, f"{FAO}; {UNITS}"),
    ("watering/balance", "depletion_share"): ({0.04, 0.1, 0.8}, FAO),
    ("watering/balance", "effective_rain_share"): (
        {
            0.003804,
            0.02426,
            0.057697,
            0.11556,
            0.295164,
            0.531747,
            0.70917,
            0.75,
            0.82416,
            3,
            7.0,
            10,
        },
        FAO,
    ),
    ("watering/balance", "crop_coefficients"): ({12, 13}, CALENDAR),
    ("watering/account", "module"): (
        {3, 15, 180},
        f"{SHOWN}; and how far ahead a lawful day is looked for",
    ),
    ("watering/account", "_months_of"): ({31}, CALENDAR),
    ("watering/account", "mature_notes"): ({60}, UNITS),
    ("watering/hours", "module"): ({24, 60}, UNITS),
    ("watering/hours", "law_of"): (
        {3, 60},
        f"{UNITS}; and where the minutes stand in a text like 06:30",
    ),
    ("watering/hours", "_start"): ({5}, SHOWN),
    ("watering/hours", "session_names"): (
        {9, 11, 13, 15, 17, 20, 60},
        "hours that a time of day is called by",
    ),
    ("watering/request", "module"): ({7}, CALENDAR),
    ("watering/week_runs", "module"): (
        {9, 10},
        "parts of the water that are tried in turn where the whole does not fit",
    ),
    ("watering/week_runs", "_water"): ({0.01, 0.1}, SHOWN),
    ("year_seasons", "module"): ({12}, CALENDAR),
    ("watering/stage_weeks", "_days_alike"): ({4}, CALENDAR),
    ("watering/week_runs", "_clock"): ({60}, UNITS),
    ("watering/told_law", "module"): ({3}, "how few days in a row one sentence leaves out"),
    ("watering/verdict", "_usual_rain"): ({13, 15, 28}, CALENDAR),
    ("windows", "_windows_of"): ({64}, KEPT),
    ("grass_for_place", "module"): ({3}, "how many grasses one sentence names"),
    ("living", "lives_at"): ({512}, KEPT),
    ("living", "sure_at"): ({512}, KEPT),
    ("living", "_of_year"): ({10.0}, SHOWN),
    ("growing_year", "turning_points"): ({256}, KEPT),
    ("growing_year", "swing"): (
        {8, 256},
        f"the variance of a wave is an eighth of the square of its range; {KEPT}",
    ),
    ("growing_year", "_days_above"): ({512}, KEPT),
    ("growing_year", "coming"): ({64}, KEPT),
    ("growing_year", "_middle"): ({0.5}, "the middle of a day"),
    ("windows", "_in_year"): ({0.5}, SHOWN),
    ("feeding/product_amounts", "feed_amounts"): ({100}, UNITS),
    ("feeding/product_amounts", "mass_amount"): ({3}, SHOWN),
    ("feeding/product_amounts", "module"): ({1000.0}, UNITS),
    ("feeding/product_amounts", "rate_amount"): ({3}, SHOWN),
    ("material_amounts", "depth_of_load_mm"): ({1000}, UNITS),
    ("barrows", "module"): (
        {1000.0, 5.0, 0.5},
        f"{UNITS}; how finely a patch and a loose depth are told; half a load",
    ),
    ("barrows", "_heap_m3"): ({4}, "a heap is halved, or halved again"),
    ("barrows", "in_litres"): ({4}, SHOWN),
    ("material_amounts", "sold_step_m3"): (
        {0.1, 4},
        "how it is sold: quarters of a cubic yard, tenths of a cubic metre",
    ),
    ("seed_amounts", "bulk_seed_kg"): ({1000}, UNITS),
    ("plants", "module"): ({1000.0}, UNITS),
    ("seed_amounts", "plugs_needed"): ({1000}, UNITS),
    ("seed_amounts", "pure_live_share"): ({100}, UNITS),
    ("watering/intake", "module"): ({100}, UNITS),
    ("watering/run_times", "module"): ({60.0, 1000.0}, UNITS),
    ("watering/run_times", "run_time"): ({99}, "no cap: more cycles than any soil asks for"),
    ("watering/sprinklers", "_key"): ({20}, "how long a part of a task id may be"),
    ("watering/sprinklers", "low_quarter_uniformity"): ({4}, "the lowest quarter, by its own name"),
    ("watering/sprinklers", "module"): (
        {4, 125.0, 1000.0},
        f"{UNITS}; the bounds of form of a brief; and a quarter of cans is one can at least",
    ),
}


def numbers(path: Path) -> Iterator[tuple[str, float, int]]:
    """Every number of a module that is more than a count: the function it stands in (or the
    module), and its line.
    """

    def walk(node: ast.AST, where: str) -> Iterator[tuple[str, float, int]]:
        for child in ast.iter_child_nodes(node):
            inside = child.name if isinstance(child, ast.FunctionDef | ast.ClassDef) else where
            if isinstance(child, ast.Constant) and type(child.value) in (int, float):
                if child.value not in COUNTS and child.value not in SLACK:
                    yield where, child.value, child.lineno
            else:
                yield from walk(child, inside)

    yield from walk(ast.parse(path.read_text(encoding="utf-8")), "module")


def room_of(path: Path) -> str:
    """A module as its path in the room of rules: two rooms may have an account."""
    return path.relative_to(RULES).with_suffix("").as_posix()


MODULES = sorted(RULES.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: room_of(path))
def test_no_number_of_turf_stands_in_code(path: Path) -> None:
    """Each number of the module is a count, a slack of reckoning, or a definition with its
    reason.
    """
    found = [
        f"{room_of(path)}.py:{line} ({where}): {value}"
        for where, value, line in numbers(path)
        if value not in ALLOWED.get((room_of(path), where), (set(), ""))[0]
    ]
    assert not found, "numbers of turf belong into turfplan/data: " + "; ".join(found)


def test_no_reason_is_idle() -> None:
    """No number is allowed that no longer stands where it was allowed."""
    standing: dict[tuple[str, str], set[float]] = {}
    for path in MODULES:
        for where, value, _ in numbers(path):
            standing.setdefault((room_of(path), where), set()).add(value)
    assert all(reason for _, reason in ALLOWED.values())
    assert {place: held for place, (held, _) in ALLOWED.items()} == standing


def test_a_number_is_found_where_it_stands(tmp_path: Path) -> None:
    """The scan sees a number in a call, in a sum and in a default, names its function, and passes
    over counts and texts.
    """
    module = tmp_path / "some.py"
    module.write_text(
        'def wish(days=21):\n    """35 days."""\n'
        '    return make(offset=-7) + 2 * 0.4 + int("14")\n',
        encoding="utf-8",
    )
    assert [(where, value) for where, value, _ in numbers(module)] == [
        ("wish", 21),
        ("wish", 7),
        ("wish", 0.4),
    ]
