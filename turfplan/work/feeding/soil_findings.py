"""What a soil and its test say beside amounts: answers, questions, and what to keep off."""

from collections.abc import Iterator
from dataclasses import dataclass

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.message import (
    SOIL_STEP_MM,
    Day,
    Listed,
    Message,
    Number,
    Quantity,
    length_mm,
    listed,
    soil_depth,
)
from turfplan.phrases import soil_findings as phrases
from turfplan.phrases import soil_test
from turfplan.records.book_names import FactName, option_of_family
from turfplan.records.brief import BufferMethod
from turfplan.work.feeding.amendments import is_sodic, too_high
from turfplan.work.feeding.lime_need import (
    ORGANIC,
    PhGoal,
    given_before_g_m2,
    holds_lime,
    lime_need,
    ph_goal,
    soil_of,
    test_of_the_buried,
    tested_soil_goes_under,
    wants_lime,
)
from turfplan.work.feeding.nutrients import lime_plan
from turfplan.work.feeding.soil_levels import Tested, another_school, unread
from turfplan.work.lawn import ResolvedLawn

TESTED: tuple[Tested, ...] = ("phosphorus", "potassium")
BUFFERS: dict[BufferMethod, Message] = {
    "sikora": soil_test.buffer_sikora(),
    "mehlich": soil_test.buffer_mehlich(),
    "smp": soil_test.buffer_smp(),
    "adams_evans": soil_test.buffer_adams_evans(),
    "moore_sikora": soil_test.buffer_moore_sikora(),
    "woodruff": soil_test.buffer_woodruff(),
}
HAIR = 1e-9
HAIR_SHARE = 1e-6


@dataclass(frozen=True, slots=True)
class SoilFindings:
    """What is said: `questions` for the laboratory, `cautions`, `notes`, and what experts dispute.

    The questions stand among the cautions too.
    """

    questions: tuple[Message, ...]
    cautions: tuple[Message, ...]
    notes: tuple[Message, ...]
    disagreements: tuple[Message, ...]


def soil_findings(setting: ResolvedLawn) -> SoilFindings:
    """Everything that soil, pH, readings and salts of this lawn give rise to."""
    brief, book = setting.brief, setting.book
    if test_of_the_buried(setting):
        buried = [phrases.test_buried(depth=length_mm(setting.levelling.depth_mm))]
        told = buried if brief.soil_test.model_dump(exclude_none=True) else []
        return SoilFindings((), (*told, *_ground(setting)), (), ())
    questions = [
        *_lime_questions(setting),
        *(q for nutrient in TESTED if (q := unread(brief, book, nutrient)) is not None),
        *_lime_in_soil_question(setting),
        *_salt_questions(setting),
    ]
    strange = brief.soil_test.of == "topsoil" and not tested_soil_goes_under(setting)
    asked = [*questions, *([phrases.no_topsoil()] if strange else [])]
    cautions = [*asked, *_ph_cautions(setting), *_salt_cautions(setting), *_ground(setting)]
    schools = (another_school(brief, book, nutrient) for nutrient in TESTED)
    return SoilFindings(
        tuple(questions),
        tuple(cautions),
        (*_test_notes(setting), *_lime_notes(setting)),
        tuple(school for school in schools if school is not None),
    )


def _lime_questions(setting: ResolvedLawn) -> Iterator[Message]:
    """How far the pH is from its goal, where nothing says how much lime that takes."""
    brief, book, species = setting.brief, setting.book, setting.turf.species.id
    test = brief.soil_test
    if test.ph is None or not wants_lime(brief, book, species):
        return
    if lime_need(brief, book, species) is not None:
        return
    goal = ph_goal(brief, book, species)
    yield phrases.lime_unknown(
        ph=Number(test.ph, "plain"),
        below=Number(goal.goal - test.ph, "tenth"),
        goal=Number(goal.goal, "plain"),
        grass=_suited(book, goal),
        ask=_ask_for_lime(setting),
        when=(
            phrases.lime_before_seed()
            if setting.sowing.operation is not None
            else phrases.lime_any_time()
            if setting.climate.first_frost is not None
            else phrases.lime_any_month()
        ),
    )
    left = given_before_g_m2(brief, book)
    if left > 0:
        given = sum(use.rate_g_m2 for use in brief.history.lime)
        yield phrases.lime_given(rate=Quantity(given, "rate"), left=Quantity(left, "rate"))


def _suited(book: Book, goal: PhGoal) -> Listed:
    """The grasses that a pH is to suit, as they are told."""
    return listed(grass_name(book, grass) for grass in goal.grasses)


def _ask_for_lime(setting: ResolvedLawn) -> Message:
    test = setting.brief.soil_test
    if soil_of(setting.brief) == ORGANIC:
        return phrases.ask_peat()
    if test.buffer_ph is None:
        return phrases.ask_rate()
    value = Number(test.buffer_ph, "plain")
    if test.buffer_method in (None, "unknown"):
        return phrases.ask_buffer_name(buffer=value)
    return phrases.ask_no_table(buffer=value, method=BUFFERS[test.buffer_method or "smp"])


def _lime_in_soil_question(setting: ResolvedLawn) -> Iterator[Message]:
    """Whether the soil holds free lime, on which sulfur is wasted."""
    unknown = setting.brief.soil_test.free_lime is None and not holds_lime(setting.brief)
    if unknown and too_high(setting) is not None:
        yield phrases.free_lime_unknown()


def _salt_questions(setting: ResolvedLawn) -> Iterator[Message]:
    test, ground = setting.brief.soil_test, setting.brief.site.ground
    if "salty" in ground and test.salts_ds_m is None:
        yield phrases.salts_unknown()
    if "sodic" in ground and test.sar is None:
        yield phrases.sodium_unknown()
    if is_sodic(setting) and test.sar is not None and test.gypsum_rate_g_m2 is None:
        yield phrases.gypsum_unknown(sar=Number(test.sar, "plain"))


def _ph_cautions(setting: ResolvedLawn) -> Iterator[Message]:
    """What a pH above the grass's own range means."""
    test, goal = setting.brief.soil_test, too_high(setting)
    if goal is None or test.ph is None:
        return
    grass = _suited(setting.book, goal)
    yield phrases.ph_high(ph=Number(test.ph, "plain"), high=Number(goal.high, "plain"), grass=grass)
    if holds_lime(setting.brief):
        yield phrases.sulfur_useless()


def _lime_notes(setting: ResolvedLawn) -> Iterator[Message]:
    """Why no lime is given where the test might seem to ask for some."""
    brief, book, species = setting.brief, setting.book, setting.turf.species.id
    test = brief.soil_test
    if test.ph is not None and not wants_lime(brief, book, species):
        goal = ph_goal(brief, book, species)
        ph, aim = Number(test.ph, "plain"), Number(goal.goal, "plain")
        if test.ph < goal.goal - HAIR and holds_lime(brief):
            yield phrases.no_lime_on_limy(ph=ph)
        elif test.ph < goal.goal - HAIR and not goal.by_state:
            low = Number(goal.limed_below, "plain")
            yield phrases.ph_in_range(ph=ph, low=low, grass=_suited(book, goal), goal=aim)
        elif test.ph < goal.goal - HAIR:
            yield phrases.no_lime_by_state(ph=ph, below=Number(goal.limed_below, "plain"))
        elif goal.goal + HAIR < test.ph <= goal.high + HAIR:
            high = Number(goal.high, "plain")
            yield phrases.ph_borne(ph=ph, high=high, grass=_suited(book, goal), goal=aim)
        elif test.ph <= goal.goal + HAIR:
            yield phrases.ph_right(ph=ph, goal=aim, grass=_suited(book, goal))
        if test.lime_rate_g_m2:
            yield phrases.rate_not_taken(rate=Quantity(test.lime_rate_g_m2, "rate"))
        return
    need = lime_need(brief, book, species)
    if need is None:
        return
    if need.rate_g_m2 <= 0:
        yield phrases.table_asks_none(measured=need.measured)
    elif lime_plan(brief, book, species) is None:
        yield phrases.given_enough(measured=need.measured)


def _test_notes(setting: ResolvedLawn) -> Iterator[Message]:
    """The age of the test, where anything was found by it."""
    test = setting.brief.soil_test
    found = test.model_dump(exclude_none=True, exclude={"on"})
    if not found:
        return
    if test.on is None:
        yield phrases.test_undated()
    elif (setting.today - test.on).days > setting.book.si("feeding.soil_test_age"):
        yield phrases.test_old(day=Day(test.on))


def _salt_cautions(setting: ResolvedLawn) -> Iterator[Message]:
    """What salts mean for the grass that is there, and for gypsum."""
    book, test = setting.book, setting.brief.soil_test
    leached = {
        "half": length_mm(book.si("salt.leach_half")),
        "most": length_mm(book.si("salt.leach_most")),
        "depth": length_mm(book.si("salt.leach_depth")),
    }
    if test.salts_ds_m is not None:
        salts = Number(test.salts_ds_m, "plain")
        bears = salt_borne_ds_m(setting, setting.turf.species.id)
        grass = grass_name(book, setting.turf.species.id)
        if bears is not None and test.salts_ds_m > bears[1]:
            yield phrases.salts_too_high(
                salts=salts, bears=Number(bears[1], "plain"), grass=grass, **leached
            )
        else:
            yield phrases.salts_borne(salts=salts, grass=grass)
        yield from washed_first(setting)
    elif "salty" in setting.brief.site.ground:
        yield phrases.salts_leach(**leached)
    if test.sar is not None and not is_sodic(setting):
        yield phrases.not_sodic(sar=Number(test.sar, "plain"))
    if test.gypsum_rate_g_m2 and not is_sodic(setting):
        yield phrases.gypsum_not_taken(rate=Quantity(test.gypsum_rate_g_m2, "rate"))


def washed_first(setting: ResolvedLawn) -> Iterator[Message]:
    """That salt is washed down before the seed, where the cultivars of its grass part over it."""
    book, sown = setting.book, setting.sowing.grass.id
    bears, salts_ds_m = salt_borne_ds_m(setting, sown), setting.brief.soil_test.salts_ds_m
    seeded = setting.sowing.operation not in (None, "plant")
    if not seeded or bears is None or salts_ds_m is None or not bears[0] < salts_ds_m <= bears[1]:
        return
    of_grass = {
        "salts": Number(salts_ds_m, "plain"),
        "least": Number(bears[0], "plain"),
        "most": Number(bears[1], "plain"),
    }
    grass = grass_name(book, sown)
    if setting.brief.water.possible is False:
        yield phrases.salts_no_water(**of_grass, grass=grass)
        return
    half, depth = (length_mm(book.si(name)) for name in _LEACHED)
    yield phrases.salts_wash_first(**of_grass, grass=grass, half=half, depth=depth)


# The water that takes half of the salts out, and the depth of soil that it is told for.
_LEACHED: tuple[FactName, FactName] = ("salt.leach_half", "salt.leach_depth")


def salt_borne_ds_m(setting: ResolvedLawn, species: str) -> tuple[float, float] | None:
    """The salts in dS/m that seedlings of any cultivar bear, and the most that the hardiest, or
    rooted grass, does; None where no source says."""
    book = setting.book
    name = book.known(option_of_family("salt.tolerance_{species}", species))
    return None if name is None else (book.low_si(name), book.high_si(name))


def _ground(setting: ResolvedLawn) -> Iterator[Message]:
    """What peat, chalk, subsoil, rubble and rock ask for."""
    book, site = setting.book, setting.brief.site
    match soil_of(setting.brief):
        case "peat":
            yield phrases.on_peat()
        case "chalk":
            yield phrases.on_chalk()
        case "subsoil":
            yield phrases.on_subsoil(depth=_topsoil(setting))
            yield from _too_little_topsoil(setting, phrases.subsoil())
        case "rubble":
            yield phrases.on_rubble(depth=_topsoil(setting))
            yield from _too_little_topsoil(setting, phrases.rubble())
    if site.rock_depth_mm is not None:
        depth = length_mm(site.rock_depth_mm)
        if site.rock_depth_mm < book.si("ground.rock_tines"):
            yield phrases.rock_no_tines(depth=depth)
        elif site.rock_depth_mm < book.si("water.root_depth"):
            yield phrases.rock_near(depth=depth)
        else:
            yield phrases.rock_deep(depth=depth)


def _topsoil(setting: ResolvedLawn) -> Quantity:
    """The least depth of topsoil over ground that is no soil, as it is told."""
    return soil_depth(setting.book.si("ground.subsoil_topsoil"))


def _too_little_topsoil(setting: ResolvedLawn, ground: Message) -> Iterator[Message]:
    """What stops the order where less is brought than seed or plants need there."""
    if not setting.on_open_ground or setting.sowing.operation is None:
        return
    given_mm, depth = _least_fill_mm(setting), _topsoil(setting)
    if given_mm >= setting.book.si("ground.subsoil_topsoil") - SOIL_STEP_MM / 2:
        # What is written as it is told is enough.
        return
    if setting.brief.leveling.survey is not None:
        yield phrases.topsoil_short_survey(ground=ground, depth=depth)
    elif given_mm > 0:
        yield phrases.topsoil_short(ground=ground, given=length_mm(given_mm), depth=depth)
    else:
        yield phrases.topsoil_none(ground=ground, depth=depth)


def _least_fill_mm(setting: ResolvedLawn) -> float:
    """The settled fill where it is thinnest, mm; parts on which nothing may be spread aside."""
    bands = setting.levelling.bands
    held = sum(part.share for part in setting.plot.parts if not part.filled)
    if held + sum(band.share for band in bands) < 1 - HAIR_SHARE:
        return 0.0
    return min((band.depth_mm for band in bands), default=0.0)
