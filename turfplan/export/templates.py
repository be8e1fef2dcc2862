"""Finds the page templates and fills them."""

import base64
import hashlib
import re
import sys
from collections.abc import Callable
from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from typing import Any

import jinja2
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket, BytecodeCache
from markupsafe import Markup, escape

from turfplan.errors import MissingToolError, Problem
from turfplan.export.typography import typeset_pieces
from turfplan.message import AS_WRITTEN, Message, Value
from turfplan.messages import Words
from turfplan.phrases import tools as phrases
from turfplan.user_cache import keep, kept

# How the templates are read and compiled.
SYNTAX: dict[str, Any] = {
    "autoescape": True,
    "trim_blocks": True,
    "lstrip_blocks": True,
    "keep_trailing_newline": True,
    # Folding constants takes longer than it saves: a page is rendered once in most runs.
    "optimized": False,
}
# The folder of the templates that are for print.
PRINTED = "print/"
# Where the place of markup in a sentence is held by signs of private use; a name on a page has
# none.
FIRST_SIGN = 0xE000
_SIGN = re.compile("[\ue000-\uf8ff]")


def templates_dir() -> Path:
    """The folder of templates: the installed package's, else the checkout's.

    Raises MissingToolError without one.
    """
    installed = Path(str(files("turfplan"))) / "templates"
    checkout = Path(str(files("turfplan"))).parent / "templates"
    for folder in (installed, checkout):
        if (folder / "static" / "page.css").is_file():
            return folder
    raise MissingToolError(
        Problem(
            "templates",
            phrases.no_templates(),
            phrases.neither_holds(
                first=str(installed), second=str(checkout), file="static/page.css"
            ),
            hint=phrases.install_whole(),
        )
    )


class KeptTemplates(BytecodeCache):
    """Compiled templates in the user's cache: one that was made from another text, syntax or
    program is made again.
    """

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill the bucket from the cache, if it holds what this very text compiles to."""
        if (content := kept(f"template-{bucket.key}", _made_from(bucket))) is not None:
            bucket.load_bytecode(BytesIO(content))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled."""
        keep(f"template-{bucket.key}", _made_from(bucket), bucket.bytecode_to_string())


def _made_from(bucket: Bucket) -> bytes:
    """All that the code of a template follows from: its text (as its checksum), the syntax, and who
    compiles it.
    """
    return repr((bucket.checksum, SYNTAX, jinja2.__version__, sys.version)).encode()


@lru_cache(maxsize=1)
def environment() -> Environment:
    """The one template environment: everything is escaped, an unknown name is an error."""
    made = Environment(
        loader=FileSystemLoader(templates_dir(), encoding="utf-8"),
        undefined=StrictUndefined,
        auto_reload=False,
        bytecode_cache=KeptTemplates(),
        **SYNTAX,
    )
    made.filters["coded"] = coded
    made.filters["sentence"] = sentence
    made.filters["capital"] = lambda message: capital(str(message))
    made.filters["strong"] = Markup("<strong>{}</strong>").format
    made.filters["bdi"] = Markup("<bdi>{}</bdi>").format
    return made


def capital(text: str) -> str:
    """A text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


def sentence(message: Message | str) -> str:
    """A text with a capital at its beginning and a stop at its end."""
    text = str(message).strip()
    # What is said in brackets, or quoted, may end in a stop of its own.
    return capital(text) + ("" if text.rstrip(")”\"'")[-1:] in tuple(".!?…") or not text else ".")


def coded(message: Message | str) -> Markup:
    """A sentence with its `commands` set as code; everything else is escaped.

    What was typed as it stands has none of ours in it.
    """
    text = str(message)
    if isinstance(message, Message) and message.key == AS_WRITTEN:
        return escape(text)
    pieces = text.split("`")
    if len(pieces) % 2 == 0:
        return Markup(escape(text))
    return Markup("").join(
        Markup("<code>{}</code>").format(piece) if n % 2 else escape(piece)
        for n, piece in enumerate(pieces)
    )


@lru_cache(maxsize=8)
def stylesheet(name: str = "page.css") -> Markup:
    """One of our stylesheets, to be written into a page that must stand alone.

    Raises ValueError for one that would end its place in the page.
    """
    text = (templates_dir() / "static" / name).read_text(encoding="utf-8")
    if "</" in text:
        raise ValueError(f"{name} would close the style element it is written into")
    return Markup(text)


def digest_of(text: str) -> str:
    """How a policy names styles or a script that its page carries (CSP, level 3, 2.3.1)."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def css_string(text: str) -> Markup:
    """A text as a string of a stylesheet: what is neither a letter nor a figure is written as its
    number, so that nothing in it ends the string or the element around it."""
    signs = (c if c.isalnum() else f"\\{ord(c):06x}" for c in text)
    return Markup('"{}"').format(Markup("").join(signs))


def compiled(*templates: str) -> None:
    """Compile templates ahead: with the code that fills them, so that filling them is a matter of
    milliseconds.
    """
    for template in templates:
        environment().get_template(template)


def speaker(words: Words) -> Callable[..., str]:
    """What templates call as `say(key, name=value)`: the sentence of a key, whose values may hold
    markup.
    """

    def say(key: str, **values: Value) -> str:
        """The sentence; with markup in it, markup in which all else is escaped."""
        marked = {name: value for name, value in values.items() if isinstance(value, Markup)}
        if not marked:
            return words.say(key, **values)
        # The sentence is told and escaped with a sign of private use in the place of each markup,
        # which is then put in.
        signs = {chr(FIRST_SIGN + n): markup for n, markup in enumerate(marked.values())}
        text = escape(words.say(key, **(values | dict(zip(marked, signs, strict=True)))))
        return Markup(_SIGN.sub(lambda sign: signs.get(sign[0], Markup("")), text))

    return say


def render(template: str, words: Words, **values: Any) -> str:
    """A template of `templates/` filled with `values`, its own sentences told in `words`; what is
    for print is set for it.

    Raises jinja2.UndefinedError when a value is missing, KeyError when a sentence is.
    """
    filled = environment().get_template(template)
    pieces = filled.generate(say=speaker(words), language=words.language, tag=words.tag, **values)
    return "".join(typeset_pieces(pieces, words) if template.startswith(PRINTED) else pieces)
