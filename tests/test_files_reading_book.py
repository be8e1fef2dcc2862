"""The book loads, and says everything that is wrong with its files at once."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from planning import EXAMPLES, ROOT, brief_of
from told import told
from turfplan.app.book_facts import book_facts
from turfplan.app.inputs import input_of
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.book_files import read_book
from turfplan.work.windows import operation_windows

DATA = ROOT / "turfplan" / "data"


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A copy of the data that a test may break."""
    folder = tmp_path / "data"
    shutil.copytree(DATA, folder, ignore=shutil.ignore_patterns("climate"))
    return folder


def edit(file: str, old: str, new: str) -> Callable[[Path], None]:
    """Puts one text in place of another in a data file."""

    def change(folder: Path) -> None:
        path = folder / file
        text = path.read_text(encoding="utf-8")
        assert old in text, (file, old)
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    return change


def append(file: str, text: str) -> Callable[[Path], None]:
    """Adds lines to a data file."""

    def change(folder: Path) -> None:
        path = folder / file
        path.write_text(path.read_text(encoding="utf-8") + text, encoding="utf-8")

    return change


SETTLE = "settle_allowance = { low = 0, value = 10, high = 20,"
FAULTS: dict[str, tuple[Callable[[Path], None], tuple[str, ...]]] = {
    "unknown source": (
        edit("species.toml", 'source = "S45"', 'source = "S4500"'),
        ("unknown source", "S4500"),
    ),
    "unused source": (
        append("sources.toml", '\n[S999]\ntitle = "t"\ninstitution = "i"\n'),
        ("S999", "nothing rests"),
    ),
    "no source": (
        append("practice.toml", '\n[more]\nx = { value = 1, unit = "mm" }\n'),
        ("more.x", "source"),
    ),
    "judgement without a note": (
        append("practice.toml", '\n[more]\nx = { value = 1, unit = "mm", source = "judgement" }\n'),
        ("more.x", "note"),
    ),
    "misspelt key": (
        edit("practice.toml", SETTLE, SETTLE.replace("value", "valeu")),
        ("settle_allowance", "did you mean 'value'"),
    ),
    "range reversed": (
        edit("practice.toml", SETTLE, SETTLE.replace("low = 0", "low = 30")),
        ("settle_allowance", "above high"),
    ),
    "value outside": (
        edit("practice.toml", SETTLE, SETTLE.replace("value = 10", "value = 25")),
        ("settle_allowance", "outside"),
    ),
    "unknown unit": (
        append("practice.toml", '\n[more]\nx = { value = 1, unit = "furlong", source = "S22" }\n'),
        ("more.x", "unknown unit"),
    ),
    "twice": (
        append(
            "season.toml",
            '\n[topdress]\nsettle_allowance = { value = 1, unit = "%", source = "S22" }\n',
        ),
        ("settle_allowance", "twice"),
    ),
    "not a fact": (append("practice.toml", "\n[more]\nx = 3\n"), ("more.x", "is not a fact")),
    "overlay of an unknown fact": (
        append(
            "regions/arid_west.toml",
            '"topdress.sand_limt" = { value = 1, unit = "in", source = "S22" }\n',
        ),
        ("arid_west", "did you mean 'topdress.sand_limit'"),
    ),
    "unknown caution": (
        edit("operations.toml", 'cautions = ["utilities"]', 'cautions = ["utilites"]'),
        ("unknown caution", "utilites"),
    ),
    "rule with an unknown fact": (
        edit("order.toml", "order.diagnose_lead", "order.diagnose_led"),
        ("cause_before_work", "diagnose_led"),
    ),
    "rule with an unknown operation": (
        edit("order.toml", 'before = "cause"', 'before = "diagnos"'),
        ("cause_before_work", "diagnos"),
    ),
    "rule twice": (
        edit("order.toml", 'id = "soil_test_before_surface"', 'id = "cause_before_work"'),
        ("cause_before_work", "twice"),
    ),
    "unknown strength": (
        edit("order.toml", 'strength = "advice"', 'strength = "wish"'),
        ("strength",),
    ),
    "window with an unknown fact": (
        edit("windows.toml", "windows.cool_seed_opens", "windows.cool_seed_open"),
        ("cool_seed_open",),
    ),
    "unknown condition": (
        edit("windows.toml", 'kind = "air_falling"', 'kind = "air_fallin"'),
        ("windows.toml",),
    ),
    "harm to an unknown grass": (
        edit("herbicides.toml", 'grass = "bermuda_common"', 'grass = "bermuda"'),
        ("siduron", "unknown grass"),
    ),
    "harm without its source": (
        edit("herbicides.toml", 'source = "ASHS_BENT"', 'source = "ASHS"'),
        ("siduron", "unknown source"),
    ),
    "unknown texture": (
        edit("materials.toml", 'texture = "loam"', 'texture = "lome"'),
        ("topsoil", "unknown texture"),
    ),
    "mix without a share": (
        edit(
            "mixes.toml",
            'sand = { value = 0.25, unit = "", source = "common_practice", '
            'basis = "common_practice" }\n',
            "",
        ),
        ("topsoil_sand_compost",),
    ),
    "campaign without its cost": (
        edit("campaigns.toml", "campaign.cost_autumn", "campaign.cost_autum"),
        ("autumn", "cost_autum"),
    ),
    "not toml": (append("soils.toml", "[broken\n"), ("soils.toml", "is not TOML")),
}


@pytest.mark.parametrize("name", FAULTS)
def test_fault_is_a_load_error(name: str, data: Path) -> None:
    """Each kind of fault stops the loading and is named with its file and key."""
    breaks, needles = FAULTS[name]
    breaks(data)
    with pytest.raises(TurfplanError) as caught:
        read_book(data)
    said = "\n".join(f"{p} {told(p.hint)}" for p in caught.value.problems)
    for needle in needles:
        assert needle in said, said


def test_faults_are_told_together(data: Path) -> None:
    """Two broken files are one report."""
    append("practice.toml", "\n[more]\nx = 3\n")(data)
    edit("order.toml", 'strength = "advice"', 'strength = "wish"')(data)
    with pytest.raises(TurfplanError) as caught:
        read_book(data)
    assert len(caught.value.problems) >= 2


def test_whole_copy_loads(data: Path) -> None:
    """The untouched copy loads, with the same version as the packaged book."""
    assert read_book(data).version == load_book().version


@pytest.mark.parametrize("region", load_book().region_ids)
def test_every_overlay_loads(region: str) -> None:
    """An overlay changes a fact or a word, gives a reason, and never invents a fact."""
    plain, local = load_book(), load_book(region)
    changed = {name for name in plain.facts if plain.facts[name] != local.facts[name]}
    overlay = local.overlays[region]
    assert changed or overlay.terms
    assert set(local.facts) == set(plain.facts) and overlay.why


def test_unknown_region_names_the_nearest() -> None:
    """A misspelt region is answered with the nearest one."""
    with pytest.raises(TurfplanError, match="unknown region") as caught:
        load_book("british_iles")
    assert told(caught.value.problems[0].hint) == "did you mean 'british_isles'?"


def test_regions_speak_their_words() -> None:
    """The British scarify and hollow-tine, and couch is bermudagrass in Australia."""
    assert load_book("british_isles").operations["dethatch"].name == "Scarify"
    assert load_book("australia_new_zealand").species["bermuda_common"].name.startswith("couch")


@pytest.mark.parametrize("region", [None, "australia_new_zealand"])
def test_grasses_are_named_as_within_a_sentence(region: str | None) -> None:
    """A capital stands only where a grass is called after a place or a saint; reasons begin with
    one all the same.
    """
    book = load_book(region)
    names = [grass.name for grass in book.species.values()]
    assert sorted(name for name in names if name != name.lower()) == sorted(
        name for name in names if "Kentucky" in name or "St. Augustine" in name
    )
    climate = input_of(brief_of(), EXAMPLES).climate
    for species in book.species:
        assert all(
            told(w.reason, region=region)[0].isupper()
            for w in operation_windows(climate, book, species, 2027).windows
        )


def test_every_grass_has_what_the_rules_ask() -> None:
    """Each grass has its heights, caps, intervals, nitrogen and frost distances; each that is sown
    its seed facts.
    """
    book = load_book()
    always = (
        "mow_height",
        "low_cut_floor",
        "pass_cap",
        "pass_interval_min",
        "nitrogen_year",
        "days_before_frost",
        "last_pass_before_frost",
    )
    sown = (
        "seed_rate_new",
        "seed_rate_overseed",
        "seed_cover_max",
        "germination_days",
    )
    missing = [
        f"{s.id}.{f}"
        for s in book.species.values()
        for f in (*always, *(sown if s.seedable else ()))
        if not book.get(f"species.{s.id}.{f}")
    ]
    assert not missing
    assert len(book.species) >= 12 and len(book.overlays) >= 6


def test_judgement_is_counted() -> None:
    """The table of facts marks judgement, and the count is what it shows."""
    book = load_book()
    rows = book_facts()
    assert len(rows) == len(book.facts)
    assert sum(row.judgement for row in rows) == book.judgements() > 0
    assert all("judgement" in row.source for row in rows if row.judgement)
