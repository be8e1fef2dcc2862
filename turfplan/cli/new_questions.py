"""Asks the questions of a new brief at a terminal: each answer is checked at once and kept."""

import json
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import say
from turfplan.phrases import commands

if TYPE_CHECKING:
    from turfplan.app.seen_answers import Looked
    from turfplan.errors import Problem
    from turfplan.message import Message
    from turfplan.messages import Words

Ask = Callable[..., str]
# The options of questions that are called otherwise.
OPTIONS = {
    "place": "--postal-code",
    "everywhere": "--hollow-share",
    "cause": "--bump-cause",
    "sprayed_on": "--sprayed-on",
}
# What is typed to tell a grass or a soil by what is seen or felt.
LOOK, FEEL, JAR = "look", "feel", "jar"


class BriefDraft:
    """What a user has answered so far, in a file beside the brief until that is written."""

    def __init__(self, file: Path) -> None:
        """For the brief to be written; what was answered before is taken up."""
        self.path = file.with_name(f"{file.name}.draft")
        try:
            kept = json.loads(self.path.read_bytes())
        except (OSError, ValueError):
            kept = {}
        kept = kept if isinstance(kept, dict) else {}
        self.answers = {str(name): str(answer) for name, answer in kept.items()}

    def keep(self, answers: Mapping[str, str]) -> None:
        """Keeps the answers as they stand; raises TurfplanError where nothing can be written."""
        from turfplan.errors import TurfplanError
        from turfplan.files.system_faults import unwritable
        from turfplan.files.whole_files import write_into_folders

        self.answers = dict(answers)
        try:
            write_into_folders({self.path: json.dumps(self.answers).encode()})
        except OSError as error:
            raise TurfplanError(unwritable(self.path, error)) from None

    def end(self) -> None:
        """The brief is written: nothing is left to go on with."""
        self.path.unlink(missing_ok=True)


def read_options(given: "Mapping[str, str | None]") -> "dict[str, str | None]":
    """What options say, of choices by their keys, and of a month its last day.

    Raises TurfplanError for every option that names none of its choices.
    """
    from turfplan.app.brief_choices import CHOICES, NOT_KNOWN
    from turfplan.app.brief_questions import faults_of
    from turfplan.app.lawn_day import today_here
    from turfplan.app.plain_answers import is_unknown, plainly
    from turfplan.app.typed_days import last_day_of
    from turfplan.errors import Problem, TurfplanError
    from turfplan.message import Day
    from turfplan.phrases import page

    faults: list[Problem] = []
    read = dict(given)
    for name, told in given.items():
        option = OPTIONS.get(name, f"--{name}")
        if told is not None and name in CHOICES:
            read[name] = NOT_KNOWN if is_unknown(told) else plainly(name, told)
            faults += [Problem(option, fault, told) for fault in faults_of({name: str(read[name])})]
        elif told is not None and name == "sprayed_on":
            day = today_here() if is_unknown(told) else last_day_of(told, today_here())
            read[name] = told if day is None else day.isoformat()
            if day is None:
                faults.append(Problem(option, page.help_sprayed_on(day=Day(today_here())), told))
    if faults:
        raise TurfplanError(faults)
    return read


def asker(words: "Words", missing: "list[Problem]", draft: BriefDraft) -> Ask:
    """What answers a question: its option, else the user, else what is usual; without any of them
    it goes into `missing`.

    The user is asked until the answer can be one, and finds in its place what was answered before
    the asking broke off.
    """
    from turfplan.app.brief_questions import BY_NAME
    from turfplan.errors import Problem

    asks = sys.stdin.isatty() and sys.stderr.isatty()

    def answer(given: str | None, name: str) -> str:
        question = BY_NAME[name]
        if given is not None:
            return given
        if asks:
            return _Asking(name, draft).answer()
        if question.usual is not None:
            return question.usual
        option, asked = OPTIONS.get(name, f"--{name}"), words.text(question.asked())
        missing.append(
            Problem(option, commands.needed(), None, None, commands.asked_as(question=asked))
        )
        return ""

    return answer


class _Asking:
    """One question at a terminal, in the units of the place that was answered."""

    def __init__(self, name: str, draft: BriefDraft) -> None:
        from turfplan.app.asked_words import words_where
        from turfplan.app.brief_questions import BY_NAME

        self.name, self.draft, self.question = name, draft, BY_NAME[name]
        self.words = words_where(draft.answers)

    def answer(self) -> str:
        """Asks until the answer can be one, and keeps it."""
        from turfplan.app.brief_questions import LOOKS, faults_of

        self._ways()
        default = self.draft.answers.get(self.name, self.question.usual)
        while True:
            asked = self.words.text(self.question.asked())
            told, seen = self._told(str(typer.prompt(asked, default=default, err=True)))
            if told is None:
                continue
            kept = self.draft.answers
            if self.name == "grass":
                kept = {key: value for key, value in kept.items() if key not in LOOKS}
            tried = {**kept, self.name: told, **seen}
            if faults := faults_of(tried):
                for fault in faults:
                    self._say(fault)
                continue
            self.draft.keep(tried)
            self._said_back(told)
            return told

    def _say(self, message: "Message") -> None:
        say(self.words, message, aside=True)

    def _ways(self) -> None:
        """What may be typed beside an answer."""
        from turfplan.app.asked_words import choice_names, if_unknown
        from turfplan.phrases import screen

        for key, label in choice_names(self.name, self.words):
            self._say(screen.new_intent_line(key=key, label=label))
        if assumed := if_unknown(self.name, self.words, self.draft.answers):
            self._say(screen.new_unknown(assumed=assumed))
        if self.name == "grass":
            self._say(screen.new_looks())
        elif self.name == "soil":
            self._say(screen.new_soil_ways())

    def _told(self, typed: str) -> tuple[str | None, dict[str, str]]:
        """The answer to what was typed, and what was seen besides; None to be asked again."""
        from turfplan.app.brief_choices import CHOICES, NOT_KNOWN
        from turfplan.app.brief_questions import answer_of, unassumed
        from turfplan.app.lawn_day import today_here
        from turfplan.app.plain_answers import plainly
        from turfplan.app.seen_answers import GRASS
        from turfplan.app.typed_days import last_day_of
        from turfplan.message import Day
        from turfplan.phrases import page

        way = typed.strip().lower()
        if self.name == "grass" and way == LOOK:
            return self.question.unknown, self._seen(GRASS)
        if self.name == "soil" and way in (FEEL, JAR):
            return self._soil(way), {}
        told = answer_of(self.name, typed)
        if told is None:
            self._say(unassumed(self.name))
        elif self.name == "sprayed_on":
            today = today_here()
            day = today if told == NOT_KNOWN else last_day_of(told, today)
            if day is None:
                self._say(page.help_sprayed_on(day=Day(today)))
            return None if day is None else day.isoformat(), {}
        elif self.name in CHOICES:
            return plainly(self.name, told), {}
        return told, {}

    def _soil(self, way: str) -> str | None:
        """The soil by a handful, or by a jar."""
        from turfplan.app.seen_answers import (
            LAYERS,
            SOIL,
            jar_told,
            soil_by_feel,
            soil_by_jar,
        )
        from turfplan.files.reading.book import load_book
        from turfplan.phrases import page

        if way == FEEL:
            self._say(page.feel_say())
            return soil_by_feel(self._seen(SOIL)) or self.question.unknown
        self._say(jar_told(load_book()))
        heights = {
            key: str(typer.prompt(self.words.text(told()), default="", err=True))
            for key, told in LAYERS
        }
        found = soil_by_jar(heights)
        if found is None:
            self._say(page.jar_wrong())
        return found

    def _seen(self, looks: "tuple[Looked, ...]") -> dict[str, str]:
        """What somebody saw, of each look by the number of what is found."""
        from turfplan.files.reading.book import load_book
        from turfplan.phrases import screen

        found = {}
        for look in looks:
            self._say(look.asked())
            for number, (_, _, label) in enumerate(look.kinds, 1):
                told = self.words.text(label(load_book()))
                self._say(screen.new_choice_line(number=number, label=told))
            asked = self.words.text(screen.new_choice())
            typed = str(typer.prompt(asked, default="", err=True)).strip()
            if typed.isdecimal() and 0 < int(typed) <= len(look.kinds):
                found[look.key] = look.kinds[int(typed) - 1][0]
        return found

    def _said_back(self, told: str) -> None:
        """Where the place lies; what an answer was taken as, where that is not what was typed."""
        from turfplan.app.asked_words import place_said_back, words_where
        from turfplan.app.plain_answers import plainly
        from turfplan.message import as_written
        from turfplan.phrases import screen

        if self.name == "place":
            words = words_where(self.draft.answers)
            if found := place_said_back(self.draft.answers, words):
                say(words, as_written(found), aside=True)
        elif (taken := plainly(self.name, told)) != told or self.name == "soil":
            self._say(screen.new_taken(answer=taken))
