"""Shapes, zones and maps of a brief become the ground of a plan."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planning import TODAY, brief_of, made_plan
from told import all_told, told
from told_errors import problem_text, refused
from turfplan.app.inputs import input_of
from turfplan.errors import TurfplanError
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan

FRONT = {"kind": "rectangle", "name": "Front", "length": "60 ft", "width": "40 ft"}
BACK = {"kind": "rectangle", "name": "Back", "length": "60 ft", "width": "60 ft"}
SQUARE_FOOT_M2 = 0.09290304
# The amount of a part is rounded to hundredths of a cubic yard, that the parts add up as printed.
ROUNDED_M3 = 0.005 * 0.9144**3


def zoned(front: dict[str, Any], back: dict[str, Any], **changes: Any) -> Brief:
    """A lawn of two zones, dense turf, no seed unless said."""
    lawn = {"area": None, "condition": "dense", "shape": [FRONT | front, BACK | back]}
    leveling = changes.pop("leveling", {"depth": None})
    return brief_of({"lawn": lawn, "leveling": leveling, "seeding": {"intent": "none"}, **changes})


def planned(brief: Brief, folder: Path = Path()) -> Plan:
    """The plan of a brief with all that its ground says."""
    given = input_of(brief, folder)
    return made_plan(brief, given.book, given.climate, now=TODAY, ground=given.ground)


def layers(plan: Plan) -> list[tuple[float, float]]:
    """The depth in mm and the loose volume in m3 of every pass."""
    found = []
    for task in plan.tasks:
        if task.plays("spreading"):
            amounts = {a.item: a.value for a in task.amounts}
            found.append((amounts["depth"], amounts["volume"]))
    return sorted(found, key=lambda layer: -layer[1])


class TestDepths:
    """Each zone is filled by its own depth."""

    def test_passes_follow_the_deeper_zone_and_the_shallow_one_drops_out(self) -> None:
        """An inch in front, a quarter inch at the back: the first pass covers both, the others the
        front alone.
        """
        plan = planned(zoned({"depth": "1 in"}, {"depth": "0.25 in"}))
        found = layers(plan)
        assert sum(depth for depth, _ in found) == pytest.approx(25.4)
        settled = (2400 * 1.0 + 3600 * 0.25) / 12 * 0.3048**3
        # Three passes in front and one at the back.
        assert sum(v for _, v in found) == pytest.approx(1.1 * settled, abs=4 * ROUNDED_M3)
        front = found[-1][0] / 1000 * 2400 * SQUARE_FOOT_M2 * 1.1
        assert found[-1][1] == pytest.approx(front, abs=ROUNDED_M3)
        assert any(
            said == "Front (2,400 ft², 40% of the lawn) is filled by 1 in, settled."
            for said in all_told(plan.assumptions)
        )

    def test_each_pass_says_what_goes_where(self) -> None:
        """By zone, in loose volume; a zone that is full is no longer named."""
        plan = planned(zoned({"depth": "1 in"}, {"depth": "0.25 in"}))
        reasons = [
            told(a.reason)
            for t in plan.tasks
            if t.plays("spreading")
            for a in t.amounts
            if a.item == "volume"
        ]
        assert sum("Back" in reason for reason in reasons) == 1
        assert all("Front" in reason for reason in reasons)

    def test_a_zone_without_depth_takes_that_of_the_lawn(self) -> None:
        """And without either it is left alone."""
        both = planned(zoned({"depth": "0.5 in"}, {}, leveling={"depth": "0.25 in"}))
        alone = planned(zoned({"depth": "0.5 in"}, {}))
        more = 3600 * SQUARE_FOOT_M2 * 0.25 * 0.0254 * 1.1
        assert sum(v for _, v in layers(both)) - sum(v for _, v in layers(alone)) == pytest.approx(
            more, abs=ROUNDED_M3
        )

    def test_a_zone_filled_all_over_is_no_hollow(self) -> None:
        """The cap of the grass holds although other zones are left alone: tall fescue takes less
        than half an inch.
        """
        passes = layers(planned(zoned({"depth": "1 in"}, {"depth": "0 in"})))
        plain = layers(
            planned(
                brief_of(
                    {
                        "lawn": {"condition": "dense"},
                        "leveling": {"depth": "1 in"},
                        "seeding": {"intent": "none"},
                    }
                )
            )
        )
        assert max(depth for depth, _ in passes) <= max(depth for depth, _ in plain) + 1e-6

    @pytest.mark.parametrize(
        ("leveling", "words"),
        [
            ({"depth": None, "survey": "s.csv"}, "the survey says how deep"),
            ({"depth": None, "lows": [{"depth": "1 in", "share": 0.1}]}, "the depth is said twice"),
        ],
    )
    def test_a_depth_is_said_once(self, leveling: dict[str, Any], words: str) -> None:
        """A survey or lows beside zones that have depths are refused."""
        with pytest.raises(TurfplanError, match=words):
            input_of(zoned({"depth": "1 in"}, {}, leveling=leveling), Path())


class TestGrassAndSun:
    """Zones with another grass or less sun hold the passes back, or are refused."""

    def test_passes_are_held_to_the_weaker_grass(self) -> None:
        """Fine fescue at the back bears less than tall fescue."""
        plain = planned(zoned({"depth": "1 in"}, {"depth": "1 in"}))
        mixed = planned(zoned({"depth": "1 in"}, {"depth": "1 in", "grass": "fine_fescue"}))
        assert max(d for d, _ in layers(mixed)) < max(d for d, _ in layers(plain))
        assert any(
            "In Back grows fine fescue: passes and cuts are held to what both" in said
            for said in all_told(mixed.assumptions)
        )

    def test_a_grass_of_another_season_is_a_lawn_of_its_own(self) -> None:
        """Bermudagrass and tall fescue share no dates."""
        with pytest.raises(TurfplanError) as caught:
            input_of(zoned({"depth": "1 in"}, {"grass": "bermuda_common"}), Path())
        (problem,) = caught.value.problems
        assert problem.where == "lawn.shape.2.grass"
        assert "one plan cannot suit both" in problem_text(problem)
        assert "a lawn of its own" in problem_text(problem)

    def test_an_unknown_grass_is_named(self) -> None:
        """With the nearest known one."""
        with refused("unknown grass") as caught:
            input_of(zoned({}, {"grass": "fine_fescu"}, leveling={"depth": "0.5 in"}), Path())
        assert problem_text(caught.value.problems[0]).endswith("; did you mean 'fine_fescue'?")

    def test_shade_holds_every_pass_to_slow_turf(self) -> None:
        """A quarter inch, and the plan says why."""
        plan = planned(zoned({"depth": "1 in"}, {"depth": "1 in", "sun": "shade"}))
        assert max(depth for depth, _ in layers(plan)) <= 6.35 + 1e-6
        assert any("Back lies in shade" in said for said in all_told(plan.assumptions))

    def test_part_sun_changes_no_pass(self) -> None:
        """It is said, and no more."""
        plan = planned(zoned({"depth": "1 in"}, {"depth": "1 in", "sun": "part"}))
        assert layers(plan) == layers(planned(zoned({"depth": "1 in"}, {"depth": "1 in"})))
        assert any(
            "Back lies in part sun: nothing is changed" in said
            for said in all_told(plan.assumptions)
        )


class TestSurveyedZones:
    """Zones of a survey: by its own column, or by the shapes that were drawn."""

    def survey(self, folder: Path, zone_column: bool) -> None:
        """Two bowls, the deeper one on the right half."""
        pytest.importorskip("scipy")
        rows = ["x_m,y_m,height_mm" + (",zone" if zone_column else "")]
        for y in range(13):
            for x in range(25):
                low = max(0.0, 24 * (1 - ((x - 6) ** 2 + (y - 6) ** 2) / 4)) + max(
                    0.0, 40 * (1 - ((x - 18) ** 2 + (y - 6) ** 2) / 9)
                )
                rows.append(
                    f"{x},{y},{-low:.2f}"
                    + (f",{'east' if x > 12 else 'west'}" if zone_column else "")
                )
        (folder / "s.csv").write_text("\n".join(rows) + "\n")

    def test_a_zone_column_names_the_parts(self, tmp_path: Path) -> None:
        """Volumes by zone are told, and every pass is parted between them."""
        self.survey(tmp_path, zone_column=True)
        brief = brief_of(
            {
                "lawn": {"area": "288 m2", "condition": "dense"},
                "leveling": {"depth": None, "survey": "s.csv"},
                "seeding": {"intent": "none"},
                "place": {"country": "US"},
            }
        )
        plan = planned(brief, tmp_path)
        assert [
            said.split(" (")[0]
            for said in all_told(plan.assumptions)
            if "is missing, settled" in said
        ] == ["west", "east"]
        first = next(
            told(a.reason)
            for t in plan.tasks
            if t.id == "topdress.1"
            for a in t.amounts
            if a.item == "volume"
        )
        assert "Of it: " in first and "west" in first and "east" in first

    def test_drawn_zones_with_their_grass(self, tmp_path: Path) -> None:
        """The shapes' zones part the survey; the weaker grass holds the classes of the map."""
        self.survey(tmp_path, zone_column=False)
        halves = [
            {
                "kind": "polygon",
                "name": "west",
                "points": [["0 m", "0 m"], ["12 m", "0 m"], ["12 m", "12 m"], ["0 m", "12 m"]],
            },
            {
                "kind": "polygon",
                "name": "east",
                "points": [["12 m", "0 m"], ["24 m", "0 m"], ["24 m", "12 m"], ["12 m", "12 m"]],
                "grass": "fine_fescue",
            },
        ]
        brief = brief_of(
            {
                "lawn": {"area": None, "shape": halves},
                "leveling": {"depth": None, "survey": "s.csv"},
            }
        )
        ground = input_of(brief, tmp_path).ground
        assert ground is not None and [(told(z.name), z.grass) for z in ground.zones] == [
            ("west", None),
            ("east", "fine_fescue"),
        ]
        assert {told(band.zone) for band in ground.bands or ()} == {"west", "east"}


class TestMaps:
    """A GeoJSON lawn lies near the place of its brief."""

    def mapped(self, folder: Path, longitude: float, latitude: float, swap: bool = False) -> Brief:
        """A lawn of about 30 by 20 m there."""
        east, north = 30 / 111_320, 20 / 110_950
        ring = [[0, 0], [1, 0], [1, 1], [0, 1], [0, 0]]
        places = [[longitude + a * east, latitude + b * north] for a, b in ring]
        coordinates = [[[y, x] if swap else [x, y] for x, y in places]]
        (folder / "lawn.geojson").write_text(
            json.dumps({"type": "Polygon", "coordinates": coordinates})
        )
        place = {"postal_code": None, "country": "NZ", "latitude": -43.5, "longitude": 172.6}
        return brief_of(
            {
                "lawn": {"area": None, "geojson": "lawn.geojson"},
                "place": place,
                "season": {"from": date(2027, 2, 1)},
            }
        )

    def test_a_southern_lawn(self, tmp_path: Path) -> None:
        """Its area is that of the ellipsoid, and its autumn is in March."""
        pytest.importorskip("geographiclib")
        plan = planned(self.mapped(tmp_path, 172.6, -43.5), tmp_path)
        # One degree of longitude at 43.5 degrees is 80,880 m and one of latitude 111,085 m on WGS
        # 84.
        assert plan.lawn.area_m2 == pytest.approx(
            30 / 111_320 * 80_880 * 20 / 110_950 * 111_085, rel=1e-3
        )
        sown = next(task for task in plan.tasks if task.operation == "overseed")
        assert sown.start.month in (2, 3, 4)

    def test_swapped_coordinates_are_told(self, tmp_path: Path) -> None:
        """Both are possible places: only the brief's place shows the swap."""
        place = {"latitude": 40.0, "longitude": -76.0}
        brief = self.mapped(tmp_path, -76.0, 40.0, swap=True)
        data = brief_of(
            {
                "lawn": {"area": None, "geojson": "lawn.geojson"},
                "place": {"postal_code": None} | place,
            }
        )
        assert brief.lawn.geojson == data.lawn.geojson
        with refused("latitude and longitude are swapped"):
            input_of(data, tmp_path)

    def test_a_lawn_far_from_its_place_is_refused(self, tmp_path: Path) -> None:
        """Another continent."""
        with refused("lies far from the place that was given"):
            input_of(self.mapped(tmp_path, 10.0, 50.0), tmp_path)
