"""Which version of a library a plan was made with."""

from functools import cache
from importlib.metadata import PackageNotFoundError, version


@cache
def version_of(library: str) -> str:
    """The version of a library as it is installed; unknown where it left no papers."""
    try:
        return version(library)
    except PackageNotFoundError:
        return "unknown"
