"""`turfplan new`: asks a few questions in plain words and writes a brief."""

import re
import secrets
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from turfplan.errors import Problem

Answer = Callable[..., str]
INTENTS = ("none", "patch", "overseed", "renovate", "dormant", "plant", "winter_overseed")


def new(
    file: Path = typer.Argument(Path("lawn.toml"), metavar="[FILE]", help="Where the brief is written."),
    name: str | None = typer.Option(None, "--name", help="What you call the lawn."),
    area: str | None = typer.Option(None, "--area", help='For example "4200 ft2" or "390 m2".'),
    grass: str | None = typer.Option(None, "--grass", help="For example tall_fescue."),
    soil: str | None = typer.Option(None, "--soil", help="USDA texture class, for example clay loam."),
    postal_code: str | None = typer.Option(None, "--postal-code", help="US postal code."),
    latitude: float | None = typer.Option(None, "--latitude", min=-90, max=90),
    longitude: float | None = typer.Option(None, "--longitude", min=-180, max=180),
    country: str | None = typer.Option(None, "--country", help="ISO 3166, for example US."),
    depth: str | None = typer.Option(
        None, "--depth", help='Mean fill everywhere, for example "1 in"; "0 in" for none.'
    ),
    hollow_share: float | None = typer.Option(
        None, "--hollow-share", min=0.01, max=1, help="If only hollows are low: their share of the area."
    ),
    intent: str | None = typer.Option(
        None, "--intent", help="none, patch, overseed, renovate, dormant, plant or winter_overseed."
    ),
    weekdays: str | None = typer.Option(None, "--weekdays", help="Days of work, for example sat,sun."),
    force: bool = typer.Option(False, "--force", help="Write over an existing file."),
) -> None:
    """Ask a few questions in plain words and write a brief. Without a terminal every answer is an option.

    Example: turfplan new lawn.toml
    """
    # Longer than most functions: half of it is its options, one a line.
    from turfplan.errors import Problem, TurfplanError

    if file.exists() and not force:
        raise TurfplanError(
            Problem(str(file), "exists already", hint="choose another name, or --force to write over it")
        )
    missing: list[Problem] = []
    answer = _asker(missing)
    tables = (
        _lawn(answer, name, area, grass, soil),
        _place(answer, postal_code, latitude, longitude, country),
        _leveling(answer, depth, hollow_share),
        _seeding(answer, intent),
        _calendar(answer, weekdays),
    )
    if missing:
        raise TurfplanError(missing)
    text = "\n\n".join("\n".join(lines) for lines in tables) + "\n"
    _checked(text)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    print(f"Wrote {file}. Next: turfplan plan {file}")


def _asker(missing: "list[Problem]") -> Answer:
    """What answers a question: its option, else the user, else what is usual; without any of them it goes into `missing`."""
    from turfplan.errors import Problem

    asks = sys.stdin.isatty() and sys.stderr.isatty()

    def answer(given: str | None, option: str, question: str, default: str | None = None) -> str:
        if given is not None:
            return given
        if asks:
            return str(typer.prompt(question, default=default, err=True))
        if default is not None:
            return default
        missing.append(Problem(option, "is needed", None, None, f"asked as: {question}"))
        return ""

    return answer


def _lawn(answer: Answer, name: str | None, area: str | None, grass: str | None, soil: str | None) -> list[str]:
    called = answer(name, "--name", "What do you call this lawn?", "Lawn")
    return [
        "[lawn]",
        f'id = "lawn-{secrets.token_hex(4)}"',
        f"name = {_quoted(called)}",
        f"area = {_quoted(answer(area, '--area', 'How large is it (for example 4200 ft2 or 390 m2)?'))}",
        f"grass = {_quoted(answer(grass, '--grass', 'Which grass (for example tall_fescue, bermuda_common)?'))}",
        f"soil = {_quoted(answer(soil, '--soil', 'What soil (sand, loam, clay loam, clay, …)?', 'loam'))}",
    ]


def _place(
    answer: Answer, postal_code: str | None, latitude: float | None, longitude: float | None, country: str | None
) -> list[str]:
    """Where the lawn is: one question takes a postal code or two coordinates."""
    lines = ["[place]"]
    if latitude is not None and longitude is not None:
        lines += [f"latitude = {latitude}", f"longitude = {longitude}"]
    else:
        where = answer(postal_code, "--postal-code", "US postal code, or latitude and longitude with a comma between?")
        parts = [part.strip() for part in where.split(",")]
        lines += (
            [f"latitude = {_number(parts[0])}", f"longitude = {_number(parts[1])}"]
            if len(parts) == 2
            else [f"postal_code = {_quoted(where)}"]
        )
    if country:
        lines.append(f"country = {_quoted(country)}")
    return lines


def _leveling(answer: Answer, depth: str | None, share: float | None) -> list[str]:
    """How much is filled; whether everywhere or in hollows is asked only of one who was asked for the depth."""
    deep = answer(depth, "--depth", "How much is to be filled, on average (0 in for none)?", "0 in")
    shares = None if share is None else str(share)
    if shares is None and depth is None and deep.split()[:1] not in ([], ["0"], ["0.0"]):
        everywhere = answer(
            None,
            "--hollow-share",
            "Is it that low everywhere (e), or only in hollows: which share of the lawn (for example 0.1)?",
            "e",
        )
        shares = None if everywhere.lower().startswith("e") else _number(everywhere)
    hollows = f"lows = [{{ depth = {_quoted(deep)}, share = {shares} }}]"
    filled = f"depth = {_quoted(deep)}" if shares is None else hollows
    return ["[leveling]", filled]


def _number(text: str) -> str:
    """A number as typed; anything else in quotes, so that the check of the brief says where it stands and what is allowed."""
    return text.strip() if re.fullmatch(r"\s*[-+]?\d+(\.\d+)?\s*", text) else _quoted(text)


def _seeding(answer: Answer, intent: str | None) -> list[str]:
    wish = answer(intent, "--intent", f"Seed or plant? One of {', '.join(INTENTS)}", "none")
    return ["[seeding]", f"intent = {_quoted(wish)}"]


def _calendar(answer: Answer, weekdays: str | None) -> list[str]:
    days = answer(weekdays, "--weekdays", "On which days can you work?", "sat,sun")
    week = ", ".join(_quoted(day.strip()) for day in days.split(",") if day.strip())
    return ["[calendar]", f"weekdays = [{week}]"]


def _quoted(text: str) -> str:
    import json

    return json.dumps(text, ensure_ascii=False)


def _checked(text: str) -> None:
    """Refuses answers that would not make a brief, before anything is written."""
    import tomllib

    from turfplan.brief import parse_brief
    from turfplan.errors import TurfplanError
    from turfplan.planner import check_brief
    from turfplan.readers.book import load_book

    brief = parse_brief(tomllib.loads(text))
    if problems := check_brief(brief, load_book()):
        raise TurfplanError(problems)
