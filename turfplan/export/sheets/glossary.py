"""The plain meaning of each word of the trade that a sheet uses."""

import re
from collections.abc import Collection, Mapping
from types import MappingProxyType

from turfplan.export.sheets.names import name_of
from turfplan.message import Message
from turfplan.messages import Words

# The keys of the words in the catalog: the forms in which a text shows each, what it means, and
# what it is called.
TERMS = (
    "barrow_load",
    "best_day",
    "blackout",
    "buffer_ph",
    "calibrate",
    "canopy",
    "catch_can",
    "clay",
    "climate_normals",
    "common_practice",
    "compost",
    "compost_credit",
    "cool_season",
    "core_aerate",
    "cycle",
    "depletion",
    "dethatch",
    "dormant",
    "drag",
    "establishment",
    "evaporation_from_grass",
    "field_capacity",
    "fill",
    "fittings",
    "flush",
    "germination",
    "green_up",
    "growing_degree_days",
    "growth_potential",
    "herbicide",
    "intake",
    "judgement",
    "leaf_tips",
    "lift_and_fill",
    "lime",
    "low_cut",
    "median",
    "mix",
    "nitrogen",
    "noxious_weed",
    "organic_matter",
    "overseed",
    "pass",
    "ph",
    "phosphate",
    "phosphorus",
    "plug",
    "potassium",
    "preventer",
    "reserve",
    "root_zone",
    "run_off",
    "screened",
    "settle",
    "setup",
    "silica_dust",
    "slow_release",
    "sod",
    "soil_temperature",
    "stake",
    "stand",
    "starter_feed",
    "stolons",
    "straightedge",
    "swale",
    "thatch",
    "tiller",
    "tine",
    "top_dress",
    "uniformity",
    "utility_marks",
    "window",
)
# Words that are kinds of work: they are called as the plan calls these.
OPERATIONS: Mapping[str, str] = MappingProxyType(
    {
        "core_aerate": "core_aerate",
        "dethatch": "dethatch",
        "lift_and_fill": "lift_and_fill",
        "lime": "lime",
        "low_cut": "mow_low",
        "overseed": "overseed",
        "top_dress": "topdress",
    }
)
# Words whose meaning speaks of mix or seed, or is another where there is neither: two passes of
# the aerator, machines that are reserved.
NOT_IN_CARE = frozenset({"pass", "mix", "low_cut", "reserve", "core_aerate"})
GOES_ON = "*"


def terms_in(
    text: str,
    words: Words,
    names: Mapping[str, Message],
    used: Collection[str] = (),
    *,
    unless: Collection[str] = (),
) -> tuple[tuple[str, str], ...]:
    """The words of the trade that `text` uses, and those `used` beside it, with their meanings, in
    order of the alphabet.

    `names` are a plan's; those of `unless` are left out.
    """
    terms = (
        (_called(term, names, words), words.say(f"glossary.{term}.meaning"))
        for term in TERMS
        if term not in unless
        if term in used or _shows(text, words.say(f"glossary.{term}.forms"))
    )
    return tuple(sorted(terms, key=lambda term: term[0].casefold()))


def _called(term: str, names: Mapping[str, Message], words: Words) -> str:
    if term in OPERATIONS:
        return name_of(names, f"operations.{OPERATIONS[term]}", words)
    return words.say(f"glossary.{term}.word")


def _shows(text: str, forms: str) -> bool:
    """Whether a text shows one of several forms of a word, with capitals or without."""
    pattern = "|".join(_pattern(form) for form in forms.split(", "))
    return re.search(pattern, text, re.IGNORECASE) is not None


def _pattern(form: str) -> str:
    """A form between the ends of words, but where a star lets the word go on."""
    before = "" if form.startswith(GOES_ON) else r"\b"
    after = "" if form.endswith(GOES_ON) else r"\b"
    return before + re.escape(form.strip(GOES_ON)) + after
