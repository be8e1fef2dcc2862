"""Looks for what makes grass thin or ground uneven, before anything is ordered, spread or sown."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from turfplan.book.words import book_message, book_messages
from turfplan.message import Day, Message, listed, said
from turfplan.phrases import prepare as phrases
from turfplan.records.book_names import FactName, ThinCause
from turfplan.records.brief import BumpCause
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import PREPARE, Timing, Wording, make
from turfplan.work.pesticide_law import told_of_law
from turfplan.work.phases.cause_seasons import (
    HATCHED,
    LOOKED_AGAIN,
    Spans,
    clearest,
    hatched,
    spans_seen,
    why_then,
)
from turfplan.work.phases.dead_turf import moss_left
from turfplan.work.phases.new_ground import tills
from turfplan.work.stand import WHOLE
from turfplan.work.watering.request import FREEZING_C

# What a cause means for the fill.
_LIVE_CAUSES: Mapping[BumpCause, Callable[[], Message]] = MappingProxyType(
    {
        "moles": phrases.cause_moles,
        "trench": phrases.cause_trench,
        "stump": phrases.cause_stump,
        "worms": phrases.cause_worms,
        "settling": phrases.cause_settling,
        "frost": phrases.cause_frost,
        "thatch": phrases.cause_thatch,
        "construction": phrases.cause_construction,
        "traffic": phrases.cause_traffic,
        "unknown": phrases.cause_unknown,
    }
)
# What lives, is found alive, and is what people treat with a bought killer.
LIVING: frozenset[ThinCause] = frozenset({"grubs", "insects", "disease", "moss"})


def causes_looked_for(setting: ResolvedLawn, work: OpenDays | None) -> Iterator[Draft]:
    """A look for each cause that is not over, and another where one was found alive; `work` are
    the days for the work that waits for it.

    A look stands as early as there is something to see: what it finds may take weeks to mend.
    """
    if (cause := live_bump(setting)) is not None:
        early = Timing(PREPARE, ideal=_thawed(setting))
        yield make(setting, "diagnose", timing=early, wording=_of_bumps(setting, cause))
    for name in thin_causes(setting):
        yield from _looks(setting, name, work)
    again = setting.alive_until
    if again is not None:
        wording = Wording(
            phrases.cause_again(), title=phrases.cause_again_title(), how=_again(setting)
        )
        timing = Timing(PREPARE, ideal=again)
        look = make(setting, "diagnose", "again", timing=timing, wording=wording)
        yield _on_days_that_show(look, *_seasons_again(setting, again))


def _of_bumps(setting: ResolvedLawn, cause: BumpCause) -> Wording:
    """What is said of the look for a cause of bumps; nobody digs for feet and wheels."""
    why = _LIVE_CAUSES[cause]()
    if cause == "traffic":
        steps = (phrases.traffic_lead(), phrases.traffic_firm(), phrases.traffic_cleared())
        return Wording(why, title=phrases.traffic_title(), how=steps)
    holes = (phrases.bare_holes(), phrases.bare_below()) if _bare(setting) else None
    return Wording(why, how=holes)


def _looks(setting: ResolvedLawn, cause: ThinCause, work: OpenDays | None) -> Iterator[Draft]:
    """The look for a cause in the next weeks in which it can be seen; grubs are counted again
    before work that follows once the next ones have hatched."""
    opens = _open_ground(setting)
    spans, wording = spans_seen(setting, cause, opens), _wording(setting, cause)
    look = _look(setting, cause, spans, wording)
    best = clearest(setting, cause, opens, work)
    yield look if best is None else replace(look, ideal=best)
    if setting.book.causes[cause].seen == "surface" and (later := hatched(setting, spans, work)):
        again = replace(
            wording, why=phrases.cause_grubs_hatched(), title=phrases.cause_grubs_hatched_title()
        )
        yield _look(setting, cause, later, again, HATCHED)


def insects_again(setting: ResolvedLawn, sow: OpenDays | None) -> Draft | None:
    """Another look for insects in the week before seed or plants go in, where these follow the
    first look by a brood or more and the days are warm; None where one look is enough."""
    if sow is None or setting.sowing.operation is None:
        return None
    lead, brood = (setting.days(name) for name in _AGAIN)
    # What was sprayed before may hold seed and plants back beyond their best day.
    held = max((hold.until or 0 for hold in setting.holds), default=0)
    day, opens = max(sow.best.toordinal(), held) - lead, _open_ground(setting)
    for cause in thin_causes(setting):
        if setting.book.causes[cause].seen != "warmth":
            continue
        spans = spans_seen(setting, cause, opens)
        if day - spans[0][0] < brood or not any(a <= day <= b for a, b in spans):
            continue
        law = told_of_law(setting)
        wording = Wording(
            phrases.insects_again(),
            title=phrases.insects_again_title(),
            how=(*book_messages(setting.book, f"causes.{cause}.how")[:-1], phrases.insects_treat()),
            go=phrases.insects_go(),
            fallback=phrases.insects_fallback(),
            cautions=() if law is None else (law,),
        )
        timing = Timing(PREPARE, anchor="sowing", offset=-lead)
        return make(setting, "inspect", cause, timing=timing, wording=wording, facts=_AGAIN)
    return None


# How long before seed or plants insects are looked for again, and how long after the first look.
_AGAIN: tuple[FactName, FactName] = ("order.insects_lead", "order.insects_again")


def _look(
    setting: ResolvedLawn, cause: ThinCause, spans: Spans, wording: Wording, key: str | None = None
) -> Draft:
    """A look on the first of the days on which there is something to see, or on any."""
    first = spans[0][0] if spans else _open_ground(setting)
    early = Timing(PREPARE, ideal=first)
    look = make(setting, "diagnose", key or cause, timing=early, wording=wording)
    return _on_days_that_show(look, spans, why_then(setting, cause))


def _seasons_again(setting: ResolvedLawn, day: int) -> tuple[Spans, Reason | None]:
    """The days from one on (an ordinal) on which what was found alive can be found again, and why;
    none where it may be something that shows on any day."""
    causes = setting.brief.site.thin_cause
    whys = [why_then(setting, cause) for cause in causes]
    if live_bump(setting) is not None or not whys or None in whys:
        return (), None
    found = (span for cause in causes for span in spans_seen(setting, cause, day))
    return tuple(found), whys[0]


def _on_days_that_show(look: Draft, spans: Spans, why: Reason | None) -> Draft:
    """A look that keeps to days on which there is something to see; on any where none are given."""
    if not spans or why is None:
        return look
    days = DaySet.of(spans)
    seen = Allowed(f"seen:{look.id}", look.start_node, days, Strength.STRONG, why, opens=True)
    return replace(look, shows=seen)


def _thawed(setting: ResolvedLawn) -> int:
    """The first day of the plan on which a spade goes in all the way: some time after a probe does,
    where winter freezes the ground."""
    opens = _open_ground(setting)
    frozen = min(setting.climate.air_mean_c) <= FREEZING_C and opens > setting.first_day
    return opens + setting.days("order.spade_after_probe") if frozen else opens


def _open_ground(setting: ResolvedLawn) -> int:
    """The first day of the plan on which the ground is open for a spade, as for a probe."""
    opens = (w.start.toordinal() for w in setting.open("soil_test"))
    ends = (w.end.toordinal() for w in setting.open("soil_test"))
    first = setting.first_day
    return next((max(a, first) for a, b in zip(opens, ends, strict=True) if b >= first), first)


def thin_causes(setting: ResolvedLawn) -> tuple[ThinCause, ...]:
    """Why the grass is thin, as far as that is not known to be over, or answered elsewhere."""
    site = setting.brief.site
    works = setting.sowing.operation is not None or _fills(setting)
    return tuple(
        cause
        for cause in dict.fromkeys(site.thin_cause or _unsaid(setting))
        if works and cause not in site.cleared and not (cause == "shade" and _light_said(setting))
    )


def _unsaid(setting: ResolvedLawn) -> tuple[ThinCause, ...]:
    """That nobody knows the cause, where turf died and is patched or planted: what is put there
    dies like it. What is only thin is asked about."""
    mends = setting.sowing.intent in ("patch", "plant") and not setting.on_open_ground
    unanswered = setting.turf.condition == "patchy" and not _light_said(setting)
    return ("unknown",) if mends and unanswered else ()


def _light_said(setting: ResolvedLawn) -> bool:
    return setting.brief.site.sun_hours is not None or setting.brief.site.shade_hours is not None


def live_bump(setting: ResolvedLawn) -> BumpCause | None:
    """The cause of bumps, where it is one that comes back and nobody has said that it is over.

    Of deep hollows of which nobody said the cause it is not known yet.
    """
    site, levelling = setting.brief.site, setting.levelling
    if not _fills(setting) and not (levelling.left and site.bump_cause):
        return None
    cause = site.bump_cause or ("unknown" if _deep_hollows(setting) else None)
    return cause if cause in _LIVE_CAUSES and cause not in site.cleared else None


def _fills(setting: ResolvedLawn) -> bool:
    """Whether this plan fills anything, which the cause of bumps then holds up."""
    return bool(setting.levelling.bands or setting.levelling.lift_share)


def _deep_hollows(setting: ResolvedLawn) -> bool:
    """Whether parts of the lawn lie deeper than any one pass may fill."""
    most, levelling = setting.book.si("passes.hard_cap"), setting.levelling
    deep = (band.depth_mm > most and band.share < WHOLE for band in levelling.bands)
    return bool(levelling.lift_share) or any(deep)


def _bare(setting: ResolvedLawn) -> bool:
    """Whether no grass stands there when the cause is looked for."""
    return setting.turf.condition == "bare"


def _wording(setting: ResolvedLawn, cause: ThinCause) -> Wording:
    """What is said of the look for one cause, with how its result is written down."""
    book, key = setting.book, f"causes.{cause}"
    loosened = setting.on_open_ground and tills(setting)
    tilled = loosened and book.causes[cause].tilled_over is not None
    law = told_of_law(setting) if cause in LIVING else None
    how, end = ("tilled_how", "tilled_over") if tilled else ("how", "over")
    left = (moss_left(setting),) if cause == "moss" and not setting.on_open_ground else ()
    over = phrases.cause_over(over=book_message(book, f"{key}.{end}"), cause=cause)
    return Wording(
        book_message(book, f"{key}.why"),
        title=book_message(book, f"{key}.title"),
        how=(*book_messages(book, f"{key}.{how}"), *left, over, _logged(cause)),
        cautions=() if law is None else (law,),
    )


def _logged(cause: ThinCause) -> Message:
    """How it is written down that a cause is still there: what lives is found alive, what does not
    is left."""
    return phrases.cause_alive() if cause in LIVING else phrases.cause_left()


def _again(setting: ResolvedLawn) -> tuple[Message, ...]:
    site = setting.brief.site
    lives = site.bump_cause is not None or not LIVING.isdisjoint(site.thin_cause)
    named = phrases.cause_alive() if lives else phrases.cause_left()
    return phrases.cause_again_how(), named


def waits_for(setting: ResolvedLawn, drafted: Collection[str] = ()) -> tuple[Message, ...]:
    """What is held until a look has been answered, for the head of the plan.

    `drafted` are the ids of its tasks. A look that is over holds nothing; grubs are answered once
    those that hatched later are counted too, where they are.
    """
    asked = [cause for cause in thin_causes(setting) if _unanswered(setting, cause, drafted)]
    found = [_waits(setting, asked)] if asked else []
    if _fills(setting) and live_bump(setting) and "diagnose" not in setting.answered:
        found.append(phrases.waits_bumps())
    found += _seen_later(setting, asked)
    if setting.alive_until is not None and LOOKED_AGAIN not in setting.answered:
        found.append(phrases.waits_again(day=Day(date.fromordinal(setting.alive_until))))
    return tuple(found)


def _waits(setting: ResolvedLawn, asked: Sequence[ThinCause]) -> Message:
    """What is held until the causes that are asked for are answered; where that is the one that
    nobody knows, no cause is named."""
    bare = _bare(setting)
    if list(asked) == ["unknown"]:
        return phrases.waits_bare_unknown() if bare else phrases.waits_unknown()
    names = [book_message(setting.book, f"causes.{name}.name") for name in asked]
    told = phrases.waits_bare if bare else phrases.waits
    return told(causes=listed(names, "and"))


def _unanswered(setting: ResolvedLawn, cause: ThinCause, drafted: Collection[str]) -> bool:
    looks = {f"diagnose.{cause}"}
    if setting.book.causes[cause].seen == "surface":
        looks |= {f"diagnose.{HATCHED}"}.intersection(drafted)
    return not looks <= setting.answered


def _seen_later(setting: ResolvedLawn, causes: Sequence[ThinCause]) -> Iterator[Message]:
    """Of each cause that shows nothing yet, from when on it does, and why."""
    opens = _open_ground(setting)
    for cause in causes:
        spans, why = spans_seen(setting, cause, opens), why_then(setting, cause)
        if why is not None and spans and spans[0][0] > setting.first_day:
            yield phrases.seen_from(
                cause=book_message(setting.book, f"causes.{cause}.name"),
                day=Day(date.fromordinal(spans[0][0])),
                why=said(why.text),
            )


def asks_why_thin(setting: ResolvedLawn) -> tuple[Message, ...]:
    """The question why the grass is thin, where it was said to be and nobody said why."""
    site, lawn = setting.brief.site, setting.brief.lawn
    answered = site.thin_cause or "unknown" in site.cleared or _light_said(setting)
    if setting.sowing.operation is None or answered or lawn.condition not in ("thin", "patchy"):
        return ()
    return (phrases.ask_thin_cause(),)
