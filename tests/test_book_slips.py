"""A slip in the data is refused with its file and its name, whatever its kind, and nothing
loads.
"""

import ast
import pickle
from collections.abc import Callable
from datetime import UTC, date, datetime
from typing import Any, get_args

import pytest

from planning import ROOT, example, kind, plan_of
from tiers import sampled
from told import told as hint_told
from turfplan.errors import TurfplanError
from turfplan.files.packing.fact_names import packaged_schema, source_of
from turfplan.files.reading.book import load_book
from turfplan.files.reading.book_files import Raw, book_of, read_files
from turfplan.records import fact_names
from turfplan.records.book_names import TASK_KEYS, ThinCause
from turfplan.records.journal import JournalEntry

RAW, VERSION = read_files(ROOT / "turfplan" / "data")
FROZEN = pickle.dumps(RAW)  # much quicker to copy than the files are to read
Slip = Callable[[Raw], None]


def told(*slips: Slip) -> str:
    """What is said of the book with these slips in it; it must not load."""
    raw: Raw = pickle.loads(FROZEN)
    for slip in slips:
        slip(raw)
    with pytest.raises(TurfplanError) as caught:
        book_of(raw, VERSION)
    return "\n".join(f"{problem} ({hint_told(problem.hint)})" for problem in caught.value.problems)


def put(path: str, value: Any) -> Slip:
    """Puts a value at a path of keys, of which the first is the file; `id=…` finds an entry in a
    list.
    """

    def change(raw: Raw) -> None:
        where, key = _reach(raw, path)
        where[key] = value

    return change


def drop(path: str) -> Slip:
    """Takes away what is at a path."""

    def change(raw: Raw) -> None:
        where, key = _reach(raw, path)
        del where[key]

    return change


def rename(path: str, name: str) -> Slip:
    """Gives another name to what is at a path."""

    def change(raw: Raw) -> None:
        where, key = _reach(raw, path)
        where[name] = where.pop(key)

    return change


def _reach(raw: Raw, path: str) -> tuple[Any, Any]:
    here: Any = raw
    *steps, last = path.split("|")
    for step in steps:
        if step.startswith("id="):
            here = next(row for row in here if row["id"] == step[3:])
        else:
            here = here[int(step) if step.isdigit() else step]
    assert (
        last.isdigit()
        or last in here
        or last in ("species", "setting", "when", "unit", "roles", "new")
    ), path
    return here, int(last) if last.isdigit() else last


def fact(**changes: Any) -> dict[str, Any]:
    """A fact that is sound in itself."""
    return {"value": 1, "unit": "days", "source": "judgement", "note": "a slip", **changes}


RULE, WINDOW = "order|rule|id=", "windows|window|id="
SLIPS: dict[str, tuple[Slip, tuple[str, ...]]] = {
    # Rules of order
    "a flag": (
        put(f"{RULE}rest_after_dethatching|when", ["living_turff"]),
        ("order.toml: rest_after_dethatching", "living_turff", "'living_turf'"),
    ),
    "a pick": (
        put(f"{RULE}delivery_before_pass|after", "topdress.frist"),
        ("order.toml: delivery_before_pass", "topdress.frist", "'topdress.first'"),
    ),
    "a key": (
        put(f"{RULE}marks_before_digging|before", "locate_utilities.lifitng"),
        ("order.toml: marks_before_digging", "lifitng", "'locate_utilities.lifting'"),
    ),
    "a key that is left out": (
        put(f"{RULE}marks_before_digging|before", "locate_utilities.not_liftin"),
        ("order.toml: marks_before_digging", "not_liftin"),
    ),
    "the one before, after": (
        put(f"{RULE}low_cut_steps|after", "mow_low.previous"),
        ("order.toml: low_cut_steps", "mow_low.previous"),
    ),
    "an operation in a selector": (
        put(f"{RULE}lifting_before_pass|before", "lift_and_fil"),
        ("order.toml: lifting_before_pass", "lift_and_fil", "'lift_and_fill'"),
    ),
    "sowing": (
        put(f"{RULE}permit_before_seed|after", "sowingg"),
        ("order.toml: permit_before_seed", "'sowing'"),
    ),
    "a fact in a rule": (
        put(f"{RULE}permit_before_seed|minimum", "order.permit_led"),
        ("order.toml: permit_before_seed", "'order.permit_lead'"),
    ),
    "a computed number": (
        put(f"{RULE}order_before_delivery|minimum", "setting.lead_day"),
        ("order.toml: order_before_delivery", "'setting.lead_days'"),
    ),
    "a length for days": (
        put(f"{RULE}permit_before_seed|minimum", "passes.hard_cap"),
        ("order.toml: permit_before_seed", "passes.hard_cap", "length"),
    ),
    "a strength": (
        put(f"{RULE}permit_before_seed|strength", "hrad"),
        ("order.toml: permit_before_seed", "hrad", "'hard'"),
    ),
    "a unit of a rule": (
        put(f"{RULE}permit_before_seed|unit", "workday"),
        ("order.toml: permit_before_seed", "'workdays'"),
    ),
    "the table of rules": (rename("order|rule", "rules"), ("order.toml", "rules", "'rule'")),
    # Windows
    "an operation of a window": (
        put(f"{WINDOW}warm_seed|operations", ["sed"]),
        ("windows.toml: warm_seed", "sed", "'seed'"),
    ),
    "a grass of a window": (
        put(f"{WINDOW}warm_seed|species", ["zoysiaa"]),
        ("windows.toml: warm_seed", "zoysiaa", "'zoysia'"),
    ),
    "a source of a window": (
        put(f"{WINDOW}warm_seed|rests_on", ["CROPSCI_204"]),
        ("windows.toml: warm_seed", "'CROPSCI_2004'"),
    ),
    "a window without a source": (
        put(f"{WINDOW}warm_seed|rests_on", []),
        ("windows.toml: warm_seed", "rests_on"),
    ),
    "a setting of a window": (
        put(f"{WINDOW}cool_feed_late|setting", "late_nitrogne"),
        ("windows.toml: cool_feed_late", "'late_nitrogen'"),
    ),
    "a condition": (
        put(f"{WINDOW}warm_seed|opens|0|kind", "soil_risng"),
        ("windows.toml: warm_seed", "soil_risng", "'soil_rising'"),
    ),
    "a fact of a condition": (
        put(f"{WINDOW}warm_seed|opens|0|threshold", "windows.warm_sed_opens"),
        ("windows.toml: warm_seed", "'windows.warm_seed_opens'"),
    ),
    "days for a temperature": (
        put(f"{WINDOW}warm_seed|opens|0|threshold", "windows.soil_lag"),
        ("windows.toml: warm_seed", "windows.soil_lag", "days"),
    ),
    "a fact that some grass lacks": (
        put(f"{WINDOW}warm_seed|species", ["bahia"]),
        ("windows.toml: warm_seed", "species.bahia.degree_days_to_frost"),
    ),
    "a word that nothing fills": (
        put(f"{WINDOW}warm_seed|reason", "From {opnes}."),
        ("windows.toml: warm_seed", "opnes", "'opens'"),
    ),
    # Things in words
    "a soil of a mix": (
        put("mixes|sand|soils", ["sandy_lome"]),
        ("mixes.toml: sand", "sandy_lome", "'sandy_loam'"),
    ),
    "a habit of a mix": (
        put("mixes|sand|habits", ["stolon and rhizom"]),
        ("mixes.toml: sand", "'stolon and rhizome'"),
    ),
    "a grass of a mix": (put("mixes|sand|species", ["zoysiaa"]), ("mixes.toml: sand", "species")),
    "a part of a mix": (
        put("mixes|topsoil_sand|parts", ["topsoil", "sandd"]),
        ("mixes.toml: topsoil_sand", "sandd", "'sand'"),
    ),
    "shares of a mix": (
        put("mixes|topsoil_sand|sand|value", 0.4),
        ("mixes.toml: topsoil_sand", "0.9"),
    ),
    "a condition of a choice": (
        put("mix_choices|choice|id=seed|when", ["seded"]),
        ("mix_choices.toml: seed", "'seeded'"),
    ),
    "a mix of a choice": (
        put("mix_choices|choice|id=seed|mix", "topsoil_sad"),
        ("mix_choices.toml: seed", "'topsoil_sand'"),
    ),
    "the last choice": (
        put("mix_choices|choice|id=else|when", ["deep"]),
        ("mix_choices.toml", "last choice"),
    ),
    "a grass of a campaign": (
        put("campaigns|summer|strong", ["bermuda_comon"]),
        ("campaigns.toml: summer", "'bermuda_common'"),
    ),
    "a campaign": (rename("campaigns|autumn", "autum"), ("campaigns.toml: autum", "'autumn'")),
    "the cost of a campaign": (
        put("campaigns|autumn|cost", "campaign.cost_autum"),
        ("campaigns.toml: autumn", "'campaign.cost_autumn'"),
    ),
    "a habit": (
        put("species|zoysia|habit", "rizome"),
        ("species.toml: zoysia", "rizome", "'rhizome'"),
    ),
    "a form of plants": (
        put("species|zoysia|plantable", ["sods"]),
        ("species.toml: zoysia", "sods", "'sod'"),
    ),
    "a season without feed": (
        put("species|centipede|unfed|0|season", "sping"),
        ("species.toml: centipede", "'spring'"),
    ),
    "no winter cover": (
        drop("species|perennial_ryegrass|winter_cover"),
        ("species.toml", "winter cover"),
    ),
    "a harmed grass": (
        put("herbicides|siduron|harms|0|grass", "bermuda_comon"),
        ("herbicides.toml: siduron", "'bermuda_common'"),
    ),
    "an operation": (
        rename("operations|permit", "permitt"),
        ("operations.toml: permitt", "'permit'"),
    ),
    "a role": (
        put("operations|permit|roles", ["headlin"]),
        ("operations.toml: permit", "'headline'"),
    ),
    "a caution": (
        put("operations|diagnose|cautions", ["utilites"]),
        ("operations.toml: diagnose", "'utilities'"),
    ),
    "the labour of an operation": (
        put("operations|mow|labour", ["labour.mows"]),
        ("operations.toml: mow", "'labour.mow'"),
    ),
    "days for labour": (
        put("operations|mow|labour", ["wish.lime"]),
        ("operations.toml: mow", "wish.lime"),
    ),
    "a word in an instruction": (
        put("operations|permit|title", "Get {amunt}"),
        ("operations.toml: permit", "'amount'"),
    ),
    "how a window binds": (
        put("operations|dethatch|window", "stron"),
        ("operations.toml: dethatch", "'strong'"),
    ),
    "a soil": (rename("soils|clay_loam", "clay_lome"), ("soils.toml: clay_lome", "'clay_loam'")),
    "a texture": (put("materials|topsoil|texture", "lome"), ("materials.toml: topsoil", "'loam'")),
    "a kind of material": (
        put("materials|topsoil|kind", "sol"),
        ("materials.toml: topsoil", "'soil'"),
    ),
    "a key of a grass": (
        rename("species|zoysia|seedable", "seedabel"),
        ("species.toml: zoysia", "'seedable'"),
    ),
    # Regions
    "a setting of a region": (
        put("regions/california|settings", {"late_nitrogne": True}),
        ("regions/california.toml", "late_nitrogne", "'late_nitrogen'"),
    ),
    "a country of a grass": (
        put("species|kikuyu|noxious_in", ["USS"]),
        ("species.toml: kikuyu", "USS", "'US'"),
    ),
    "a country": (
        put("regions/british_isles|countries", ["GBB"]),
        ("regions/british_isles.toml", "GBB", "'GB'"),
    ),
    "a state": (put("regions/california|states", ["CAL"]), ("regions/california.toml", "'CAL'")),
    "a fact of a region": (
        put("regions/california|facts|new", fact()),
        ("regions/california.toml", "new"),
    ),
    "a region's unit": (
        put("regions/california|facts|species.zoysia.mow_height|unit", "lb"),
        ("regions/california.toml", "species.zoysia.mow_height", "mass"),
    ),
    "a local word": (
        rename("regions/british_isles|terms|Dethatch", "Dethach"),
        ("regions/british_isles.toml", "Dethach"),
    ),
    # Facts
    "the name of a grass's fact": (
        rename("species|tall_fescue|pass_cap", "pass_capp"),
        ("species.toml", "species.tall_fescue.pass_capp", "'species.tall_fescue.pass_cap'"),
    ),
    "the name of a fact": (
        rename("season|order|permit_lead", "permit_led"),
        ("season.toml", "order.permit_led", "'order.permit_lead'"),
    ),
    "a group": (
        rename("practice|dethatch", "dethach"),
        ("practice.toml", "dethach.limit", "'dethatch.limit'"),
    ),
    "inches for days": (
        put("species|tall_fescue|germination_days|unit", "in"),
        ("species.toml: species.tall_fescue.germination_days", "length"),
    ),
    "pounds for inches": (
        put("species|tall_fescue|mow_height|unit", "lb"),
        ("species.toml: species.tall_fescue.mow_height", "mass"),
    ),
    "a share with days": (
        put("thresholds|windows|middle|unit", "days"),
        ("windows.middle", "days"),
    ),
    "a number with a unit": (
        put("season|campaign|candidates_most|unit", "%"),
        ("season.toml: campaign.candidates_most", "without a unit"),
    ),
    "feet for inches": (
        put("species|zoysia|mow_height|unit", "ft"),
        ("species.toml: species.zoysia.mow_height", "beyond"),
    ),
    "a point that slipped": (
        put("season|order|permit_lead|value", 70),
        ("season.toml: order.permit_lead", "beyond", "70"),
    ),
    "a month that there is not": (
        put("season|year|spring_begins|value", 13),
        ("season.toml: year.spring_begins", "beyond"),
    ),
    "a grass's fact that is missing": (
        drop("species|tall_fescue|pass_cap"),
        ("species.toml: species.tall_fescue.pass_cap", "missing"),
    ),
    "a seed fact that is missing": (
        drop("species|tall_fescue|germination_days"),
        ("species.toml: species.tall_fescue.germination_days", "missing"),
    ),
    "a fact that is missing": (
        drop("season|order|permit_lead"),
        ("season.toml: order.permit_lead", "missing"),
    ),
    "one of many that is missing": (
        drop("water|water|kc_cool_month_7"),
        ("water.toml: water.kc_cool_month_7", "missing"),
    ),
    "the density of a material": (
        drop("materials|topsoil|density"),
        ("materials.toml: materials.topsoil.density", "missing"),
    ),
    "one end of a ban": (
        drop("laws|law|us_ny_nitrogen_to"),
        ("laws.toml: law.us_ny_nitrogen_from", "stands alone"),
    ),
    "a state's ban": (
        rename("laws|law|us_ny_nitrogen_to", "us_nyy_nitrogen_to"),
        ("laws.toml: law.us_nyy_nitrogen_to", "'law.us_ny_nitrogen_to'"),
    ),
    "the source of a fact": (
        put("season|order|weed_lead|source", "S40cc"),
        ("season.toml: order.weed_lead", "'S40c'"),
    ),
    # What nothing reads, and files
    "a fact that nothing reads": (
        put("season|order|new", fact()),
        ("season.toml: order.new", "does not know"),
    ),
    "a fact that no entry names": (
        drop(f"{RULE}weeds_before_seed|minimum"),
        ("season.toml: order.weed_lead", "read by nothing"),
    ),
    "a caution that nothing reads": (
        put("cautions|new", {"text": "t", "source": "S22"}),
        ("cautions.toml: new", "read by nothing"),
    ),
    "a material that nothing reads": (
        put("materials|new", {"name": "n", "kind": "cover"}),
        ("materials.toml: new", "read by nothing"),
    ),
    "a source that nothing rests on": (
        put("sources|new", {"title": "t", "institution": "i"}),
        ("sources.toml: new", "nothing rests"),
    ),
    "an operation that nothing reads": (
        put("operations|new", RAW["operations"]["permit"]),
        ("operations.toml: new", "read by nothing"),
    ),
    "a row of the schema that no fact fills": (
        put("schema|facts|order|new", {"dimension": "days", "least": 0, "most": 9}),
        ("order.new", "missing"),
    ),
    "a dimension of the schema": (
        put("schema|facts|order|permit_lead|dimension", "day"),
        ("schema.toml: facts.order.permit_lead", "'days'"),
    ),
    "a file": (lambda raw: raw.pop("cautions") and None, ("cautions.toml", "missing")),
}


@pytest.mark.full
@pytest.mark.parametrize("name", sampled(SLIPS, *[*SLIPS][::3]))
def test_a_slip_is_refused(name: str) -> None:
    """The message holds the file, the name that slipped, and where there is one the name that was
    meant.
    """
    slip, needles = SLIPS[name]
    said = told(slip)
    for needle in needles:
        assert needle in said, said


@pytest.mark.full
def test_slips_are_told_together() -> None:
    """Several slips in several files are one report, and nothing loads."""
    names = (
        "a key",
        "a grass of a window",
        "a country",
        "inches for days",
        "the name of a grass's fact",
        "a caution",
    )
    said = told(*(SLIPS[name][0] for name in names))
    for name in names:
        assert all(needle in said for needle in SLIPS[name][1]), (name, said)


def test_the_untouched_book_loads() -> None:
    """Without a slip the same reading gives the packaged book."""
    assert book_of(pickle.loads(FROZEN), VERSION).facts == load_book().facts


def test_names_of_facts_are_those_of_the_schema() -> None:
    """The module that mypy reads is the one that the schema writes."""
    assert (ROOT / "turfplan" / "records" / "fact_names.py").read_text(
        encoding="utf-8"
    ) == source_of(packaged_schema())


@pytest.mark.full
def test_every_fact_that_code_may_read_is_read() -> None:
    """Each name that the schema gives to code stands in some module besides the list of them."""
    read: set[str] = set()
    for path in (ROOT / "turfplan").rglob("*.py"):
        if path.name != "fact_names.py":
            tree = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            read |= {
                node.value
                for node in tree
                if isinstance(node, ast.Constant) and isinstance(node.value, str)
            }
    lists = {name: get_args(value) for name, value in vars(fact_names).items() if get_args(value)}
    assert set(lists) >= {
        "GroupFact",
        "Family",
        "FamilyOption",
        "SpeciesFact",
        "SpeciesOption",
        "MaterialFact",
    }
    assert {
        name: [fact for fact in names if fact not in read] for name, names in lists.items()
    } == {name: [] for name in lists}


ALIVE = JournalEntry(
    number=1,
    at=datetime(2027, 2, 1, tzinfo=UTC),
    kind="measured",
    quantity="live_cause",
    value=1.0,
    on=date(2027, 2, 1),
)


@pytest.mark.full
def test_tasks_have_the_keys_that_rules_name() -> None:
    """What rules of order may call tasks by is what seasons name them."""
    plans = [
        plan_of(),
        plan_of({"leveling": {"material": "compost"}}),
        plan_of(
            {
                "leveling": {
                    "depth": None,
                    "lows": [{"depth": "3 in", "share": 0.05}, {"depth": "0.5 in", "share": 0.3}],
                },
                "water": {"allowed_weekdays": ["tue", "sat"]},
            }
        ),
        plan_of(
            {
                "seeding": {"intent": "plant"},
                "lawn": {"grass": "st_augustine"},
                "place": {"postal_code": "32607"},
            }
        ),
        plan_of(
            {
                "lawn": {"condition": "bare"},
                "seeding": {"intent": "renovate"},
                "soil_test": {"ph": 5.0, "acidity_cmol_kg": 7.0},
            }
        ),
        plan_of({"seeding": {"intent": "renovate"}}),
        plan_of(
            {
                "lawn": {"grass": "kentucky_bluegrass", "thatch": "15 mm", "area": "380 m2"},
                "place": {"latitude": 51.31, "longitude": 9.48, "country": "DE"},
                "leveling": {"depth": "8 mm"},
                "season": {"campaign": "autumn"},
                "calendar": {"unavailable": [{"from": date(2027, 8, 1), "to": date(2027, 9, 10)}]},
            }
        ),
        plan_of(
            {
                "lawn": {"grass": "bermuda_common"},
                "place": {"postal_code": "85001"},
                "seeding": {"intent": "winter_overseed"},
            }
        ),
        plan_of(
            {
                "site": {"bump_cause": "moles"},
                "lawn": {"grass": "bermuda_common", "thatch": "0.6 in"},
                "place": {"postal_code": "30606"},
                "seeding": {"intent": "none"},
            }
        ),
        plan_of({"site": {"thin_cause": list(get_args(ThinCause))}}, journal=(ALIVE,)),
        plan_of({"history": {"sowings": [{"on": date(2027, 1, 20)}]}}),
        plan_of(
            {
                "lawn": {"condition": "bare", "area": "2000 ft2"},
                "leveling": {"depth": "5 in"},
                "soil_test": {"on": date(2027, 1, 10), "ph": 5.2, "acidity_cmol_kg": 6.0}
                | {"of": "topsoil"},
            }
        ),
        example("arid-bluegrass"),
        plan_of({"local": {"late_nitrogen": True}, "seeding": {"intent": "none"}}),
        example("transition-fescue"),
        plan_of(
            {
                "lawn": {"condition": "bare", "area": "2000 ft2"},
                "leveling": {"depth": "5 in"},
                "site": {"slope_percent": 12},
            }
        ),
        plan_of(
            {
                "lawn": {"grass": "zoysia", "thatch": "0.8 in"},
                "place": {"postal_code": "30303"},
                "seeding": {"intent": "none"},
            }
        ),
    ]
    ids = {task.id for plan in plans for operation in TASK_KEYS for task in kind(plan, operation)}
    for operation, keys in TASK_KEYS.items():
        for key in keys:
            assert any(task_id.startswith(f"{operation}.{key}") for task_id in ids), (
                operation,
                key,
                sorted(ids),
            )
