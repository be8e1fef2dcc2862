"""Writes a text as a QR code."""

import base64
import io

from turfplan.errors import MissingToolError, Problem
from turfplan.phrases import commands


def qr_data_uri(text: str) -> str:
    """A QR code as an image that needs no second request; white behind it, so that dark pages stay
    readable. Raises MissingToolError where nothing can make one.
    """
    try:
        import segno
    except ImportError as error:
        fault = commands.needs_web(module=str(error.name))
        raise MissingToolError(Problem("QR", fault, hint='pip install "turfplan[web]"')) from None

    out = io.BytesIO()
    segno.make(text, error="m").save(out, kind="svg", light="white", scale=4, border=4)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
