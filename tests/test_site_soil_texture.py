"""The borders of the texture triangle belong to one class each."""

import pytest

from turfplan.site.soil_texture import Texture, texture_class


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
