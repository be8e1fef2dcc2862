"""Seeding or planting: what is sown when, how it is covered, pressed and fed, and when to look for it."""

from dataclasses import dataclass

from turfplan.rules.build import CARE, SOW, make
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft, OpenDays
from turfplan.rules.setting import Setting
from turfplan.rules.steps import growth_step
from turfplan.wording import capital, day_text


@dataclass(frozen=True, slots=True)
class Emergence:
    """Days from sowing: when the first and the last of the seed is up, and when it can first be mown."""

    first: int
    last: int
    mow_least: int
    mow_most: int


def emergence(setting: Setting, campaign: Campaign) -> Emergence | None:
    """How long this seed takes here, with the days counted from sowing on the window's best day."""
    if campaign.sow_window is None or setting.sowing in (None, "plant"):
        return None
    book = setting.book
    days = book.fact(f"species.{setting.sown.id}.germination_days")
    sown = campaign.sow_window.best.toordinal()
    dormant = campaign.sow_window.operation == "dormant_seed"
    start = sown
    if dormant:
        # Nothing happens before the soil has warmed again: growth is counted from the turn of the year on.
        start = growth_step(
            setting.climate, setting.sown.season, setting.first_day, setting.last_day, book.si("seeding.dormant_wakes")
        )(min(sown + setting.days("seeding.dormant_rest"), setting.last_day))
    wait = start - sown
    grow = round(book.si("setting.seedling_growth_days"))
    # Dormant seed has taken up its water over winter: it wakes ready, and only the slow part follows after the quick.
    first = wait if dormant else round(days.low_si)
    last = wait + round(days.high_si - days.low_si) if dormant else round(days.high_si)
    least = first + round(book.fact("setting.seedling_growth_days").low_si)
    most = last + grow + round(book.si("setting.first_mow_spread_days"))
    return Emergence(first, last, least, most)


def sow(setting: Setting, campaign: Campaign, seed_m3: float = 0.0) -> list[Draft]:
    """The sowing or planting with what belongs to it, and the looks that follow."""
    window = campaign.sow_window
    if setting.sowing is None or window is None:
        return []
    session = campaign.sessions[-1].number if campaign.sow_on_pass else 0
    drafts = [_sowing(setting, campaign, session)]
    anchor = drafts[0].id
    up = emergence(setting, campaign)
    if up is None:
        return drafts
    slope = (setting.brief.site.slope_percent or 0) / 100
    if slope >= setting.book.si("site.slope_cover"):
        drafts.append(
            make(
                setting, "cover", why="On a slope the first storm carries seed and mix away.", priority=CARE, session=session,
                anchor=anchor, offset=0, facts=("site.slope_cover",),
            )
        )  # fmt: skip
    wet_clay = setting.book.soils[setting.soil].fine
    if window.operation != "dormant_seed" and not wet_clay:
        drafts.append(
            make(
                setting, "roll", why="Seed that touches the soil all round takes up water; rolled once and lightly.",
                priority=CARE, session=session, anchor=anchor, offset=0,
            )
        )  # fmt: skip
    drafts.append(_look_for_seedlings(setting, session, anchor, up))
    return drafts


def _look_for_seedlings(setting: Setting, session: int, anchor: str, up: Emergence) -> Draft:
    """The look at what has come up, once the last of the seed should have."""
    reserve = f"{setting.book.si('seeding.reserve'):.0%}"
    return make(
        setting, "inspect", "germination", why="Seed that failed can be made good only while there is time.",
        priority=CARE, session=session, anchor=anchor, offset=up.last + 2, title="Look: has the seed come up?",
        how=(
            f"Bare spots: scratch the surface and sow the reserve ({reserve} of the seed) there, keep it moist.",
            f"{capital(setting.sown.name)} comes up in {_range(setting)} days; a slow grass looks like a failure before its time.",
            "Washed strips: sow those again, not the whole lawn. Log what you see: `turfplan log BRIEF measured germination 1`.",
        ),
        go="Look in the early morning light, from low down.", fallback="The next free day.",
        facts=(f"species.{setting.sown.id}.germination_days", "seeding.reserve"),
    )  # fmt: skip


def _range(setting: Setting) -> str:
    fact = setting.book.fact(f"species.{setting.sown.id}.germination_days")
    return f"{fact.low_si:.0f} to {fact.high_si:.0f}"


def _sowing(setting: Setting, campaign: Campaign, session: int) -> Draft:
    window = campaign.sow_window
    assert window is not None
    book, sown = setting.book, setting.sown
    operation = window.operation
    if operation == "plant":
        form = setting.brief.seeding.form or _form(setting)
        return make(
            setting, "plant", why=f"{capital(sown.name)} is planted, not seeded, or planting was asked for.", priority=SOW, session=session,
            ideal=window.best.toordinal(), words={"grass": sown.name, "form": form, **_deadline(setting, window)},
        )  # fmt: skip
    cover = book.si(f"species.{sown.id}.seed_cover_max")
    why = {
        "dormant_seed": "Seed sown now would come up too late; sown cold it lies safe and comes up first thing in spring.",
        "overseed": "Thin turf is filled by new plants: this is the best time for them here.",
        "seed": "The lawn is sown anew at the time when this grass comes up fastest and weeds least.",
    }[operation]
    if sown.spreads and operation == "overseed":
        why += f" {capital(sown.name)} also fills gaps by itself, so the rate stays low."
    return make(
        setting, operation, why=why, priority=SOW, session=session, ideal=window.best.toordinal(),
        words={"grass": sown.name, "cover": setting.length(cover, "depth", "down"), **_deadline(setting, window)},
        facts=(f"species.{sown.id}.seed_cover_max",),
    )  # fmt: skip


def _form(setting: Setting) -> str:
    """What is planted where the brief does not say: sod on bare ground, plugs among living grass, as far as there are any."""
    forms = setting.sown.plantable
    wanted = "plugs" if setting.living and "plugs" in forms else "sod"
    return wanted if wanted in forms or not forms else forms[0]


def _deadline(setting: Setting, window: OpenDays) -> dict[str, str]:
    """The last safe day in words, and what is left after it."""
    if window.operation == "plant" or not setting.cool:
        left = "the same window next year"
    elif window.season == "spring":
        left = "wait for late summer, the better season"
    else:
        left = "dormant seed in early winter, or spring as the second best; log what happened and plan again"
    return {"last_safe": day_text(window.end, setting.system), "plan_b": left}
