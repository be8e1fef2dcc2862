"""The family of type that a PDF holds."""

import re

import pytest

from turfplan.export.templates import stylesheet
from turfplan.export.type_family import CUTS, cuts_folder

FACE = re.compile(r'font-family: "([^"]+)"; font-weight: (\d+).*?url\("([^"]+)"\)')


def test_pages_name_the_family_first() -> None:
    """Every sheet asks for the family before its neighbours."""
    (family,) = {found[1] for found in FACE.finditer(stylesheet(CUTS))}
    assert f'--text: "{family}"' in stylesheet()


def test_the_package_carries_every_cut_with_even_figures_and_fractions() -> None:
    """Each cut is there, its figures are of one width, and it holds the fractions of a page."""
    folder = cuts_folder()
    if folder is None:
        pytest.skip("the package of the family is not installed")
    fonts = pytest.importorskip("fontTools.ttLib", reason="the extra pdf is not installed")
    cuts = FACE.findall(stylesheet(CUTS))
    assert {weight for _, weight, _ in cuts} == {"400", "600", "700"}
    for _, _, name in cuts:
        with fonts.TTFont(folder / name, lazy=True) as cut:
            signs = cut.getBestCmap()
            assert len({cut["hmtx"][signs[ord(figure)]][0] for figure in "0123456789"}) == 1
            assert {ord(sign) for sign in "½⅓⅔¼¾⅛⅜⅝⅞−–²³°"} <= set(signs)
