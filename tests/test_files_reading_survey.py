"""Survey tables read from files, and what they say to the planner."""

import math
import re
from pathlib import Path

import pytest

from lawn_surveys import added, bowl, bowl_m3, slope
from told import all_told, told
from told_errors import error_text, problem_text, refused
from turfplan.book.entries import Book
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.survey import bands_of, ground_of_survey, settings_of, survey_result
from turfplan.files.reading.survey_table import survey_of_text
from turfplan.records.brief import Brief, parse_brief
from turfplan.site.survey.records import Survey
from turfplan.units import System

pytest.importorskip("scipy")
ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def book() -> Book:
    """The packaged book."""
    return load_book()


def brief_with(
    lawn: dict[str, object], leveling: dict[str, object], units: str = "metric"
) -> Brief:
    """A brief with this lawn and levelling."""
    plain = {"grass": "tall_fescue"} | ({} if "shape" in lawn else {"area": "280 m2"})
    return parse_brief(
        {
            "units": units,
            "lawn": plain | lawn,
            "place": {"latitude": 40.0, "longitude": -76.0},
            "leveling": leveling,
        }
    )


def table(header: str, *rows: str) -> str:
    """A table as a file holds it."""
    return "\n".join((header, *rows)) + "\n"


class TestUnits:
    """The unit stands in the column's name."""

    @pytest.mark.parametrize(
        ("header", "row", "place"),
        [
            ("x_m,y_m,height_mm", "1.5,2,-35", (1.5, 2.0, -35.0)),
            ("x_ft,y_ft,height_in", "10,20,-1 1/2", (3.048, 6.096, -38.1)),
            ("x_yd,y_yd,height_ft", "1,2,0.25", (0.9144, 1.8288, 76.2)),
            ("x_cm,y_cm,height_cm", "150,200,-3.5", (1.5, 2.0, -35.0)),
            ("x_m;y_m;height_mm", "1,5;2;-35,0", (1.5, 2.0, -35.0)),
            ("x_m\ty_m\theight_mm", "1.5\t2\t-35", (1.5, 2.0, -35.0)),
        ],
    )
    def test_each_writing_is_the_same_point(
        self, header: str, row: str, place: tuple[float, float, float]
    ) -> None:
        """US, metric, fractions, semicolons with decimal commas, tabs."""
        (point,) = survey_of_text(table(header, row)).points
        assert (point.x_m, point.y_m, point.height_mm) == pytest.approx(place)

    def test_feet_and_metres_give_one_answer(self, book: Book) -> None:
        """The same lawn written both ways."""
        ground = added(slope(-2), bowl(9, 6, 1.9, 38))
        places = [(x * 1.0, y * 1.0) for y in range(15) for x in range(21)]
        metric = table(
            "x_m,y_m,height_mm", *(f"{x},{y},{float(ground(x, y))!r}" for x, y in places)
        )
        us = table(
            "x_ft,y_ft,height_in",
            *(f"{x / 0.3048!r},{y / 0.3048!r},{float(ground(x, y)) / 25.4!r}" for x, y in places),
        )
        settings = settings_of(brief_with({}, {"survey": "s.csv"}), book, Survey())
        from turfplan.site.survey.surveyed_fill import fill_from_survey

        one, other = (
            fill_from_survey(survey_of_text(text).points, settings) for text in (metric, us)
        )
        assert other.volume_m3 == pytest.approx(one.volume_m3, rel=1e-6)
        assert one.volume_m3 == pytest.approx(bowl_m3(1.9, 38), rel=0.1)


class TestKinds:
    """Heights, depths, rod readings, hollows, grids."""

    def test_depths_are_below_the_line(self) -> None:
        """A depth becomes a height below nought."""
        survey = survey_of_text(table("x_m,y_m,depth_mm", "0,0,20", "5,0,-3"))
        assert survey.below_line
        assert [p.height_mm for p in survey.points] == [-20.0, 3.0]

    def test_rod_readings_with_a_turning_point(self) -> None:
        """Points without a place only carry the height on."""
        survey = survey_of_text(
            table(
                "point,x_ft,y_ft,back_ft,fore_ft,known_ft",
                "BM,,,4.20,,100.00",
                "a,0,0,,6.50,",
                "TP,,,5.00,3.00,",
                "b,10,0,,4.20,",
                "BM,,,,6.20,",
            )
        )
        heights = {p.name: (p.height_mm or 0.0) / 304.8 for p in survey.points}
        assert heights == pytest.approx({"a": 97.70, "b": 102.00})
        assert [p.setup for p in survey.points] == [1, 2]
        assert survey.leveled is not None and survey.leveled.misclosure_mm == pytest.approx(
            0.0, abs=1e-6
        )

    def test_the_misclosure_is_told(self, book: Book, tmp_path: Path) -> None:
        """Small: shared out. Large: look for the slip."""
        rows = [f"g{n},{n % 5},{n // 5},,{1200 + n % 3}" for n in range(25)]
        for last, words in ((1003, "shared out over the setups"), (1060, "There is a slip in it")):
            path = tmp_path / "s.csv"
            path.write_text(
                table("point,x_m,y_m,back_mm,fore_mm", "BM,,,1000,", *rows, f"BM,,,,{last}")
            )
            ground = ground_of_survey(brief_with({}, {"survey": "s.csv"}), path, book, 280.0)
            assert any(
                "closes within" in note and words in note
                for note in all_told(ground.notes, System.METRIC)
            )

    def test_hollows_by_length_width_and_depth(self, book: Book, tmp_path: Path) -> None:
        """10 by 6 ft by 1 1/2 in are 7.5 cubic feet; a bowl is half of its oval."""
        path = tmp_path / "lows.csv"
        path.write_text(
            table(
                "point,length_ft,width_ft,depth_in,deepest_in",
                "by the gate,10,6,1.5,",
                "bowl,10,10,,3",
            )
        )
        result, _ = survey_result(brief_with({}, {"survey": "lows.csv"}, "us"), path, book, 280.0)
        cubic_foot = 0.3048**3
        assert result.volume_m3 == pytest.approx((7.5 + math.pi * 25 * 0.25 / 2) * cubic_foot)
        assert sum(band.share for band in bands_of(result)) == pytest.approx(
            (60 + math.pi * 25) * 0.3048**2 / 280
        )

    def test_a_grid_as_people_draw_it(self) -> None:
        """x along the top, y down the side, empty where nothing was read."""
        survey = survey_of_text(table("height_in by x_ft and y_ft,0,5,10", "0,1,2,3", "5,4,,6"))
        assert len(survey.points) == 5
        assert (survey.points[2].x_m, survey.points[2].height_mm) == pytest.approx((3.048, 76.2))
        assert (survey.points[4].y_m, survey.points[4].height_mm) == pytest.approx((1.524, 152.4))
        assert told(survey.points[4].name) == "line 3, x 10"

    def test_features_zones_and_remarks(self) -> None:
        """What a point stands on, in its own column; a trunk needs no height."""
        survey = survey_of_text(
            table(
                "# remark",
                "point,x_m,y_m,height_mm,what,zone",
                "",
                "a,0,0,5,,sun",
                "t,3,3,,trunk,",
                "w,0,1,2,Wall,",
            )
        )
        assert [(p.feature, p.zone) for p in survey.points] == [
            ("ground", "sun"),
            ("trunk", None),
            ("wall", None),
        ]

    def test_the_stated_error_is_taken(self, book: Book) -> None:
        """A column of errors stands before the book's."""
        survey = survey_of_text(table("x_m,y_m,height_mm,error_mm", "0,0,5,2", "1,0,5,2"))
        assert (
            settings_of(brief_with({}, {"survey": "s.csv"}), book, survey).instrument_error_mm
            == 2.0
        )
        plain = survey_of_text(table("x_m,y_m,height_mm", "0,0,5"))
        assert settings_of(
            brief_with({}, {"survey": "s.csv"}), book, plain
        ).instrument_error_mm == book.si("survey.error_level")


class TestFaults:
    """Each says the line, the column and what is allowed."""

    @pytest.mark.parametrize(
        ("text", "words"),
        [
            ("", "holds no measurements"),
            ("x_m,y_m,height_mm\n", "holds no measurements"),
            ("x,y_m,height_mm\n1,2,3\n", "column x: has no unit in its name"),
            ("x_m,y_m,height_kg\n1,2,3\n", "'kg' is a unit of mass, not of length"),
            ("x_m,y_m,height_furlong\n1,2,3\n", "unknown unit 'furlong'"),
            ("x_m,y_m,hight_mm\n1,2,3\n", "column hight_mm: unknown column"),
            ("x_m,x_ft,y_m,height_mm\n1,1,2,3\n", "column x: is there twice"),
            ("x_m,height_mm\n1,2\n", "do not make a survey"),
            ("x_m,y_m,height_mm,depth_mm\n1,2,3,4\n", "do not make a survey"),
            ("x_m,y_m,height_mm\n1,2,nan\n", "line 2: height_mm: is not a number"),
            ("x_m,y_m,height_mm\n1,2,3,4\n", "line 2: has more values"),
            ("x_m,y_m,height_mm\n1,,3\n", "line 2: has no y"),
            ("x_m,y_m,height_mm\n1,2,\n", "line 2: has no height"),
            (
                "point,x_m,y_m,height_mm,what\nq,1,2,3,wal\n",
                "q: what: is not one of the allowed words",
            ),
            ("point,x_m,y_m,back_mm,fore_mm\nq,1,2,,3\n", "first line needs a back reading"),
        ],
    )
    def test_each_fault_is_told(self, text: str, words: str) -> None:
        """By line and column."""
        with pytest.raises(TurfplanError) as caught:
            survey_of_text(text)
        assert words in error_text(caught.value)

    def test_all_bad_numbers_are_told_at_once(self) -> None:
        """Three lines, three problems."""
        with pytest.raises(TurfplanError) as caught:
            survey_of_text(table("x_m,y_m,height_mm", "a,1,2", "1,b,2", "1,1,c"))
        assert len(caught.value.problems) == 3

    def test_a_misspelt_column_has_a_hint(self) -> None:
        """The nearest known one."""
        with pytest.raises(TurfplanError) as caught:
            survey_of_text("x_m,y_m,hieght_mm\n1,2,3\n")
        assert problem_text(caught.value.problems[0]).endswith("; did you mean 'height'?")

    def test_a_missing_or_broken_file_is_named(self, book: Book, tmp_path: Path) -> None:
        """The file stands before the fault."""
        brief = brief_with({}, {"survey": "s.csv"})
        with refused(r"none\.csv: no such file"):
            ground_of_survey(brief, tmp_path / "none.csv", book, 280.0)
        for raw, words in ((b"x_m\x00", "not a text file"), (b"x_m,\xff\n", "not UTF-8")):
            (tmp_path / "bad.csv").write_bytes(raw)
            with refused(rf"bad\.csv: is {words}"):
                ground_of_survey(brief, tmp_path / "bad.csv", book, 280.0)

    def test_hollows_larger_than_the_lawn(self, book: Book, tmp_path: Path) -> None:
        """And hollows without depth."""
        for rows, words in (("30,30,20", "larger than the lawn"), ("3,3,0", "above 0")):
            (tmp_path / "s.csv").write_text(table("length_m,width_m,depth_mm", rows))
            with refused(words):
                ground_of_survey(
                    brief_with({}, {"survey": "s.csv"}), tmp_path / "s.csv", book, 280.0
                )


class TestGround:
    """What the planner gets."""

    def written(
        self, tmp_path: Path, lawn: dict[str, object], book: Book, area: float = 280.0
    ) -> object:
        """The ground of a lawn with one bowl."""
        ground = added(slope(-2, -4), bowl(9, 6, 1.9, 38))
        rows = [f"{x},{y},{float(ground(x, y)):.2f}" for y in range(15) for x in range(21)]
        (tmp_path / "s.csv").write_text(table("x_m,y_m,height_mm", *rows))
        return ground_of_survey(
            brief_with(lawn, {"survey": "s.csv"}), tmp_path / "s.csv", book, area
        )

    def test_bands_hold_the_volume(self, book: Book, tmp_path: Path) -> None:
        """Depth by share by area is the fill, and the deepest band is nearly the deepest cell."""
        ground = self.written(tmp_path, {}, book)
        assert ground.fill is not None and ground.bands  # type: ignore[attr-defined]
        depths = (b.depth_mm * b.share for b in ground.bands)  # type: ignore[attr-defined]
        total = sum(depths) / 1000 * 280
        assert total == pytest.approx(ground.fill.volume_m3, rel=1e-3)  # type: ignore[attr-defined]
        assert total == pytest.approx(bowl_m3(1.9, 38), rel=0.1)

    def test_the_plan_keeps_the_map(self, book: Book, tmp_path: Path) -> None:
        """Cells, outline and stakes, small enough for plan.json."""
        found = self.written(tmp_path, {}, book).fill.map  # type: ignore[attr-defined]
        assert len(found.ground_mm) == len(found.fill_mm) == found.rows * found.columns
        assert found.stakes[0][0] == "A1"
        assert len(found.model_dump_json()) < 60_000

    def test_a_stake_is_told_as_a_tape_reads(self, book: Book, tmp_path: Path) -> None:
        """Feet and inches or metres, with the passes there; the deepest stands in the bowl."""
        line = self.written(tmp_path, {}, book).fill.stakes[0]  # type: ignore[attr-defined]
        us, metric = told(line.place, System.US), told(line.place, System.METRIC)
        assert re.fullmatch(r"x \d+ ft( \d+ in)?, y \d+ ft( \d+ in)?", us)
        x, y = (float(v) for v in re.findall(r"\d+\.\d", metric))
        assert (x, y) == pytest.approx((9, 6), abs=0.5)
        assert re.fullmatch(r"\d passes", told(line.work))

    def test_a_hole_of_the_brief_takes_no_fill(self, book: Book, tmp_path: Path) -> None:
        """A bed over the bowl."""
        shape = [
            {"kind": "rectangle", "length": "20 m", "width": "14 m"},
            {"kind": "circle", "radius": "2.5 m", "hole": True, "at": ["9 m", "6 m"]},
        ]
        assert (
            self.written(tmp_path, {"shape": shape}, book, 280 - math.pi * 6.25).fill.volume_m3
            < 0.02
        )  # type: ignore[attr-defined]

    def test_another_area_in_the_brief_is_told(self, book: Book, tmp_path: Path) -> None:
        """The shares are taken over to it."""
        ground = self.written(tmp_path, {}, book, 400.0)
        assert any(
            "the brief says 400 m²" in note for note in all_told(ground.notes, System.METRIC)
        )  # type: ignore[attr-defined]

    @pytest.mark.parametrize("name", ["british-metric-survey.csv", "deep-two-inches-survey.csv"])
    def test_the_examples_are_read(self, name: str, book: Book) -> None:
        """The two invented surveys of the examples give a fill, stakes and a caution on the
        building.
        """
        ground = ground_of_survey(
            brief_with({}, {"survey": name}), ROOT / "examples" / name, book, 300.0
        )
        assert ground.fill is not None and ground.fill.stakes
        assert ground.fill.volume_low_m3 < ground.fill.volume_m3 < ground.fill.volume_high_m3
        assert any(
            "Away from the building" in note for note in all_told(ground.notes, System.METRIC)
        )
