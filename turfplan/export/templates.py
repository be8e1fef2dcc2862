"""Finds the page templates and fills them."""

from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from turfplan.errors import MissingToolError, Problem
from turfplan.wording import capital


def templates_dir() -> Path:
    """The folder of templates: the installed package's, else the checkout's; raises MissingToolError without one."""
    installed = Path(str(files("turfplan"))) / "templates"
    checkout = Path(str(files("turfplan"))).parent / "templates"
    for folder in (installed, checkout):
        if (folder / "static" / "page.css").is_file():
            return folder
    raise MissingToolError(
        Problem(
            "templates",
            "the page templates are missing",
            f"neither {installed} nor {checkout} holds static/page.css",
            hint="install turfplan again, or run it from a complete checkout",
        )
    )


@lru_cache(maxsize=1)
def environment() -> Environment:
    """The one template environment: everything is escaped, an unknown name is an error."""
    made = Environment(
        loader=FileSystemLoader(templates_dir(), encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        # Folding constants takes longer than it saves: a page is rendered once in most runs.
        optimized=False,
    )
    made.filters["coded"] = coded
    made.filters["sentence"] = sentence
    made.filters["capital"] = capital
    return made


def sentence(text: str) -> str:
    """A text with a capital at its beginning and a stop at its end."""
    text = text.strip()
    return capital(text) + ("" if not text or text[-1] in ".!?…" else ".")


def coded(text: str) -> Markup:
    """A sentence with its `commands` set as code; everything else is escaped."""
    pieces = text.split("`")
    if len(pieces) % 2 == 0:
        return Markup(escape(text))
    return Markup("").join(
        Markup("<code>{}</code>").format(piece) if n % 2 else escape(piece) for n, piece in enumerate(pieces)
    )


@lru_cache(maxsize=8)
def stylesheet(name: str = "page.css") -> Markup:
    """One of our stylesheets, to be written into a page that must stand alone."""
    text = (templates_dir() / "static" / name).read_text(encoding="utf-8")
    if "</" in text:
        raise ValueError(f"{name} would close the style element it is written into")
    return Markup(text)


def compiled(*templates: str) -> None:
    """Compile templates ahead: with the code that fills them, so that filling them is a matter of milliseconds."""
    for template in templates:
        environment().get_template(template)


def render(template: str, **values: Any) -> str:
    """A template of `templates/` filled with `values`; raises jinja2.UndefinedError when one is missing."""
    return environment().get_template(template).render(**values)
