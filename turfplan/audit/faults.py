"""What the judge can find wrong with a plan: closed kinds with the tasks and the values
concerned."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from turfplan.message import DateInYear
from turfplan.records.plan_task import Task

FaultKind = Literal[
    # days
    "id_used_twice",
    "ends_before_start",
    "outside_window",
    "outside_horizon",
    "not_a_work_day",
    "day_unavailable",
    "work_while_away",
    "work_on_holiday",
    "delivered_on_sunday",
    "office_closed",
    "machine_on_quiet_day",
    "day_too_full",
    # order of work
    "before_what_it_hangs_on",
    "filled_before_cause",
    "bared_before_permit",
    "digging_without_marks",
    "marks_run_out",
    "not_mown_low",
    "thatched_after_tines",
    "tines_without_pass",
    "lifted_after_pass",
    "fittings_after_pass",
    "moss_not_raked_out",
    "first_cut_too_early",
    # orders and deliveries
    "delivery_without_order",
    "delivered_before_ordered",
    "pass_before_delivery",
    "lifted_without_soil",
    "heap_too_old",
    "cut_too_old",
    "seed_off_its_pass",
    "line_delivered_before_ordered",
    "line_off_its_day",
    "line_without_task",
    "used_before_bought",
    "machine_not_reserved",
    "plants_ordered_late",
    "estimate_unsaid",
    "estimate_without_look",
    # depth and spacing
    "pass_too_deep",
    "depth_not_reached",
    "fill_not_covered",
    "filled_where_none_goes",
    "place_unnamed",
    "passes_too_close",
    # ground without living grass
    "turf_work_without_turf",
    "fed_before_roots",
    "sown_over_live_stand",
    "trees_untold",
    "bared_not_sown",
    "fill_lies_open",
    "slope_lies_open",
    "cover_not_bought",
    # seed and its cover
    "seed_torn_up",
    "dressed_over_seed",
    "seed_unwatched",
    "seed_without_water",
    "seed_uncovered",
    # each sowing in its own time
    "barred_over_seedlings",
    "barred_twice",
    "new_grass_trodden",
    "fed_before_mown",
    "woken_seed_dry",
    "woken_seed_unfed",
    "second_grass_uncut",
    "sown_though_refused",
    "second_grass_dry",
    "second_grass_unfed",
    "second_grass_fed_off_time",
    "second_grass_stays",
    "relaid_turf_dry",
    "relaid_turf_torn",
    # what the owner told of light, weed killers and causes
    "sown_in_the_dark",
    "sown_on_weed_killer",
    "sown_before_cause",
    "dressed_over_earlier_seed",
    "machine_unanswered",
    # care alone
    "work_not_asked",
    "care_instead_of_work",
    "thatch_unanswered",
    # starter and phosphorus
    "starter_with_compost",
    "compost_feeds_other_ground",
    "starter_without_seed",
    "phosphate_unasked",
    # what corrects the soil
    "lime_too_much_at_once",
    "limings_too_close",
    "limed_on_lime",
    "limed_above_goal",
    "too_sour_for_a_grass",
    "sulfur_too_much_at_once",
    # watering law
    "series_backwards",
    "watered_on_closed_day",
    "watered_at_closed_hour",
    "watered_while_banned",
    "watered_while_away",
    "young_dry_while_away",
    "watered_in_before_its_work",
    "plants_left_dry",
    "relaid_left_dry",
    "hose_beyond_the_day",
    "watered_faster_than_soaks",
    "machine_on_steep_slope",
    # nitrogen
    "fed_in_blackout",
    "nitrogen_too_much_at_once",
    "feedings_too_close",
    "nitrogen_too_much_in_year",
    "nitrogen_too_little_in_year",
    "fed_out_of_season",
    "fed_on_cold_ground",
    "plants_fed_too_soon",
    # values said
    "title_missing",
    "word_missing",
    "why_missing",
    "day_unexplained",
    "amount_unexplained",
    "amount_without_fact",
    "fact_unknown",
    # amounts that agree
    "amount_not_positive",
    "twin_differs",
    "total_differs",
    "depth_volume_differs",
    "weight_differs",
    "barrows_too_few",
    "seed_differs",
    "taken_for_other_ground",
    "sown_on_other_ground",
    "beyond_what_is_sown",
    "beyond_what_is_loosened",
    "product_holds_other",
    "load_differs",
    "mix_short",
    "goods_short",
    "parts_differ",
    "loads_differ",
    "load_over_limit",
]

FaultValue = str | int | float | date | DateInYear
# What a plan may be left with by what has happened since it was first made: marks that have run
# out, work that a repair does not repeat, waterings of seed that has moved, a load that was split
# by hand. The plan says so as a caution of the job; a re-plan is not refused for it. Every other
# fault is one of the program, in a first plan and in a later one.
LEFT_BY_EVENTS: frozenset[FaultKind] = frozenset(
    {
        "compost_feeds_other_ground",
        "young_dry_while_away",
        "day_too_full",
        "heap_too_old",
        "cut_too_old",
        "not_mown_low",
        "seed_off_its_pass",
        "before_what_it_hangs_on",
        "filled_before_cause",
        "bared_before_permit",
        "digging_without_marks",
        "marks_run_out",
        "lifted_after_pass",
        "fittings_after_pass",
        "sown_over_live_stand",
        "bared_not_sown",
        "fill_lies_open",
        "slope_lies_open",
        "cover_not_bought",
        "delivery_without_order",
        "line_delivered_before_ordered",
        "pass_before_delivery",
        "lifted_without_soil",
        "line_off_its_day",
        "used_before_bought",
        "machine_not_reserved",
        "plants_ordered_late",
        "seed_uncovered",
        "fed_before_mown",
        "woken_seed_dry",
        "woken_seed_unfed",
        "second_grass_uncut",
        "second_grass_dry",
        "second_grass_unfed",
        "second_grass_fed_off_time",
        "second_grass_stays",
        "relaid_turf_dry",
        "relaid_turf_torn",
        "starter_without_seed",
        "phosphate_unasked",
        "limings_too_close",
        "feedings_too_close",
        "nitrogen_too_much_at_once",
        "nitrogen_too_much_in_year",
        "nitrogen_too_little_in_year",
        "fed_out_of_season",
        "fed_on_cold_ground",
        "plants_fed_too_soon",
        "goods_short",
        "mix_short",
        "load_over_limit",
        "total_differs",
        "seed_differs",
        "taken_for_other_ground",
        "sown_on_other_ground",
        "beyond_what_is_sown",
        "beyond_what_is_loosened",
        "product_holds_other",
        "load_differs",
        "parts_differ",
        "loads_differ",
        "thatch_unanswered",
    }
)


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a plan: its kind, the ids of the tasks concerned, and the values that
    show it, in inside units."""

    kind: FaultKind
    tasks: tuple[str, ...] = ()
    values: Mapping[str, FaultValue] = field(default_factory=dict)


def fault(kind: FaultKind, *tasks: Task, **values: FaultValue) -> Fault:
    """A fault of some tasks, with the values that show it."""
    return Fault(kind, tuple(task.id for task in tasks), values)
