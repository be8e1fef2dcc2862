"""Why a window is open when it is: what opens and closes it, as messages."""

from collections.abc import Callable, Mapping

from turfplan.book.entries import Book
from turfplan.book.window_rules import (
    AnyCondition,
    GrowthLeft,
    GrowthRising,
    WindowRule,
)
from turfplan.book.words import book_message, grass_name
from turfplan.message import Message, Number, Quantity, Value
from turfplan.phrases import windows as phrases
from turfplan.records.book_names import (
    FactName,
    NamedFact,
    WindowSetting,
    option_of_family,
)
from turfplan.records.fact_names import FamilyOption

# What is said of a rule that the policy of a region leaves out.
LEFT_OUT: Mapping[WindowSetting, Callable[[], Message]] = {
    "late_nitrogen": phrases.left_out_late_nitrogen,
    "spring_aeration": phrases.left_out_spring_aeration,
}


def named_for(species: str, name: NamedFact) -> NamedFact:
    """The name of a fact of a grass where a rule leaves the grass open."""
    return NamedFact(name.replace("{species}", species))


# Thresholds that a grass may have of its own, by the name of what holds for all others.
OWN: Mapping[str, FamilyOption] = {
    "windows.warm_work_opens": "windows.warm_work_opens_{species}",
    "windows.warm_core_opens": "windows.warm_core_opens_{species}",
    "windows.warm_plant_opens": "windows.warm_plant_opens_{species}",
    "windows.warm_seed_opens": "windows.warm_seed_opens_{species}",
}


def own_of(book: Book, species: str, name: NamedFact) -> NamedFact:
    """The name of a fact of a grass: the one that it has of its own, else the one for all."""
    family = OWN.get(name)
    own = None if family is None else book.known(option_of_family(family, species))
    return named_for(species, name) if own is None else own


def blended(
    book: Book, species: str, name: NamedFact, cool: NamedFact | None, summer: float
) -> float:
    """The number of a condition here: its own where summers are hot (`summer` 1), `cool` where they
    are cool (0), and between them in between."""
    hot = book.si(own_of(book, species, name))
    if cool is None:
        return hot
    mild = book.si(named_for(species, cool))
    return mild + summer * (hot - mild)


def reason_of(
    book: Book,
    species: str,
    rule: WindowRule,
    opens: Message,
    closes: Message,
) -> Message:
    """Why the window of a rule is open when it is, by what opens and closes it here."""
    values: dict[str, Value] = {
        "opens": opens,
        "closes": closes,
        "grass": grass_name(book, species),
    }
    return book_message(book, f"windows.{rule.id}.reason", values)


def facts_of(book: Book, species: str, rule: WindowRule) -> tuple[FactName, ...]:
    """The facts a rule rests on, each once."""
    names = [
        own_of(book, species, name)
        for condition in (*rule.opens, *rule.closes)
        for name, _ in condition.facts()
    ]
    return tuple(dict.fromkeys(name for name in names if name != "windows.zero"))


def event(book: Book, species: str, condition: AnyCondition, summer: float = 1.0) -> Message:
    """What opens or closes a window, with what it is shifted by."""
    met = _met(book, species, condition, summer)
    return met if condition.shift is None else _from(_days(book, species, condition.shift), met)


def from_nights(book: Book, species: str, threshold: NamedFact, days: int) -> Message:
    """So many days from the fall of the normal nightly low, negative: before it."""
    return _from(days, nights_cooling(book, named_for(species, threshold)))


def nights_cooling(book: Book, name: NamedFact) -> Message:
    """The fall of the normal nightly low through a temperature of the book."""
    return phrases.nights_cooling(degrees=Quantity(book.si(name), "temperature"))


def from_hottest(days: int) -> Message:
    """So many days after the hottest day of the year."""
    return _from(days, phrases.hottest_day())


def turned(*, cold: bool) -> Message:
    """The turn of the year at which nothing passes a mark: depth of winter, height of summer."""
    return phrases.coldest_day() if cold else phrases.hottest_day()


def _days(book: Book, species: str, name: NamedFact) -> int:
    return round(book.si(named_for(species, name)))


def _from(days: int, met: Message) -> Message:
    """So many days after an event; before it where they are negative."""
    if days == 0:
        return met
    return (phrases.days_after if days > 0 else phrases.days_before)(n=abs(days), event=met)


def _met(book: Book, species: str, condition: AnyCondition, summer: float) -> Message:
    """A condition as an event, without its shift."""

    def degrees(name: NamedFact) -> Quantity:
        return Quantity(book.si(named_for(species, name)), "temperature")

    match condition.kind:
        case "air_rising" | "air_falling":
            mark = blended(book, species, condition.threshold, condition.cool_threshold, summer)
            rising = condition.kind == "air_rising"
            told = phrases.air_rising if rising else phrases.air_falling
            return told(degrees=Quantity(mark, "temperature"))
        case "soil_rising" | "soil_falling":
            tell = phrases.soil_warming if condition.kind == "soil_rising" else phrases.soil_cooling
            return tell(degrees=degrees(condition.threshold))
        case "drying":
            return phrases.soil_drying()
        case "growth_rising" | "growth_left":
            return _growth_met(book, species, condition, summer)
        case "last_frost":
            return _from(_days(book, species, condition.days), phrases.last_frost())
        case "first_frost":
            return _from(_days(book, species, condition.days), phrases.first_frost())
        case "before_first_frost":
            days = _days(book, species, condition.days)
            return phrases.days_before(n=days, event=phrases.first_frost())
        case "hottest":
            days = round(blended(book, species, condition.days, condition.cool_days, summer))
            return from_hottest(days)
        case "nights_falling":
            nights = phrases.nights_cooling(degrees=degrees(condition.threshold))
            return _from(_days(book, species, condition.days), nights)
        case "coldest":
            return _from(_days(book, species, condition.days), phrases.coldest_day())
        case "degree_days_left":
            return phrases.frost_too_near()
        case "warmth_left":
            return phrases.winter_too_near()


def _growth_met(
    book: Book, species: str, condition: GrowthRising | GrowthLeft, summer: float
) -> Message:
    """Growth that passes a share of its best, or of what summer brings."""
    mark = blended(book, species, condition.threshold, condition.cool_threshold, summer)
    share = Number(mark, "percent")
    if condition.kind == "growth_left":
        to_come = phrases.summer_to_come if condition.of_best else phrases.growth_to_come
        return to_come(coming=_days(book, species, condition.days), share=share)
    told = phrases.growth_of_summer if condition.of_best else phrases.growth_rising
    return told(share=share)
