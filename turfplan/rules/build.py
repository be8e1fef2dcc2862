"""Makes one task of an operation: its hours, its days, its words, its cautions."""

from collections.abc import Mapping

from turfplan.rules.draft import Draft
from turfplan.rules.labour import person_hours, working_days
from turfplan.rules.setting import Setting

# Which task the network places first: seed, then passes, then what hangs on them.
SOW, LAST_PASS, PASS, SURFACE, CARE, PREPARE, FINISH = range(7)


def make(
    setting: Setting,
    operation: str,
    key: str | None = None,
    *,
    why: str,
    priority: int,
    session: int = 0,
    position: int = 1,
    ideal: int | None = None,
    anchor: str | None = None,
    offset: int = 0,
    area_m2: float | None = None,
    loose_m3: float = 0.0,
    depth_mm: float = 0.0,
    words: Mapping[str, str] | None = None,
    title: str | None = None,
    how: tuple[str, ...] | None = None,
    go: str | None = None,
    fallback: str | None = None,
    cautions: tuple[str, ...] = (),
    facts: tuple[str, ...] = (),
    extra_hours: float = 0.0,
    window: tuple[int, int] | None = None,
) -> Draft:
    """A draft of `operation`; its id is the operation, or `operation.key`. Area defaults to the whole lawn."""
    # Longer than most functions: every part of a draft is named once as it comes in and once as it goes on.
    entry = setting.book.operations[operation]
    area = setting.area_m2 if area_m2 is None else area_m2
    hours = person_hours(setting, entry, area, loose_m3) + extra_hours
    return Draft(
        id=f"{operation}.{key}" if key else operation,
        operation=operation,
        phase=entry.phase,
        why=why,
        priority=priority,
        session=session,
        position=position,
        ideal=ideal,
        anchor=anchor,
        offset=offset,
        duration_days=working_days(setting, hours),
        person_hours=round(hours, 2),
        words=dict(words or {}),
        title=title,
        how=how,
        go=go,
        fallback=fallback,
        cautions=_cautions(setting, operation, entry.cautions) + cautions,
        facts=facts,
        depth_mm=depth_mm,
        loose_m3=loose_m3,
        window=window,
    )


def _cautions(setting: Setting, operation: str, ids: tuple[str, ...]) -> tuple[str, ...]:
    """The sentences of the cautions that this operation carries on this site."""
    site = setting.brief.site
    applies = {"tree_roots": site.trees, "grade": True, "septic": site.septic_field}
    return tuple(setting.book.cautions[i].text for i in ids if applies.get(i, True))
