"""Ways out that give the old stand up: it is killed, bare ground is filled, a new stand is sown."""

from collections.abc import Iterator

from turfplan.message import as_written
from turfplan.phrases import ways_out as phrases
from turfplan.planning.changed_briefs import ChangedBrief, with_part
from turfplan.records.brief import Brief
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.watering.hose import hose_by_hand


def on_bare_ground(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Where grass never grows through a pass: the fill laid on bare ground, and a new stand."""
    if setting.never_opens("topdress"):
        yield from all_anew(brief, setting)


def all_anew(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """The old stand given up for the fill, where no smaller change leads anywhere."""
    leveling = brief.leveling
    if (leveling.depth_mm or leveling.lows or leveling.survey) and not setting.on_open_ground:
        yield from renovated(brief)


def renovated(brief: Brief) -> Iterator[ChangedBrief]:
    """The old stand killed, and a new one sown on bare ground that is filled; with water, and with
    a timer where one hose by hand keeps too little wet of what is killed."""
    changed = with_part(brief, "seeding", intent="renovate")
    anew, lines = phrases.start_anew(), 'intent = "renovate"'
    if brief.water.possible is False:
        changed = with_part(changed, "water", possible=True)
        anew = phrases.together(first=anew, second=phrases.water_it())
        lines += ", possible = true"
    yield ChangedBrief(anew, as_written(lines), changed)
    if hose_by_hand(changed.water):
        yield ChangedBrief(
            phrases.together(first=anew, second=phrases.a_timer()),
            as_written(f"{lines}, timer = true"),
            with_part(changed, "water", timer=True),
        )
