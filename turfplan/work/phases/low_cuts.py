"""The low cuts before thatch is combed, before a pass or seed, and over turf that is lifted.

Steps of lowering belong together: grass that has weeks between two of them stands as high as ever,
and the next cut would take half of it.
"""

from collections.abc import Iterator
from dataclasses import replace

from turfplan.book.words import book_messages
from turfplan.message import Message, Value, cut_height
from turfplan.phrases import open_turf as phrases
from turfplan.records.book_names import FactName, of_species
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.dressed import surface_place
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mowing import mown_height_mm
from turfplan.work.operations import SURFACE, WHOLE_LAWN, Extent, Timing, Wording, make
from turfplan.work.passes import SEEDED, low_floor
from turfplan.work.places import WorkPlace, but_relaid
from turfplan.work.thatch import grows_together_first

# The cut over hollows that are lifted; it leads to no pass.
LIFTING_CUT = "mow_low.lifting"


def low_cuts_before(
    setting: ResolvedLawn,
    campaign: Campaign,
    number: int,
    heights: tuple[float, ...],
    *,
    target: str,
    lead_days: int | None,
    before: int,
) -> Iterator[Draft]:
    """The low cuts of a session, `heights` in mm; `before` counts those of sessions before it.

    `lead_days` is how long before the task `target` the thatch is combed, None where it is not.
    """
    thatched = lead_days is not None
    # A creeper grows together for weeks after the blades, and stands as high as before.
    apart = thatched and grows_together_first(setting)
    # One cut lets the blades at the thatch; once the turf has rested another lets the mix at the
    # soil.
    twice = thatched and not apart and bool(campaign.sessions) and len(heights) == 1
    blades = (heights[:-1] or heights) if apart else ()
    combed = combed_place(setting).extent(setting)
    for step, height in enumerate(blades, 1):
        yield _cut(
            setting,
            f"blades.{step}",
            _timing(campaign, number, step, target, -(lead_days or 0)),
            Wording(
                phrases.mow_low_before_blades(),
                {"height": cut_height(height), "clippings": phrases.clippings_blades()},
            ),
            low_floor(setting, seeded=False)[1],
            combed,
        )
    extent = surface_place(setting, campaign, number).extent(setting)
    # A place is left free, so that no step leads from the blades' last cut to the first after them.
    ahead = len(blades) + 1 if blades else 0
    steps = heights * 2 if twice else heights
    for step, height in enumerate(steps, 1):
        early = thatched and not apart and step < len(steps)
        yield _cut(
            setting,
            f"rested.{step}" if apart else str(before + step),
            _timing(campaign, number, ahead + step, target, -(lead_days or 1) if early else -1),
            _of_step(setting, campaign, height, again=apart),
            low_floor(setting, _sows(setting, campaign, number))[1],
            combed if early else extent,
        )


def combed_place(setting: ResolvedLawn) -> WorkPlace:
    """Where blades comb out thatch for a session: all but turf that is relaid for it."""
    return but_relaid(setting, WorkPlace())


def _of_step(
    setting: ResolvedLawn, campaign: Campaign, height_mm: float, *, again: bool
) -> Wording:
    """What is said of a step of lowering; `again` where the turf was as low before, and has rested
    since."""
    values: dict[str, Value] = {"height": cut_height(height_mm), "clippings": _clippings(campaign)}
    if not again:
        return Wording(_why(campaign), values)
    usual = book_messages(setting.book, "operations.mow_low.how", values)
    return Wording(_why(campaign), values, how=(phrases.mow_low_grown_again(), *usual))


def _timing(campaign: Campaign, number: int, position: int, target: str, offset: int) -> Timing:
    session = number if campaign.sessions else 0
    return Timing(SURFACE, session=session, position=position, anchor=target, offset=offset)


def _cut(
    setting: ResolvedLawn,
    key: str,
    timing: Timing,
    wording: Wording,
    facts: tuple[FactName, ...],
    extent: Extent = WHOLE_LAWN,
) -> Draft:
    """A low cut; warm-season grass has a test of the day of its own."""
    if not setting.cool:
        go, fallback = phrases.mow_low_warm_go(), phrases.mow_low_warm_fallback()
        wording = replace(wording, go=go, fallback=fallback)
    return make(setting, "mow_low", key, timing=timing, wording=wording, extent=extent, facts=facts)


def cut_before_lifting(setting: ResolvedLawn) -> Draft:
    """The cut over the hollows whose turf is lifted, by a third at most and within the usual
    heights: what is relaid needs its leaves to root."""
    usual = setting.book.fact(of_species(setting.turf.species.id, "mow_height"))
    height = cut_height(max(usual.low_si, mown_height_mm(usual.high_si)))
    return _cut(
        setting,
        LIFTING_CUT.removeprefix("mow_low."),
        Timing(SURFACE, session=-1, anchor="lift_and_fill"),
        Wording(
            phrases.mow_low_before_lifting(),
            {"height": height, "clippings": phrases.clippings_lifting()},
            title=phrases.mow_low_lifting_title(height=height),
            how=(phrases.mow_low_lifting_how(), phrases.clippings_lifting()),
        ),
        (of_species(setting.turf.species.id, "mow_height"),),
        Extent(setting.plot.area_m2 * setting.levelling.lift_share),
    )


def _sows(setting: ResolvedLawn, campaign: Campaign, session: int) -> bool:
    return (
        campaign.sessions[session - 1].sows
        if campaign.sessions
        else setting.sowing.operation in SEEDED
    )


def _why(campaign: Campaign) -> Message:
    return phrases.mow_low_before_mix() if campaign.sessions else phrases.mow_low_before_seed()


def _clippings(campaign: Campaign) -> Message:
    """Why the clippings are taken off."""
    return phrases.clippings_mix() if campaign.sessions else phrases.clippings_seed()
