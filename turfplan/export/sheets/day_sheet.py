"""Writes the sheet of one day: its waterings and its jobs, in the pieces that a week is made of."""

from dataclasses import replace
from datetime import date

from turfplan.export.sheets.ground_sheets import pass_sheets
from turfplan.export.sheets.look import days_of, look_of, on_every_page, shown, task_days
from turfplan.export.sheets.watering_times import runs_of, water_row
from turfplan.export.sheets.week_days import day_parts, without_told
from turfplan.export.sheets.week_jobs import week_jobs
from turfplan.export.sheets.weeks import maps_of, protecting
from turfplan.export.templates import compiled, render, stylesheet
from turfplan.message import Day
from turfplan.messages import Words
from turfplan.records.plan import Plan

compiled("print/day.html.jinja", "print/week.html.jinja")


def day_html(plan: Plan, words: Words, day: date, paper: str | None = None) -> str:
    """The sheet of a day as a page that stands alone, with the maps of the passes that begin on it;
    `paper` is letter or a4."""
    tasks = [task for task in shown(plan.tasks) if day in task_days(task)]
    begun = [task for task in tasks if task.start == day]
    maps = maps_of(pass_sheets(plan, words), begun, day)
    water = [water_row(task, days_of(day), words) for task in tasks if task.series is not None]
    asked = [task for task in tasks if task.series is None]
    # What goes on from earlier days is told whole here, as if it began on this one.
    jobs = [
        replace(job, days=tuple(d for d in job.days if d >= day), continued=False)
        for job in week_jobs(plan, day, asked, words, maps, alone=True)
    ]
    numbers = protecting(plan, words)
    told: set[str] = set()
    parts = [without_told(part, told) for part in (day_parts(day, jobs, words) if jobs else ())]
    return render(
        "print/day.html.jinja",
        words,
        title=words.value(Day(day)),
        parts_of_day=parts,
        protect=sorted(
            {(numbers[text], text) for job in jobs if job.is_open for text in job.rules.protect}
        ),
        runs=runs_of(((row.task, "") for row in water), words),
        water_rules=tuple(dict.fromkeys(r.task.go.text for r in water if r.task.go is not None)),
        cautions=tuple(dict.fromkeys(c.text for row in water for c in row.task.cautions)),
        maps=tuple(maps.values()),
        week_css=stylesheet("week.css"),
        **on_every_page(plan, words, look_of(plan, paper)),
    )
