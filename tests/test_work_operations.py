"""One task of an operation: what it is where nothing else is said."""

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.message import as_written
from turfplan.work.labour import person_hours
from turfplan.work.mix_choice import mix_parts
from turfplan.work.operations import CARE, Extent, Timing, Wording, handled, make

SETTING = setting_of(brief_of())
WHY = Wording(as_written("to test"))


def test_a_task_is_wished_on_the_day_of_its_anchor_and_moves_nothing() -> None:
    """Without more it is the first of its kind, on the whole lawn, without material or depth."""
    draft = make(SETTING, "roll", timing=Timing(CARE, anchor="sowing"), wording=WHY)
    assert (draft.id, draft.session, draft.position, draft.offset) == ("roll", 0, 1, 0)
    assert (draft.loose_m3, draft.depth_mm, draft.ideal, draft.window) == (0, 0, None, None)
    entry = SETTING.book.operations["roll"]
    assert draft.person_hours == round(person_hours(SETTING, entry, SETTING.plot.area_m2), 2)


def test_material_and_area_say_how_long_it_takes() -> None:
    """A pass over half of the lawn with two cubic metres, and three hours beside it."""
    half = SETTING.plot.area_m2 / 2
    extent = Extent(half, 2.0, 6.0, 3.0)
    draft = make(SETTING, "topdress", "1", timing=Timing(CARE), wording=WHY, extent=extent)
    hours = person_hours(SETTING, SETTING.book.operations["topdress"], half, 2.0)
    assert draft.person_hours == round(hours + 3, 2)
    assert (draft.id, draft.loose_m3, draft.depth_mm) == ("topdress.1", 2.0, 6.0)


def test_deep_hollows_take_soil_alone_and_plants_nothing_of_the_mix() -> None:
    """A pass takes what the mix is made of."""
    materials = SETTING.book.materials
    mixed = {materials[item].kind for item in mix_parts(SETTING) if item in materials}
    assert mixed and mixed != {"soil"} and handled(SETTING, "topdress") == mixed
    assert handled(SETTING, "lift_and_fill") == {"soil"}
    assert handled(SETTING, "plant") == frozenset()


def test_what_cuts_or_buries_the_ground_minds_the_roots_of_trees() -> None:
    """Told of the lawn, or of a part over roots; tines and tiller say it in words of their own."""
    own = {"core_aerate", "till"}
    disturbs = {"digging", "relaying", "spreading", "mending"}
    book = SETTING.book
    jobs = [o for o in book.operations.values() if disturbs & set(o.roles) and o.id not in own]
    assert len(jobs) > 5
    trees = {"site": {"trees": True}}
    part = {"lawn": {"part": [{"kind": "tree_roots", "share": 0.2}]}}
    for changes in (trees, part, {}):
        setting = setting_of(brief_of(changes))
        for job in jobs:
            draft = make(setting, job.id, timing=Timing(CARE), wording=WHY)
            assert any("tree_" in said.key for said in draft.cautions) is bool(changes), job.id
