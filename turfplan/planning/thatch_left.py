"""What a plan says of thatch that no job of it takes down."""

from turfplan.book.citations import who_says
from turfplan.book.words import grass_name
from turfplan.message import Days, Message, length_mm, listed
from turfplan.phrases import care_alone as of_care
from turfplan.phrases import plan_cautions as phrases
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.care_alone import season_in_care
from turfplan.work.thatch import combed, dethatches, strip_limit_here


def thatch_left(setting: ResolvedLawn) -> list[Message]:
    """What is said of thatch over the limit that no job takes down: when to comb it out, or why
    this grass is not combed."""
    book, turf, limit = setting.book, setting.turf, setting.book.fact("dethatch.limit")
    thick = limit.si < turf.thatch_mm < book.si(strip_limit_here(setting.brief, book))
    if (
        not thick
        or (dethatches(setting) and not _without_season(setting))
        or setting.thatch_down
        or setting.on_open_ground
        or setting.sowing.intent == "winter_overseed"
    ):
        return []
    if not combed(setting):
        return [_not_combed(setting)]
    seasons = [
        Days(max(w.start, setting.today), w.end, weekday=False)
        for w in setting.open("dethatch")
        if w.end > setting.today
    ][:2]
    relaid = setting.levelling.lift_share > 0
    when = phrases.thatch_left_relaid if relaid else phrases.thatch_left_season
    return [
        phrases.thatch_left(
            thatch=length_mm(turf.thatch_mm),
            limit=length_mm(limit.si),
            source=who_says(book, limit.source),
            when=when(days=listed(seasons, "and")) if seasons else phrases.thatch_left_no_season(),
        )
    ]


def _without_season(setting: ResolvedLawn) -> bool:
    """Whether care alone has no days of its own for dethatching within the plan."""
    return setting.care_alone and season_in_care(setting, "dethatch") is None


def _not_combed(setting: ResolvedLawn) -> Message:
    """Why thatch over the limit is left where a grass of the stand bears no dethatcher."""
    book, stand = setting.book, setting.turf.stand
    torn = [grass_name(book, grass) for grass in stand if not book.species[grass].combed]
    if setting.care_alone:
        return of_care.not_combed(
            thatch=length_mm(setting.turf.thatch_mm),
            limit=length_mm(book.si("dethatch.limit")),
            grass=listed(torn, "and"),
        )
    most = book.fact(strip_limit_here(setting.brief, book))
    return phrases.thatch_not_combed(
        thatch=length_mm(setting.turf.thatch_mm),
        limit=length_mm(book.si("dethatch.limit")),
        grass=listed(torn, "and"),
        most=length_mm(most.si),
        source=who_says(book, most.source),
    )
