"""What a plan says is true of its lawn: who waters, which strip, which days, which weather."""

import re
from functools import lru_cache
from pathlib import Path

import pytest

import turfplan
from planning import example, kind, plan_brief
from printed import book_html, english, order_html, unset, week_sheets
from turfplan.export.sheets.said_once import sentences_of
from turfplan.export.sheets.season_book import text_of
from turfplan.export.sheets.season_charts import timeline
from turfplan.export.sheets.watering_card import water_html
from turfplan.message import Quantity
from turfplan.messages import words_for
from turfplan.records.brief import parse_brief
from turfplan.records.plan import Plan
from turfplan.units import System
from turfplan.work.watering.needs import _why_moist

FROST = re.compile(
    r'<text[^>]* x="([\d.]+)" y="([\d.]+)"[^>]*text-anchor="(start|end)"[^>]*>(?:first|last) frost<'
)
CATALOG = Path(turfplan.__file__).parent / "messages" / "en"

# An invented lawn of three strips by the sea, of two grasses, on one day of work a week.
BY_THE_SEA = {
    "units": "metric",
    "lawn": {
        "name": "By the sea",
        "area": "640 m2",
        "grass": [
            {"species": "perennial_ryegrass", "share": 0.8},
            {"species": "fine_fescue", "share": 0.2},
        ],
        "soil": "silt loam",
        "thatch": "12 mm",
        "condition": "thin",
    },
    "place": {"latitude": 53.85, "longitude": -9.3, "country": "IE"},
    "leveling": {"depth": "10 mm"},
    "seeding": {"intent": "overseed"},
    "calendar": {"weekdays": ["sat"]},
    "season": {"from": "2027-03-01"},
}


@lru_cache(maxsize=2)
def by_the_sea(watered: bool) -> Plan:
    """The plan of that lawn, on rain or with water."""
    rate = {"application_rate": "10 mm/h"} if watered else {}
    return plan_brief(parse_brief({**BY_THE_SEA, "water": {"possible": watered, **rate}}))


@pytest.mark.parametrize("watered", [False, True])
def test_strips_speak_of_an_evening_of_watering_only_where_somebody_waters(watered: bool) -> None:
    """On rain a strip is finished without it."""
    passes = kind(by_the_sea(watered), "topdress")
    told = " ".join(c.text for task in passes for c in task.cautions)
    assert "3 strips" in told
    assert ("watering in the evening" in told) == watered


def test_a_load_for_one_strip_names_that_strip() -> None:
    """None is told as running from itself to itself."""
    reasons = " ".join(item.reason.text for item in by_the_sea(False).order)
    assert "strip 3 of pass 1" in reasons and "strips 1 to 2 of pass 1" in reasons
    assert "3 to 3" not in reasons


def test_a_week_counts_the_hours_of_its_own_days() -> None:
    """What goes on for weeks is shared out: no week has more work than its one day can hold."""
    plan = by_the_sea(False)
    hours = sum(task.person_hours for task in plan.tasks if task.series is None)
    told = [sheet.summary for sheet in week_sheets(plan) if "hour" in sheet.summary]
    found = [_hours_of(text) for text in told]
    assert max(found) <= 12
    assert sum(found) == pytest.approx(hours, rel=0.15)


def _hours_of(summary: str) -> float:
    """The hours in the one line of a week."""
    told = unset(summary).split("about ")[1].split(" hour")[0]
    whole, _, half = told.partition(" ")
    return float(whole) + (0.5 if half else 0.0) if whole.isdigit() else 0.5


def test_a_season_tells_all_days_of_its_seed() -> None:
    """Seed of several strips has several days."""
    (sown,) = kind(by_the_sea(False), "overseed")
    title = timeline(by_the_sea(False), english(by_the_sea(False))).title
    assert sown.end > sown.start
    assert f"seed on {sown.start.day} Sep to {sown.end.day} Sep" in title


def test_seed_of_two_grasses_takes_days_to_come_up() -> None:
    """The sentence suits one grass and several."""
    look = next(t for t in kind(by_the_sea(False), "inspect") if t.id.endswith("germination"))
    told = " ".join(step.text for step in look.how)
    assert "Seed of perennial ryegrass and fine fescue takes 5 to 14 days to come up" in told


@pytest.mark.parametrize("name", ["surveyed-us", "st-augustine-plugs", "pacific-northwest"])
def test_a_season_never_begins_with_what_is_asked_for(name: str) -> None:
    """Law and what was given before say when a feeding may come, a look whether there is anything
    to mend; not the days on which they are open. Nor does it begin with what ends one."""
    text = text_of(book_html(example(name)))
    following = text[text.index("The next first day:") :][:90]
    assert not any(name in following for name in ("Feed", "Touch-up", "Last mow"))


@pytest.mark.parametrize(("name", "cold"), [("cool-overseed", True), ("st-augustine-plugs", False)])
def test_a_layer_is_not_promised_water_while_grass_stands_still(name: str, cold: bool) -> None:
    """Where no month is so cold nothing is said of it."""
    water = "While it is too cold for grass to use water there are none."
    plan = example(name)
    told = " ".join(step.text for task in kind(plan, "incorporate") for step in task.how)
    assert (water in told) == cold


def test_small_depths_of_a_seedbed_are_told_as_they_are() -> None:
    """A tenth of a millimeter decides how many runs a day there are."""
    assert words_for("en", System.METRIC).value(Quantity(1.64, "seedbed")) == "1.6 mm"
    assert words_for("en", System.US).value(Quantity(1.64, "seedbed")) == "0.06 in"


def test_the_coring_of_any_pass_is_told_alike() -> None:
    """It may stand before the second pass, or before none."""
    for task in kind(example("cool-overseed"), "core_aerate"):
        assert "pass 1" not in task.fallback.text


def test_a_saint_in_a_name_ends_no_sentence() -> None:
    """A reason is told whole where the name of its grass has a stop."""
    assert sentences_of("Plugs of St. Augustinegrass root. Then they grow.") == [
        "Plugs of St. Augustinegrass root.",
        "Then they grow.",
    ]


def test_no_space_stands_before_a_percent_sign() -> None:
    """One way of writing shares on all pages; a head of a column has its unit after a comma."""
    text = "".join(path.read_text(encoding="utf-8") for path in CATALOG.glob("*.po"))
    of_pages = [line for line in text.splitlines() if " %" in line and "msgstr" in line]
    assert [line for line in of_pages if ", %" not in line] == []


# An invented bare lawn, whose ground is loosened, filled and sown.
OPEN_GROUND = {
    "lawn": {
        "name": "Open ground",
        "area": "1500 ft2",
        "grass": "tall_fescue",
        "soil": "sandy loam",
        "thatch": "0.1 in",
        "condition": "bare",
    },
    "place": {"postal_code": "97701", "country": "US", "state": "OR"},
    "leveling": {"depth": "1.5 in"},
    "seeding": {"intent": "renovate"},
    "water": {"application_rate": "1.2 in/h"},
    "calendar": {"weekdays": ["fri", "sat", "sun"]},
    "season": {"from": "2027-04-01"},
}


def test_open_ground_is_filled_in_lifts_by_a_machine_of_its_own() -> None:
    """No pass is spoken of, and the machine that tills is not explained as a shoot of grass."""
    plan = plan_brief(parse_brief(OPEN_GROUND))
    assert timeline(plan, english(plan)).title.startswith("1 lift, ")
    assert not any("passes take" in item.reason.text for item in plan.order)
    book = text_of(book_html(plan))
    assert "A new shoot from the foot of a grass plant" not in book


def test_a_question_to_a_supplier_is_asked_whole() -> None:
    """Also where it begins as that about another material does."""
    text = text_of(order_html(example("pacific-northwest")))
    asked = text.count("Best is that of the lawn")
    assert asked and asked == text.count("Which texture is it? Best is that of the lawn")


@pytest.mark.parametrize("large", [False, True])
def test_frosts_are_told_beside_each_other(large: bool) -> None:
    """Between autumn and spring the second stands above the first where there is no room."""
    plan = example("cool-overseed")
    page = book_html(plan, large=large)
    told = [(float(x), float(y), end) for x, y, end in FROST.findall(unset(page))]
    spans = [(x - 60, x, y) if end == "end" else (x, x + 60, y) for x, y, end in told]
    assert len(spans) > 2
    for n, (left, right, y) in enumerate(spans):
        assert not any(
            left < other_right and other_left < right and y == other_y
            for other_left, other_right, other_y in spans[n + 1 :]
        )


def test_families_of_type_with_a_figure_in_their_name_stand_in_quotes() -> None:
    """A browser passes over the whole list where a bare name ends in a figure, and sets serifs."""
    templates = Path(turfplan.__file__).parent.parent / "templates"
    lists = [
        family
        for path in templates.rglob("*.jinja")
        for family in re.findall(r'font-family="([^"]*)"', path.read_text(encoding="utf-8"))
    ]
    names = [name.strip() for family in lists for name in family.split(",")]
    assert lists and not [name for name in names if re.search(r"\s\d", name) and name[0] != "'"]


def test_wetting_behind_the_planting_is_told_in_minutes() -> None:
    """A part of an hour in tenths is nobody's way of telling time."""
    (planting,) = kind(example("st-augustine-plugs"), "plant")
    told = " ".join(step.text for step in planting.how)
    (minutes,) = re.findall(r"takes somebody about (\d+) minutes in all", told)
    assert int(minutes) % 5 == 0 and int(minutes) > 0


@pytest.mark.parametrize(("need_mm", "less"), [(3.0, False), (4.9, True)])
def test_runs_that_are_too_few_for_a_sunny_day_are_not_its_reason(
    need_mm: float, less: bool
) -> None:
    """Two runs of what the soil holds are enough, or the top may dry between them."""
    moist = Quantity(25.0, "depth"), Quantity(1.7, "seedbed"), Quantity(need_mm, "seedbed")
    told = _why_moist(*moist, 2)
    assert (told.key == "watering.why.moist_less") == less


def test_the_card_of_a_lawn_on_rain_says_that_nothing_is_watered() -> None:
    """Not that a season of watering is over."""
    plan = by_the_sea(False)
    text = text_of(water_html(plan, english(plan)))
    assert "This plan waters nothing" in text and "from this month on" not in text
