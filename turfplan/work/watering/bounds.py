"""What really bounds the waterings of a day, and how a plan says so."""

from typing import Literal, assert_never

from turfplan.message import Message, Number
from turfplan.phrases import watering as phrases

# The hours of the law, those in which somebody is at home, those of a day, what ground takes in.
Bound = Literal["law", "home", "day", "ground"]


def no_run_fits(bound: Bound, stage: Message) -> Message:
    """That no run of a stage fits."""
    match bound:
        case "law":
            return phrases.week_no_run_fits(stage=stage)
        case "home":
            return phrases.week_no_run_fits_home(stage=stage)
        case "day":
            return phrases.week_no_run_fits_day(stage=stage)
        case "ground":
            return phrases.week_no_run_fits_ground(stage=stage)
        case _:
            assert_never(bound)


# What is watered: fill without grass, seed and plants that are not rooted, grass.
Watered = Literal["fill", "young", "grass"]


def part_fits(bound: Bound, stage: Message, share: float, watered: Watered = "grass") -> Message:
    """That only a share of the water of a stage fits, and what can be done about it."""
    part = Number(share, "percent")
    if bound == "ground" and watered == "fill":
        return phrases.week_part_fits_ground_fill(stage=stage, share=part)
    if bound == "ground" and watered == "young":
        return phrases.week_part_fits_ground_young(stage=stage, share=part)
    match bound:
        case "law":
            return phrases.week_part_fits(stage=stage, share=part)
        case "home":
            return phrases.week_part_fits_home(stage=stage, share=part)
        case "day":
            return phrases.week_part_fits_day(stage=stage, share=part)
        case "ground":
            return phrases.week_part_fits_ground(stage=stage, share=part)
        case _:
            assert_never(bound)


def fewer_runs(bound: Bound, stage: Message, held: int, wished: int) -> Message:
    """That a day holds fewer, longer runs than are wished for."""
    match bound:
        case "law":
            return phrases.week_fewer_runs(stage=stage, held=held, wished=wished)
        case "home":
            return phrases.week_fewer_runs_home(stage=stage, held=held, wished=wished)
        case "day" | "ground":
            return phrases.week_fewer_runs_day(stage=stage, held=held, wished=wished)
        case _:
            assert_never(bound)
