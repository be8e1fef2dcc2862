"""What weed killers, sowings and moss treatments of the past mean for seed and passes."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from turfplan.book.citations import who_says
from turfplan.book.entries import Book, Harm, Herbicide
from turfplan.book.words import grass_name
from turfplan.calendar_days import DAYS_IN_MONTH
from turfplan.message import Day, Message, listed
from turfplan.phrases import weed_killers as phrases
from turfplan.records.book_names import FactName, NamedFact, of_herbicide, option_of_herbicide
from turfplan.records.brief import HerbicideUse

# What a brief says where nobody knows what was given.
UNKNOWN = "unknown"
# A bag that feeds and kills weeds at once says on its label what it kills them with.
FEEDS_TOO = ("weed_and_feed", "weed_&_feed", "feed_and_weed", "weed_feed")


@dataclass(frozen=True, slots=True)
class Hold:
    """What a treatment keeps free of seed: until which day (ordinal; None: until its label or a
    pot test says so), why, and the facts behind it.

    `known` is what the book has of it; `by_label` where the brief says what the label says.
    """

    number: int
    key: str
    until: int | None
    why: Message
    facts: tuple[FactName, ...]
    known: Herbicide | None
    by_label: bool = False

    @property
    def unread(self) -> bool:
        """Whether only its label tells when seed may follow, and nobody has read it."""
        return self.known is None and self.until is not None and not self.by_label

    @property
    def unnamed(self) -> bool:
        """Whether nobody said what it was: its name, or its label, tells when seed may follow."""
        return self.unread and (self.key in FEEDS_TOO or self.key == UNKNOWN)

    def binds(self, begins: int) -> bool:
        """Whether it holds seed back that could go in from a day (an ordinal) on, or somebody has
        still to find out whether it does."""
        return self.asks or (self.until or 0) > begins

    @property
    def asks(self) -> bool:
        """Whether the owner has something to find out: the book, or the label, lacks an answer."""
        return self.known is None or self.until is None


def holds_of(book: Book, uses: tuple[HerbicideUse, ...], sown: tuple[str, ...]) -> tuple[Hold, ...]:
    """What each treatment keeps free of seed of the grasses `sown`, in the order of the brief."""
    return tuple(_hold(book, number, use, sown) for number, use in enumerate(uses, 1))


def _hold(book: Book, number: int, use: HerbicideUse, sown: tuple[str, ...]) -> Hold:
    key = key_of(use.active_ingredient)
    known, name, on = book.herbicides.get(key), use.active_ingredient, Day(use.on)
    if key == UNKNOWN:
        known = None
    if use.seed_after is not None or use.hold_days is not None:
        day = use.seed_after or use.on + timedelta(days=use.hold_days or 0)
        label = phrases.by_label(ingredient=name, day=on, after=Day(day))
        return Hold(number, key, day.toordinal(), label, (), known, by_label=True)
    if known is not None and known.stops:
        fact = of_herbicide(known.id, "hold")
        months = round(book.fact(fact).si / DAYS_IN_MONTH)
        why = phrases.stops(ingredient=name, day=on, n=months)
        return Hold(number, key, None, why, (fact,), known)
    if known is not None and (spared := _spared(known, sown)):
        grasses = listed((grass_name(book, harm.grass) for harm in spared), "and")
        why = phrases.spares(
            ingredient=name, day=on, grass=grasses, source=who_says(book, spared[0].source)
        )
        return Hold(number, key, use.on.toordinal(), why, (), known)
    harms = () if known is None else known.harms
    harm = next((each for each in harms if each.grass in sown), None)
    fact = _interval(book, "unknown" if known is None or harm else known.id, sown)
    days = round(book.fact(fact).high_si)
    until, weeks = use.on.toordinal() + days, days // 7
    if key in FEEDS_TOO:
        why = phrases.weed_and_feed(day=on, n=weeks)
    elif key == UNKNOWN:
        why = phrases.unknown(day=on, n=weeks)
    elif known is None:
        why = phrases.not_in_book(ingredient=name, day=on, n=weeks)
    elif harm is not None:
        source, grass = who_says(book, harm.source), grass_name(book, harm.grass)
        why = phrases.harms(ingredient=name, day=on, grass=grass, source=source, n=weeks)
    elif weeks == 0:
        why = phrases.no_wait(ingredient=name, day=on)
    else:
        why = phrases.holds(ingredient=name, day=on, n=weeks)
    return Hold(number, key, until, why, (fact,), known)


def barrier_until(book: Book, use: HerbicideUse) -> int | None:
    """Until which day (an ordinal) what was given keeps weeds from coming up: as long as its seed
    interval, whatever grass bears it; None where it is no preventer. What nobody can name, and a
    bag that feeds and kills weeds at once, may be one: it counts as one."""
    key = key_of(use.active_ingredient)
    known = None if key == UNKNOWN else book.herbicides.get(key)
    if known is None and key != UNKNOWN and key not in FEEDS_TOO:
        return None
    if known is not None and not known.prevents:
        return None
    days = book.fact(of_herbicide("unknown" if known is None else known.id, "hold")).high_si
    by_book = use.on + timedelta(days=round(days))
    by_label = use.seed_after or use.on + timedelta(days=use.hold_days or 0)
    return max(by_book, by_label).toordinal()


def _spared(known: Herbicide, sown: tuple[str, ...]) -> tuple[Harm, ...]:
    """The grasses sown that bear it, where all of them do."""
    spared = tuple(each for each in known.spares if each.grass in sown)
    return spared if sown and len(spared) == len(sown) else ()


def _interval(book: Book, herbicide: str, sown: tuple[str, ...]) -> NamedFact:
    """The fact of the interval: that of the grasses sown where each was tried for itself, the
    longest of them; else that of the ingredient."""
    own = [book.known(option_of_herbicide(herbicide, "hold_{species}", grass)) for grass in sown]
    tried = [fact for fact in own if fact is not None]
    if not tried or len(tried) < len(own):
        return of_herbicide(herbicide, "hold")
    return max(tried, key=lambda fact: book.fact(fact).high_si)


def key_of(ingredient: str) -> str:
    """An ingredient as the book calls it: small letters, joined by underscores."""
    return "_".join(ingredient.strip().lower().replace("-", " ").split())


def carried_on(holds: tuple[Hold, ...], book: Book, *, compost: bool) -> Iterator[Message]:
    """What is said of killers that live on in clippings and compost."""
    named = [hold for hold in holds if hold.known is not None and hold.known.carried is not None]
    for hold in named:
        assert hold.known is not None and hold.known.carried is not None
        source = who_says(book, hold.known.carried)
        yield phrases.clippings(ingredient=hold.known.name, source=source)
    if compost and named:
        yield phrases.own_compost()
