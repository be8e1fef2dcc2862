"""`turfplan new`: asks a few questions in plain words and writes a brief."""

import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import brief_at, say, words_of_user
from turfplan.phrases import commands

if TYPE_CHECKING:
    from turfplan.errors import Problem
    from turfplan.message import Message
    from turfplan.messages import Words

Ask = Callable[..., str]
INTENTS = ("none", "patch", "overseed", "renovate", "dormant", "plant", "winter_overseed")


def named_brief(path: Path | None) -> Path | None:
    """The brief that was named, by itself or by the folder of its lawn."""
    return None if path is None else brief_at(path)


def new(
    file: Path = typer.Argument(
        Path("lawn.toml"), metavar="[FILE]", help="Where the brief is written, or a lawn's folder."
    ),
    source: Path | None = typer.Option(
        None,
        "--from",
        metavar="BRIEF",
        help="Copy this brief as another lawn, with an identity of its own; nothing is asked.",
        callback=named_brief,
    ),
    name: str | None = typer.Option(None, "--name", help="What you call the lawn."),
    area: str | None = typer.Option(None, "--area", help='For example "4200 ft2" or "390 m2".'),
    grass: str | None = typer.Option(None, "--grass", help="For example tall_fescue."),
    soil: str | None = typer.Option(
        None, "--soil", help="USDA texture class, for example clay loam."
    ),
    postal_code: str | None = typer.Option(None, "--postal-code", help="US postal code."),
    town: str | None = typer.Option(None, "--town", help='A town, for example "Lancaster, PA".'),
    latitude: float | None = typer.Option(None, "--latitude", min=-90, max=90),
    longitude: float | None = typer.Option(None, "--longitude", min=-180, max=180),
    country: str | None = typer.Option(None, "--country", help="A name, or ISO 3166: US."),
    depth: str | None = typer.Option(
        None, "--depth", help='Mean fill everywhere, for example "1 in"; "0 in" for none.'
    ),
    hollow_share: float | None = typer.Option(
        None,
        "--hollow-share",
        min=0.01,
        max=1,
        help="If only hollows are low: their share of the area.",
    ),
    intent: str | None = typer.Option(
        None, "--intent", help="none, patch, overseed, renovate, dormant, plant or winter_overseed."
    ),
    weekdays: str | None = typer.Option(
        None, "--weekdays", help="Days of work, for example sat,sun."
    ),
    force: bool = typer.Option(False, "--force", help="Write over an existing file."),
) -> None:
    """Ask a few questions in plain words and write a brief.

    Without a terminal every answer is an option.

    Example: turfplan new lawn.toml
    """
    # Longer than most functions: its options stand one a line.
    from turfplan.app.new_brief import brief_to_write, copy_brief, write_brief
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import screen

    file = brief_to_write(file)
    if file.exists() and not force:
        raise TurfplanError(
            Problem(str(file), commands.exists(), hint=commands.other_name_or_force())
        )
    words = words_of_user()
    if source is not None:
        copy_brief(source, file)
        say(words, screen.new_wrote(file=str(file)))
        return
    missing: list[Problem] = []
    answer = _asker(words, missing)
    tables = (
        _lawn(answer, name, area, grass, soil),
        _place(answer, (postal_code, town), (latitude, longitude), country),
        _leveling(answer, depth, hollow_share),
        _seeding(answer, intent),
        _calendar(answer, weekdays),
    )
    if missing:
        raise TurfplanError(missing)
    text = "\n\n".join("\n".join(lines) for lines in tables) + "\n"
    write_brief(file, text)
    say(words, screen.new_wrote(file=str(file)))


def _asker(words: "Words", missing: "list[Problem]") -> Ask:
    """What answers a question: its option, else the user, else what is usual; without any of them
    it goes into `missing`.
    """
    from turfplan.errors import Problem

    asks = sys.stdin.isatty() and sys.stderr.isatty()

    def answer(given: str | None, option: str, asked: "Message", default: str | None = None) -> str:
        question = words.text(asked)
        if given is not None:
            return given
        if asks:
            return str(typer.prompt(question, default=default, err=True))
        if default is not None:
            return default
        missing.append(
            Problem(option, commands.needed(), None, None, commands.asked_as(question=question))
        )
        return ""

    return answer


def _lawn(
    answer: Ask, name: str | None, area: str | None, grass: str | None, soil: str | None
) -> list[str]:
    from turfplan.app.lawn_identity import drawn_lawn_id
    from turfplan.phrases import screen

    called = answer(name, "--name", screen.new_name(), "Lawn")
    large = answer(area, "--area", screen.new_area())
    grows = answer(grass, "--grass", screen.new_grass())
    return [
        "[lawn]",
        f'id = "{drawn_lawn_id()}"',
        f"name = {_quoted(called)}",
        f"area = {_quoted(large)}",
        f"grass = {_quoted(grows)}",
        f"soil = {_quoted(answer(soil, '--soil', screen.new_soil(), 'loam'))}",
    ]


def _place(
    answer: Ask,
    named: tuple[str | None, str | None],
    coordinates: tuple[float | None, float | None],
    country: str | None,
) -> list[str]:
    """Where the lawn is: one question takes a postal code, a town or two coordinates.

    `named` are the postal code and the town of the options.
    """
    lines = ["[place]"]
    (postal_code, town), (latitude, longitude) = named, coordinates
    if town is not None:
        lines.append(f"town = {_quoted(town)}")
    elif latitude is not None and longitude is not None:
        lines += [f"latitude = {latitude}", f"longitude = {longitude}"]
    else:
        from turfplan.phrases import screen

        where = answer(postal_code, "--postal-code", screen.new_place())
        parts = [part.strip() for part in where.split(",")]
        if postal_code is None and parts[0][:1].isalpha():
            lines.append(f"town = {_quoted(where)}")
        elif len(parts) == 2:
            lines += [f"latitude = {_number(parts[0])}", f"longitude = {_number(parts[1])}"]
        else:
            lines.append(f"postal_code = {_quoted(where)}")
    if country:
        lines.append(f"country = {_quoted(country)}")
    return lines


def _leveling(answer: Ask, depth: str | None, share: float | None) -> list[str]:
    """How much is filled; whether everywhere or in hollows is asked only of one who was asked for
    the depth.
    """
    from turfplan.phrases import screen

    deep = answer(depth, "--depth", screen.new_depth(), "0 in")
    shares = None if share is None else str(share)
    if shares is None and depth is None and deep.split()[:1] not in ([], ["0"], ["0.0"]):
        everywhere = answer(None, "--hollow-share", screen.new_everywhere(), "e")
        shares = None if everywhere.lower().startswith("e") else _number(everywhere)
    hollows = f"lows = [{{ depth = {_quoted(deep)}, share = {shares} }}]"
    filled = f"depth = {_quoted(deep)}" if shares is None else hollows
    return ["[leveling]", filled]


def _number(text: str) -> str:
    """A number as typed; anything else in quotes, so that the check of the brief says where it
    stands and what is allowed.
    """
    return text.strip() if re.fullmatch(r"\s*[-+]?\d+(\.\d+)?\s*", text) else _quoted(text)


def _seeding(answer: Ask, intent: str | None) -> list[str]:
    from turfplan.phrases import screen

    wish = answer(intent, "--intent", screen.new_intent(intents=", ".join(INTENTS)), "none")
    return ["[seeding]", f"intent = {_quoted(wish)}"]


def _calendar(answer: Ask, weekdays: str | None) -> list[str]:
    from turfplan.phrases import screen

    days = answer(weekdays, "--weekdays", screen.new_weekdays(), "sat,sun")
    week = ", ".join(_quoted(day.strip()) for day in days.split(",") if day.strip())
    return ["[calendar]", f"weekdays = [{week}]"]


def _quoted(text: str) -> str:
    import json

    return json.dumps(text, ensure_ascii=False)
