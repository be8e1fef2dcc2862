"""Levelling: receiving the mix, the passes, working each in, and the mowing between them."""

import math
from collections.abc import Mapping
from dataclasses import replace

from turfplan.rules.build import CARE, LAST_PASS, PASS, PREPARE, SURFACE, make
from turfplan.rules.campaign import Campaign, Session
from turfplan.rules.draft import Draft, Pass
from turfplan.rules.setting import Setting
from turfplan.units import read_as


def level(setting: Setting, campaign: Campaign, loose_m3: Mapping[int, float], spacing_days: int) -> list[Draft]:
    """The tasks of every session; `loose_m3` gives the loose volume of each pass, `spacing_days` the wished distance."""
    drafts: list[Draft] = []
    for session in campaign.sessions:
        drafts += _receive(setting, session, sum(loose_m3[p.number] for p in session.passes))
        for index, layer in enumerate(session.passes):
            spacing = wished_spacing(setting, session, spacing_days)
            drafts += _pass(setting, campaign, session, index, loose_m3[layer.number], spacing)
        if setting.living and not session.sows:
            drafts.append(
                make(
                    setting, "inspect", f"leaf_tips.{session.number}" if len(campaign.sessions) > 1 else "leaf_tips",
                    why="What stays buried more than a week or two dies.", priority=CARE, session=session.number,
                    anchor=f"topdress.{session.passes[-1].number}", offset=setting.days("wish.leaf_tips"),
                    words={"what": "are the leaf tips through?"}, title="Look: are the leaf tips through?",
                    how=(
                        "Tips should stand clear everywhere. Buried patches: brush or rake them free and water lightly.",
                        f"Bare patches after {setting.days('order.leaf_tips_most')} days: note them for seed or plugs.",
                    ),
                    go="Any day you are there.", fallback="The next free day.",
                )
            )  # fmt: skip
    return drafts


def wished_spacing(setting: Setting, session: Session, least_days: int) -> int:
    """The wished days between the passes of a session: warm-season grass gets the long end where its season has the room."""
    if setting.cool or not setting.living or session.sows:
        return least_days
    longest = setting.book.fact(f"species.{setting.species.id}.pass_interval_min").high_si
    room = (session.window.end - session.window.best).days // len(session.passes)
    return max(least_days, min(round(longest), room))


def _receive(setting: Setting, session: Session, loose: float) -> list[Draft]:
    first = f"topdress.{session.passes[0].number}"
    return [
        make(
            setting, "delivery", str(session.number), why="The mix must be there, and dry, before the day it is spread.",
            priority=SURFACE, session=session.number, position=session.number, anchor=first, offset=-setting.days("wish.delivery"), loose_m3=loose,
        ),
        make(
            setting, "dry_material", str(session.number), why="Wet material clumps, smears and stays on top of the grass.",
            priority=PREPARE, session=session.number, position=session.number, anchor=f"delivery.{session.number}", offset=1,
        ),
    ]  # fmt: skip


def _pass(
    setting: Setting, campaign: Campaign, session: Session, index: int, loose: float, spacing: int
) -> list[Draft]:
    """One pass of a session, by its place in it: spreading, working in, and before the next the mowing between them."""
    layer = session.passes[index]
    spread = _spread(setting, campaign, session, index, loose, spacing)
    drafts = [spread, _drag(setting, session, layer, spread)]
    if index and setting.living:
        drafts.append(
            make(
                setting, "mow", str(layer.number), why="The next pass goes on grass that has grown through and been cut.",
                priority=CARE, session=session.number, position=layer.number, anchor=spread.id, offset=-1,
            )
        )  # fmt: skip
    return drafts


def _spread(setting: Setting, campaign: Campaign, session: Session, index: int, loose: float, spacing: int) -> Draft:
    layer = session.passes[index]
    area = setting.area_m2 * setting.covered_share
    after = len(session.passes) - 1 - index
    # The wished day counts back from the seed, or forward from the window's best day where nothing is sown.
    best = session.window.best.toordinal()
    place = {"anchor": "sowing", "offset": -spacing * after} if session.sows else {"ideal": best + spacing * index}
    incorporate = setting.book.operations["incorporate"]
    working_in = sum(setting.book.si(name) for name in incorporate.labour) * area
    spread = make(
        setting, "topdress", str(layer.number), why=_why(setting, campaign), priority=PASS if after else LAST_PASS,
        session=session.number, position=layer.number, area_m2=area, loose_m3=loose, depth_mm=layer.depth_mm,
        words={
            "n": str(layer.number), "of": str(len(campaign.passes)), "depth": setting.length(layer.depth_mm),
            "cap": f"at most {setting.length(layer.cap_mm, rounding='down')} here, {layer.cap_reason}",
            "zones": _zones_text(setting, layer, loose),
        },
        facts=layer.facts, extra_hours=working_in, cautions=_site_cautions(setting),
        **place,
    )  # fmt: skip
    # Spreading and dragging go on together, so that the tips show the same day: one span of days, hours told apart.
    spread = _share_hours(spread, working_in)
    return replace(spread, cautions=(*spread.cautions, *_long_pass(setting, spread)))


def _drag(setting: Setting, session: Session, layer: Pass, spread: Draft) -> Draft:
    """Working a pass in, as long as it is spread."""
    watering = "Leave the watering until the seed is on." if layer.seeded else _watering_in(setting)
    drag = make(
        setting, "incorporate", str(layer.number), why="The mix belongs between the plants, not on the leaves.",
        priority=CARE, session=session.number, position=layer.number, area_m2=setting.area_m2 * setting.covered_share,
        anchor=spread.id, words={"water_in": watering},
    )  # fmt: skip
    return replace(drag, duration_days=spread.duration_days)


def _watering_in(setting: Setting) -> str:
    """How a layer without seed is settled and the grass under it watered."""
    book, gap = setting.book, setting.book.fact("water.recover_gap")
    settle, then = (setting.length(book.si(f"water.{name}")) for name in ("settle_depth", "recover_depth"))
    return (
        f"The same evening water lightly, about {settle}, to settle it; then {then} every {gap.low_si:.0f} to {gap.high_si:.0f} days for "
        f"{setting.days('water.recover_days')} days."
    )


def _zones_text(setting: Setting, layer: Pass, loose_m3: float) -> str:
    """What each zone takes of a pass, loose, where there is more than one zone."""
    if len(setting.zones) < 2 or not layer.zones or not layer.settled_m3:
        return ""
    return ", ".join(
        f"{name} {read_as(volume * loose_m3 / layer.settled_m3, 'volume', setting.system, step=0.05).text}"
        for name, volume in layer.zones
    )


def _long_pass(setting: Setting, spread: Draft) -> tuple[str, ...]:
    """What to do where one pass keeps the people at hand busy beyond a week-end."""
    most = round(setting.book.si("work.pass_days_most"))
    if spread.duration_days <= most:
        return ()
    people = math.ceil(setting.people * spread.duration_days / most)
    return (
        f"This pass takes {spread.duration_days} working days with {setting.people} at work; {people} would be done in {most}. Work strip by "
        "strip: what is spread is dragged in the same day.",
    )


def _share_hours(spread: Draft, working_in: float) -> Draft:
    return replace(spread, person_hours=round(spread.person_hours - working_in, 2))


def _why(setting: Setting, campaign: Campaign) -> str:
    total = setting.length(setting.depth_mm)
    if len(campaign.passes) == 1:
        return f"{total} of fill fits into one pass."
    if not setting.living:
        return f"{total} of fill goes on in {len(campaign.passes)} layers, each raked level and left to settle before the next."
    return f"{total} of fill is divided over {len(campaign.passes)} passes, each thin enough for the grass to grow through."


def _site_cautions(setting: Setting) -> tuple[str, ...]:
    """What the owner said about the site, as cautions of the spreading itself."""
    site = setting.brief.site
    found = []
    if (site.slope_percent or 0) / 100 > setting.book.si("site.slope_steep"):
        found.append("Steep ground: thin layers only, and nothing loose before a storm; it washes.")
    if site.septic_field:
        found.append(
            "Septic field: wheelbarrows only, no machines, and no change of the cover without the installer's word."
        )
    if site.building:
        below = setting.length(setting.book.si("site.below_siding"), "height")
        found.append(f"At the house keep {below} below the siding and the fall away from the wall.")
    return tuple(found)
