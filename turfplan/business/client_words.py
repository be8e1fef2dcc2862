"""What a plan assumes, as its business says it to a client: plans speak to whoever tells them
things, and a client has no plan to tell."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from turfplan.message import Message
from turfplan.phrases import quotes as phrases


@dataclass(frozen=True, slots=True)
class WordsOfClient:
    """How a client is told things: `say` puts a message into words, `name` is what an operation is
    called in short."""

    say: Callable[[Message], str]
    name: Callable[[str], str]


# How the business works, which is no client's to judge.
_OF_BUSINESS = frozenset(
    {
        "climate.rain_doubtful.height",
        "climate.rain_doubtful.relief",
        "lawn.holidays_rest",
        "lawn.lead_days",
        "lawn.settles",
        "lawn.settles_hollows",
        "lawn.weekends",
        "lawn.wheeling",
        "lawn.work",
        "season.idle_machines",
    }
)
_SAID: Mapping[str, Callable[..., Message]] = {
    "buying.estimate_depth": phrases.client_estimate_depth,
    "buying.estimate_grass": phrases.client_estimate_grass,
    "buying.estimate_soil": phrases.client_estimate_soil,
    "buying.estimate_test": phrases.client_estimate_test,
    "heap.ask_for_room": phrases.client_heap_room,
    "lawn.permit_asked": phrases.client_permit,
    "lawn.thin_share": phrases.client_thin_share,
    "lawn.unknown_soil": phrases.client_unknown_soil,
    "prepare.ask_thin_cause": phrases.client_thin_cause,
    "soil_test.no_extraction": phrases.client_no_range,
    "soil_test.no_range": phrases.client_no_range,
    "unnamed_grass.ask": phrases.client_unnamed_grass,
    "watering.hose.hours_assumed": phrases.client_hose_hours,
    "weed_killers.not_in_book": phrases.client_weed_killer,
    "weed_killers.unknown": phrases.client_weed_killer,
    "weed_killers.weed_and_feed": phrases.client_weed_killer,
}
# The values of a message that its words for a client take.
_TAKEN: Mapping[str, tuple[str, ...]] = {
    "lawn.thin_share": ("share", "area"),
    "soil_test.no_extraction": ("nutrient",),
    "soil_test.no_range": ("nutrient",),
    "watering.hose.hours_assumed": ("hours",),
    "weed_killers.not_in_book": ("day",),
    "weed_killers.unknown": ("day",),
    "weed_killers.weed_and_feed": ("day",),
}


def said_to_client(message: Message) -> Message | None:
    """A sentence of a plan as a client is told it; None for what only its business works by."""
    if message.key in _OF_BUSINESS:
        return None
    said = _SAID.get(message.key)
    if said is None:
        return message
    values = dict(message.values)
    return said(**{name: values[name] for name in _TAKEN.get(message.key, ())})
