"""Turns the forms of a lawn's page into what happened: ticks, put-offs, answers about what is
over.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from starlette.datastructures import FormData, UploadFile

from turfplan.app.lawn_day import LawnDay, lawn_day, tick_key
from turfplan.app.log_entry import Happening
from turfplan.app.typed_amounts import amount_of, share_of
from turfplan.errors import TurfplanError
from turfplan.message import Message, said
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.journal import EntryKind, JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.serve.befell import Befell
from turfplan.serve.guard import LARGEST_FORM

LONGEST_KEY = 200
REASONS: Mapping[str, EntryKind] = {
    "rain": "rained_off",
    "no_time": "not_done",
    "no_hands": "not_done",
    "refused": "refused",
}


@dataclass(slots=True)
class Answers:
    """What a form says has happened, and of each field that cannot be read what is wrong."""

    ticks: list[Happening] = field(default_factory=list)
    errors: dict[str, Message] = field(default_factory=dict)


def answers_of(
    form: FormData,
    plan: Plan,
    day: LawnDay,
    entries: Sequence[JournalEntry],
    holder: str,
) -> Answers:
    """What a form of the page of a day says; `entries` are all of the journal, `holder` writes."""
    found = Answers()
    reader = _Reader(form, plan, day, found)
    make = {
        "done": reader.done,
        "put_off": reader.put_off,
        "other": reader.other,
        "overdue": reader.overdue,
        "rain": reader.watering,
        "befell": Befell(form, day.today, tuple(entries), found.errors).happenings,
    }.get(_text(form, "do"))
    if make is None:
        found.errors["do"] = phrases.bad_form()
        return found
    for happening in make():
        task = happening.task or ""
        key = happening.key or _text(form, f"key:{task}")[:LONGEST_KEY] or tick_key(entries, task)
        found.ticks.append(replace(happening, by=holder, way="page", key=key))
    if not found.ticks and not found.errors:
        found.errors["job"] = phrases.choose_job()
    return found


def day_of_tick(
    form: FormData, plan: Plan, day: LawnDay, entries: Sequence[JournalEntry]
) -> LawnDay:
    """The day on which a tick was made: one that waited on a device for a signal says so; a clock
    that is ahead of the lawn's is not believed."""
    try:
        kept_on = date.fromisoformat(_text(form, "kept_on"))
    except ValueError:
        return day
    return day if kept_on >= day.today else lawn_day(plan, entries, kept_on)


def plain_names(form: FormData) -> FormData:
    """A form whose fields are called alike, however many of a name there are: where a page sends
    several values their name ends in brackets."""
    return FormData([(name.removesuffix("[]"), value) for name, value in form.multi_items()])


def kept_fields(form: FormData) -> tuple[tuple[str, str], ...]:
    """What was filled in, to be sent again once it is confirmed."""
    return tuple((name, str(value)) for name, value in form.multi_items() if name != "keep")


def sent_text(form: FormData, typed: str = "text", file: str = "file") -> str | None:
    """A text in a form: that of a file where one was chosen in its field, else what was typed; None
    for a file that is no text."""
    sent = form.get(file)
    if isinstance(sent, UploadFile) and sent.filename:
        try:
            return sent.file.read(LARGEST_FORM).decode("utf-8-sig")
        except UnicodeDecodeError:
            return None
    # Forms send the ends of lines as the internet has them.
    return str(form.get(typed, "")).replace("\r\n", "\n")


def plain_field(form: FormData, name: str, most: int) -> str:
    """What was typed into a field, on one line, without what no reader sees, as far as it may be
    long; empty for none."""
    return plain_text(str(form.get(name, "")))[:most].strip()


def _text(form: FormData, name: str) -> str:
    value = form.get(name)
    return value.strip() if isinstance(value, str) else ""


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads one form against the plan and the day."""

    form: FormData
    plan: Plan
    day: LawnDay
    found: Answers

    def jobs(self) -> Iterator[Task]:
        """The jobs that the form is about; what is none of the plan is told."""
        for name in self.form.getlist("job"):
            task = self.plan.task(str(name))
            if task is None or task.series is not None:
                self.found.errors["job"] = phrases.choose_job()
            else:
                yield task

    def done(self) -> Iterator[Happening]:
        """Done as planned: today, or on the last day of what is over."""
        for task in self.jobs():
            yield _worked(task, min(self.day.today, task.end))

    def put_off(self) -> Iterator[Happening]:
        """Not today, and why."""
        reason = _text(self.form, "reason")
        kind = REASONS.get(reason)
        if kind is None:
            self.found.errors["reason"] = phrases.choose_reason()
            return
        for task in self.jobs():
            yield Happening(kind, task.id, on=self.day.today)

    def other(self) -> Iterator[Happening]:
        """One job otherwise than planned: on another day, in part, with an amount, left out, held
        on a day, not done on a day."""
        how = _text(self.form, "how")
        for task in self.jobs():
            if how == "skip":
                yield Happening("skipped", task.id, on=self.day.today)
            elif how == "move":
                to = self.date("to")
                if to is not None:
                    yield Happening("moved", task.id, to=to)
            elif how == "missed":
                missed = self.date("missed")
                if missed is not None:
                    yield Happening("not_done", task.id, on=missed)
            elif how == "done":
                yield from self._done_otherwise(task)
            else:
                self.found.errors["how"] = phrases.choose_how()

    def _done_otherwise(self, task: Task) -> Iterator[Happening]:
        on, given = self.date("on"), _text(self.form, "amount")
        try:
            amount, unit = amount_of(given or None)
            share = share_of(_text(self.form, "share") or "1")
        except TurfplanError as error:
            self.found.errors["amount"] = said(error.problems[0].message)
            return
        if on is not None:
            done = _worked(task, on)
            yield replace(done, share=share, amount=amount, unit=unit, given=given)

    def overdue(self) -> Iterator[Happening]:
        """What became of each job that is over; one without an answer is asked again."""
        for task in self.day.overdue:
            answer = _text(self.form, f"answer:{task.id}")
            if answer == "planned":
                yield _worked(task, task.end)
            elif answer == "on":
                on = self.date(f"on:{task.id}")
                if on is not None:
                    yield _worked(task, on)
            elif answer == "not_done":
                yield Happening("not_done", task.id)
            elif answer == "skip":
                yield Happening("skipped", task.id, on=task.end)

    def watering(self) -> Iterator[Happening]:
        """It rained: today's run of a watering is not needed."""
        for name in self.form.getlist("watering"):
            task = self.plan.task(str(name))
            if task is None or task.series is None:
                self.found.errors["watering"] = phrases.choose_job()
            else:
                yield Happening("rained_off", task.id, on=self.day.today)

    def date(self, name: str) -> date | None:
        """A day that was filled in; what is none is told."""
        try:
            return date.fromisoformat(_text(self.form, name))
        except ValueError:
            example = self.day.today.isoformat()
            self.found.errors[name] = phrases.write_day(example=example)
            return None


def _worked(task: Task, on: date) -> Happening:
    kind: EntryKind = "delivered" if task.plays("delivery") else "done"
    return Happening(kind, task.id, on=on)
