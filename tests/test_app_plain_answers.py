"""Answers as people spell them are those of the brief; others stay as they are."""

import tomllib

import pytest

from turfplan.app.asked_words import area_said_back, by_looks, told_wrong, words_where
from turfplan.app.brief_questions import answer_of, brief_text, faults_of
from turfplan.app.plain_answers import is_unknown, plainly
from turfplan.app.seen_answers import soil_by_feel, soil_by_jar


@pytest.mark.parametrize(
    ("name", "answer", "wanted"),
    [
        ("area", "60 x 70 ft", "4200 ft2"),
        ("area", "60ft x 70ft", "4200 ft2"),
        ("area", "60 by 70 feet", "4200 ft2"),
        ("area", "18 × 21.5 m", "387 m2"),
        ("area", "4200 ft2", "4200 ft2"),
        ("area", "60 x 70 parsecs", "60 x 70 parsecs"),
        ("area", "triangle 18 x 12 m", "108 m2"),
        ("area", "a triangle of 60 by 40 feet", "1200 ft2"),
        ("area", "18 x 12 m / 2", "108 m2"),
        ("area", "triangle 18 x 12 m / 2", "108 m2"),
        ("area", "60 x 40 ft + 10 x 30 ft", "2700 ft2"),
        ("area", "60 x 40 and 10 x 30 ft", "2700 ft2"),
        ("area", "18 x 12 m plus a triangle 6 x 4 m", "228 m2"),
        ("area", "11 strides by 6 and 4 by 4", "66.42 m2"),
        ("area", "20 x 10 paces", "162 m2"),
        ("area", "60 ft x 70", "4200 ft2"),
        ("area", "18 x 12 + 4 x 4", "18"),
        ("area", "18 x 12 m + shed", "18 x 12 m + shed"),
        ("depth", "one finger thick", "18 mm"),
        ("depth", "a finger's width", "18 mm"),
        ("depth", "about two fingers", "36 mm"),
        ("depth", "1.5 fingers deep", "27 mm"),
        ("depth", "half a finger", "9 mm"),
        ("depth", "a thumb", "1 thumb"),
        ("everywhere", "20%", "0.2"),
        ("everywhere", "20 %", "0.2"),
        ("everywhere", "20", "0.2"),
        ("everywhere", "0.2", "0.2"),
        ("everywhere", "e", "e"),
        ("weekdays", "Sat, Sun", "sat,sun"),
        ("weekdays", "Sundays and Saturdays", "sat,sun"),
        ("weekdays", "sunday; wed", "wed,sun"),
        ("weekdays", "sunny", "sunny"),
        ("name", "60 x 70 ft", "60 x 70 ft"),
        ("area", "about 4,200 square feet", "4200 ft2"),
        ("area", "half an acre", "1/2 acre"),
        ("area", "390 qm", "390 m2"),
        ("depth", "an inch", "1 inch"),
        ("depth", "half an inch", "1/2 inch"),
        ("depth", "2 to 3 inches", "2.5 inches"),
        ("depth", "half an inch to 2 inches", "1.25 inches"),
        ("depth", "1/2 to 2 inches", "1.25 inches"),
        ("depth", "1/2-3/4 in", "0.625 in"),
        ("depth", "5 mm to 2 cm", "0.4921 in"),
        ("depth", "a couple of inches", "2 inches"),
        ("depth", "1 parsec to 2 in", "1 parsec to 2 in"),
        ("area", "18 x 12", "18"),
        ("depth", "none", "0 in"),
        ("everywhere", "all over", "e"),
        ("everywhere", "a fifth", "0.2"),
        ("everywhere", "1/5", "0.2"),
        ("weekdays", "weekends", "sat,sun"),
        ("weekdays", "Monday to Friday", "mon,tue,wed,thu,fri"),
        ("weekdays", "Fri-Mon", "mon,fri,sat,sun"),
        ("weekdays", "any day", "mon,tue,wed,thu,fri,sat,sun"),
        ("weekdays", "Sat to", "Sat to"),
        ("place", "Lancaster PA", "Lancaster, PA"),
        ("place", "40.04 N 76.3 W", "40.04, -76.3"),
        ("place", "SW1A 1AA", "SW1A 1AA"),
        ("place", "Toowoomba QLD", "Toowoomba, QLD"),
        ("place", "Wagga Wagga NSW", "Wagga Wagga, NSW"),
        ("intent", "Over-seed", "overseed"),
        ("intent", "bare spots", "patch"),
        ("soil", "heavy clay", "clay"),
        ("soil", "grey silt", "silt"),
        ("soil", "Red clay", "clay"),
        ("soil", "stiff yellow clay with stones", "clay"),
        ("soil", "silty", "silt loam"),
        ("soil", "rather sandy soil", "sandy loam"),
        ("soil", "dark sandy loam", "sandy loam"),
        ("soil", "sticky", "clay"),
        ("soil", "gumbo clay", "clay"),
        ("soil", "black", "black"),
        ("soil", "silty clay", "silty clay"),
        ("grass", "mixed old grass", "mixed"),
        ("area", "100 sq yds", "100 yd2"),
        ("depth", "flat", "0 in"),
        ("water", "a rain barrel and a garden hose", "hose"),
        ("water", "rainwater tank", "hose"),
        ("water", "rain only", "rain"),
        ("water", "reticulation", "system"),
    ],
)
def test_plain_spellings(name: str, answer: str, wanted: str) -> None:
    """Sides, shares and days, by their question alone."""
    assert plainly(name, answer) == wanted


@pytest.mark.parametrize(
    "answer", ["?", "I don't know", "not sure", "no idea.", "I do not know it", "unknown", "dunno"]
)
def test_who_does_not_know_may_say_so(answer: str) -> None:
    """In any words; what may be taken is taken, and of the rest it is said what is enough."""
    assert is_unknown(answer)
    assert answer_of("grass", answer) == answer_of("soil", answer) == "unknown"
    assert answer_of("depth", answer) == "0 in" and answer_of("area", answer) is None


def test_an_answer_is_not_taken_for_a_doubt() -> None:
    """Names that look a little like one."""
    for answer in ("Knowle", "Nowhere", "no fill", "sure", "17601"):
        assert not is_unknown(answer)


def test_a_fault_names_the_few_words_that_are_allowed() -> None:
    """A name of two grasses says which they are; none of three towns is guessed."""
    (fault,) = faults_of({"grass": "bermuda"})
    told = words_where({}).text(fault)
    assert "bermuda_common" in told and "bermuda_hybrid" in told


@pytest.mark.parametrize(
    ("ribbon", "rubbed", "soil"),
    [
        ("crumbles", "", "sand"),
        ("ball", "smooth", "loamy sand"),
        ("short", "", "loam"),
        ("short", "smooth", "silt loam"),
        ("middle", "gritty", "sandy clay loam"),
        ("long", "neither", "clay"),
        ("springs", "gritty", "peat"),
        ("", "gritty", None),
    ],
)
def test_a_soil_by_a_handful(ribbon: str, rubbed: str, soil: str | None) -> None:
    """As the flow chart of Thien (1979) has it; each is a soil of the book."""
    assert soil_by_feel({"ribbon": ribbon, "rubbed": rubbed}) == soil
    assert soil is None or faults_of({"soil": soil}) == ()


@pytest.mark.parametrize(
    ("layers", "soil"),
    [
        (("40", "40", "20"), "loam"),
        (("4 cm", "4 cm", "2 cm"), "loam"),
        (("90", "5", "5"), "sand"),
        (("10,5", "20", "70"), "clay"),
        (("40", "40", ""), None),
        (("0", "0", "0"), None),
        (("4 cm", "40 mm", "20 mm"), None),
        (("9" * 400, "1", "1"), None),
    ],
)
def test_a_soil_by_a_jar(layers: tuple[str, str, str], soil: str | None) -> None:
    """By the triangle of textures; heights of several rulers or none say nothing."""
    assert soil_by_jar(dict(zip(("sand", "silt", "clay"), layers, strict=True))) == soil


def test_a_brief_is_made_of_them() -> None:
    """As a terminal and the page send them; a grass is called as people call it."""
    answers = {
        "area": "60 x 70 ft",
        "grass": "tall fescue",
        "everywhere": "20%",
        "depth": "1 in",
        "weekdays": "Sat, Sun",
        "intent": "overseed",
        "place": "17601",
    }
    assert faults_of(answers) == ()
    told = tomllib.loads(brief_text(answers, "lawn"))
    assert told["lawn"]["area"] == "4200 ft2"
    assert told["leveling"]["lows"] == [{"depth": "1 in", "share": 0.2}]
    assert told["calendar"]["weekdays"] == ["sat", "sun"]


@pytest.mark.parametrize(
    ("place", "grass", "wanted"),
    [
        ("Halswell, New Zealand", "fescue", ("tall fescue", "fine fescue")),
        ("Leeds, GB", "bent", ("browntop", "creeping bentgrass")),
        ("Knoxville, TN", "bermuda", ("common bermudagrass", "hybrid bermudagrass")),
        ("Halswell, New Zealand", "moss and weeds", ("Moss and weeds are no grass",)),
        ("Knoxville, TN", "mostly clover", ("Moss and weeds are no grass",)),
    ],
)
def test_a_grass_that_is_not_told_apart_is_asked(
    place: str, grass: str, wanted: tuple[str, ...]
) -> None:
    """The species to choose between, without the ids of a brief; what is no grass is told so."""
    answers = {"place": place, "grass": grass}
    faults = faults_of(answers)
    told = [words_where(answers).text(one) for one in told_wrong("grass", answers, faults)]
    assert faults and all(any(part in line for line in told) for part in wanted)
    assert "_" not in "".join(told)


@pytest.mark.parametrize("grass", ["Blue oats", "gras", "mat-like stuff"])
def test_only_what_is_no_grass_is_told_so(grass: str) -> None:
    """A grass that is not known is no moss."""
    answers = {"place": "Halswell, New Zealand", "grass": grass}
    told = told_wrong("grass", answers, faults_of(answers))
    assert "Moss" not in " ".join(map(words_where(answers).text, told))


def test_a_grass_by_its_looks_is_named() -> None:
    """What was seen leads to other grasses, and to others elsewhere."""
    tufts = {"grass": "unknown", "green_in_winter": "true", "runners": "false"}
    creeps = {"grass": "unknown", "green_in_winter": "false", "runners": "true", "leaf": "broad"}
    here = {"place": "Halswell, New Zealand"}
    assert "perennial ryegrass" in by_looks(here | tufts, words_where(here))
    there = {"place": "Brisbane, AU"}
    assert "ryegrass" not in (told := by_looks(there | creeps, words_where(there)))
    assert told != by_looks(there | tufts, words_where(there))


@pytest.mark.parametrize(
    ("place", "name", "answer", "wanted", "unwanted"),
    [
        ("Kiel, Germany", "area", "three cars", ("18 x 12 m / 2", "+", "triangle"), ("ft", "acre")),
        ("Knoxville, TN", "area", "12", ("60 x 40 ft / 2", "triangle"), (" m ", "mm")),
        ("Kiel, Germany", "depth", "a thumb", ("mm or cm", "2 cm", "18 mm"), ("km", " mi", "inch")),
        ("Knoxville, TN", "depth", "2", ("inches", "1 in", "11/16 in"), ("km", " mi ", "mm")),
    ],
)
def test_what_cannot_be_read_is_answered_in_units_of_the_place(
    place: str, name: str, answer: str, wanted: tuple[str, ...], unwanted: tuple[str, ...]
) -> None:
    """Neither every unit that there is, nor those of elsewhere; pieces and triangles are shown."""
    answers = {"place": place, name: answer}
    faults = faults_of(answers, hints=False)
    told = " ".join(words_where(answers).text(m) for m in told_wrong(name, answers, faults))
    assert faults and all(part in told for part in wanted), told
    assert not any(part in told for part in unwanted), told


@pytest.mark.parametrize(
    ("answer", "wanted"),
    [
        ("60 x 70 ft", "60 x 70 ft"),
        ("390 m2", "390 m2"),
        ("11 strides by 6", "11 strides by 6 (53.46 m2)"),
        ("18 x 12 m / 2", "18 x 12 m / 2 (108 m2)"),
    ],
)
def test_what_an_area_comes_to_is_said_back(answer: str, wanted: str) -> None:
    """Where somebody could not reckon it in the head."""
    assert area_said_back(answer) == wanted
