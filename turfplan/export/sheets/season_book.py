"""Writes the season book: what the season is, why it is so, and at its end what was done.

Weeks and orders have sheets of their own and are not told again. No sentence stands in it twice.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import unescape
from typing import Any

from turfplan.export.sheets.book_cover import figures, strip
from turfplan.export.sheets.book_reasons import whys
from turfplan.export.sheets.book_sources import NO_SOURCES, sources_of
from turfplan.export.sheets.care_charts import nitrogen_chart, water_chart
from turfplan.export.sheets.glossary import NOT_IN_CARE, terms_in
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.sheets.look import look_of, on_every_page, shown
from turfplan.export.sheets.names import soil_name
from turfplan.export.sheets.rooted_water import rooted_months
from turfplan.export.sheets.said_once import SaidOnce
from turfplan.export.sheets.season_charts import row_name, timelines
from turfplan.export.sheets.soil_chart import soil_chart
from turfplan.export.sheets.what_i_did import Photo, record_of
from turfplan.export.templates import capital, render, sentence
from turfplan.message import AS_WRITTEN, DateInYear, Number, Quantity, listed
from turfplan.messages import Words
from turfplan.phrases import season_book as phrases
from turfplan.records.plan import RANKS, Plan, in_turn
from turfplan.records.plan_task import Task

# Sentences about the way through the season that stand on the cover; the others stand beside it.
ON_COVER = 3
_TAG = re.compile(r"<(style|script)\b.*?</\1>|<[^>]*>", re.DOTALL)
_SPACE = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Told:
    """Sentences under one heading of the book."""

    heading: str
    texts: tuple[str, ...]


def book_html(
    plan: Plan,
    words: Words,
    paper: str | None = None,
    large: bool = False,
    photos: tuple[Photo, ...] = (),
) -> str:
    """The season book as a page that stands alone. `paper` is letter or a4; `photos` are put into
    the frames at its end.
    """
    parts = _parts(plan, words, paper, large, photos)
    # The words that need a meaning are those that stand in the book.
    bare = parts | {"sources": NO_SOURCES}
    told = text_of(render("print/book.html.jinja", words, glossary=(), **bare))
    unless = NOT_IN_CARE if plan.care_alone else frozenset[str]()
    if not any(line.item == "seed" for line in plan.order):
        # Machines are reserved too; what is held back is seed.
        unless |= {"reserve"}
    glossary = terms_in(told, words, plan.names, unless=unless)
    return render("print/book.html.jinja", words, glossary=glossary, **parts)


def _parts(
    plan: Plan, words: Words, paper: str | None, large: bool, photos: tuple[Photo, ...]
) -> dict[str, Any]:
    """All that the book is filled with, in the order in which it is read: what has been said is not
    said again.
    """
    said, tasks = SaidOnce(), shown(plan.tasks)
    if plan.conflict is not None:
        said.all_new(sentence(reason.text) for reason in plan.conflict.reasons)
    months, of_water = _rooted(plan, words)
    return {
        "strip": strip(plan, words, large=large),
        "figures": figures(plan, words),
        "facts": _lawn_facts(plan, words),
        "timelines": timelines(plan, words, large=large),
        "on_cover": ON_COVER,
        "chosen": said.all_new(sentence(r.text) for r in plan.campaign_reason),
        "notes": _notes(plan, words, said),
        "assumed": said.all_new(sentence(a.text) for a in plan.assumptions),
        "water": water_chart(plan, words, large=large),
        "months": months,
        "of_water": said.all_new(map(sentence, of_water)),
        "nitrogen": nitrogen_chart(plan, words, large=large),
        "of_nitrogen": said.all_new(_ledger_notes(plan, "nitrogen")),
        "soil": soil_chart(plan, words, large=large),
        "climate": said.all_new(_climate(plan, words)),
        "whys": whys(plan, [t for t in tasks if t.series is None], words, said),
        "watering": _watering(plan, tasks, words, said),
        "others": _others(plan, words, said),
        "fill": fill_view(plan, words, every=True),
        "sources": sources_of(plan, _fact_names(plan, tasks), words, said),
        "record": record_of(plan, words, photos),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    }


def text_of(html: str) -> str:
    """What is read on a page, as one line."""
    return _SPACE.sub(" ", unescape(_TAG.sub(" ", html))).strip()


def _lawn_facts(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """The lawn in a few lines."""
    lawn, none = plan.lawn, words.text(phrases.none())
    grass = listed(
        (
            phrases.grass_share(grass=capital(g.name.text), share=Number(g.share, "percent"))
            if g.share < 1
            else capital(g.name.text)
            for g in lawn.grass
        ),
        "comma",
    )
    depth = words.value(Quantity(lawn.depth_mm, "depth")) if lawn.depth_mm else none
    name = plan.place.name
    # A name with a key says the country too; a plan of an older program has a postal code there.
    known = (
        (name,) if name and name.key != AS_WRITTEN else (name, plan.place.state, plan.place.country)
    )
    place = [str(text) for text in known if text]
    where = [
        words.value(Number(n, "hundredth")) for n in (plan.place.latitude, plan.place.longitude)
    ]
    work = (
        (phrases.fact_fill(), depth),
        (phrases.fact_mix(), lawn.mix.text if lawn.mix else none),
        (phrases.fact_seeding(), words.say(f"season_book.seeding.{lawn.intent}")),
    )
    facts = (
        (phrases.fact_area(), words.value(Quantity(lawn.area_m2, "area"))),
        (phrases.fact_grass(), words.value(grass)),
        (phrases.fact_soil(), soil_name(plan, words)),
        (phrases.fact_stand(), words.say(f"season_book.stand.{lawn.condition}")),
        (phrases.fact_thatch(), words.value(Quantity(lawn.thatch_mm, "depth"))),
        *(() if plan.care_alone else work),
        (phrases.fact_place(), words.value(listed(place or where, "comma"))),
    )
    return tuple((words.text(name), text) for name, text in facts)


def _notes(plan: Plan, words: Words, said: SaidOnce) -> tuple[Told, ...]:
    """What the plan says of the whole season, the gravest first; what single jobs ask stands at
    them.
    """
    waiting = {text.text for text in plan.put_off}
    said.all_new(sentence(text) for text in waiting)
    cautions = [
        note
        for note in in_turn(plan.ranked)
        if note.kind == "caution" and note.text.text not in waiting
    ]
    ranked = [
        Told(
            words.say(f"season_book.rank.{rank}"),
            said.all_new(sentence(note.text.text) for note in cautions if note.rank == rank),
        )
        for rank in RANKS
    ]
    # A plan of before notes had ranks has them without.
    bare = Told(words.text(phrases.notes()), said.all_new(sentence(c.text) for c in plan.cautions))
    return tuple(told for told in (*ranked, bare) if told.texts)


def _rooted(plan: Plan, words: Words) -> tuple[Any, tuple[str, ...]]:
    notes = next((ledger.notes for ledger in plan.ledgers if ledger.item == "water"), ())
    first = min((task.start for task in plan.tasks), default=plan.stamp)
    return rooted_months(notes, words, first.month)


def _ledger_notes(plan: Plan, item: str) -> Iterable[str]:
    return (
        sentence(note.text)
        for ledger in plan.ledgers
        if ledger.item == item
        for note in ledger.notes
    )


def _climate(plan: Plan, words: Words) -> Iterable[str]:
    """Where the weather of the plan comes from, how far off it may be, and what it does to work."""
    climate = plan.climate
    yield sentence(climate.source.text)
    yield words.text(phrases.may_be_off(days=climate.error_days))
    if climate.attribution:
        yield sentence(climate.attribution)
    for name, day in (
        (phrases.last_frost(), climate.last_frost),
        (phrases.first_frost(), climate.first_frost),
    ):
        if day:
            yield words.text(phrases.frost(what=words.text(name), day=words.value(DateInYear(day))))
    if plan.season_years is not None:
        yield sentence(plan.season_years.reason.text)


def _watering(plan: Plan, tasks: Sequence[Task], words: Words, said: SaidOnce) -> tuple[Told, ...]:
    """Why each stage of watering is as it begins."""
    stages: dict[str, str] = {}
    for task in tasks:
        if task.series is not None and task.why:
            stages.setdefault(row_name(plan, task, words), sentence(task.why.text))
    told = (Told(stage, said.all_new([text])) for stage, text in stages.items())
    return tuple(stage for stage in told if stage.texts)


def _others(plan: Plan, words: Words, said: SaidOnce) -> tuple[Told, ...]:
    """Which other ways through the season were weighed, and where experts disagree."""
    reasons: dict[str, list[str]] = {}
    for way in plan.rejected:
        reasons.setdefault(way.reason.text, []).append(way.campaign.text)
    rejected = [
        words.text(phrases.rejected(campaign=_joined(ways, words), reason=reason))
        for reason, ways in reasons.items()
    ]
    told = (
        Told(words.text(phrases.not_chosen()), said.all_new(map(sentence, rejected))),
        Told(
            words.text(phrases.disagree()),
            said.all_new(sentence(d.text) for d in plan.disagreements),
        ),
    )
    return tuple(one for one in told if one.texts)


def _joined(ways: Sequence[str], words: Words) -> str:
    return capital(words.value(listed(ways, "semicolon")))


def _fact_names(plan: Plan, tasks: Iterable[Task]) -> list[str]:
    """The facts that stand behind days, amounts and orders, in the order of the work."""
    names = [
        name
        for task in tasks
        for name in (*task.facts, *(fact for amount in task.amounts for fact in amount.facts))
    ]
    return list(dict.fromkeys([*names, *(name for line in plan.order for name in line.facts)]))
