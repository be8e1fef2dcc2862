"""What holds on the weeks of every lawn: one box each, signs above steps, plain, short words."""

import re
from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from functools import lru_cache
from html.parser import HTMLParser

import pytest

from page_plan import page_plan
from planning import POSSIBLE, example
from printed import checklist_html, english, unset
from random_lawns import COUNT, random_plan
from tiers import sampled
from turfplan.export.sheets.go_signs import conditions_in, wait_of
from turfplan.export.sheets.look import beside, monday_of, series_days, shown, today_of
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Slack, Task

# Words of the program, which nobody in a garden knows.
ENGINE = re.compile(r"\b(brief|plan again|session|campaign|series|fact|account|log)s?\b")
# What a job may take on paper: words of its own and boxes; signs of its day go beside.
MOST_WORDS, MOST_BOXES, MEAN_WORDS, MEAN_BOXES = 350, 14, 130, 6.5
CASES = [*POSSIBLE, *range(1, COUNT, 2)]
of_lawns = pytest.mark.parametrize(
    "case", sampled(CASES, "cool-overseed", "surveyed-metric", 3, 11)
)


class Sheet(HTMLParser):
    """The ticks of a page, and its words: as one text, and by the job they stand in."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ticks: Counter[str] = Counter()
        self.words: list[str] = []
        self.jobs: dict[str, list[str]] = {}
        self.boxes: Counter[str] = Counter()
        self.places: dict[str, int] = {}
        self.job = ""
        self.hidden = False
        self.feed(unset(html.split("</style>", 1)[1]))
        self.text = " ".join(" ".join(self.words).split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.hidden = tag == "script" or (self.hidden and tag != "script")
        if tag == "article":
            self.job = given.get("id") or ""
            self.places[self.job] = len(self.words)
        if tick := given.get("data-tick"):
            self.ticks[tick] += 1
            self.boxes[self.job] += bool(self.job)

    def handle_endtag(self, tag: str) -> None:
        if tag == "article":
            self.job = ""
        if tag == "script":
            self.hidden = False

    def handle_data(self, data: str) -> None:
        if not self.hidden:
            self.words.append(data)
            self.jobs.setdefault(self.job, []).append(data)


def plan_of(case: str | int) -> Plan:
    """The plan of an example, or of a random lawn."""
    plan = example(case) if isinstance(case, str) else random_plan(case)
    if plan is None:
        pytest.skip("this lawn cannot be done as asked")
    return plan


@lru_cache(maxsize=2)
def season_of(case: str | int) -> tuple[Plan, Sheet]:
    """A plan and the print of its season."""
    plan = plan_of(case)
    return plan, Sheet(checklist_html(plan))


def runs_of(plan: Plan) -> Iterator[str]:
    """Each run from the present week on."""
    present = monday_of(today_of(plan))
    for task in shown(plan.tasks):
        if task.series is not None and task.closed is None:
            yield from (f"{task.id} {day}" for day in series_days(task.series) if day >= present)


def jobs_of(plan: Plan) -> list[Task]:
    """The open jobs."""
    return [t for t in shown(plan.tasks) if t.series is None and t.closed is None]


def days_of(task: Task) -> list[date]:
    """The days on which a job is worked."""
    span = range(task.start.toordinal(), task.end.toordinal() + 1)
    return list(task.worked_on) or [date.fromordinal(day) for day in span]


@of_lawns
def test_each_job_and_each_run_has_one_box_over_the_season(case: str | int) -> None:
    """No box twice, whatever it is for, and none missing."""
    plan, sheet = season_of(case)
    assert [tick for tick, count in sheet.ticks.items() if count > 1] == []
    wanted = {*(task.id for task in jobs_of(plan)), *runs_of(plan)}
    assert wanted <= set(sheet.ticks)
    assert {t for t in sheet.ticks if re.search(r"^water[.\w-]* \d{4}-", t)} == set(runs_of(plan))


@pytest.mark.parametrize("case", sampled([*POSSIBLE, 3, 11], "cool-overseed"))
def test_a_week_printed_alone_is_complete(case: str | int) -> None:
    """Every job and every run of its seven days with a box: of a week with jobs, of one of watering
    alone, and of one that goes on with a job."""
    plan = plan_of(case)
    runs, jobs = set(runs_of(plan)), jobs_of(plan)
    days = {run.split(" ")[1] for run in runs}
    mondays = sorted({monday_of(task.start) for task in jobs} | {monday_of(t.end) for t in jobs})
    watered = sorted({monday_of(type(mondays[0]).fromisoformat(day)) for day in days})
    alone = [monday for monday in watered if monday not in mondays]
    for monday in {mondays[0], mondays[len(mondays) // 2], mondays[-1], *alone[:1]}:
        sheet = Sheet(checklist_html(plan, monday))
        here = {t.id for t in jobs if monday in {monday_of(day) for day in days_of(t)}}
        first, last = monday.isoformat(), f"{monday.fromordinal(monday.toordinal() + 6)}"
        here |= {run for run in runs if first <= run.split(" ")[1] <= last}
        assert here <= set(sheet.ticks)
        assert max(sheet.ticks.values(), default=1) == 1


@of_lawns
def test_conditions_stops_and_law_stand_above_the_steps(case: str | int) -> None:
    """Each of them is printed before the first step of its job."""
    plan, sheet = season_of(case)
    rank = {note.text.text: note.rank for note in plan.ranked}
    words = english(plan)
    late = []
    for task in jobs_of(plan):
        if not task.how or task.start < monday_of(today_of(plan)):
            continue
        anchor = f"-{task.id.replace('.', '-')}"
        name = next(p for p in sheet.jobs if re.fullmatch(rf"week-\d{{4}}-\d\d-\d\d{anchor}", p))
        job = " ".join(" ".join(sheet.jobs[name]).split())
        step = job.index(unset(task.how[0].text)[:40])
        above = " ".join([*sheet.words[: sheet.places[name]], job[:step]])
        above = " ".join(above.split()).casefold()
        told = [*conditions_in(task.go.text if task.go else "")]
        told += [c.text for c in task.cautions if rank.get(c.text) in ("stop", "law")]
        for text in told:
            key = next((c.key for c in task.cautions if c.text == text), "")
            condition = f"{key.removesuffix('.text')}.condition"
            if key.endswith(".text") and words.catalog.has(condition) and not task.plays("marking"):
                text = words.say(condition)
            held = next((c for c in task.cautions if c.text == text), None)
            if held is not None and words.catalog.has(f"{held.key}_known"):
                text = words.say(f"{held.key}_known", **dict(held.values))
            if unset(text).rstrip(".").casefold() not in above:
                late.append((task.id, text))
    assert late == []


# How a day or an hour begins: what is ticked as so before work begins is no such thing.
NO_STATE = re.compile(r"(Done )?(Before|After|On|Any|Right after|As soon as|Until)\b")


@of_lawns
def test_a_condition_says_what_is_so(case: str | int) -> None:
    """“Only if” and “Go if” stand before it: it is a sentence, or ends one."""
    plan, sheet = season_of(case)
    told = [c for t in plan.tasks if t.go for c in conditions_in(t.go.text)]
    assert told and [text for text in told if NO_STATE.match(text)] == []
    assert not re.search(r"Only if [A-Z]", sheet.text)


@of_lawns
def test_no_word_of_the_engine_stands_on_a_week(case: str | int) -> None:
    """Nor the name of a lawn's file."""
    _, sheet = season_of(case)
    assert [
        sheet.text[max(0, m.start() - 40) : m.end() + 20] for m in ENGINE.finditer(sheet.text)
    ] == []


@of_lawns
def test_a_job_keeps_to_its_budget_of_words_and_boxes(case: str | int) -> None:
    """No job is a page to read, and in the mean it is short."""
    _, sheet = season_of(case)
    words = {name: len(" ".join(told).split()) for name, told in sheet.jobs.items() if name}
    assert max(words.values()) <= MOST_WORDS and max(sheet.boxes.values()) <= MOST_BOXES
    assert sum(words.values()) <= MEAN_WORDS * len(words)
    assert sum(sheet.boxes.values()) <= MEAN_BOXES * len(words)


def test_what_follows_on_its_day_may_wait_as_long_as_what_it_follows() -> None:
    """Dragging in goes with its pass: no earlier last day stands at it, nor one past its season."""
    plan = page_plan()
    first = plan.tasks[0]
    day, late = first.start, first.start + timedelta(days=20)
    lead = first.model_copy(
        update={
            "id": "lead",
            "window": first.window.model_copy(update={"end": late}),
            "slack": None,
            "fallback": None,
            "cautions": (),
        }
    )
    own = Slack(end=day + timedelta(days=7), moves=())
    for season, wanted in ((late, late), (day + timedelta(days=10), day + timedelta(days=10))):
        window = lead.window.model_copy(update={"end": season})
        after = lead.model_copy(
            update={"id": "after", "depends_on": ("lead",), "slack": own, "window": window}
        )
        both = plan.model_copy(update={"tasks": (lead, after)})
        assert wait_of(both, after, english(plan)).last_day == beside(day, wanted, english(plan))
        alone = after.model_copy(update={"depends_on": ()})
        told = wait_of(both, alone, english(plan)).last_day
        assert told == beside(day, own.end, english(plan))


def test_what_is_said_of_a_job_holds_for_its_kind() -> None:
    """Plugs are no seedlings, and a laboratory that is asked gets no sample."""
    assert "Seedlings come out" not in checklist_html(example("st-augustine-plugs"))
    asked = checklist_html(example("transition-fescue"))
    assert "Ask the laboratory" in asked and "The sample is on its way" not in asked


def test_large_print_leaves_a_title_its_line_and_a_day_no_empty_head() -> None:
    """Two figures stand below the title, and no empty box parts the date from its first job."""
    html = checklist_html(example("southern-hemisphere"), large=True)
    beside = re.findall(r'(?s)<p class="figures single">(.*?)</p>', html)
    assert beside and all(part.count('class="figure"') == 1 for part in beside)
    assert not re.findall(r'(?s)<div class="begin">\s*</div>', html)
