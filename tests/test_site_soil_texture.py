"""The borders of the texture triangle belong to one class each."""

import pytest

from told_errors import refused
from turfplan.site.soil_texture import (
    CLASSES,
    Texture,
    _held,
    middle_of,
    mixed,
    texture_class,
)


@pytest.mark.parametrize(
    ("sand", "silt", "clay", "name"),
    [
        (86, 14, 0, "sand"),
        (85, 15, 0, "loamy_sand"),
        (90, 0, 10, "loamy_sand"),
        (90.5, 0, 9.5, "sand"),
        (71, 29, 0, "loamy_sand"),
        (70, 30, 0, "sandy_loam"),
        (85, 0, 15, "sandy_loam"),
        (53, 28, 19, "sandy_loam"),
        (52, 28, 20, "loam"),
    ],
)
def test_a_border_of_sand_belongs_to_the_heavier_class(
    sand: float, silt: float, clay: float, name: str
) -> None:
    """Sand has less than 15 of silt and one and a half times clay, loamy sand less than 30 of silt
    and twice clay (Soil Survey Manual, chapter 3).
    """
    assert texture_class(Texture(sand / 100, silt / 100, clay / 100)) == name


# The definitions of the Soil Survey Manual, chapter 3, each by itself; all in percent.
DEFINED = {
    "sand": lambda sand, silt, clay: silt + 1.5 * clay < 15,
    "loamy_sand": lambda sand, silt, clay: silt + 1.5 * clay >= 15 and silt + 2 * clay < 30,
    "sandy_loam": lambda sand, silt, clay: (
        (7 <= clay < 20 and sand > 52 and silt + 2 * clay >= 30)
        or (clay < 7 and silt < 50 and silt + 2 * clay >= 30)
    ),
    "loam": lambda sand, silt, clay: 7 <= clay < 27 and 28 <= silt < 50 and sand <= 52,
    "silt_loam": lambda sand, silt, clay: (
        (silt >= 50 and 12 <= clay < 27) or (50 <= silt < 80 and clay < 12)
    ),
    "silt": lambda sand, silt, clay: silt >= 80 and clay < 12,
    "sandy_clay_loam": lambda sand, silt, clay: 20 <= clay < 35 and silt < 28 and sand > 45,
    "clay_loam": lambda sand, silt, clay: 27 <= clay < 40 and 20 < sand <= 45,
    "silty_clay_loam": lambda sand, silt, clay: 27 <= clay < 40 and sand <= 20,
    "sandy_clay": lambda sand, silt, clay: clay >= 35 and sand > 45,
    "silty_clay": lambda sand, silt, clay: clay >= 40 and silt >= 40,
    "clay": lambda sand, silt, clay: clay >= 40 and sand <= 45 and silt < 40,
}


@pytest.mark.full
def test_every_whole_percent_of_the_triangle_has_the_class_it_is_defined_by() -> None:
    """Each held by one definition alone."""
    assert set(DEFINED) == set(CLASSES)
    seen = 0
    for sand in range(101):
        for clay in range(101 - sand):
            silt = 100 - sand - clay
            # Some shares of a hundred are no exact numbers: a border is not met by them.
            if all(100 * (part / 100) == part for part in (sand, silt, clay)):
                held = [name for name, holds in DEFINED.items() if holds(sand, silt, clay)]
                assert held == [texture_class(Texture(sand / 100, silt / 100, clay / 100))]
                seen += 1
    assert seen > 3500


@pytest.mark.full
@pytest.mark.parametrize(
    ("texture", "sound"),
    [
        (Texture(0.4, 0.4, 0.2), True),
        (Texture(0.4, 0.4, 0.209), True),
        (Texture(0.4, 0.4, 0.211), False),
        (Texture(0.4, 0.4, 0.191), True),
        (Texture(0.4, 0.4, 0.189), False),
        (Texture(-0.001, 0.6, 0.401), False),
        (Texture(0.6, -0.001, 0.401), False),
        (Texture(0.6, 0.401, -0.001), False),
        (Texture(0.0, 0.6, 0.4), True),
        (Texture(1.0, 0.0, 0.0), True),
    ],
)
def test_shares_of_a_soil_add_up_to_a_hundredth(texture: Texture, *, sound: bool) -> None:
    """And none is below nought."""
    if sound:
        assert texture_class(texture) in CLASSES
        return
    with refused("add up"):
        texture_class(texture)


def test_soils_are_mixed_by_their_weights() -> None:
    """One part and three: each share by itself."""
    made = mixed([(Texture(0.8, 0.15, 0.05), 1.0), (Texture(0.2, 0.5, 0.3), 3.0)])
    assert (made.sand, made.silt, made.clay) == pytest.approx((0.35, 0.4125, 0.2375))
    for weights in ([], [0.0], [1.0, -2.0]):
        with refused("no soil"):
            mixed([(Texture(1.0, 0.0, 0.0), weight) for weight in weights])


def test_the_middle_of_a_class_is_that_of_its_corner_of_the_triangle() -> None:
    """Sand is a triangle with corners at no clay and 15 of silt, no silt and 10 of clay, and pure
    sand: its middle has five of silt and three and a third of clay.
    """
    sand = middle_of("sand")
    assert (sand.silt, sand.clay) == pytest.approx((0.05, 1 / 30), abs=0.006)
    silt = middle_of("silt")
    assert 0.8 < silt.silt < 0.95 and silt.clay < 0.09
    assert sand.sand + sand.silt + sand.clay == pytest.approx(1.0)


def test_the_triangle_is_walked_in_sixtieths() -> None:
    """Each point once, the three corners among them, and each in its class."""
    held = _held()
    points = [texture for soils in held.values() for texture, _ in soils]
    assert len(points) == len(set(points)) == 61 * 62 / 2
    corners = {Texture(1.0, 0.0, 0.0), Texture(0.0, 1.0, 0.0), Texture(0.0, 0.0, 1.0)}
    assert corners <= set(points)
    assert all(texture_class(soil) == name for name, soils in held.items() for soil, _ in soils)
