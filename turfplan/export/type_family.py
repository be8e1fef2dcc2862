"""The family of type that sheets are printed in, as a package carries it.

A page names its family and neighbours of like widths, so that it is the same text everywhere. A PDF
holds the family itself: then pages break alike on every machine.
"""

from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path

# The package of the extra `pdf`, which carries the cuts under the SIL Open Font License 1.1. Their
# figures are all of one width, and they hold the fractions that a page is set with.
PACKAGE = "font_source_sans_pro"
# The stylesheet that names the cuts by their files.
CUTS = "family.css"


def cuts_folder() -> Path | None:
    """Where the cuts lie; None where the package is not installed, and pages are then set in the
    neighbours that they name.
    """
    if find_spec(PACKAGE) is None:
        return None
    return Path(str(files(PACKAGE))) / "files"
