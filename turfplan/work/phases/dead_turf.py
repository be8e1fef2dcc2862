"""Dead turf where grass is mended: its mats come off before seed or plants go in."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from turfplan.book.words import book_messages
from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Day, Message
from turfplan.phrases import open_turf as phrases
from turfplan.records.book_names import FactName, ThinCause
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import SURFACE, Extent, Timing, Wording, make

DEAD = "dead"  # the key of the clearing of spots in a lawn that stays
# What leaves dead mats, or mats of moss, behind, not thin grass alone.
KILLS: frozenset[ThinCause] = frozenset(
    {"grubs", "insects", "disease", "drought", "dogs", "salt", "spill", "moss"}
)


def dead_turf(setting: ResolvedLawn, campaign: Campaign) -> Iterator[Draft]:
    """The clearing of dead spots, right before what covers them: mix, seed or plants."""
    if campaign.sow_window is None or not leaves_mats(setting):
        return
    on_pass = campaign.sessions[-1] if campaign.sow_on_pass else None
    first = None if on_pass is None else f"topdress.{on_pass.passes[0].number}"
    session = 0 if on_pass is None else on_pass.number
    area_m2 = setting.plot.area_m2 * setting.sowing.share * setting.thin_share
    cleared = make(
        setting,
        "clear_stand",
        DEAD,
        timing=Timing(SURFACE, session=session, anchor=first or "sowing", offset=-1),
        wording=Wording(
            phrases.dead(),
            title=phrases.dead_moss_title() if has_moss(setting) else phrases.dead_title(),
            how=(
                *((phrases.moss_off(),) if has_moss(setting) else ()),
                phrases.dead_rake(),
                phrases.dead_loosen(),
                phrases.dead_leave(),
            ),
            go=phrases.dead_go(),
            fallback=phrases.dead_fallback(),
        ),
        # By hand, whatever the machine of the operation does on a whole lawn.
        extent=Extent(0.0, more_hours=area_m2 * setting.book.si("labour.dead_turf")),
        facts=("labour.dead_turf",),
    )
    yield replace(cleared, by_hand=True)


def treated_moss(setting: ResolvedLawn) -> date | None:
    """When moss that lies black in turf which stays was treated last; None where none lies there:
    of a treatment half a year ago nothing is left to rake."""
    stays = not setting.on_open_ground and setting.worked != "killed"
    days = (use.on for use in setting.brief.history.moss if stays)
    last = max(days, default=None)
    if last is None or setting.first_day - last.toordinal() > HALF_A_YEAR:
        return None
    return last


def black_moss(setting: ResolvedLawn) -> Iterator[Draft]:
    """The raking out of treated moss once it is black, before it rots to a mat that smothers what
    grass there is."""
    treated = treated_moss(setting)
    if treated is None:
        return
    black = treated.toordinal() + setting.days(_BLACK)
    how = book_messages(setting.book, "operations.rake_moss.how")
    sown = setting.sowing.operation is not None
    yield make(
        setting,
        "rake_moss",
        timing=Timing(SURFACE, ideal=max(black, setting.first_day)),
        wording=Wording(
            phrases.black_moss(day=Day(treated)),
            how=(*how, *(() if sown else (phrases.black_moss_seed(),))),
        ),
        facts=(_BLACK,),
    )


# From iron on moss until it is black.
_BLACK: FactName = "site.moss_rest"


def moss_left(setting: ResolvedLawn) -> Message:
    """What becomes of moss while its cause is put right: raked out once black where it was treated,
    else left until the seed, of which the plan has one or not."""
    if treated_moss(setting) is not None:
        return phrases.moss_treated_off()
    sown = setting.sowing.operation is not None
    return phrases.moss_until_seed() if sown else phrases.moss_no_seed()


def has_moss(setting: ResolvedLawn) -> bool:
    """Whether moss stands in the turf: it is taken off right before the seed, since ground that is
    raked bare months before fills with weeds, or with moss again."""
    return "moss" in setting.brief.site.thin_cause


def leaves_mats(setting: ResolvedLawn) -> bool:
    """Whether dead mats lie in turf that is sown or planted and stays."""
    if setting.on_open_ground or setting.sowing.intent in ("none", "winter_overseed", "dormant"):
        return False
    seeding, killed = setting.brief.seeding, not KILLS.isdisjoint(setting.brief.site.thin_cause)
    # Sod roots in soil alone: what it replaces comes off, whatever killed or thinned it.
    sod = setting.sowing.intent == "plant" and seeding.form == "sod"
    return sod or killed or setting.sowing.intent == "patch"
