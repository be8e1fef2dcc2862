"""The plain meaning of each word of the trade that a sheet uses."""

import re
from collections.abc import Mapping
from types import MappingProxyType

from turfplan.units import System
from turfplan.wording import in_units

OPERATION_NAMES: Mapping[str, str] = MappingProxyType(
    {
        "diagnose": "Find the cause",
        "soil_test": "Soil test",
        "locate_utilities": "Mark utilities",
        "irrigation_check": "Water check",
        "permit": "Watering permit",
        "weed_control": "Weeds",
        "order_material": "Order",
        "delivery": "Delivery",
        "dry_material": "Dry the mix",
        "raise_fittings": "Raise fittings",
        "lift_and_fill": "Lift and fill",
        "mow_low": "Low cut",
        "dethatch": "Dethatch",
        "core_aerate": "Core-aerate",
        "topdress": "Top-dress",
        "incorporate": "Work it in",
        "mow": "Mow between passes",
        "seed": "Seed",
        "overseed": "Overseed",
        "dormant_seed": "Dormant seed",
        "plant": "Plant",
        "roll": "Roll lightly",
        "cover": "Cover",
        "starter_feed": "Starter feed",
        "water": "Water",
        "inspect": "Look",
        "first_mow": "First mow",
        "feed_nitrogen": "Feed",
        "lime": "Lime",
        "preemergent": "Crabgrass preventer",
        "last_mow": "Last mow",
        "settle_check": "Settle check",
        "touch_up": "Touch-up",
        "spring_transition": "Spring transition",
    }
)

# Word, the forms in which a text shows it (as a pattern), and its meaning.
_TERMS: tuple[tuple[str, str, str], ...] = (
    ("Barrow load", r"barrow loads?", "A garden barrow filled, not heaped above its rim; how much that holds stands beside the number."),
    ("Best day", r"best\b", "The day of a window on which the work is likeliest to succeed."),
    ("Blackout", r"blackout", "Days on which a local law forbids fertilizer."),
    ("Buffer pH, lime requirement", r"buffer pH|lime requirement", "What a laboratory measures to say how much lime the soil needs."),
    ("Calibrate", r"calibrat", "Weigh what the spreader gives over a known area, and set it to the rate."),
    ("Canopy", r"canop(y|ies)", "The leaves of the lawn, seen as a layer between you and the soil."),
    ("Catch can", r"catch[ -_]cans?", "A straight-sided can set on the lawn to measure how much a sprinkler gives."),
    ("Clay, loam, silt", r"\b(clay|loam|silt)", "Soils by grain: clay is finest and sticky, silt is floury, loam is a mixture with sand."),
    ("Climate normals", r"normals|climatolog", "The average of many years of weather, day by day or month by month."),
    ("Common practice", r"common practice", "What the trade does everywhere, without one publication that says so."),
    ("Compost", r"compost", "Plant matter rotted until it is dark, crumbly and smells of earth."),
    ("Compost credit", r"compost credit|credit", "Nitrogen that compost gives in its first year, counted as feeding."),
    ("Cool-season, warm-season grass", r"(cool|warm)-season", "Grass that grows most in spring and autumn, or most in the heat of summer."),
    ("Core-aerate", r"(core-)?aerat|hollow[- ]tin", "Pull plugs of soil out with hollow tines, so that air, water and mix get in."),
    ("Cycle", r"\bcycles?\b", "One of several short runs with a pause between, so that the water soaks in instead of running off."),
    ("Depletion", r"depletion", "The share of the water in the root zone that grass may use before it is watered again."),
    ("Dethatch", r"dethatch|scarif", "Comb the thatch out with blades or tines."),
    ("Dormant", r"dormant", "Alive but not growing, as grass in frost or seed in cold soil."),
    ("Drag", r"\bdrag", "Pull a mat or the back of a rake over the mix to work it down between the leaves."),
    ("Establishment", r"establish", "The weeks from sowing until the young grass can be treated like the rest."),
    ("Evaporation from grass (ET)", r"\bET0?\b|evapo", "Water that the soil and the grass lose to the air, as a depth like rain."),
    ("Field capacity, wilting point", r"field capacity|wilting", "The most water a soil holds against draining, and the least from which grass can still drink."),
    ("Fill", r"\bfill\b", "What has to be added to make the ground even; its depth is the mean over the area."),
    ("Fittings", r"fittings?\b|valve box|sprinkler heads", "Sprinkler heads, valve boxes and covers that stand in the lawn and must end up level with it."),
    ("Flush", r"\bflush\b", "The burst of leaf that grass makes in spring."),
    ("Germination", r"germinat", "The seed waking and sending out its first root and leaf."),
    ("Green-up", r"green-up|greens? up", "The weeks in which dormant grass turns green again."),
    ("Growing degree days", r"degree[- ]days?", "Warmth summed up: each day counts by how far its mean lies above a base temperature."),
    ("Growth potential", r"growth potential|of its best", "How strongly a grass grows at a temperature, as a share of its best."),
    ("Herbicide", r"herbicide", "A weedkiller; its label is the law."),
    ("Intake", r"intake|infiltration", "How fast water soaks into a soil, as a depth in an hour."),
    ("Judgement", r"judgement", "A number without a publication behind it: our own reckoning, to be corrected by your notes."),
    ("Leaf tips", r"\btips\b", "The ends of the grass leaves; they must show after each pass, or the grass below dies."),
    ("Lift and fill", r"lift and fill|lift the turf|relay|re-lay", "Cut the turf and roll it back, fill the hollow beneath, and lay the turf again."),
    ("Lime", r"\blim(e|ing)\b", "Ground limestone; it makes sour soil milder, and is given only where a soil test asks for it."),
    ("Low cut", r"low cut|mow low", "Mowing below the usual height, in steps, so that the mix reaches the soil."),
    ("Median, quartiles", r"median|quartile", "The middle one of many values, and those a quarter in from either end."),
    ("Mix", r"\bmix(es|ture)?\b", "What is spread: topsoil, sand and compost in set shares, dry and blended by machine."),
    ("Nitrogen (N)", r"nitrogen|\bN\b", "The food that makes grass grow green; it is given by weight over an area."),
    ("Noxious weed", r"noxious", "A weed that the law forbids to sell or to spread."),
    ("Organic matter", r"organic matter", "What is left of plants in the soil; it holds water and food."),
    ("Overseed", r"overseed", "Sow into grass that stays."),
    ("Pass", r"\bpass(es)?\b", "One thin layer of mix over the whole lawn."),
    ("Person-hour", r"person-hour", "One person working for one hour; two people do two in an hour."),
    ("pH", r"\bpH\b", "How acid a soil is: 7 is neutral, less is acid."),
    ("Phosphate, potash", r"phosphate|potash", "How phosphorus and potassium are named on a bag of fertilizer."),
    ("Phosphorus (P)", r"phosphor|\bP\b", "Food for young roots; many places allow it only where a soil test asks for it."),
    ("Plug, core", r"\bplugs?\b|\bcores?\b", "A finger of soil that a hollow tine pulls out; also a small piece of turf that is planted and spreads."),
    ("Potassium (K), potash", r"potassium|potash", "Food that helps grass through drought and winter; a soil test says whether it is lacking."),
    ("Preventer", r"pre-?emergent|preventer", "A weedkiller that stops seed from coming up, grass seed too."),
    ("Reserve", r"\breserve\b|h[eo]ld back", "Seed kept for the spots that stay bare or wash out."),
    ("Root zone", r"root zone", "The soil that the roots reach and draw water from."),
    ("Run off", r"run(s|ning)? off|runoff", "Flow away over the ground, because the soil is full or takes water too slowly."),
    ("Screened", r"screen", "Shaken through a sieve, so that nothing larger than its openings is left."),
    ("Session", r"\bsessions?\b", "One stretch of growing weeks in which passes are spread."),
    ("Settle", r"settl|\bloose\b", "Sink together under rain and watering; the order holds more so that enough is left."),
    ("Setup", r"\bset-?ups?\b", "One place from which a level is read."),
    ("Silica dust", r"silica", "Dust of sand so fine that it stays in the lungs."),
    ("Slow-release", r"slow-release", "Nitrogen that feeds over weeks instead of days."),
    ("Sod, plugs, sprigs", r"\b(sod|plugs|sprigs?)\b", "Grass set living: in rolls, in small rooted pieces, or as bare runners."),
    ("Soil temperature", r"soil temperature", "The warmth of the soil 4 in (10 cm) down; it decides when seed wakes and roots grow."),
    ("Stake", r"\bstakes?\b", "A peg in the lawn at which the depth of fill is marked."),
    ("Stand", r"\bstands?\b", "The grass plants of a lawn taken together: thin where soil shows between them, dense where it does not."),
    ("Starter feed", r"starter", "Fertilizer given with the seed; left out where compost feeds it."),
    ("Stolons", r"stolon|runners", "Stems that creep over the ground and root; grass that has them closes gaps by itself."),
    ("Straightedge", r"straightedge", "A straight board or pole; what gapes below it is low."),
    ("Swale", r"swale", "A shallow dip that leads water away; it is kept, not filled."),
    ("Thatch", r"thatch", "The brown felt of dead stems between the leaves and the soil."),
    ("Tiller", r"tiller", "A new shoot from the foot of a grass plant; the grass grows denser by it."),
    ("Tine", r"\btines?\b", "The spike of an aerator."),
    ("Top-dress", r"top-?dress|dress(ed|ing)\b", "Spread a thin layer of mix over living grass."),
    ("Uniformity", r"uniformity", "How evenly a sprinkler waters; 1 is perfectly even."),
    ("Utility marks", r"utility|utilities|\b811\b", "Flags or paint that show where buried pipes and cables run."),
    ("Window", r"\bwindows?\b", "The days on which a job may be done here with this grass."),
)  # fmt: skip


def operation_name(operation: str) -> str:
    """What a kind of work is called on every sheet."""
    known = OPERATION_NAMES.get(operation)
    return known if known else operation.replace("_", " ").capitalize()


def terms_in(text: str, system: System = System.US) -> tuple[tuple[str, str], ...]:
    """The words of the trade that `text` uses, with their meanings, in order of the alphabet."""
    return tuple(
        (word, in_units(meaning, system))
        for word, pattern, meaning in _TERMS
        if re.search(pattern, text, re.IGNORECASE)
    )
