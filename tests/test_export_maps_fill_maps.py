"""Maps lie where their numbers say, and are understood without colour."""

import math
import re
import sys
import xml.etree.ElementTree as ET
from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path
from unittest import mock

import pytest

from page_plan import page_plan
from printed import book_html, checklist_html
from told import words_of
from turfplan.errors import MissingToolError
from turfplan.export.maps.contours import field_of, levels, loops, outlines
from turfplan.export.maps.fill_maps import fill_map, finished_map, ground_map, pass_map
from turfplan.export.maps.frame import frame_of
from turfplan.export.maps.picture import MapPicture, svg_of
from turfplan.export.sheets.ground_sheets import (
    fill_pictures,
    fill_view,
    pass_picture,
    pass_sheets,
    spread_passes,
)
from turfplan.message import as_written
from turfplan.records.plan import Fill, FillMap, Plan, StakeLine
from turfplan.units import System

SVG = "{http://www.w3.org/2000/svg}"
US, METRIC = words_of(System.US), words_of(System.METRIC)


def drawn(picture: MapPicture) -> str:
    """The picture as SVG."""
    return svg_of(picture, US)


def lawn_map(**changes: object) -> FillMap:
    """A lawn of 20 by 12 m with a bowl 30 mm deep at (15, 9), falling to the right, a wall, a tree
    and a swale.
    """
    columns, rows, cell = 40, 24, 0.5
    fill, ground = [], []
    for n in range(columns * rows):
        x, y = (n % columns + 0.5) * cell, (n // columns + 0.5) * cell
        deep = max(0.0, 30 * (1 - ((x - 15) ** 2 + (y - 9) ** 2) / 4))
        fill.append(deep)
        ground.append(400 - 20 * x - deep)
    plain = {
        "x_m": 0.25,
        "y_m": 0.25,
        "angle": 0.0,
        "width_m": cell,
        "depth_m": cell,
        "columns": columns,
        "rows": rows,
        "ground_mm": tuple(ground),
        "fill_mm": tuple(fill),
        "outline": (((0.0, 0.0), (20.0, 0.0), (20.0, 12.0), (0.0, 12.0)),),
        "features": (
            ("wall", ((0.0, 0.0), (8.0, 0.0))),
            ("trunk", ((3.0, 9.0),)),
            ("swale", ((20.5, 0.0), (20.5, 12.0))),
        ),
        "stakes": (("A1", 15.0, 9.0, 30.0),),
        "deep_limit_mm": 50.8,
    }
    return FillMap.model_validate({**plain, **changes})


def loop_area(loop: Sequence[tuple[float, float]]) -> float:
    """Signed area inside a closed line."""
    return (
        sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)) / 2
    )


class TestContours:
    """Lines of equal height through a grid."""

    def test_a_cone_has_round_contours_with_the_high_ground_to_the_left(self) -> None:
        """Their areas are those of circles."""
        cells = [10 - math.hypot(n % 41 - 20, n // 41 - 20) / 2 for n in range(41 * 41)]
        field = field_of(cells, 41, 41)
        for level in (2.0, 5.0, 8.0):
            (loop,) = loops(field, level)
            assert loop_area(loop) == pytest.approx(math.pi * (2 * (10 - level)) ** 2, rel=0.02)
            assert all(
                math.hypot(x - 20, y - 20) == pytest.approx(2 * (10 - level), abs=0.1)
                for x, y in loop
            )

    def test_a_hollow_is_a_hole(self) -> None:
        """Around low ground the line runs the other way."""
        cells = [min(5.0, math.hypot(n % 31 - 15, n // 31 - 15)) for n in range(31 * 31)]
        areas = sorted(loop_area(loop) for loop in loops(field_of(cells, 31, 31), 3.0))
        assert areas[0] == pytest.approx(-math.pi * 9, rel=0.05) and areas[1] > 900

    def test_saddles_keep_every_line_closed(self) -> None:
        """A chess board of heights: each line comes back to where it began, and none crosses a high
        middle.
        """
        cells = [float((n % 9 + n // 9) % 2) for n in range(81)]
        found = loops(field_of(cells, 9, 9), 0.5)
        assert found and all(len(loop) >= 4 for loop in found)

    def test_cells_outside_of_the_lawn_take_their_neighbours_height(self) -> None:
        """So that lines run on under the outline that cuts them."""
        field = field_of((1.0, None, 3.0, None), 2, 2)
        assert field.shape == (6, 6) and field[2, 2] == 1.0 and field[3, 2] == 3.0
        assert field[2, 3] == field[3, 3] == 2.0 and field.min() >= 1.0 and field.max() <= 3.0

    @pytest.mark.parametrize("tool", ["numpy", "contourpy"])
    def test_a_machine_without_the_extra_is_told_what_to_install(self, tool: str) -> None:
        """Maps are drawn with the tools of surveys."""
        field = field_of((1.0, 2.0, 3.0, 4.0), 2, 2)
        with (
            mock.patch.dict(sys.modules, {tool: None}),
            pytest.raises(MissingToolError, match=tool) as caught,
        ):
            loops(field, 2.5) if tool == "contourpy" else field_of((1.0,), 1, 1)
        assert caught.value.problems[0].hint == 'pip install "turfplan[survey]"'

    def test_what_was_traced_is_kept_for_the_next_print(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """To the last digit, and with no library of arrays; another ground, other heights or a
        damaged file are traced anew.
        """
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
        cells = [None if n % 7 == 0 else math.sin(n / 3) * 10 / 3 for n in range(81)]
        first = outlines("ground", cells, 9, 9, (0.1, 1.7))
        assert first == tuple(loops(field_of(cells, 9, 9), height) for height in (0.1, 1.7))
        with mock.patch.dict(sys.modules, {"numpy": None, "contourpy": None}):
            assert outlines("ground", cells, 9, 9, (0.1, 1.7)) == first
            for other, height in ((cells, 0.2), ([*cells[:-1], 4.5], 0.1)):
                with pytest.raises(MissingToolError):
                    outlines("ground", other, 9, 9, (height, 1.7))
        (file,) = (tmp_path / "turfplan").glob("outlines-*")
        file.write_bytes(file.read_bytes()[:-2])
        assert outlines("ground", cells, 9, 9, (0.1, 1.7)) == first

    def test_levels_are_round_and_inside(self) -> None:
        """Strictly between low and high."""
        assert levels(0.0, 100.0, 25.0) == (25.0, 50.0, 75.0)
        assert levels(-10.0, 10.0, 10.0) == (0.0,)


class TestPlaces:
    """Where things stand on the paper."""

    def test_up_on_the_lawn_is_up_on_the_paper(self) -> None:
        """SVG counts downward; the lawn's upper right corner is the paper's."""
        frame = frame_of(lawn_map())
        left, low = frame.place(0.0, 0.0)
        right, high = frame.place(20.0, 12.0)
        assert left < right and high < low
        assert (right - left) / (low - high) == pytest.approx(20 / 12, rel=0.01)

    def test_the_stake_stands_in_its_hollow(self) -> None:
        """A1 lies inside the deepest class's outline."""
        picture = fill_map(lawn_map(), (10.0, 10.0, 10.0), METRIC)
        (stake,) = picture.stakes
        spots = [
            tuple(float(v) for v in pair.split(","))
            for pair in re.findall(r"[\d.]+,[\d.]+", picture.bands[-1].path)
        ]
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        assert min(xs) < stake.x < max(xs) and min(ys) < stake.y < max(ys)

    def test_the_scale_bar_is_as_long_as_it_says(self) -> None:
        """In metres and in feet."""
        for system, metres in ((System.METRIC, 1.0), (System.US, 0.3048)):
            picture, frame = ground_map(lawn_map(), words_of(system)), frame_of(lawn_map())
            length = float(picture.scale.text.split()[0]) * metres * frame.per_m
            assert picture.scale.length == pytest.approx(length, abs=0.1)

    def test_north_points_where_it_was_measured(self) -> None:
        """Straight up the y axis is up the paper; a turned grid turns the needle with it."""
        assert ground_map(lawn_map(north=90.0), METRIC).north == pytest.approx(-90.0)
        turned = lawn_map(north=90.0, angle=0.5)
        assert ground_map(turned, METRIC).north == pytest.approx(math.degrees(0.5) - 90)
        assert "north was not measured" in drawn(ground_map(lawn_map(), METRIC))

    def test_an_askew_lawn_shows_its_axes_and_a_straight_one_its_ticks(self) -> None:
        """Numbers along the edges only where they mean x and y."""
        assert ground_map(lawn_map(), METRIC).ticks and ground_map(lawn_map(), METRIC).axes is None
        askew = ground_map(lawn_map(angle=0.4), METRIC)
        assert not askew.ticks and askew.axes is not None


class TestMeaning:
    """What the maps say."""

    def test_classes_are_the_passes_they_take(self) -> None:
        """Three passes of 10 mm: three classes, the deepest darkest; areas of a paraboloid fall
        evenly.
        """
        picture = fill_map(lawn_map(), (10.0, 10.0, 10.0), METRIC)
        assert [(sign, text.split(",")[0]) for sign, _, text in picture.legend] == [
            ("1", "1 pass"),
            ("2", "2 passes"),
            ("3", "3 passes"),
        ]
        areas = [float(text.rsplit(": ", 1)[1].split()[0]) for _, _, text in picture.legend]
        assert areas == pytest.approx([4.2, 4.2, 4.2], abs=1.0)
        assert len({band.pattern for band in picture.bands}) == 3

    def test_deep_ground_is_lifted(self) -> None:
        """Beyond the limit the sign is L, and no pass reaches it."""
        deep = lawn_map(deep_limit_mm=20.0)
        assert fill_map(deep, (10.0, 10.0), METRIC).legend[-1][0] == "L"
        assert "A1" not in drawn(pass_map(deep, (10.0, 10.0), 1, METRIC))

    def test_a_pass_is_full_in_the_middle_and_feathers_out(self) -> None:
        """The second of three: full where 20 mm and more are missing."""
        picture = pass_map(lawn_map(), (10.0, 10.0, 10.0), 2, METRIC)
        assert [sign for sign, _, _ in picture.legend] == ["E", "F"]
        assert picture.stakes[0].text == "A1 10 mm"
        assert picture.title == "Pass 2 of 3: up to 10 mm"

    def test_every_class_has_a_letter_besides_its_pattern(self) -> None:
        """On the map as in the legend."""
        picture = fill_map(lawn_map(stakes=()), (10.0, 10.0, 10.0), METRIC)
        assert {mark.text for mark in picture.letters} == {"1", "2", "3"}

    def test_arrows_point_downhill(self) -> None:
        """The lawn falls to the right: every arrow runs to the right."""
        picture = ground_map(
            lawn_map(
                fill_mm=(0.0,) * 960, ground_mm=tuple(400 - 10.0 * (n % 40) for n in range(960))
            ),
            METRIC,
        )
        runs = re.findall(r"M([\d.]+),([\d.]+)L([\d.]+),([\d.]+)", picture.arrows)
        assert runs and all(float(x1) > float(x0) and y0 == y1 for x0, y0, x1, y1 in runs)

    def test_words_and_units_follow_the_reader(self) -> None:
        """Inches and square feet, millimetres and square metres."""
        us, metric = (fill_map(lawn_map(), (12.7, 12.7, 12.7), words) for words in (US, METRIC))
        assert "1/2 in" in us.legend[0][2] and "ft²" in us.legend[0][2]
        assert "mm" in metric.legend[0][2] and "m²" in metric.legend[0][2]
        assert "inches above" in ground_map(lawn_map(), US).note

    @pytest.mark.parametrize("draw", [ground_map, finished_map])
    def test_each_picture_stands_alone_and_is_told_in_words(self, draw: object) -> None:
        """Well-formed, titled, described, with unique ids that the references meet."""
        drawing = draw(lawn_map(), US)  # type: ignore[operator]
        for picture in (drawing, fill_map(lawn_map(), (15.0, 15.0), US)):
            root = ET.fromstring(drawn(picture))
            title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
            assert title is not None and title.text == picture.title
            assert (
                desc is not None
                and "Plan view" in (desc.text or "")
                and re.search(r"\d (in|ft²)", desc.text or "")
            )
            ids = [e.get("id") for e in root.iter() if e.get("id")]
            assert len(ids) == len(set(ids))
            used = set(re.findall(r"url\(#([^)]+)\)", drawn(picture))) | set(
                (root.get("aria-labelledby") or "").split()
            )
            assert used <= set(ids)

    def test_nothing_but_black_white_and_one_grey(self) -> None:
        """So that a grey printer loses nothing."""
        text = "".join(
            drawn(p)
            for p in (
                ground_map(lawn_map(), US),
                finished_map(lawn_map(), US),
                fill_map(lawn_map(), (15.0, 15.0), US),
            )
        )
        assert set(re.findall(r"#[0-9a-f]{6}", text)) == {"#ffffff", "#1a1f1c", "#6b716d"}

    def test_a_name_is_escaped(self) -> None:
        """Signs of stakes are text, never markup."""
        assert "<b>" not in drawn(
            fill_map(lawn_map(stakes=(("<b>", 15.0, 9.0, 30.0),)), (15.0, 15.0), US)
        )


class TestPlans:
    """From a plan to its pictures."""

    def test_a_plan_with_a_survey_has_its_maps(self) -> None:
        """Ground, finished ground, fill, and each pass of the plan."""
        plan = page_plan()
        tasks = tuple(
            t.model_copy(update={"roles": ("spreading",)}) if t.operation == "topdress" else t
            for t in plan.tasks
        )
        plan = plan.model_copy(update={"tasks": tasks})
        surveyed = plan.model_copy(
            update={
                "fill": Fill(
                    mean_depth_mm=1.0,
                    volume_m3=1.0,
                    volume_low_m3=0.5,
                    volume_high_m3=1.5,
                    map=lawn_map(),
                )
            }
        )
        captions = [caption for caption, _ in fill_pictures(surveyed, US)]
        assert captions[:3] == [
            "The ground as it is",
            "The ground when it is leveled",
            "The fill and its stakes",
        ]
        assert captions[3:] == ["Pass 1 of 1: up to 3/8 in"]
        assert pass_picture(surveyed, 1, US) is not None and pass_picture(surveyed, 2, US) is None

    def test_a_plan_without_a_survey_has_none(self) -> None:
        """Nor one whose survey has no cells."""
        plan = page_plan().model_copy(update={"fill": None})
        assert fill_pictures(plan, US) == () and pass_picture(plan, 1, US) is None


class TestSheets:
    """Maps and stakes on the pages that are carried outside."""

    def surveyed(self) -> Plan:
        """The invented plan with a map of two stakes, one of them deeper than its only pass."""
        tasks = tuple(
            t.model_copy(update={"roles": ("spreading",)}) if t.operation == "topdress" else t
            for t in page_plan().tasks
        )
        fill = Fill(
            mean_depth_mm=1.0,
            volume_m3=1.0,
            volume_low_m3=0.5,
            volume_high_m3=1.5,
            map=lawn_map(stakes=(("A1", 15.0, 9.0, 30.0), ("B1", 4.0, 4.0, 60.0))),
            stakes=(
                StakeLine(stake="A1", place=as_written("x 49 ft, y 30 ft"), fill_mm=30.0),
                StakeLine(stake="B1", place=as_written("x 13 ft, y 13 ft"), fill_mm=60.0),
            ),
        )
        return page_plan().model_copy(update={"tasks": tasks, "fill": fill})

    def test_the_map_of_a_pass_follows_its_week_with_the_layer_at_each_stake(self) -> None:
        """Once in the whole checklist, and with that week alone; the job points to it."""
        plan = self.surveyed()
        (sheet,) = pass_sheets(plan, US)
        assert sheet.stakes is not None and sheet.stakes.rows == (
            ("A1", "x 49 ft, y 30 ft", "3/8 in", "3/8 in"),
        )
        (spread,) = (task for task, _ in spread_passes(plan))
        for page in (checklist_html(plan), checklist_html(plan, spread.start)):
            assert page.count(f'id="{sheet.key}"') == 1 and f'href="#{sheet.key}"' in page
            assert page.count(sheet.picture.address) == 1

    def test_another_week_has_no_map(self) -> None:
        """Nor has a pass that is done."""
        plan = self.surveyed()
        (spread,) = (task for task, _ in spread_passes(plan))
        other = checklist_html(plan, spread.start + timedelta(days=70)).split("</style>")[1]
        assert 'class="page map-page"' not in other
        done = tuple(
            t.model_copy(update={"closed": "done"}) if t.id == spread.id else t for t in plan.tasks
        )
        assert pass_sheets(plan.model_copy(update={"tasks": done}), US) == ()

    def test_the_checklist_and_the_book_hold_the_fill_map_and_the_stake_out_list(self) -> None:
        """Every stake, with what is lifted told as such."""
        plan = self.surveyed()
        view = fill_view(plan, US, every=True)
        assert view is not None and view.map is not None and view.stakes is not None
        assert view.stakes.header == ("Stake", "Where", "Fill in all", "Pass 1")
        assert [row[-1] for row in view.stakes.rows] == ["3/8 in", "lift and fill"]
        for page in (checklist_html(plan), book_html(plan)):
            assert view.map.address in page and "lift and fill" in page
        assert (
            all(picture.address in book_html(plan) for picture in view.pictures)
            and len(view.pictures) == 3
        )

    def test_a_small_area_is_told_in_whole_feet_or_metres(self) -> None:
        """Cells know no more."""
        legend = [text for _, _, text in pass_map(lawn_map(), (29.6,), 1, METRIC).legend]
        assert legend[-1].endswith("under 1 m²") or re.search(r": \d+ m²$", legend[-1])
