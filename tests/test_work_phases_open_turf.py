"""How turf is opened: low cuts, their reason, and the ground that tines may go into."""

from typing import Any

import pytest

from test_work_season import drafted
from turfplan.phrases import open_turf as phrases
from turfplan.work.labour import person_hours
from turfplan.work.phases.open_turf import surface

SPONGY: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "thatch": "0.8 in"},
    "place": {"postal_code": "30606"},
    "seeding": {"intent": "none"},
    "leveling": {"depth": "0.25 in"},
}


def test_the_low_cut_says_what_it_is_for() -> None:
    """So that the mix reaches the soil, or the seed."""
    for changes, why in (
        ({}, phrases.mow_low_before_mix()),
        ({"leveling": {"depth": "0 in"}}, phrases.mow_low_before_seed()),
    ):
        cuts = [d for d in drafted(changes)[2].values() if d.operation == "mow_low"]
        assert cuts and {cut.why for cut in cuts} == {why}


def test_a_creeper_is_cut_low_for_the_blades_and_again_for_the_mix() -> None:
    """Weeks lie between: one height is cut twice, the first time ahead of the dethatching; other
    turf is cut once at each height.
    """
    setting, campaign, _ = drafted(SPONGY)
    for heights in ((25.0,), (35.0, 25.0)):
        found = surface(setting, campaign, heights, 0.0)
        cuts = [draft for draft in found if draft.operation == "mow_low"]
        (combed,) = (draft for draft in found if draft.operation == "dethatch")
        assert [cut.id for cut in cuts] == ["mow_low.1", "mow_low.2"]
        assert [cut.offset for cut in cuts] == [combed.offset, -1] and combed.offset < -7
    plain, level, _ = drafted({"leveling": {"depth": "0.5 in"}})
    (cut,) = (d for d in surface(plain, level, (40.0,), 0.0) if d.operation == "mow_low")
    assert cut.offset == -1


@pytest.mark.parametrize(
    ("parts", "share"),
    [
        ([], 1.0),
        ([{"kind": "tree_roots", "share": 0.2}], 0.8),
        ([{"kind": "septic_field", "share": 0.1}, {"kind": "tree_roots", "share": 0.3}], 0.6),
        ([{"kind": "shade", "share": 0.2}], 1.0),
    ],
)
def test_tines_spare_lines_and_roots(parts: list[dict[str, Any]], share: float) -> None:
    """Only the ground that is cored takes time."""
    setting, _, drafts = drafted({"lawn": {"part": parts}})
    draft = next(d for d in drafts.values() if d.operation == "core_aerate")
    area_m2 = setting.plot.area_m2 * share
    hours = person_hours(setting, setting.book.operations["core_aerate"], area_m2)
    assert draft.person_hours == pytest.approx(hours, abs=0.006)
