"""`turfplan new`: asks a few questions in plain words and writes a brief."""

from collections.abc import Mapping
from pathlib import Path

import typer

from turfplan.cli.new_questions import Ask, BriefDraft, asker, read_options
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
    survey: Path | None = typer.Option(
        None, "--survey", metavar="TABLE", help="The table of a survey (CSV) in place of a depth."
    ),
    condition: str | None = typer.Option(
        None, "--condition", help="How the grass stands: dense, thin, patchy or bare."
    ),
    bump_cause: str | None = typer.Option(
        None, "--bump-cause", help="Why it is uneven: settling, trench, stump, moles, worms, ..."
    ),
    water: str | None = typer.Option(
        None, "--water", help="hose, timer (a hose on one), system (in the ground) or rain."
    ),
    sprayed: str | None = typer.Option(
        None, "--sprayed", help="Weed killer of the last year: none, sprouting, leaves or feed."
    ),
    sprayed_on: str | None = typer.Option(
        None, "--sprayed-on", help="When it was used last, for example April."
    ),
    people: str | None = typer.Option(None, "--people", help="How many people work."),
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
    from turfplan.app.brief_choices import NOT_KNOWN
    from turfplan.app.brief_questions import LOOKS, SURVEY, brief_text
    from turfplan.app.lawn_day import today_here
    from turfplan.app.lawn_identity import drawn_lawn_id
    from turfplan.app.new_brief import brief_to_write, copy_brief, write_brief, write_survey
    from turfplan.app.sent_survey import sent_table, survey_told
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
    given = {"area": area, "grass": grass, "soil": soil, "depth": depth, "cause": bump_cause}
    given |= {"condition": condition, "water": water, "sprayed": sprayed, "people": people}
    given |= {"intent": intent, "weekdays": weekdays, "sprayed_on": sprayed_on}
    given["everywhere"] = None if hollow_share is None else str(hollow_share)
    if survey is not None:
        answers[SURVEY] = sent_table(survey, depth, file, force=force)
        given["depth"] = ""
    answers = _answers(answer, read_options(given), answers)
    if name is not None:
        answers["name"] = name
    if grass is None:
        answers |= {key: seen for key, seen in draft.answers.items() if key in LOOKS}
    if answers.get("sprayed_on") == NOT_KNOWN:
        answers["sprayed_on"] = today_here().isoformat()
    if missing:
        raise TurfplanError(missing)
    if survey is not None:
        survey_told(answers, str(survey))
    write_brief(file, brief_text(answers, drawn_lawn_id()))
    write_survey(file.parent, answers)
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


def _answers(
    answer: Ask, given: Mapping[str, str | None], place: Mapping[str, str]
) -> dict[str, str]:
    """The answers to all that is asked beside the place, by options or one after the other; what
    belongs to a depth that was an option is not asked."""
    from turfplan.app.brief_questions import SCREENS, steps_of

    answers = dict(place)
    for name in (name for first, more in SCREENS.items() for name in (first, *more)):
        told, from_depth = given.get(name), name in SCREENS["depth"]
        belongs = from_depth and given["depth"] is not None and told is None
        if name != "place" and name in steps_of(answers) and not belongs:
            answers[name] = answer(told, name)
    return answers
