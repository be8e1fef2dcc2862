"""The printed sheets say what the plan says, in the reader's units, and stand alone."""

import re
from datetime import date, timedelta
from html.parser import HTMLParser
from itertools import pairwise

import jinja2
import pytest

from page_plan import DUST, FIRST_WATERING, on, page_plan, task
from planning import NAMES, example
from printed import (
    amount_text,
    book_html,
    changes_html,
    checklist_html,
    day_text,
    english,
    labour_text,
    near_text,
    order_html,
    plain_name,
    short_name,
    span_text,
    terms_in,
    unset,
    water_html,
    week_sheets,
)
from test_planning_sentences import METRIC
from tiers import sampled
from told import words_of
from turfplan.export.sheets.go_signs import conditions_in
from turfplan.export.sheets.look import paper_of, series_days, shown, task_days
from turfplan.export.sheets.names import operation_name
from turfplan.export.templates import coded, environment, sentence, stylesheet, templates_dir
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount
from turfplan.units import CUBIC_YARD_M3, System

WRITERS = {
    "checklist": checklist_html,
    "order": order_html,
    "book": book_html,
    "changes": changes_html,
    "water": water_html,
}
HOSTILE = {
    "markup": '</title><script>alert("x")</script>&amp;<img src=x onerror=alert(1)>',
    "long": "a very long lawn name " * 13 + "end of it",
    "unbroken": "x" * 300,
    "emoji": "🌱🏡 lawn 👩‍🌾",
    "right to left": "حديقة خلفية ‮ lawn",
    "control": "back\x00\x1b[31m\nlawn\u2028",
    "quotes": "\"'`{{ 7 * 7 }}{% raw %}",
}
# Words of the trade as a reader meets them, each with the beginning of its line in the chapter of
# words.
TRADE_WORDS = {
    "Blackout": r"[Bb]lackout",
    "Buffer pH": r"buffer pH",
    "Calibrate": r"[Cc]alibrate",
    "Canopy": r"canopy",
    "Catch can": r"catch cans",
    "Compost Plant": r"[Cc]ompost",
    "Core-aerate|Hollow-tine": r"[Aa]erat|[Hh]ollow-tine",
    "Cycle": r"\bcycles\b",
    "Dethatch|Scarify": r"[Dd]ethatch|[Ss]carif",
    "Dormant": r"[Dd]ormant",
    "Fittings": r"valve box",
    "Germination": r"germinat",
    "Nitrogen": r"nitrogen",
    "Noxious": r"noxious",
    "Overseed": r"[Oo]verseed",
    "Phosphorus": r"phosph",
    "Plug": r"\bplugs\b",
    "Potassium": r"potassium|potash",
    "Preventer": r"preventer",
    "Reserve": r"\breserve\b|held back",
    "Root zone": r"root zone",
    "Settle": r"settl|\bloose\b",
    "Silica": r"silica",
    "Stake": r"\b[Ss]takes?\b",
    "Stand": r"\b[Ss]tand\b",
    "Starter": r"starter",
    "Straightedge": r"straightedge",
    "Swale": r"swale",
    "Thatch": r"[Tt]hatch",
    "Tiller": r"tiller",
    "Tine": r"\btines?\b",
    "Top-dress": r"[Tt]op-?dress|dressed",
    "pH": r"\bpH\b",
}
VOID = {
    "meta",
    "img",
    "br",
    "hr",
    "input",
    "link",
    "path",
    "rect",
    "circle",
    "polyline",
    "polygon",
    "line",
    "stop",
}


class Outline(HTMLParser):
    """What a page is made of: elements, ids, references, headings, text."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.references: list[str] = []
        self.addresses: list[str] = []
        self.headings: list[int] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.feed(unset(html))
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag not in VOID:
            self.open.append(tag)
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        for name, value in attrs:
            if name == "id":
                self.ids.append(value or "")
            elif name in ("aria-labelledby", "aria-describedby"):
                self.references += (value or "").split()
            elif name in ("href", "src", "xlink:href"):
                self.addresses.append(value or "")
            self.references += re.findall(r"url\(#([^)]+)\)", value or "")

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag, f"{tag} closes something else"

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] not in ("style", "script"):
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


# A number before "in" may also be a count, as in "3 min in 2 cycles"; those are told apart by what
# follows.
FAHRENHEIT_OR_INCHES = re.compile(
    r"\d ?(?:°F|ft|lb|gal|yd³|ft²)(?![\w²³])|\d in (?:deep|down|of|\()"
)


@pytest.fixture(params=[System.US, System.METRIC])
def plan(request: pytest.FixtureRequest) -> Plan:
    """The invented plan in both systems of units."""
    return page_plan(request.param)


@pytest.mark.parametrize("writer", WRITERS)
def test_every_page_is_well_formed_and_its_references_lead_somewhere(
    plan: Plan, writer: str
) -> None:
    """Elements close, ids are unique, every reference and inner link has its target."""
    page = Outline(WRITERS[writer](plan))
    assert not page.open
    assert len(page.ids) == len(set(page.ids))
    inner = [a[1:] for a in page.addresses if a.startswith("#")]
    assert set(page.references + inner) <= set(page.ids)


@pytest.mark.parametrize("writer", WRITERS)
def test_every_page_stands_alone(plan: Plan, writer: str) -> None:
    """No address leads out of the file, and no script is in it but that of the ticks."""
    html = WRITERS[writer](plan)
    page = Outline(html)
    assert all(a.startswith(("#", "data:image/svg+xml")) for a in page.addresses)
    assert page.tags.count("script") == (writer == "checklist") and "link" not in page.tags
    assert "fetch" not in html and "XMLHttp" not in html and "http" not in stylesheet("week.js")
    assert "@import" not in html and not re.search(r"url\((?!#)", html)


@pytest.mark.parametrize("writer", WRITERS)
def test_headings_never_skip_a_level(plan: Plan, writer: str) -> None:
    """One first heading, and each deeper one a single step down."""
    levels = Outline(WRITERS[writer](plan)).headings
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_lawn_name_is_only_text(writer: str, kind: str) -> None:
    """Markup, templates, control characters, long names and other scripts stay words on the
    page.
    """
    html = WRITERS[writer](page_plan(name=HOSTILE[kind]))
    page = Outline(html)
    assert not page.open
    assert page.tags.count("script") == (writer == "checklist") and "{{" not in kind
    assert page.tags.count("img") == (1 if writer == "book" else 0)
    assert "49" not in re.findall(r"<title>(.*?)</title>", html)[0]
    assert not re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", html)
    assert short_name(HOSTILE[kind])[:20] in page.text


def test_the_same_plan_gives_the_same_page(plan: Plan) -> None:
    """Pages hold no clock and no chance."""
    for write in WRITERS.values():
        assert write(plan) == write(plan)


def test_every_open_task_stands_on_the_page_of_each_of_its_days(plan: Plan) -> None:
    """A job or a watering is on every weekly page that one of its days falls in, and on no
    other.
    """
    sheets = {sheet.first: sheet for sheet in week_sheets(plan)}
    for item in shown(plan.tasks):
        if item.closed:
            continue
        wanted = {day - timedelta(days=day.weekday()) for day in task_days(item)}
        found = {
            m
            for m, s in sheets.items()
            if item.id in [j.task.id for j in s.jobs] + [r.task.id for r in s.water]
        }
        assert found == wanted, item.id


def test_a_job_is_printed_with_day_amount_rule_steps_and_caution(plan: Plan) -> None:
    """Everything that is needed outside stands at the job or at the head of its day."""
    text = Outline(checklist_html(plan, on(8, 14))).text
    for item in (plan.task("topdress.1"), plan.task("seed")):
        assert item is not None and item.go is not None
        assert str(item.title) in text
        assert span_text(item.start, item.end, plan.lawn.units) in text or item.start == item.end
        assert all(amount_text(a, plan.lawn.units) in text for a in item.amounts)
        assert all(condition in text for condition in conditions_in(str(item.go)))
        assert str(item.fallback) in text
        assert all(str(step) in text for step in item.how)
        assert near_text(item.fallback_day, plan.lawn.units) in text


def test_a_caution_stands_once_a_day(plan: Plan) -> None:
    """However many jobs of the day have the same danger."""
    days = checklist_html(plan, on(8, 14)).split('<section class="day" ')[1:]
    assert len(days) > 1 and {unset(day).count(DUST) for day in days} <= {0, 1}
    assert any(DUST in unset(day) for day in days)


def test_jobs_of_one_day_stand_in_the_order_in_which_they_are_done() -> None:
    """What others wait for comes first: the low cut before the tines, the tines before the mix."""
    (sheet,) = week_sheets(page_plan(), on(8, 14))
    names = [job.task.id for job in sheet.jobs]
    assert (
        names.index("mow_low.1")
        < names.index("core_aerate.1")
        < names.index("topdress.1")
        < names.index("seed")
    )


def test_a_watering_has_a_box_on_each_of_its_days_and_no_other(plan: Plan) -> None:
    """Weekdays and left-out days of a series are kept."""
    for sheet in week_sheets(plan):
        for row in sheet.water:
            assert row.task.series is not None
            days = [sheet.first + timedelta(days=n) for n, ticked in enumerate(row.on) if ticked]
            assert days == [
                d
                for d in series_days(row.task.series)
                if sheet.first <= d < sheet.first + timedelta(days=7)
            ]
    last = plan.task("water.germination.w3.morning")
    assert last is not None and last.series is not None
    assert series_days(last.series) == (on(9, 4),)


def test_a_week_without_work_is_left_out_but_can_be_asked_for(plan: Plan) -> None:
    """Asked for by a day, an empty week says so and what comes next."""
    empty = on(9, 8)
    assert all(
        not sheet.first <= empty < sheet.first + timedelta(days=7) for sheet in week_sheets(plan)
    )
    text = Outline(checklist_html(plan, empty)).text
    assert "No work this week" in text
    assert "First mow of the new grass" in text


def test_the_look_ahead_names_next_week(plan: Plan) -> None:
    """The page of one week lists the jobs of the next, and waterings in one line."""
    (sheet,) = week_sheets(plan, on(8, 4))
    assert sheet.ahead_title.startswith("Next week")
    assert [str(line.title) for line in sheet.ahead][:2] == [
        "Receive 7 yd³ of mix",
        "Mow low to 2 in",
    ]
    (sheet,) = week_sheets(plan, on(8, 14))
    assert [str(line.title) for line in sheet.ahead] == [
        f"First of 14 waterings, the last {near_text(on(8, 22), plan.lawn.units)}"
    ]


def test_what_was_dropped_is_not_printed_and_what_was_done_says_so(plan: Plan) -> None:
    """A cancelled job leaves the page; a done one is printed as done when its week is asked for."""
    assert "Roll once, lightly" not in Outline(checklist_html(plan)).text
    assert "soil sample" not in Outline(checklist_html(plan)).text
    assert (
        f"Done {near_text(on(7, 3), plan.lawn.units)}."
        in Outline(checklist_html(plan, on(7, 3))).text
    )


def test_an_overdue_task_opens_the_checklist() -> None:
    """A job past its day without an answer is asked about first."""
    late = task("dethatch", "surface", "Dethatch, rake up and remove", on(7, 20), overdue=True)
    text = Outline(
        checklist_html(page_plan(tasks=(late, task("seed", "seed", "Sow", on(8, 20)))))
    ).text
    assert text.index("Past their day, without an answer") < text.index("Sow")
    assert re.search("Dethatch, rake up and remove ?, Tue, Jul 20", text)


def test_paper_follows_the_country_then_the_units() -> None:
    """Letter in the United States and Canada, A4 elsewhere, and as asked above all."""
    assert paper_of(page_plan(System.US)) == "letter"
    assert paper_of(page_plan(System.METRIC, country="CA")) == "letter"
    assert paper_of(page_plan(System.METRIC, country="NZ")) == "a4"
    assert paper_of(page_plan(System.US), "a4") == "a4"
    assert "@page { size: a4; }" in checklist_html(page_plan(), paper="a4")
    with pytest.raises(ValueError, match="letter or a4"):
        paper_of(page_plan(), "legal")


def test_large_print_changes_only_the_size() -> None:
    """The words are the same."""
    plain, large = checklist_html(page_plan()), checklist_html(page_plan(), large=True)
    assert 'class="printed large"' in large and 'class="printed"' in plain
    said = [re.findall(r"<article.*?</article>", page, re.DOTALL) for page in (plain, large)]
    assert [Outline(a).text for a in said[0]] == [Outline(a).text for a in said[1]]


def test_days_are_read_as_people_there_read_them() -> None:
    """Month first in the United States, day first elsewhere; the year once."""
    assert day_text(on(8, 14), System.US) == "Sat, Aug 14, 2027"
    assert day_text(on(8, 14), System.METRIC) == "Sat 14 Aug 2027"
    assert (
        span_text(on(8, 14), on(8, 15), System.METRIC, weekday=False, year=True)
        == "14 Aug to 15 Aug 2027"
    )
    assert (
        span_text(date(2027, 12, 30), date(2028, 1, 2), System.US, weekday=False, year=True)
        == "Dec 30, 2027 to Jan 2, 2028"
    )


def test_what_can_run_short_is_rounded_up() -> None:
    """Weights go up to a pound or half a kilogram; volumes are told to a hundredth, as they are
    rounded where they are reckoned.
    """
    made = page_plan().task("topdress.1")
    assert made is not None
    depth, volume = made.amounts
    assert amount_text(volume, System.US) == "6.41 yd³"
    assert amount_text(volume, System.METRIC) == "4.9 m³"
    assert amount_text(depth, System.US) == "3/8 in"
    assert amount_text(depth, System.METRIC) == "10 mm"
    run = page_plan().task("water.germination.w1.morning")
    assert run is not None
    assert amount_text(run.amounts[0], System.US) == "240 gal"
    assert amount_text(run.amounts[0], System.METRIC) == "900 L"


def test_an_exact_load_is_not_pushed_up_by_the_decimals_of_the_file() -> None:
    """16.75 yd³ written as cubic metres with six decimals still reads 16.75 yd³."""
    load = Amount(
        item="volume",
        value=round(16.75 * CUBIC_YARD_M3, 6),
        unit="m3",
        value_us=16.75,
        unit_us="yd3",
        reason="",
    )
    assert load.value > 16.75 * CUBIC_YARD_M3
    assert amount_text(load, System.US) == "16.75 yd³"


@pytest.mark.parametrize(
    ("hours", "people", "text"),
    [
        (0.0, 1, ""),
        (0.1, 1, "10 minutes"),
        (0.3, 1, "half an hour"),
        (1.0, 1, "1 hour"),
        (9.4, 1, "9 1/2 hours"),
        (12, 1, "12 hours"),
        (9.4, 3, "3 hours for 3 people"),
        (0.5, 2, "half an hour"),
        (1.0, 3, "1 hour"),
        (1.5, 2, "1 hour for 2 people"),
        (12, None, "12 hours of work"),
    ],
)
def test_labour_is_said_in_half_hours(hours: float, people: int | None, text: str) -> None:
    """Nobody plans a job to the minute; a short one still says that it takes time. Several people
    share it; how many they are is unknown of a plan that did not keep it.
    """
    assert labour_text(hours, people) == text


def test_the_order_sheet_has_amounts_dates_loads_questions_and_checks(plan: Plan) -> None:
    """The supplier and whoever receives the load find all they need."""
    text = Outline(order_html(plan)).text
    for line in plan.order:
        assert str(line.name) in text
        assert day_text(line.order_by, plan.lawn.units) in text
        assert day_text(line.deliver_by, plan.lawn.units) in text
        assert all(str(words) in text for words in (*line.questions, *line.acceptance, line.reason))
    loads = ("6 yd³", "1 yd³") if plan.lawn.units is System.US else ("4.59 m³", "0.76 m³")
    assert all(load in text for load in loads)
    assert "Receive 7 yd³ of mix" in text


def test_a_plan_that_cannot_be_done_says_why_and_what_would_work() -> None:
    """Checklist, order and book of such a plan hold its reasons and its ways out, and no
    campaign.
    """
    plan = example("late-start")
    assert plan.conflict is not None and plan.options
    for html in (checklist_html(plan), order_html(plan), book_html(plan)):
        text = Outline(html).text
        assert all(sentence(reason) in text for reason in plan.conflict.reasons)
        assert all(str(option.title) in text for option in plan.options)
        # The line of the brief is for whoever sits at a terminal.
        assert not any(str(option.change) in text for option in plan.options)
        assert "None" not in text.split()[:12]


@pytest.mark.parametrize("name", ["surveyed-us", "british-metric"])
def test_sheets_speak_one_system_of_units(name: str) -> None:
    """Charts, tables and legends too; only the sources quote publications in their own units."""
    plan = example(name)
    foreign = METRIC if plan.lawn.units is System.US else FAHRENHEIT_OR_INCHES
    for html in (
        checklist_html(plan),
        order_html(plan),
        book_html(plan).split('<section class="page sheet follows" id="sources"')[0],
    ):
        text = Outline(html).text
        assert [text[max(0, m.start() - 30) : m.end() + 10] for m in foreign.finditer(text)] == []
    assert METRIC.search("soil, 4 in (10 cm)") and FAHRENHEIT_OR_INCHES.search("soil, 4 in (10 cm)")


def test_an_order_of_nothing_is_said_plainly() -> None:
    """A plan that buys nothing prints no delivery card."""
    text = Outline(order_html(page_plan(order=()))).text
    assert "Nothing has to be bought." in text
    assert "Delivery on" not in Outline(order_html(page_plan(order=(), tasks=()))).text


def test_the_book_holds_what_is_decided_and_why(plan: Plan) -> None:
    """The choice, assumptions, what was rejected, disagreements, cautions, a reason for each job,
    who says so.
    """
    text = Outline(book_html(plan)).text
    wanted = [
        *plan.campaign_reason,
        *plan.assumptions,
        *plan.disagreements,
        *plan.cautions,
        plan.rejected[0].reason,
        *(item.title for item in shown(plan.tasks) if item.plays("headline")),
        plan.climate.source,
        "an invented college",
    ]
    assert [words for words in map(str, wanted) if words not in text] == []
    named = {
        operation_name(plan, t.operation, english(plan)) for t in shown(plan.tasks) if not t.series
    }
    why = text.partition("Why these days")[2].partition("The words used here")[0]
    assert [name for name in named if name not in why] == []


def test_weeks_orders_and_steps_are_not_told_again_in_the_book(plan: Plan) -> None:
    """They have sheets of their own."""
    text = Outline(book_html(plan)).text
    assert not any(str(step) in text for t in plan.tasks for step in t.how)
    assert not any(str(question) in text for line in plan.order for question in line.questions)


def test_the_picture_of_a_survey_cannot_reach_the_page() -> None:
    """A picture is carried as an image of its own, so that nothing in it runs or clashes."""
    bad = page_plan().fill.model_copy(
        update={"pictures": (("Map", "<svg xmlns='x'><script>alert(1)</script></svg>"),)}
    )
    page = Outline(book_html(page_plan(fill=bad)))
    assert "script" not in page.tags and "alert" not in page.text


def test_the_glossary_explains_the_words_that_are_used_and_no_other() -> None:
    """A word of the trade on the sheets has its line; a plan without it does not print it."""
    text = Outline(book_html(page_plan())).text
    assert "Thatch The brown felt" in text
    assert dict(terms_in("Top-dress a thin pass.")).keys() == {"Top-dress", "Pass"}


@pytest.mark.parametrize("name", sampled(NAMES, "late-start", "cool-overseed", "surveyed-metric"))
def test_every_word_of_the_trade_in_a_book_has_its_line(name: str) -> None:
    """Whatever chapter uses the word, the chapter of words explains it."""
    body, _, after = Outline(book_html(example(name))).text.rpartition(" The words used here ")
    explained = after.partition(" Where the numbers come from ")[0]
    missing = [
        word
        for word, pattern in TRADE_WORDS.items()
        if re.search(pattern, body) and not re.search(word, explained)
    ]
    assert missing == []


def test_kinds_of_work_are_called_the_same_everywhere() -> None:
    """The names on charts are those of the data file that writes the titles."""
    import tomllib
    from importlib.resources import files

    data = tomllib.loads(
        (files("turfplan") / "data" / "operations.toml").read_text(encoding="utf-8")
    )
    names = {
        key: entry["name"]
        for key, entry in data.items()
        if isinstance(entry, dict) and "name" in entry
    }
    plan = page_plan()
    assert names == {key: operation_name(plan, key, words_of()) for key in names}
    british = example("british-metric")
    titles = {task.operation: task.title.text for task in british.tasks}
    for key, name in (("core_aerate", "Hollow-tine"), ("dethatch", "Scarify")):
        assert operation_name(british, key, words_of()) == name
        assert titles[key].startswith(name)
        assert f"<dt>{name}</dt>" in book_html(british)


def test_changes_are_told_with_before_after_and_reason() -> None:
    """Each change names its task by its title; without changes the page says so."""
    text = Outline(changes_html(page_plan())).text
    assert "Moved to other days" in text
    assert "Sow 25 lb of tall fescue seed Aug 14 Aug 15 Rain on the day before." in text
    assert "Nothing changed" in Outline(changes_html(page_plan(changes=()))).text


def test_a_plan_without_tasks_still_prints() -> None:
    """An impossible plan has no tasks, and its pages say so instead of failing."""
    bare = page_plan(tasks=(), order=(), ledgers=(), windows=(), fill=None)
    assert "No work is planned" in Outline(checklist_html(bare)).text
    assert "No work is planned." in Outline(book_html(bare)).text


@pytest.mark.parametrize("writer", WRITERS)
def test_every_page_puts_local_rules_labels_and_licences_first(writer: str) -> None:
    """With work or without, each page and each week says what comes before it."""
    words = "Local rules, product labels and licensed practice come first."
    assert words in Outline(WRITERS[writer](page_plan())).text
    assert (
        words
        in Outline(
            WRITERS[writer](page_plan(tasks=(), order=(), ledgers=(), windows=(), fill=None))
        ).text
    )
    checklist = checklist_html(page_plan())
    assert checklist.count(words) >= checklist.count('<section class="leaf') > 1


def test_a_name_missing_from_a_template_is_an_error() -> None:
    """Templates never print nothing in silence."""
    with pytest.raises(jinja2.UndefinedError):
        environment().from_string("{{ absent }}").render()


def test_the_templates_are_found_beside_the_package_or_in_the_checkout() -> None:
    """There is a stylesheet where the templates are."""
    assert (templates_dir() / "static" / "page.css").is_file()
    assert "</" not in stylesheet()


def test_commands_in_sentences_are_set_as_code_and_escaped() -> None:
    """Between back ticks stands a command; a lone back tick stays what it is."""
    assert coded("log it (`log <x>`).") == "log it (<code>log &lt;x&gt;</code>)."
    assert coded("a ` b <i>") == "a ` b &lt;i&gt;"


def test_names_lose_what_paper_cannot_hold() -> None:
    """Controls, line breaks and marks of direction become spaces, joiners stay; an empty name
    becomes a word.
    """
    assert plain_name("a\x00b\n c") == "a b c"
    assert plain_name("\x07") == "Lawn"
    assert plain_name("b\u202ea\u2066c\u200f") == "b a c"
    assert plain_name("\U0001f469\u200d\U0001f33e") == "\U0001f469\u200d\U0001f33e"
    assert len(short_name("x" * 300)) == 40


def test_watering_begins_where_the_plan_says() -> None:
    """The invented season waters from the seed day on, so that these tests look at a week with
    both.
    """
    (sheet,) = week_sheets(page_plan(), FIRST_WATERING)
    assert sheet.jobs and sheet.water


def test_loads_and_parts_add_up_to_the_order(plan: Plan) -> None:
    """As printed: the loads of a line, and the parts that it is made of."""
    us = plan.lawn.units is System.US
    line = next(line for line in plan.order if line.parts)
    step = line.value / 7
    two = line.model_copy(update={"loads": (4 * step, 3 * step)})
    whole = line.value_us if us else line.value
    page = order_html(plan.model_copy(update={"order": (two,)}))
    unit = "yd³" if us else "m³"
    cells = [Outline(cell).text for cell in re.findall(r"<td[^>]*>.*?</td>", page, re.DOTALL)]
    loads = next(cell for cell in cells if re.fullmatch(rf"[\d.]+ {unit}, [\d.]+ {unit}", cell))
    made_of = next(cell for cell in cells if "%)" in cell)
    parts = [float(part) for part in re.findall(r"([\d.]+) (?:yd|m)³", made_of)]
    told = [float(load) for load in re.findall(rf"([\d.]+) {unit}", loads)]
    assert sum(told) == pytest.approx(whole, abs=0.011)
    assert len(parts) == len(line.parts) and sum(parts) == pytest.approx(whole, abs=0.003)


def test_a_first_plan_has_none_before_it() -> None:
    """Only a later one can be told to be as the one before."""
    plan = example("cool-overseed")
    assert plan.revision == 1 and "first plan" in changes_html(plan)
    again = changes_html(plan.model_copy(update={"revision": 2, "changes": ()}))
    assert "Nothing changed" in again and "first plan" not in again
