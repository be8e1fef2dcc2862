"""The files that a brief names, as they go along when the brief goes into another folder."""

from pathlib import Path, PurePosixPath

from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.named_files import named_bytes
from turfplan.phrases import files as phrases
from turfplan.records.brief import Brief


def names_of(brief: Brief) -> dict[str, str]:
    """The files that a brief names, by the key that names them."""
    named = {
        "lawn.geojson": brief.lawn.geojson,
        "leveling.survey": brief.leveling.survey,
        "place.normals": brief.place.normals,
    }
    return {key: name for key, name in named.items() if name is not None}


def is_below(name: str) -> bool:
    """Whether a file's name leads to no place above the folder that it starts from."""
    path = PurePosixPath(name.replace("\\", "/"))
    if not path.parts or path.is_absolute():
        return False
    return ".." not in path.parts and ":" not in path.parts[0]


def named_copies(brief: Brief, folder: Path) -> dict[str, bytes]:
    """What stands in the files that a brief names, by their names, which start from `folder`.

    Raises TurfplanError for a name that leads out of the folder, and a file that cannot be read.
    """
    found, problems = {}, []
    root = folder.resolve()
    for key, name in names_of(brief).items():
        if not is_below(name) or not (root / name).resolve().is_relative_to(root):
            hint = phrases.bring_below(folder=str(folder))
            problems.append(Problem(key, phrases.leads_out(), name, None, hint))
            continue
        try:
            found[name] = named_bytes(folder / name, key)
        except TurfplanError as error:
            problems += error.located(key).problems
    if problems:
        raise TurfplanError(problems)
    return found
