"""How salt in the ground holds seed and plants back: until it is tested, or washed out."""

from turfplan.book.words import grass_name
from turfplan.message import Message, Number, Quantity, length_mm
from turfplan.phrases import salt_holds as phrases
from turfplan.phrases import soil_findings as of_soil
from turfplan.records.book_names import FactName, option_of_family
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.drafts import Draft
from turfplan.work.feeding.amendments import gypsum_parts, is_sodic, washed_in
from turfplan.work.feeding.soil_findings import salt_borne_ds_m
from turfplan.work.lawn import ResolvedLawn

GYPSUM_FACTS: tuple[FactName, ...] = ("salt.gypsum_gap", "salt.gypsum_once", "salt.sodic_sar")


def salt_holds(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """Nothing is sown where seedlings would die of salt, nor before an answer where it is salty,
    nor on sodic ground before its gypsum has done its work.

    Plants come with roots, and bear what the grown grass bears.
    """
    return [*_sodic(setting, draft), *_salty(setting, draft)]


def _sodic(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """No day before the gypsum of sodic ground has been given and washed down."""
    test = setting.brief.soil_test
    if test.sar is None or not is_sodic(setting):
        return []
    ready, facts = washed_in(setting), GYPSUM_FACTS
    why = phrases.sodic(n=gypsum_parts(setting))
    if ready is None:
        if test.gypsum_rate_g_m2 is not None:
            return []
        # The laboratory says that none is needed with a rate of nothing.
        ready, facts = setting.first_day + setting.days("wish.soil_test"), ("wish.soil_test",)
        why = phrases.sodic_untold(sar=Number(test.sar, "plain"))
    last = setting.last_day
    days = DaySet.of([(ready, last)] if ready <= last else [])
    reason = Reason("seed.sodic", why, facts)
    return [Allowed(f"sodic:{draft.id}", draft.start_node, days, Strength.HARD, reason)]


def _salty(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """No day where seedlings, or the roots of plants, would die of salts."""
    test = setting.brief.soil_test
    if test.salts_ds_m is None:
        return [_untested(setting, draft)] if "salty" in setting.brief.site.ground else []
    why = too_salty(setting)
    if why is None:
        return []
    name = setting.book.known(option_of_family("salt.tolerance_{species}", setting.sowing.grass.id))
    facts: tuple[FactName, ...] = () if name is None else (name,)
    reason = Reason("seed.salt", why, facts)
    return [Allowed(f"salt:{draft.id}", draft.start_node, DaySet.of([]), Strength.HARD, reason)]


def most_borne(setting: ResolvedLawn, species: str) -> float:
    """The salts in dS/m beyond which nothing of a grass lives, sown or planted: the end of the
    range of its cultivars; without end where no source says."""
    bears = salt_borne_ds_m(setting, species)
    return float("inf") if bears is None else bears[1]


def surely_borne(setting: ResolvedLawn, species: str) -> float:
    """The salts in dS/m that what is sown of a grass bears whatever its cultivar, or what is
    planted of it with roots; without end where no source says."""
    bears = salt_borne_ds_m(setting, species)
    if bears is None:
        return float("inf")
    return bears[1] if setting.sowing.operation == "plant" else bears[0]


def too_salty(setting: ResolvedLawn) -> Message | None:
    """Why nothing is sown or planted in ground of so much salt, None where it may be."""
    salts, sown = setting.brief.soil_test.salts_ds_m, setting.sowing.grass.id
    if setting.sowing.operation is None or salts is None or salts <= most_borne(setting, sown):
        return None
    why = phrases.too_salty_seed
    if setting.sowing.intent == "winter_overseed":
        why = phrases.too_salty_cover
    elif setting.sowing.operation == "plant":
        why = phrases.too_salty_plants
    return why(
        salts=Number(salts, "plain"),
        most=Number(most_borne(setting, sown), "plain"),
        grass=grass_name(setting.book, sown),
    )


def told_of_salt(setting: ResolvedLawn) -> tuple[Message, ...]:
    """Why nothing can be sown or planted, once, and what the salt and the sodium ask for."""
    why = too_salty(setting)
    if why is None:
        return ()
    book, test = setting.book, setting.brief.soil_test
    leach = of_soil.salts_leach(
        half=length_mm(book.si("salt.leach_half")),
        most=length_mm(book.si("salt.leach_most")),
        depth=length_mm(book.si("salt.leach_depth")),
    )
    if not is_sodic(setting):
        return why, leach
    if test.gypsum_rate_g_m2:
        return why, phrases.gypsum_first(rate=Quantity(test.gypsum_rate_g_m2, "rate")), leach
    return why, phrases.gypsum_asked(), leach


def bearing_grasses(setting: ResolvedLawn) -> tuple[str, ...]:
    """Grasses of the same season that bear this salt as it is sown or planted and live here, the
    hardiest first; none for the winter over a sleeping lawn, where one grass of the book serves."""
    if setting.sowing.intent == "winter_overseed":
        return ()
    salts, sown = setting.brief.soil_test.salts_ds_m or 0.0, setting.sowing.grass
    planted, light = setting.sowing.operation == "plant", setting.plot.light
    found = [
        name
        for name, grass in setting.book.species.items()
        if grass.season == sown.season
        and name != sown.id
        and (light is None or light.lives(name))
        and (bool(grass.plantable) if planted else grass.seedable)
        and salt_borne_ds_m(setting, name) is not None
        and most_borne(setting, name) >= salts
    ]
    hardiness = {name: (surely_borne(setting, name), most_borne(setting, name)) for name in found}
    return tuple(sorted(found, key=hardiness.__getitem__, reverse=True))


def bearing_plants(setting: ResolvedLawn) -> tuple[str, ...]:
    """Grasses that live here and bear this salt with the roots that they are planted with, where
    seed was asked for, the hardiest first."""
    salts, light = setting.brief.soil_test.salts_ds_m or 0.0, setting.plot.light
    if setting.sowing.operation == "plant" or setting.sowing.intent == "winter_overseed":
        return ()
    borne = {
        name: bears[1]
        for name, grass in setting.book.species.items()
        if grass.season == setting.sowing.grass.season
        and grass.plantable
        and (light is None or light.lives(name))
        and (bears := salt_borne_ds_m(setting, name)) is not None
        and bears[1] >= salts
    }
    return tuple(sorted(borne, key=lambda name: -borne[name]))


def _untested(setting: ResolvedLawn, draft: Draft) -> Allowed:
    """No day before the laboratory has answered."""
    first = setting.first_day + setting.days("wish.soil_test")
    days = DaySet.of([(first, setting.last_day)])
    reason = Reason("seed.salt_untested", phrases.untested(), ("wish.soil_test",))
    return Allowed(f"salt:{draft.id}", draft.start_node, days, Strength.HARD, reason)
