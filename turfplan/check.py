"""An independent judge of a finished plan: reads the plan as a suspicious expert would.

It shares no code with the rules or the network, so that one mistake cannot hide another. Closed and cancelled tasks are
history and are not judged.
"""

import itertools
from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta

from turfplan.agronomy import Book
from turfplan.brief import WEEKDAYS, Brief
from turfplan.plan import Plan, Role, Task


def check_plan(plan: Plan, brief: Brief, book: Book) -> tuple[str, ...]:
    """Every fault found, as sentences; empty for a sound plan."""
    open_tasks = [t for t in plan.tasks if t.closed is None and t.status != "CANCELLED" and not t.overdue]
    found: list[str] = []
    judges: tuple[Callable[[Plan, Sequence[Task], Brief, Book], Iterator[str]], ...] = (
        _dates, _calendar, _order, _passes, _spacing, _seed, _starter, _bought, _watering, _feeding, _words,
    )  # fmt: skip
    for judge in judges:
        found += judge(plan, open_tasks, brief, book)
    return tuple(found)


def _dates(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    seen: set[str] = set()
    for task in plan.tasks:
        if task.id in seen:
            yield f"{task.id}: the id is used twice"
        seen.add(task.id)
        if task.end < task.start:
            yield f"{task.id}: ends {task.end} before it starts {task.start}"
    for task in tasks:
        if not task.window.start <= task.start <= task.window.end:
            yield f"{task.id}: starts {task.start}, outside its window {task.window.start} to {task.window.end}"
        if not plan.horizon.start <= task.start <= plan.horizon.end:
            yield f"{task.id}: {task.start} is outside the days of the plan"


def _calendar(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    days = brief.calendar.weekdays or ("sat", "sun")
    for task in tasks:
        if task.series is not None or task.held:
            continue
        allowed = (brief.delivery.allowed_weekdays or days) if task.plays("delivery") else days
        for day in (task.start, task.end):
            if WEEKDAYS[day.weekday()] not in allowed:
                yield f"{task.id}: {day} is a {WEEKDAYS[day.weekday()]}, not a day of work"
            if any(span.start <= day <= span.end for span in brief.calendar.unavailable):
                yield f"{task.id}: {day} is not available"


def _order(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    passes = _kind(tasks, "spreading")
    sowings = _kind(tasks, "sowing")
    every_mark = _kind(plan.tasks, "marking")
    for core in _kind(tasks, "coring"):
        if every_mark and not [m for m in every_mark if m.end < core.start]:
            yield f"{core.id}: tines on {core.start} without marks before them"
    for core in _kind(tasks, "coring"):
        later = [p for p in passes if p.start >= core.start]
        if passes and not later and not sowings:
            yield f"{core.id}: no pass follows"
        every_cut = _kind(plan.tasks, "low_cut")
        if every_cut and not [m for m in every_cut if m.start <= core.start]:
            yield f"{core.id}: not mown low before it"
    for thatch in _kind(tasks, "thatching"):
        cores = [c for c in _kind(tasks, "coring") if c.start >= thatch.start]
        if _kind(tasks, "coring") and not cores:
            yield f"{thatch.id}: after the aeration"
        if not [m for m in _kind(plan.tasks, "low_cut") if m.start <= thatch.start]:
            yield f"{thatch.id}: not mown low before it"
    for sowing in sowings:
        if [
            c
            for c in _kind(tasks, "coring")
            if c.start > sowing.start and (c.start - sowing.start).days < book.si("seeding.no_dressing")
        ]:
            yield f"{sowing.id}: the aeration tears up the seed"
        for cut in _kind(tasks, "first_cut"):
            least = book.fact(f"species.{_seed_species(book, brief)}.germination_days").low_si
            if (cut.start - sowing.end).days < least:
                yield f"{cut.id}: {cut.start} is before the seed of {sowing.end} can be up"
    for delivery in _kind(tasks, "delivery"):
        order = next((t for t in tasks if t.id == delivery.id.replace("delivery", "order_material")), None)
        if order is not None and order.start > delivery.start:
            yield f"{delivery.id}: delivered before it is ordered"


def _passes(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    every = [t for t in plan.tasks if t.plays("spreading") and t.closed != "dropped" and t.status != "CANCELLED"]
    most = book.si("passes.hard_cap")
    depths = [(t, amount.value) for t in every for amount in t.amounts if amount.item == "depth"]
    for task, depth in depths:
        if depth > most + 0.01:
            yield f"{task.id}: {depth:.1f} mm in one pass; {most:.1f} mm is the most"
    total = sum(depth for _, depth in depths)
    journal_changed = any(t.closed for t in every)
    if depths and not journal_changed and abs(total - plan.lawn.depth_mm) > 0.05:
        yield f"the passes add up to {total:.2f} mm, not to the {plan.lawn.depth_mm:.2f} mm asked for"


def _spacing(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    bare = brief.lawn.condition == "bare" or brief.seeding.intent == "renovate"
    least = round(book.si("passes.bare_interval" if bare else f"species.{brief.dominant.species}.pass_interval_min"))
    passes = sorted((t for t in plan.tasks if t.plays("spreading") and t.status != "CANCELLED"), key=lambda t: t.start)
    still_open = {task.id for task in tasks}
    for before, after in itertools.pairwise(passes):
        if after.id in still_open and (after.start - before.end).days < least:
            yield f"{after.id}: {(after.start - before.end).days} days after {before.id}; it needs {least}"


def _seed(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    for sowing in _kind(tasks, "sowing"):
        for layer in _kind(tasks, "spreading"):
            if sowing.end < layer.start < sowing.end + timedelta(days=book.si("seeding.no_dressing")):
                yield f"{layer.id}: spread over the seed of {sowing.end}"
        for span in brief.calendar.away:
            if (
                not sowing.plays("dormant")
                and span.start < sowing.end + timedelta(days=book.si("seeding.watering_commitment"))
                and span.end >= sowing.start
            ):
                yield f"{sowing.id}: nobody can water from {span.start} to {span.end}"
        if brief.water.possible is False and not sowing.plays("dormant"):
            yield f"{sowing.id}: there is no water for the seed"


def _starter(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    compost = any(part.item == "compost" for line in plan.order for part in line.parts)
    for task in tasks:
        if compost and task.plays("starter"):
            yield f"{task.id}: the mix holds compost, no starter is given"


def _bought(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    needed = sum(a.value for t in _kind(tasks, "spreading") for a in t.amounts if a.item == "volume")
    bought = sum(line.value for line in plan.order if line.item == "mix")
    done = any(t.closed for t in plan.tasks if t.plays("spreading", "delivery", "ordering"))
    if needed and not done and bought < needed - 1e-6:
        yield f"{bought:.2f} m3 are ordered and {needed:.2f} m3 are spread"
    for line in plan.order:
        if line.deliver_by < line.order_by:
            yield f"{line.item}: to be delivered before it is ordered"


def _watering(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    legal = brief.water.allowed_weekdays
    for task in tasks:
        if task.series is None:
            continue
        if not task.series.start <= task.series.end:
            yield f"{task.id}: the series ends before it starts"
        if legal and not brief.water.permit and not set(task.series.weekdays) <= set(legal):
            yield f"{task.id}: waters on days that are not allowed"
        if any(span.start <= day <= span.end for span in brief.water.banned for day in _series_days(task)):
            yield f"{task.id}: waters while watering is banned"


def _feeding(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    for task in _kind(tasks, "feeding"):
        for span in brief.local.nitrogen_blackouts or ():
            day = f"{task.start:%m-%d}"
            inside = span.start <= day <= span.end if span.start <= span.end else day >= span.start or day <= span.end
            if inside:
                yield f"{task.id}: fed on {task.start}, inside the blackout {span.start} to {span.end}"


def _words(plan: Plan, tasks: Sequence[Task], brief: Brief, book: Book) -> Iterator[str]:
    for task in tasks:
        if "{" in task.title or any("{" in line for line in task.how):
            yield f"{task.id}: a word is missing in {task.title!r}"
        if not task.why or not task.not_earlier or not task.not_later:
            yield f"{task.id}: a reason is missing"
        for amount in task.amounts:
            if not amount.reason:
                yield f"{task.id}: {amount.item} has no reason"


def _kind(tasks: Sequence[Task], role: Role) -> list[Task]:
    return [t for t in tasks if role in t.roles]


def _seed_species(book: Book, brief: Brief) -> str:
    if brief.seeding.species:
        return brief.seeding.species
    return book.winter_cover if brief.seeding.intent == "winter_overseed" else brief.dominant.species


def _series_days(task: Task) -> list[date]:
    series = task.series
    if series is None:
        return []
    count = (series.end - series.start).days + 1
    days = [series.start + timedelta(days=k) for k in range(count)]
    return [
        d for d in days if (not series.weekdays or WEEKDAYS[d.weekday()] in series.weekdays) and d not in series.skip
    ]
