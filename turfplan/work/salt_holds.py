"""How salt in the ground holds seed and plants back: until it is tested, or washed out."""

from turfplan.book.words import grass_name
from turfplan.message import Number
from turfplan.phrases import salt_holds as phrases
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
    test, sown = setting.brief.soil_test, setting.sowing.grass.id
    if test.salts_ds_m is None:
        return [_untested(setting, draft)] if "salty" in setting.brief.site.ground else []
    bears = salt_borne_ds_m(setting, sown)
    if bears is None:
        return []
    most = bears[1] if draft.operation == "plant" else bears[0]
    if test.salts_ds_m <= most:
        return []
    name = setting.book.known(option_of_family("salt.tolerance_{species}", sown))
    facts: tuple[FactName, ...] = () if name is None else (name,)
    why = phrases.too_salty_plants if draft.operation == "plant" else phrases.too_salty_seed
    reason = Reason(
        "seed.salt",
        why(
            salts=Number(test.salts_ds_m, "plain"),
            most=Number(most, "plain"),
            grass=grass_name(setting.book, sown),
        ),
        facts,
    )
    return [Allowed(f"salt:{draft.id}", draft.start_node, DaySet.of([]), Strength.HARD, reason)]


def _untested(setting: ResolvedLawn, draft: Draft) -> Allowed:
    """No day before the laboratory has answered."""
    first = setting.first_day + setting.days("wish.soil_test")
    days = DaySet.of([(first, setting.last_day)])
    reason = Reason("seed.salt_untested", phrases.untested(), ("wish.soil_test",))
    return Allowed(f"salt:{draft.id}", draft.start_node, days, Strength.HARD, reason)
