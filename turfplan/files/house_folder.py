"""Which folders are those of a house: several lawns of one household, under `lawns`."""

from pathlib import Path

from turfplan.files.data_folder import (
    BRIEF,
    BUSINESS,
    CLIENT,
    CLIENTS_FORM,
    GLANCES,
    LAWNS,
    lawn_folders,
)

# How the brief of a row of a client file begins.
BROUGHT_IN = b"# turfplan clients "
# What lies in a folder of lawns that belong to the clients of a business.
_OF_BUSINESS = (BUSINESS, CLIENTS_FORM, GLANCES)


def lawns_of_house(root: Path) -> tuple[Path, ...]:
    """The folders of the lawns of a house, by name; none where the folder is no house: a lawn's
    own, one without `lawns`, or that of a business, which has files of its own or of clients, or
    lawns that a client file brought in."""
    if any((root / name).is_file() for name in (BRIEF, *_OF_BUSINESS)):
        return ()
    lawns = lawn_folders(root / LAWNS)
    return () if any(map(_is_client, lawns)) else lawns


def house_at(path: Path) -> Path | None:
    """The folder of the house that a path names, by itself or by its `lawns`; None for what is no
    house."""
    root = path.parent if path.name == LAWNS else path
    return root if path.is_dir() and lawns_of_house(root) else None


def _is_client(lawn: Path) -> bool:
    """Whether a lawn is a client's: by the file beside its brief, or by the first line of that."""
    if (lawn / CLIENT).is_file():
        return True
    try:
        with (lawn / BRIEF).open("rb") as brief:
            return brief.read(len(BROUGHT_IN)) == BROUGHT_IN
    except OSError:
        return False  # what cannot be read is told where it is planned


def beside_in_house(lawn: Path) -> tuple[Path, ...]:
    """All lawns of the house that a lawn's folder lies in, itself among them; none where it lies in
    no house, or alone."""
    here = lawn.absolute()
    if here.parent.name != LAWNS:
        return ()
    lawns = lawns_of_house(here.parent.parent)
    return lawns if here in lawns and len(lawns) > 1 else ()
