"""Sound plans with one thing spoilt, for those who test the judge: one for each kind of fault."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from functools import cache, lru_cache
from typing import Any

from planning import EXAMPLES, brief_of, example, example_brief, plan_brief
from turfplan.app.inputs import input_of
from turfplan.audit import FaultKind
from turfplan.book.entries import Book
from turfplan.calendar_days import WEEKDAYS
from turfplan.message import Message, Number, as_written, listed
from turfplan.phrases import feeding as of_feeding
from turfplan.phrases import soil_findings, watering
from turfplan.records.brief import (
    Brief,
    EarlierSowing,
    HerbicideUse,
    LawnPart,
    LimeUse,
    NitrogenUse,
    Span,
    YearlySpan,
)
from turfplan.records.plan import OrderLine, OrderPart, Plan
from turfplan.records.plan_task import Amount, Task
from turfplan.units import us_twin


@dataclass(frozen=True)
class Made:
    """A plan with what it was made from."""

    plan: Plan
    brief: Brief
    book: Book

    def task(self, name: str) -> Task:
        """The task of that id; it must be there."""
        found = self.plan.task(name)
        assert found is not None, name
        return found

    def first(self, operation: str) -> Task:
        """The first task of an operation."""
        return next(task for task in self.plan.tasks if task.operation == operation)

    def to(self, name: str, **values: Any) -> "Made":
        """The plan with other values in one task."""
        self.task(name)
        tasks = (
            task.model_copy(update=values) if task.id == name else task for task in self.plan.tasks
        )
        return replace(self, plan=self.plan.model_copy(update={"tasks": tuple(tasks)}))

    def moved(self, name: str, day: date) -> "Made":
        """The plan with a task on another day, inside a window that reaches there."""
        task = self.task(name)
        window = task.window.model_copy(
            update={"start": min(task.window.start, day), "end": max(task.window.end, day)}
        )
        return self.to(name, start=day, end=day + (task.end - task.start), window=window)

    def shifted(self, name: str, days: int) -> "Made":
        """The plan with a task so many days later."""
        return self.moved(name, self.task(name).start + timedelta(days))

    def freed(self, *names: str) -> "Made":
        """The plan in which nothing hangs on these tasks any more."""
        tasks = (
            task.model_copy(
                update={"depends_on": tuple(n for n in task.depends_on if n not in names)}
            )
            for task in self.plan.tasks
        )
        return replace(self, plan=self.plan.model_copy(update={"tasks": tuple(tasks)}))

    def without(self, *names: str) -> "Made":
        """The plan without some tasks."""
        for name in names:
            self.task(name)
        tasks = tuple(task for task in self.plan.tasks if task.id not in names)
        return replace(self, plan=self.plan.model_copy(update={"tasks": tasks}))

    def more(self, *tasks: Task) -> "Made":
        """The plan with more tasks."""
        return replace(
            self, plan=self.plan.model_copy(update={"tasks": (*self.plan.tasks, *tasks)})
        )

    def amounts(self, name: str, **factors: float) -> "Made":
        """The plan with some amounts of a task times a factor, in both units; a `_` in their names
        stands for a space.
        """
        told = {item.replace("_", " "): factor for item, factor in factors.items()}
        told |= factors
        amounts = tuple(
            times(amount, told[amount.item]) if amount.item in told else amount
            for amount in self.task(name).amounts
        )
        assert amounts != self.task(name).amounts
        return self.to(name, amounts=amounts)

    def line(self, item: str, **values: Any) -> "Made":
        """The plan with other values in the lines of one item."""
        lines = tuple(
            line.model_copy(update=values) if line.item == item else line
            for line in self.plan.order
        )
        assert lines != self.plan.order
        return replace(self, plan=self.plan.model_copy(update={"order": lines}))

    def ordered(self, item: str) -> OrderLine:
        """The first line of an item."""
        return next(line for line in self.plan.order if line.item == item)

    def told(self, part: str, **values: Any) -> "Made":
        """The plan beside a brief with other values in one of its parts."""
        changed = getattr(self.brief, part).model_copy(update=values)
        return replace(self, brief=self.brief.model_copy(update={part: changed}))


def times(amount: Amount, factor: float) -> Amount:
    """An amount times a factor in both of its units."""
    return amount.model_copy(
        update={"value": amount.value * factor, "value_us": amount.value_us * factor}
    )


def made(name: str) -> Made:
    """The plan of an example."""
    brief = example_brief(name)
    return Made(example(name), brief, input_of(brief, EXAMPLES).book)


def starter() -> Made:
    """A plan with a starter: seed on a mix without compost."""
    brief = brief_of({"leveling": {"material": "topsoil_sand"}})
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


@lru_cache(maxsize=1)
def one_load() -> Made:
    """A plan with one pass and one load of mix."""
    brief = brief_of({"leveling": {"depth": "0.25 in"}})
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


SOUR = {"soil_test": {"on": date(2027, 1, 20), "ph": 5.2, "acidity_cmol_kg": 6.0}}
ALKALINE = {"soil_test": {"on": date(2027, 1, 20), "ph": 8.1, "free_lime": False}}


@cache
def corrected(*, sour: bool) -> Made:
    """A plan with lime in parts, or one with sulfur and iron."""
    brief = brief_of(SOUR if sour else ALKALINE)
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


BROKEN: dict[FaultKind, Callable[[], Made]] = {}


def breaks(kind: FaultKind) -> Callable[[Callable[[], Made]], Callable[[], Made]]:
    """Enters a broken plan under the fault that it has."""

    def enter(make: Callable[[], Made]) -> Callable[[], Made]:
        assert kind not in BROKEN, kind
        BROKEN[kind] = make
        return make

    return enter


@breaks("id_used_twice")
def _twice() -> Made:
    cool = made("cool-overseed")
    return cool.more(cool.task("soil_test"))


@breaks("ends_before_start")
def _backwards() -> Made:
    cool = made("cool-overseed")
    return cool.to("soil_test", end=cool.task("soil_test").start - timedelta(7))


@breaks("outside_window")
def _outside_window() -> Made:
    cool = made("cool-overseed")
    task = cool.task("soil_test")
    late = task.window.model_copy(
        update={"start": task.start + timedelta(1), "end": task.start + timedelta(9)}
    )
    return cool.to("soil_test", window=late)


@breaks("outside_horizon")
def _outside_horizon() -> Made:
    cool = made("cool-overseed")
    last = max(task.start for task in cool.plan.tasks)
    horizon = cool.plan.horizon.model_copy(update={"end": last - timedelta(1)})
    return replace(cool, plan=cool.plan.model_copy(update={"horizon": horizon}))


@breaks("not_a_work_day")
def _no_work_day() -> Made:
    british = made("british-metric")
    day = british.task("soil_test").start
    return british.moved("soil_test", day - timedelta(day.weekday()))


@breaks("delivered_on_sunday")
def _brought_on_sunday() -> Made:
    thin = one_load()
    day = thin.task("delivery.1").start
    sunday = day - timedelta((day.weekday() + 1) % 7)
    return thin.moved("delivery.1", sunday).line("mix", deliver_by=sunday)


@breaks("machine_unanswered")
def _machine_forgotten() -> Made:
    return made("bermuda-sand").told("work", machines=("roller",))


CARE: dict[str, Any] = {"leveling": None, "seeding": None, "lawn": {"thatch": "0.6 in"}}


@cache
def cared_for() -> Made:
    """A plan of care alone, with thatch to take down."""
    brief = brief_of(CARE)
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


@breaks("work_not_asked")
def _spread_unasked() -> Made:
    return cared_for().to("begin_mowing", roles=("mending",))


@breaks("care_instead_of_work")
def _care_for_seed() -> Made:
    return cared_for().told("seeding", intent="overseed")


@breaks("thatch_unanswered")
def _thatch_forgotten() -> Made:
    return cared_for().without("dethatch")


@breaks("day_unavailable")
def _unavailable() -> Made:
    cool = made("cool-overseed")
    day = cool.task("soil_test").start
    return cool.told("calendar", unavailable=(Span(start=day, end=day),))


@breaks("work_while_away")
def _nobody_at_work() -> Made:
    cool = made("cool-overseed")
    day = cool.task("soil_test").start
    return cool.told("calendar", away=(Span(start=day, end=day),))


@breaks("office_closed")
def _asked_on_saturday() -> Made:
    sand = made("bermuda-sand")
    day = sand.task("locate_utilities").start
    return sand.moved("locate_utilities", day - timedelta((day.weekday() - 5) % 7))


@breaks("work_on_holiday")
def _holiday_at_work() -> Made:
    cool = made("cool-overseed")
    assert cool.plan.holidays is not None
    days = (*cool.plan.holidays.days, cool.task("soil_test").start)
    kept = cool.plan.holidays.model_copy(update={"days": days})
    return replace(cool, plan=cool.plan.model_copy(update={"holidays": kept}))


@breaks("day_too_full")
def _too_much_for_a_day() -> Made:
    return made("cool-overseed").to("raise_fittings", person_hours=99.0)


@breaks("machine_on_quiet_day")
def _noise() -> Made:
    cool = made("cool-overseed")
    day = WEEKDAYS[cool.task("mow_low.1").start.weekday()]
    noisy = [t for t in cool.plan.tasks if cool.book.operations[t.operation].noisy]
    assert any(WEEKDAYS[t.start.weekday()] == day for t in noisy)
    return cool.told("local", quiet_days=(day,))


@breaks("machine_on_steep_slope")
def _tipping() -> Made:
    brief = brief_of({"leveling": {"depth": "0.25 in"}, "site": {"slope_percent": 12}})
    thin = Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)
    return thin.told("site", slope_percent=30.0)


@breaks("heap_too_old")
def _old_heap() -> Made:
    thin = one_load().freed("delivery.1", "soil_test")
    thin = thin.shifted("order_material.1", -28).shifted("delivery.1", -28)
    order, came = thin.task("order_material.1"), thin.task("delivery.1")
    return thin.line("mix", order_by=order.start, deliver_by=came.start)


@breaks("cut_too_old")
def _grown_again() -> Made:
    thin = one_load().freed("mow_low.1", "mow_low.2")
    for name in ("mow_low.1", "mow_low.2", "mow_low.3"):
        thin = thin.shifted(name, -14)
    return thin


@breaks("seed_off_its_pass")
def _seed_comes_late() -> Made:
    thin = one_load()
    return thin.to("overseed", end=thin.task("overseed").start + timedelta(7))


@breaks("watered_while_away")
def _nobody_waters() -> Made:
    sand = made("bermuda-sand")
    run = next(t for t in sand.plan.tasks if t.id.startswith("water.recover") and not t.closed)
    monday = run.start + timedelta(1) if run.start.weekday() >= 5 else run.start
    days = (monday, monday)
    assert not any(t.start in days and t.series is None for t in sand.plan.tasks)
    return sand.told("calendar", away=(Span(start=monday, end=monday),)).to(
        run.id,
        series=run.series.model_copy(update={"start": monday, "weekdays": ()}),  # type: ignore[union-attr]
    )


@breaks("hose_beyond_the_day")
def _hose_all_day() -> Made:
    sand = made("bermuda-sand")
    water = dict.fromkeys(("application_rate_mm_h", "head", "head_flow_l_min"))
    water |= {"catch_cans_mm": (), "zones": (), "flow_l_min": 20.0, "hours_per_day": 0.2}
    return sand.told("water", **water)


@breaks("watered_faster_than_soaks")
def _water_runs_off() -> Made:
    sand = made("bermuda-sand")
    run = next(t for t in sand.plan.tasks if t.series is not None and not t.closed)
    assert run.series is not None and run.stage is not None
    once = run.series.model_copy(update={"minutes": 240})
    return sand.to(
        run.id, series=once, stage=run.stage.model_copy(update={"cycles": 1, "rate_mm_h": 60.0})
    )


@breaks("before_what_it_hangs_on")
def _before_what_it_hangs_on() -> Made:
    return made("southern-hemisphere").shifted("inspect.colour", -140)


@breaks("filled_before_cause")
def _cause_late() -> Made:
    deep = made("deep-two-inches")
    late = min(t.start for t in deep.plan.tasks if t.plays("spreading")) - timedelta(7)
    return deep.freed("diagnose").moved("diagnose", late)


@breaks("bared_before_permit")
def _killed_unpermitted() -> Made:
    few = {"water": {"allowed_weekdays": ["tue", "sat"], "permit": True}}
    dead = of_changes({**few, "leveling": {"depth": None}, "seeding": {"intent": "renovate"}})
    day = dead.task("kill_stand").start
    return dead.freed("permit").moved("permit", day - timedelta(day.weekday()))


@breaks("digging_without_marks")
def _no_marks() -> Made:
    cool = made("cool-overseed")
    return cool.without(*(task.id for task in cool.plan.tasks if task.plays("marking")))


@breaks("marks_run_out")
def _old_marks() -> Made:
    return made("bermuda-sand").shifted("locate_utilities", -35)


@breaks("not_mown_low")
def _long_grass() -> Made:
    sand = made("bermuda-sand").freed("mow_low.1", "mow_low.2", "mow_low.3")
    for name in ("mow_low.1", "mow_low.2", "mow_low.3"):
        sand = sand.moved(name, sand.task("core_aerate.1").start + timedelta(7))
    return sand


@breaks("thatched_after_tines")
def _thatch_late() -> Made:
    arid = made("arid-bluegrass").freed("dethatch")
    core = arid.first("core_aerate")
    # Both on one week-end, the tines first.
    saturday = core.start - timedelta((core.start.weekday() - 5) % 7)
    arid = arid.to(core.id, depends_on=()).moved(core.id, saturday)
    return arid.moved("dethatch", saturday + timedelta(1))


@breaks("tines_without_pass")
def _holes_left_open() -> Made:
    sand = made("bermuda-sand").freed("core_aerate.1")
    last, marks = sand.task("topdress.2").start, sand.task("locate_utilities")
    sand = sand.more(marks.model_copy(update={"id": "late_marks"}))
    asked = last - timedelta(max(1, last.weekday() - 4 + 1))
    return sand.moved("late_marks", asked).moved("core_aerate.1", last + timedelta(7))


@breaks("lifted_after_pass")
def _lifted_late() -> Made:
    north = made("pacific-northwest")
    late = north.task("topdress.1").end + timedelta(7)
    wait = (late - north.task("lift_and_fill").start).days
    for run in north.plan.tasks:
        if run.stage is not None and run.stage.id in ("soak_relaid", "relaid"):
            north = north.shifted(run.id, wait)
    return north.moved("lift_and_fill", late)


@breaks("fittings_after_pass")
def _buried_fittings() -> Made:
    cool = made("cool-overseed")
    return cool.moved("raise_fittings", cool.task("topdress.1").start + timedelta(7))


@breaks("first_cut_too_early")
def _cut_too_early() -> Made:
    cool = made("cool-overseed").freed("inspect.germination", "mow_old")
    return cool.moved("first_mow", cool.task("overseed").start)


@breaks("moss_not_raked_out")
def _moss_left() -> Made:
    treated = {"moss": [{"on": date(2027, 2, 20)}]}
    brief = brief_of({"history": treated, "site": {"thin_cause": ["moss"]}})
    thin = Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)
    return thin.freed("rake_moss").without("rake_moss")


@breaks("delivery_without_order")
def _never_ordered() -> Made:
    return made("bermuda-sand").to("delivery.1", depends_on=())


@breaks("delivered_before_ordered")
def _ordered_late() -> Made:
    thin = one_load()
    day = thin.task("delivery.1").start
    return thin.moved("order_material.1", day).line("mix", order_by=day)


@breaks("pass_before_delivery")
def _delivered_late() -> Made:
    thin = one_load().freed("delivery.1")
    thin = thin.to("topdress.1", depends_on=("delivery.1",))
    day = thin.task("topdress.1").start - timedelta(1)
    return thin.moved("delivery.1", day).line("mix", deliver_by=day)


@breaks("lifted_without_soil")
def _nothing_to_fill_with() -> Made:
    north = made("pacific-northwest").freed("delivery.lifting").without("delivery.lifting")
    lines = tuple(line for line in north.plan.order if line.item != "topsoil")
    return replace(north, plan=north.plan.model_copy(update={"order": lines}))


@breaks("line_without_task")
def _nobody_fetches() -> Made:
    return made("cool-overseed").line("seed", tasks=())


@breaks("used_before_bought")
def _seed_after_sowing() -> Made:
    cool = made("cool-overseed").freed("collect.seed")
    return cool.moved("collect.seed", cool.task("overseed").start + timedelta(6))


@breaks("machine_not_reserved")
def _tines_not_reserved() -> Made:
    cool = made("cool-overseed")
    calls = [task.id for task in cool.plan.tasks if task.plays("calling")]
    cool = cool.freed(*calls).without(*calls)
    lines = tuple(line for line in cool.plan.order if line.item != "machine")
    return replace(cool, plan=cool.plan.model_copy(update={"order": lines}))


@breaks("plants_ordered_late")
def _plugs_ordered_late() -> Made:
    plugs = made("st-augustine-plugs")
    came = plugs.task("delivery.plugs").start
    days = timedelta((came.weekday() - 4) % 7 or 7)
    late = plugs.moved("order_material.plugs", came - days)
    return late.line("plugs", order_by=came - days)


@breaks("estimate_unsaid")
def _order_as_if_sure() -> Made:
    return made("cool-overseed").line("fertilizer", estimate=None)


@breaks("estimate_without_look")
def _order_that_nobody_looks_into() -> Made:
    return made("cool-overseed").without("inspect.depth")


@breaks("line_delivered_before_ordered")
def _seed_ordered_late() -> Made:
    cool = made("cool-overseed")
    return cool.line("seed", order_by=cool.ordered("seed").deliver_by + timedelta(1))


@breaks("line_off_its_day")
def _line_off() -> Made:
    thin = one_load()
    return thin.line("mix", deliver_by=thin.ordered("mix").deliver_by + timedelta(1))


@breaks("pass_too_deep")
def _too_deep() -> Made:
    return made("cool-overseed").amounts("touch_up", depth=5.0)


@breaks("depth_not_reached")
def _not_reached() -> Made:
    cool = made("cool-overseed")
    lawn = cool.plan.lawn.model_copy(update={"depth_mm": cool.plan.lawn.depth_mm + 1.0})
    return replace(cool, plan=cool.plan.model_copy(update={"lawn": lawn}))


@breaks("fill_not_covered")
def _not_covered() -> Made:
    cool = made("cool-overseed")
    asked = {"depth": "0.5 in", "lows": [{"depth": "4 in", "share": 0.3}]}
    leveling = type(cool.brief.leveling).model_validate(asked)
    return replace(cool, brief=cool.brief.model_copy(update={"leveling": leveling}))


def with_a_septic_field() -> Made:
    """A lawn of two depths around a septic field."""
    return of_changes(
        {
            "lawn": {
                "area": None,
                "shape": [rectangle("front", "0.25 in"), rectangle("creek side", "1 in")],
                "part": [{"kind": "septic_field", "share": 0.15}],
            },
            "leveling": {"depth": None},
            "seeding": {"intent": "none"},
        }
    )


def rectangle(name: str, depth: str) -> dict[str, str]:
    """A zone of 3,000 square feet."""
    size = {"kind": "rectangle", "length": "60 ft", "width": "50 ft"}
    return {**size, "name": name, "depth": depth}


@breaks("filled_where_none_goes")
def _septic_filled() -> Made:
    larger = LawnPart(kind="septic_field", share=0.5)
    sound = with_a_septic_field()
    lawn = sound.brief.lawn.model_copy(update={"part": (larger,)})
    return replace(sound, brief=sound.brief.model_copy(update={"lawn": lawn}))


@breaks("place_unnamed")
def _nowhere() -> Made:
    drawn = with_a_septic_field()
    return drawn.to("incorporate.2", title=drawn.task("incorporate.1").title)


@breaks("passes_too_close")
def _too_close() -> Made:
    sand = made("bermuda-sand").freed("mow.2", "call.2", "delivery.2", "dry_material.2")
    # That Saturday is a holiday.
    sand = sand.told("calendar", holidays="work")
    day = sand.task("topdress.1").start + timedelta(7)
    # Its load comes as early, and is ordered so: no heap is told to be old.
    came, comes = sand.task("delivery.2").start, day - timedelta(1)
    lines = tuple(
        line.model_copy(update={"deliver_by": comes}) if line.deliver_by == came else line
        for line in sand.plan.order
    )
    sand = replace(sand, plan=sand.plan.model_copy(update={"order": lines}))
    return sand.moved("delivery.2", comes).moved("topdress.2", day)


BARE_GROUND = {
    "lawn": {"condition": "bare"},
    "leveling": {"depth": "1 in"},
    "seeding": {"intent": "renovate"},
}


def of_changes(changes: Mapping[str, Any]) -> Made:
    """The plan of the plain brief with changes."""
    brief = brief_of(changes)
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


@breaks("turf_work_without_turf")
def _mown_bare() -> Made:
    """Bare ground is mown low before it is filled."""
    sound, turf = of_changes(BARE_GROUND), made("cool-overseed")
    cut = turf.first("mow_low").model_copy(update={"depends_on": (), "id": "mow_low.9"})
    return sound.more(cut).moved("mow_low.9", sound.first("fill").start)


@breaks("fed_before_roots")
def _fed_bare() -> Made:
    """Bare ground is fed months before it is sown."""
    sound = of_changes(BARE_GROUND)
    fed = sound.first("feed_nitrogen").id
    return sound.to(fed, depends_on=()).moved(fed, sound.first("soil_test").start)


@breaks("sown_over_live_stand")
def _never_killed() -> Made:
    """A lawn that was to be made anew is sown as it stands."""
    sound = of_changes({"leveling": {"depth": "0 in"}, "seeding": {"intent": "renovate"}})
    gone = tuple(task.id for task in sound.plan.tasks if task.operation == "kill_stand")
    return sound.freed(*gone).without(*gone)


@breaks("sown_though_refused")
def _refused_and_sown() -> Made:
    """Seed goes in under a head that says that nothing is sown on this rain."""
    sound = made("cool-overseed")
    grass = as_written("tall fescue")
    refusal = watering.verdict_rain_doubtful(grass=grass)
    cautions = (*sound.plan.cautions, refusal)
    return replace(sound, plan=sound.plan.model_copy(update={"cautions": cautions}))


@breaks("trees_untold")
def _roots_forgotten() -> Made:
    """Turf is lifted beside trees, and nobody says so."""
    lows = {"depth": None, "lows": [{"depth": "2 in", "share": 0.05}]}
    sound = of_changes({"leveling": lows, "site": {"trees": True}})
    return sound.to("lift_and_fill", cautions=())


@breaks("bared_not_sown")
def _half_sown() -> Made:
    """More of a lawn is killed than is sown again."""
    brief = brief_of(
        {
            "lawn": {"part": [{"kind": "shade", "share": 0.2, "sun_hours": 1}]},
            "leveling": {"depth": "0 in"},
            "seeding": {"intent": "renovate"},
        }
    )
    sound = Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)
    return everywhere(sound, "kill_stand")


@breaks("cover_not_bought")
def _unbought_mat() -> Made:
    """The fill of a bank waits under a cover that nobody has bought."""
    bank = {**BARE_GROUND, "seeding": {"intent": "none"}, "site": {"slope_percent": 18}}
    sound = of_changes(bank)
    return sound.to("nurse_cover", amounts=())


@breaks("fill_lies_open")
def _uncovered_fill() -> Made:
    """Bare ground is filled, and nothing is sown or spread over it."""
    return of_changes({**BARE_GROUND, "seeding": {"intent": "none"}}).without("nurse_cover")


@breaks("slope_lies_open")
def _open_slope() -> Made:
    """The fill on a slope waits for its seed without a cover."""
    return of_changes({**BARE_GROUND, "site": {"slope_percent": 12}}).without("nurse_cover")


@breaks("seed_torn_up")
def _torn_up() -> Made:
    cool = made("cool-overseed")
    sown = cool.task("overseed").start
    mark = cool.first("locate_utilities").model_copy(update={"id": "late_marks"})
    core = cool.first("core_aerate").model_copy(update={"id": "late_tines", "depends_on": ()})
    return (
        cool.more(mark, core)
        .moved("late_marks", sown + timedelta(8))
        .moved("late_tines", sown + timedelta(14))
    )


@breaks("dressed_over_seed")
def _buried_seed() -> Made:
    cool = made("cool-overseed").freed("settle_check", "first_mow")
    return cool.moved("touch_up", cool.task("overseed").start + timedelta(28))


@breaks("sown_in_the_dark")
def _dark() -> Made:
    return made("cool-overseed").told("site", sun_hours=3.0)


@breaks("sown_on_weed_killer")
def _poisoned() -> Made:
    cool = made("cool-overseed")
    use = HerbicideUse(active_ingredient="prometon", on=cool.task("overseed").start)
    return cool.told("history", herbicides=(use,))


@breaks("sown_before_cause")
def _cause_unknown() -> Made:
    brief = brief_of({"site": {"thin_cause": "grubs"}, "leveling": {"depth": "0 in"}})
    thin = Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)
    late = thin.task("overseed").start - timedelta(7)
    return thin.freed("diagnose.grubs").moved("diagnose.grubs", late)


@breaks("dressed_over_earlier_seed")
def _over_seedlings() -> Made:
    cool = made("cool-overseed")
    sown = cool.task("topdress.1").start - timedelta(20)
    return cool.told("history", sowings=(EarlierSowing(on=sown),))


@breaks("seed_unwatched")
def _nobody_there() -> Made:
    cool = made("cool-overseed").freed("mow_old").without("mow_old")
    day = cool.task("overseed").end + timedelta(5)
    away = cool.told("calendar", away=(Span(start=day, end=day + timedelta(7)),))
    # Somebody stands in for all that is watered: of the seed that is no excuse.
    for run in cool.plan.tasks:
        if run.stage is not None:
            away = away.to(run.id, stage=run.stage.model_copy(update={"stand_in": True}))
    return away


@breaks("young_dry_while_away")
def _nobody_stands_in() -> Made:
    sown = plan_brief(brief_of()).task("overseed")
    assert sown is not None
    first = sown.end + timedelta(24)
    span = {"from": first.isoformat(), "to": (first + timedelta(3)).isoformat()}
    brief = brief_of({"calendar": {"away": [span]}})
    away = Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)
    stand_ins = [t.id for t in away.plan.tasks if t.stage is not None and t.stage.stand_in]
    assert stand_ins
    return away.without(*stand_ins)


@breaks("seed_without_water")
def _dry() -> Made:
    return made("arid-bluegrass").told("water", possible=False)


@breaks("seed_uncovered")
def _uncovered() -> Made:
    return made("transition-fescue").without("cover")


@breaks("compost_feeds_other_ground")
def _seed_left_to_compost_of_hollows() -> Made:
    few = {"leveling": {"depth": None, "lows": [{"depth": "0.5 in", "share": 0.1}]}}
    sound = of_changes(few)
    said = (*sound.plan.campaign_reason, of_feeding.starter_compost_feeds())
    return replace(sound, plan=sound.plan.model_copy(update={"campaign_reason": said}))


@breaks("starter_with_compost")
def _starter_on_compost() -> Made:
    plain = starter()
    line = plain.ordered("seed")
    part = OrderPart(
        item="compost",
        value=line.value,
        unit=line.unit,
        value_us=line.value_us,
        unit_us=line.unit_us,
        share=1.0,
    )
    compost = line.model_copy(update={"item": "compost", "parts": (part,)})
    return replace(
        plain, plan=plain.plan.model_copy(update={"order": (*plain.plan.order, compost)})
    )


@breaks("starter_without_seed")
def _starter_early() -> Made:
    plain = starter()
    return plain.shifted("starter_feed", 7)


@breaks("phosphate_unasked")
def _phosphate() -> Made:
    sand = made("bermuda-sand")
    feed = sand.first("feed_nitrogen")
    more = Amount.of("phosphate", 2.0, "g/m2", "It comes along.", ("feeding.phosphate_low",))
    return sand.to(feed.id, amounts=(*feed.amounts, more))


@breaks("series_backwards")
def _series_backwards() -> Made:
    sand = made("bermuda-sand")
    water = sand.first("water")
    assert water.series is not None
    series = water.series.model_copy(update={"end": water.series.start - timedelta(1)})
    return sand.to(water.id, series=series)


@breaks("watered_on_closed_day")
def _closed_day() -> Made:
    return made("bermuda-sand").told("water", allowed_weekdays=("mon",))


@breaks("watered_at_closed_hour")
def _closed_hour() -> Made:
    return made("bermuda-sand").told("water", allowed_hours=("12:00-12:05",))


@breaks("watered_in_before_its_work")
def _before_its_work() -> Made:
    """The mix is spread in the forenoon, and its settling water runs at six in the morning."""
    sand = made("bermuda-sand")
    run = next(t for t in sand.plan.tasks if t.stage is not None and t.stage.id == "settle")
    assert run.series is not None
    return sand.to(run.id, series=run.series.model_copy(update={"start_time": time(6)}))


@breaks("plants_left_dry")
def _dry_plants() -> Made:
    """Nothing is said of water behind the planting, and the day's run comes in the evening."""
    plugs = made("st-augustine-plugs")
    plant = plugs.first("plant")
    kept = tuple(s for s in plant.how if getattr(s, "key", "") != "wet_at_once.behind")
    return plugs.to(plant.id, how=kept)


@breaks("relaid_left_dry")
def _dry_relaid() -> Made:
    """Turf is lifted where two days a week are open to watering and no permit is asked for."""
    north = made("pacific-northwest")
    north = north.without(*(t.id for t in north.plan.tasks if t.operation == "water"))
    return north.told("water", allowed_weekdays=("wed", "sat"), permit=False)


@breaks("watered_while_banned")
def _banned() -> Made:
    sand = made("bermuda-sand")
    day = sand.first("water").start
    return sand.told("water", banned=(Span(start=day, end=day),))


@breaks("fed_in_blackout")
def _blackout() -> Made:
    sand = made("bermuda-sand")
    day = f"{sand.first('feed_nitrogen').start:%m-%d}"
    return sand.told("local", nitrogen_blackouts=(YearlySpan(start=day, end=day),))


@breaks("nitrogen_too_much_at_once")
def _at_once() -> Made:
    return made("bermuda-sand").amounts("feed_nitrogen.spring", nitrogen=1.2, nitrogen_total=1.2)


@breaks("feedings_too_close")
def _fed_just_before() -> Made:
    sand = made("bermuda-sand")
    use = NitrogenUse.model_validate(
        {"rate": "2 g/m2", "on": sand.first("feed_nitrogen").start - timedelta(7)}
    )
    return sand.told("history", nitrogen=(use,))


@breaks("nitrogen_too_little_in_year")
def _starved() -> Made:
    sand = made("bermuda-sand")
    fed = tuple(task for task in sand.plan.tasks if task.operation != "feed_nitrogen")
    return replace(sand, plan=sand.plan.model_copy(update={"tasks": fed}))


@breaks("fed_out_of_season")
def _no_season() -> Made:
    sand = made("bermuda-sand")
    others = tuple(w for w in sand.plan.windows if w.operation != "feed_nitrogen")
    return replace(sand, plan=sand.plan.model_copy(update={"windows": others}))


@breaks("fed_on_cold_ground")
def _frozen() -> Made:
    sand = made("bermuda-sand")
    climate = sand.plan.climate
    cold = climate.model_copy(update={"soil_10cm_c": (0.0,) * len(climate.soil_10cm_c)})
    return replace(sand, plan=sand.plan.model_copy(update={"climate": cold}))


@breaks("plants_fed_too_soon")
def _fed_on_planting_day() -> Made:
    plugs, name = made("st-augustine-plugs"), "feed_nitrogen.planted"
    return plugs.freed(name, "first_mow").moved(name, plugs.first("plant").end)


@breaks("nitrogen_too_much_in_year")
def _fed_all_year() -> Made:
    sand = made("bermuda-sand")
    use = NitrogenUse.model_validate(
        {"rate": "25 g/m2", "on": sand.plan.horizon.start - timedelta(90)}
    )
    return sand.told("history", nitrogen=(use,))


@breaks("title_missing")
def _untitled() -> Made:
    return made("cool-overseed").to("soil_test", title=" ")


@breaks("word_missing")
def _brace() -> Made:
    return made("cool-overseed").to("soil_test", how=("Sow {grass}.",))


@breaks("why_missing")
def _why() -> Made:
    return made("cool-overseed").to("soil_test", why="")


@breaks("day_unexplained")
def _unexplained() -> Made:
    return made("cool-overseed").to("soil_test", not_later=())


@breaks("amount_unexplained")
def _amount_unexplained() -> Made:
    cool = made("cool-overseed")
    first, *rest = cool.task("topdress.1").amounts
    return cool.to("topdress.1", amounts=(first.model_copy(update={"reason": ""}), *rest))


@breaks("amount_without_fact")
def _amount_without_fact() -> Made:
    cool = made("cool-overseed")
    first, *rest = cool.task("topdress.1").amounts
    return cool.to("topdress.1", amounts=(first.model_copy(update={"facts": ()}), *rest))


@breaks("fact_unknown")
def _fact_unknown() -> Made:
    return made("cool-overseed").to("soil_test", facts=("no.such_fact",))


@breaks("amount_not_positive")
def _nothing() -> Made:
    sand = made("bermuda-sand")
    return sand.amounts(sand.first("water").id, water=0.0)


@breaks("twin_differs")
def _twin() -> Made:
    sand = made("bermuda-sand")
    water = sand.first("water")
    amount = water.amounts[0]
    return sand.to(
        water.id, amounts=(amount.model_copy(update={"value_us": amount.value_us * 1.01}),)
    )


@breaks("total_differs")
def _total() -> Made:
    return made("bermuda-sand").amounts("feed_nitrogen.spring", nitrogen_total=1.1)


@breaks("depth_volume_differs")
def _volume() -> Made:
    cool = made("cool-overseed")
    return cool.amounts("topdress.1", volume=0.75, weight=0.75, barrow_loads=25 / 33)


@breaks("weight_differs")
def _weight() -> Made:
    return made("cool-overseed").amounts("topdress.1", weight=1.1)


@breaks("barrows_too_few")
def _barrows() -> Made:
    return made("cool-overseed").amounts("topdress.1", barrow_loads=32 / 33)


@breaks("seed_differs")
def _seed() -> Made:
    return made("cool-overseed").amounts("overseed", seed_held_back=2.0)


@breaks("taken_for_other_ground")
def _straw() -> Made:
    return made("transition-fescue").amounts("cover", straw=0.5)


@breaks("sown_on_other_ground")
def _seed_for_a_part() -> Made:
    return everywhere(beside_septic(), "overseed")


def parted(intent: str, part: dict[str, Any]) -> Made:
    """A plan on a slope, of which a fifth is left unsown."""
    ground = {"part": [{"area": "1000 ft2", **part}], "soil": "loam"}
    lawn = {"lawn": ground, "site": {"slope_percent": 12}}
    test = {"on": date(2027, 1, 20), "phosphorus": "low", "potassium": "low"}
    mix = {"leveling": {"material": "topsoil_sand"}, "soil_test": test}
    brief = brief_of(lawn, mix, {"seeding": {"intent": intent}})
    return Made(plan_brief(brief), brief, input_of(brief, EXAMPLES).book)


@cache
def beside_septic() -> Made:
    """An overseeding that leaves the septic field out."""
    return parted("overseed", {"kind": "septic_field"})


def everywhere(sound: Made, name: str) -> Made:
    """The plan in which a task no longer says that it is for a part."""
    return sound.to(name, how=sound.task(name).how[1:])


@breaks("beyond_what_is_sown")
def _rolled_all_over() -> Made:
    return everywhere(beside_septic(), "roll")


@breaks("beyond_what_is_loosened")
def _fill_on_all() -> Made:
    return everywhere(parted("renovate", {"kind": "shade", "sun_hours": 2}), "fill.1")


@breaks("product_holds_other")
def _need_for_product() -> Made:
    septic = beside_septic()
    line = septic.ordered("phosphate")
    return septic.line("phosphate", value=line.value * 1.5, value_us=line.value_us * 1.5)


@breaks("load_differs")
def _load() -> Made:
    return made("cool-overseed").amounts("delivery.1", volume=1.1)


@breaks("mix_short")
def _mix_short() -> Made:
    thin = one_load()
    line = thin.ordered("mix")
    half = {"value": line.value / 2, "value_us": line.value_us / 2}
    parts = tuple(
        p.model_copy(update={"value": p.value / 2, "value_us": p.value_us / 2}) for p in line.parts
    )
    thin = thin.line("mix", **half, parts=parts, loads=tuple(load / 2 for load in line.loads))
    return thin.amounts("delivery.1", volume=0.5).amounts("order_material.1", volume=0.5)


@breaks("goods_short")
def _seed_short() -> Made:
    cool = made("cool-overseed")
    line = cool.ordered("seed")
    return cool.line("seed", value=line.value / 2, value_us=line.value_us / 2)


@breaks("parts_differ")
def _parts() -> Made:
    sand = made("bermuda-sand")
    (part,) = sand.ordered("mix").parts
    value_us, _ = us_twin(part.value * 0.9, part.unit)
    return sand.line(
        "mix", parts=(part.model_copy(update={"value": part.value * 0.9, "value_us": value_us}),)
    )


@breaks("loads_differ")
def _loads() -> Made:
    sand = made("bermuda-sand")
    return sand.line("mix", loads=(0.5,))


@breaks("load_over_limit")
def _over_limit() -> Made:
    return made("bermuda-sand").told("delivery", truck_limit_m3=1.0)


@breaks("lime_too_much_at_once")
def _lime_at_once() -> Made:
    made_sour = corrected(sour=True)
    lime = {amount.item: times(amount, 2) for amount in made_sour.task("lime.1").amounts}
    bought = [
        line.model_copy(update={"value": line.value * 2, "value_us": line.value_us * 2})
        if line.item == "lime"
        else line
        for line in made_sour.plan.order
    ]
    plan = made_sour.plan.model_copy(update={"order": tuple(bought)})
    return replace(made_sour, plan=plan).to("lime.1", amounts=tuple(lime.values()))


@breaks("limings_too_close")
def _lime_close() -> Made:
    limed = corrected(sour=True)
    last = limed.task("lime.1").start - timedelta(60)
    return limed.told("history", lime=(LimeUse(rate="20 lb/1000ft2", on=last),))


@breaks("limed_on_lime")
def _lime_on_lime() -> Made:
    return corrected(sour=False).told("soil_test", free_lime=True)


@breaks("limed_above_goal")
def _lime_above() -> Made:
    return corrected(sour=True).told("soil_test", ph=6.8)


@breaks("too_sour_for_a_grass")
def _sour_for_the_second() -> Made:
    case = corrected(sour=True).told("soil_test", ph=5.2)
    return replace(case, plan=case.plan.model_copy(update={"assumptions": (_let_be(),)}))


def _let_be() -> Message:
    return soil_findings.ph_right(
        ph=Number(5.2, "plain"), goal=Number(5.2, "plain"), grass=listed(["grass"])
    )


@breaks("sulfur_too_much_at_once")
def _sulfur() -> Made:
    high = corrected(sour=False)
    more = tuple(times(amount, 1.2) for amount in high.task("amend.sulfur.1").amounts)
    bought = [
        line.model_copy(update={"value": line.value * 1.2, "value_us": line.value_us * 1.2})
        if line.item == "sulfur"
        else line
        for line in high.plan.order
    ]
    plan = high.plan.model_copy(update={"order": tuple(bought)})
    return replace(high, plan=plan).to("amend.sulfur.1", amounts=more)


DORMANT: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass"},
    "place": {"postal_code": "55406"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "dormant"},
    "season": {"from": date(2027, 10, 1)},
}
WINTER_GREEN: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "winter_overseed"},
}


def _without(sound: Made, *operations: str) -> Made:
    """A plan without every task of some operations."""
    names = [task.id for task in sound.plan.tasks if task.operation in operations]
    assert names
    return sound.freed(*names).without(*names)


@breaks("barred_over_seedlings")
def _barred() -> Made:
    """A preventer goes on in the spring in which the seed wakes."""
    sound, name = of_changes(DORMANT), "preemergent"
    laid = made("pacific-northwest").first(name).model_copy(update={"depends_on": ()})
    return sound.more(laid).moved(name, sound.task("first_mow").start + timedelta(7))


@breaks("barred_twice")
def _barred_twice() -> Made:
    """The history has a preventer a week before the plan's own."""
    sound = made("pacific-northwest")
    day = sound.first("preemergent").start - timedelta(7)
    past = HerbicideUse(active_ingredient="pendimethalin", on=day)
    return sound.told("history", herbicides=(past,))


@breaks("new_grass_trodden")
def _trodden() -> Made:
    cool = made("cool-overseed")
    how = cool.task("overseed").how[:-1]
    return cool.to("overseed", how=how)


@breaks("fed_before_mown")
def _fed_before_mown() -> Made:
    cool = made("cool-overseed")
    fed = next(t for t in cool.plan.tasks if t.id == "feed_nitrogen.seedlings")
    sound = cool.freed(fed.id, "first_mow")
    return sound.moved(fed.id, cool.task("first_mow").start - timedelta(7))


@breaks("woken_seed_dry")
def _woken_dry() -> Made:
    return _without(of_changes(DORMANT), "water")


@breaks("woken_seed_unfed")
def _woken_unfed() -> Made:
    return _without(of_changes(DORMANT), "starter_feed")


@breaks("second_grass_uncut")
def _second_uncut() -> Made:
    return _without(of_changes(WINTER_GREEN), "mow_low")


@breaks("second_grass_unfed")
def _second_unfed() -> Made:
    """What the ryegrass was to have is given before it is sown."""
    sound = of_changes(WINTER_GREEN)
    sown = sound.task("overseed").start
    all_fed = [t.id for t in sound.plan.tasks if t.id.startswith("feed_nitrogen.rye")]
    # Two find room between the grass below's own feedings and the seed.
    fed = all_fed[:2]
    early = sound.freed(*all_fed, "overseed", "first_mow").without(*all_fed[2:])
    for weeks, name in enumerate(fed):
        early = early.moved(name, sown - timedelta(14 + 28 * weeks))
    return early


@breaks("second_grass_stays")
def _second_stays() -> Made:
    return _without(of_changes(WINTER_GREEN), "spring_transition")


@breaks("second_grass_dry")
def _second_dry() -> Made:
    """The ryegrass is kept moist until it is up, and left to itself before its first cut."""
    sound = of_changes(WINTER_GREEN)
    runs = [t for t in sound.plan.tasks if t.stage is not None and t.stage.id == "establishment"]
    names = [t.id for t in runs]
    assert names
    return sound.freed(*names).without(*names)


@breaks("second_grass_fed_off_time")
def _second_fed_early() -> Made:
    """All of its food comes two weeks early, on seedlings."""
    sound = of_changes(WINTER_GREEN).freed("first_mow")
    for task in sound.plan.tasks:
        if task.id.startswith("feed_nitrogen.rye"):
            sound = sound.shifted(task.id, -14)
    return sound


@breaks("relaid_turf_torn")
def _relaid_torn() -> Made:
    """The low cut before the pass names no place, and comes a week after turf was relaid."""
    north = made("pacific-northwest")
    cut = north.task("mow_low.1")
    north = north.freed("lift_and_fill").to(cut.id, title=as_written("Mow low"))
    return north.moved(cut.id, north.task("lift_and_fill").end + timedelta(6))


@breaks("relaid_turf_dry")
def _relaid_dry() -> Made:
    """Turf over filled hollows is soaked once and then forgotten."""
    north = made("pacific-northwest")
    runs = [t for t in north.plan.tasks if t.stage is not None and t.stage.id == "relaid"]
    names = [t.id for t in runs]
    assert names
    return north.freed(*names).without(*names)
