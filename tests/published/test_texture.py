"""The triangle of soil textures against points that others have named.

Sources, with where each point was read:
- Soil Science Division Staff, Soil Survey Manual, USDA Handbook 18, chapter 3: the definitions,
  whose corners are tried here.
- soil_class, example of twelve soils, in the manual pages of the R packages hydroTools and
  rcropmod, after J. Moeys, soiltexture: Functions for Soil Texture Plot, Classification and
  Transformation (read on the web, with the answers).
- Idaho OnePlan, The Textural Triangle: 30 % sand, 30 % clay and 40 % silt are clay loam (read on
  the web).
- A worked sheet of the USDA's texture calculator: 50.64 % sand, 11.61 % clay and 37.75 % silt are
  loam (read on the web).
- Michigan State University, on sand for clay lawns: a quarter inch of sand in four inches of clay
  loam moves its sand from 30 to 35 % (as quoted among the notes on agronomy).
"""

import random

import pytest

from told_errors import refused
from turfplan.files.reading.book import load_book
from turfplan.site.soil_texture import CLASSES, Texture, middle_of, mixed, texture_class

SAND = Texture(1.0, 0.0, 0.0)
TWELVE = {
    "clay": (5, 60, 15, 5, 25, 5, 25, 45, 65, 75, 13, 47),
    "sand": (90, 32, 70, 70, 20, 10, 10, 10, 20, 10, 70, 10),
    "class": (
        "sand",
        "clay",
        "sandy_loam",
        "sandy_loam",
        "silt_loam",
        "silt",
        "silt_loam",
        "silty_clay",
        "clay",
        "clay",
        "sandy_loam",
        "silty_clay",
    ),
}


def soil(sand: float, clay: float) -> Texture:
    """A soil by its sand and clay in percent."""
    return Texture(sand / 100, (100 - sand - clay) / 100, clay / 100)


@pytest.mark.parametrize(
    ("sand", "clay", "name"),
    [
        *zip(TWELVE["sand"], TWELVE["clay"], TWELVE["class"], strict=True),
        (30, 30, "clay_loam"),
        (50.64, 11.61, "loam"),
    ],
)
def test_soils_that_others_have_named(sand: float, clay: float, name: str) -> None:
    """Twelve of an example, and two worked by hand."""
    assert texture_class(soil(sand, clay)) == name


@pytest.mark.parametrize(
    ("inside", "beyond"),
    [
        ((86, 0, "sand"), (84, 0, "loamy_sand")),
        ((90, 9, "sand"), (89, 11, "loamy_sand")),
        ((71, 0, "loamy_sand"), (69, 0, "sandy_loam")),
        ((86, 14, "loamy_sand"), (84, 16, "sandy_loam")),
        ((53, 19, "sandy_loam"), (53, 21, "sandy_clay_loam")),
        ((53, 10, "sandy_loam"), (51, 10, "loam")),
        ((51, 6, "sandy_loam"), (49, 0, "silt_loam")),
        ((40, 26, "loam"), (40, 27.5, "clay_loam")),
        ((31, 20, "loam"), (29, 20, "silt_loam")),
        ((19, 0, "silt"), (21, 0, "silt_loam")),
        ((8, 11, "silt"), (5, 13, "silt_loam")),
        ((46, 34, "sandy_clay_loam"), (46, 36, "sandy_clay")),
        ((44, 34, "clay_loam"), (44, 41, "clay")),
        ((21, 39, "clay_loam"), (19, 39, "silty_clay_loam")),
        ((10, 26, "silt_loam"), (10, 28, "silty_clay_loam")),
        ((19, 41, "silty_clay"), (21, 41, "clay")),
        ((44, 54, "clay"), (46, 54, "sandy_clay")),
    ],
)
def test_the_corners_of_the_definitions(
    inside: tuple[float, float, str], beyond: tuple[float, float, str]
) -> None:
    """One point to each side of a limit of the handbook."""
    assert (
        texture_class(soil(*inside[:2])) == inside[2]
        and texture_class(soil(*beyond[:2])) == beyond[2]
    )


def test_every_soil_has_a_class_that_the_book_knows() -> None:
    """Anywhere in the triangle, and all twelve are met; soils beyond the triangle have no class."""
    draw, known = random.Random(7), {n for n, soil in load_book().soils.items() if not soil.beyond}
    met = set()
    for _ in range(5000):
        sand = draw.random()
        clay = draw.uniform(0, 1 - sand)
        met.add(texture_class(Texture(sand, 1 - sand - clay, clay)))
    assert met == known


def test_the_middle_of_a_class_belongs_to_it() -> None:
    """So a soil that is known by name alone can be mixed."""
    for name in CLASSES:
        assert texture_class(middle_of(name)) == name


def test_a_little_sand_does_not_make_clay_loam_sandy() -> None:
    """A quarter inch in four inches: from 30 to about 35 % sand, and clay loam still."""
    loam = soil(30, 33)
    made = mixed([(loam, 4.0), (SAND, 0.25)])
    assert made.sand == pytest.approx(0.35, abs=0.01)
    assert texture_class(made) == "clay_loam"


def test_half_sand_makes_a_sandy_loam_of_loam() -> None:
    """And straight sand stays sand; what does not add up, or is no soil, is refused."""
    assert texture_class(mixed([(middle_of("loam"), 0.5), (SAND, 0.5)])) == "sandy_loam"
    assert texture_class(SAND) == "sand"
    with refused("add up"):
        texture_class(Texture(0.5, 0.5, 0.5))
    with refused("no soil"):
        mixed([(SAND, 0.0)])
    with refused("no class"):
        middle_of("peat")
