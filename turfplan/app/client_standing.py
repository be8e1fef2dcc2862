"""Says which lawns of a business are planned on a day: not those that are paused, or whose clients
have left."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from turfplan.app.client_rules import rules_of_lawns
from turfplan.app.client_season import ClientSeason
from turfplan.app.lawn_glimpse import known_glimpse
from turfplan.app.reader_language import language_of
from turfplan.business.business_days import sum_of_days
from turfplan.business.lawn_pauses import pause_on, paused_since
from turfplan.business.place_rules import sum_of_rules
from turfplan.business.quote_record import Quote
from turfplan.business.unanswered import last_offer, unsold_tasks
from turfplan.files.glance_index import KnownLawn
from turfplan.files.lawn_standing import read_pauses, read_quotes
from turfplan.files.reading.business import read_business
from turfplan.message import Day, Message
from turfplan.messages.problems import words_for_errors
from turfplan.phrases import standing as phrases

if TYPE_CHECKING:
    from turfplan.app.plan_clients import ToPlan


def standing_of(
    wanted: Iterable["ToPlan"], output: Path, today: date, known: Mapping[str, KnownLawn]
) -> tuple[tuple["ToPlan", ...], tuple[ClientSeason, ...]]:
    """The lawns that are planned, each with the sum of the rules of its group and place and of the
    days of the business, and what is told of those that are paused. Raises TurfplanError for a
    `business.toml`, or a record of a pause or of rules, that cannot be read."""
    lawns = tuple(wanted)
    rules = rules_of_lawns(output, [lawn.folder for lawn in lawns])
    days = sum_of_days(read_business(output))
    found, resting = list["ToPlan"](), list[ClientSeason]()
    for lawn in lawns:
        folder = lawn.folder
        pauses = read_pauses(folder)
        pause = pause_on(pauses, today)
        if pause is not None:
            said = phrases.state_paused_open()
            if pause.end is not None:
                said = phrases.state_paused(day=Day(pause.end, weekday=True))
            resting.append(_season(folder.name, lawn.line, "paused", said))
            continue
        lost = unsold = False
        quotes = read_quotes(folder)
        glance = known_glimpse(folder, known.get(folder.name)) if pauses or quotes else None
        if glance is not None and glance.made is not None:
            answered = _waited_until(quotes)
            lost = paused_since(pauses, glance.made, today)
            lost |= answered is not None and glance.made < answered
            names = [job.task for job in glance.jobs]
            unsold = bool(names) and len(unsold_tasks(quotes, names)) == len(names)
        sum_ = sum_of_rules(rules.get(folder, ())) + days
        found.append(replace(lawn, rules=sum_, was_paused=lost, unsold=unsold))
    return tuple(found), tuple(resting)


def _waited_until(quotes: Sequence[Quote]) -> date | None:
    """The day on which the first quote of a lawn that was accepted was so: until then nobody worked
    there. None where none was, or the last one is not."""
    first = next((quote for quote in quotes if quote.said == "accepted"), None)
    return first.said_on if first is not None and last_offer(quotes) is None else None


def left_season(client: str, on: date, line: int) -> ClientSeason:
    """What is told of a row whose client has left."""
    return _season(client, line, "left", phrases.state_left(day=Day(on, weekday=False)))


def _season(
    client: str, line: int, state: Literal["paused", "left"], said: Message
) -> ClientSeason:
    words = words_for_errors(language_of(None))
    return ClientSeason(line=line, client=client, state=state, campaign=words.text(said))
