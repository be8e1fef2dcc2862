"""Reads the pictures that lie beside a brief, and makes them anew without where they were taken."""

import base64
from io import BytesIO
from pathlib import Path

from turfplan.errors import MissingToolError, Problem, TurfplanError
from turfplan.phrases import photos as phrases

FOLDER = "photos"
KINDS = (".jpg", ".jpeg", ".png", ".webp")
# As large as a frame of the book prints at 200 dots an inch.
LONGEST_SIDE, QUALITY = 1000, 80


def photos_beside(brief: Path) -> tuple[tuple[str, str], ...]:
    """The pictures of `photos/` beside a brief by name: what each is called, and an address that
    holds it.

    Each is drawn anew, upright, so that nothing of it is kept but what is seen: no place, no day,
    no camera. Raises TurfplanError for a picture that cannot be read, MissingToolError where there
    are pictures and nothing that draws them.
    """
    folder = brief.parent / FOLDER
    found = sorted(
        path
        for path in (folder.iterdir() if folder.is_dir() else ())
        if path.suffix.lower() in KINDS and not path.name.startswith(".")
    )
    return tuple((_called(path), _address(path)) for path in found)


def _called(path: Path) -> str:
    """The name of a file as words."""
    return " ".join(path.stem.replace("_", " ").replace("-", " ").split())


def _address(path: Path) -> str:
    try:
        from PIL import Image, ImageOps
    except ImportError as error:
        raise MissingToolError(
            Problem(
                str(path),
                phrases.needs_pillow(),
                hint=phrases.install(pip="pip install 'turfplan[pdf]'"),
            )
        ) from error
    try:
        with Image.open(path) as picture:
            upright = ImageOps.exif_transpose(picture).convert("RGB")
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        drawn, kept = Image.new("RGB", upright.size), BytesIO()
        drawn.paste(upright)
        drawn.save(kept, "JPEG", quality=QUALITY)
    except (OSError, ValueError, Image.DecompressionBombError) as error:
        raise TurfplanError(
            Problem(str(path), phrases.unreadable(), str(error), hint=phrases.other_picture())
        ) from error
    return "data:image/jpeg;base64," + base64.b64encode(kept.getvalue()).decode("ascii")
