"""Looks at a lawn once for all lists of many lawns."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from turfplan.app.client_season import season_of
from turfplan.app.lawn_day import open_jobs
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.outputs import words_of
from turfplan.business.lawn_glance import GlancedQuestion, LawnGlance, glance_of
from turfplan.export.open_questions import open_questions
from turfplan.files.glance_index import KnownLawn
from turfplan.files.reading.plan import read_plan
from turfplan.records.journal import JournalEntry, standing
from turfplan.records.plan import Plan


def glimpse_of(plan: Plan, entries: Sequence[JournalEntry]) -> LawnGlance:
    """What lists say of a lawn by its plan and all entries of its journal."""
    done = {one.task for one in standing(entries) if one.kind == "done" and one.task is not None}
    # Each with its own last day: what is late today is known where it is listed.
    asked = open_questions(plan, date.min, words_of(plan))
    questions = [GlancedQuestion(asked=one.asked, by=one.by) for one in asked]
    return glance_of(plan, open_jobs(plan, entries), done, questions)


def known_glimpse(folder: Path, known: KnownLawn | None) -> LawnGlance | None:
    """What lists say of a lawn: what is known of it where its files lie as they lay, else by its
    plan and journal; None without a plan."""
    if known is not None and known.still_holds(folder):
        season = season_of(known.said)
        if season is not None:
            return season.glance
    plan = read_plan(folder)
    return glimpse_of(plan, entries_of_lawn(folder)) if plan is not None else None
