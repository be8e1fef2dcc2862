"""`turfplan new`: asks a few questions in plain words and writes a brief."""

from pathlib import Path

import typer

from turfplan.cli.new_questions import Ask, BriefDraft, asker
from turfplan.cli.speech import brief_at, say, words_of_user
from turfplan.phrases import commands


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
    from turfplan.app.brief_questions import LOOKS, brief_text
    from turfplan.app.lawn_identity import drawn_lawn_id
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
    draft = BriefDraft(file)
    answer = asker(words, missing, draft)
    answers = _place(answer, (postal_code, town), (latitude, longitude), country)
    for question, told in {"area": area, "grass": grass, "soil": soil}.items():
        answers[question] = answer(told, question)
    answers |= _leveling(answer, depth, hollow_share)
    for question, told in {"intent": intent, "weekdays": weekdays, "name": name}.items():
        answers[question] = answer(told, question)
    if grass is None:
        answers |= {key: seen for key, seen in draft.answers.items() if key in LOOKS}
    if missing:
        raise TurfplanError(missing)
    write_brief(file, brief_text(answers, drawn_lawn_id()))
    draft.end()
    say(words, screen.new_wrote(file=str(file)))


def _place(
    answer: Ask,
    named: tuple[str | None, str | None],
    coordinates: tuple[float | None, float | None],
    country: str | None,
) -> dict[str, str]:
    """Where the lawn is: by options, else one question takes a postal code, a town or two
    coordinates. `named` are the postal code and the town of the options.
    """
    (postal_code, town), (latitude, longitude) = named, coordinates
    found = {} if country is None else {"country": country}
    if town is not None:
        return {**found, "town": town}
    if latitude is not None and longitude is not None:
        return {**found, "latitude": str(latitude), "longitude": str(longitude)}
    if postal_code is not None:
        return {**found, "postal_code": postal_code}
    return {**found, "place": answer(None, "place")}


def _leveling(answer: Ask, depth: str | None, share: float | None) -> dict[str, str]:
    """How much is filled; whether everywhere or in hollows is asked only of one who was asked for
    the depth.
    """
    from turfplan.app.brief_questions import asks_hollows

    deep = answer(depth, "depth")
    if share is not None:
        return {"depth": deep, "everywhere": str(share)}
    if depth is None and asks_hollows(deep):
        return {"depth": deep, "everywhere": answer(None, "everywhere")}
    return {"depth": deep}
