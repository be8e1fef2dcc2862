"""Worked scheduling examples from the literature."""

import network_problems as make
from turfplan.network import Schedule, solve
from turfplan.records.constraints import Node

DURATIONS = {"A": 6, "B": 2, "C": 2, "D": 3, "F": 2, "E": 4, "G": 1}
FOLLOWS = {"B": "A", "C": "A", "D": "B", "F": "C", "E": "DF", "G": "E"}


def critical_path_case(last_day: int) -> Schedule:
    """Start days of the activities, and the end of the last."""
    lags = [make.lag(b, a, DURATIONS[b]) for a, befores in FOLLOWS.items() for b in befores]
    names = [*DURATIONS, "end"]
    case = make.problem(
        [Node(name, 1) for name in names],
        [*lags, make.lag("G", "end", DURATIONS["G"])],
        0,
        last_day,
    )
    got = solve(case)
    assert isinstance(got, Schedule)
    return got


def test_critical_path_textbook_case() -> None:
    """Duration 16 over A-B-D-E-G: the critical-path exercise with activities A6 B2 C2 D3 F2 E4 G1
    of project-management textbooks (values from memory); the durations along the path add up to it.
    """
    got = critical_path_case(100)
    assert got.days["end"] == 16
    chain = got.not_earlier("end")
    assert [link.other for link in chain if link.kind == "lag"] == ["G", "E", "D", "B", "A"]
    assert chain[-1].kind == "horizon"
    assert sum(DURATIONS[name] for name in "ABDEG") == 16


def test_critical_path_slack() -> None:
    """Held to its shortest duration, only C and F have slack: one day each."""
    got = critical_path_case(16)
    slack = {name: got.latest[name] - got.earliest[name] for name in DURATIONS}
    assert slack == {"A": 0, "B": 0, "C": 1, "D": 0, "E": 0, "F": 1, "G": 0}


def test_commuting_example_of_dechter_meiri_and_pearl() -> None:
    """First and last times of the minimal network of the commuting example: R. Dechter, I. Meiri &
    J. Pearl, "Temporal constraint networks", Artificial Intelligence 49 (1991) 61-95, the simple
    temporal problem of John driving and Fred in a car pool; minutes after 7:00.
    """
    names = ["x0", "x1", "x2", "x3", "x4"]
    case = make.problem(
        [Node(name, 1) for name in names],
        [
            make.allowed("x0", (0, 0)),
            make.lag("x0", "x1", 10, 20),
            make.lag("x1", "x2", 30, 40),
            make.lag("x2", "x3", -20, -10),
            make.lag("x3", "x4", 40, 50),
            make.lag("x0", "x4", 60, 70),
        ],
        0,
        1000,
    )
    got = solve(case)
    assert isinstance(got, Schedule)
    assert {name: (got.earliest[name], got.latest[name]) for name in names} == {
        "x0": (0, 0),
        "x1": (10, 20),
        "x2": (40, 50),
        "x3": (20, 30),
        "x4": (60, 70),
    }
    assert dict(got.days) == {"x0": 0, "x1": 10, "x2": 40, "x3": 20, "x4": 60}
