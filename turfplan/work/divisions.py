"""Passes divided otherwise over the sessions of a campaign: days that were lost leave one session
room for fewer of them, and another has some over."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import accumulate, product

from turfplan.work.campaigns import Campaign, room
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn


def redivided(
    setting: ResolvedLawn, campaign: Campaign, begun: Collection[str]
) -> Iterator[Campaign]:
    """The campaign with its passes divided otherwise over its sessions, nearest to its own first:
    each session has one at least, and no more than it has time for. Passes that are done or `begun`
    stay where they are.
    """
    own = tuple(len(session.passes) for session in campaign.sessions)
    if len(own) < 2:
        return
    most = [
        max(held, room(setting, session.window))
        for held, session in zip(own, campaign.sessions, strict=True)
    ]
    others = (
        counts
        for counts in product(*(range(1, held + 1) for held in most))
        if sum(counts) == sum(own) and counts != own
    )
    numbers = [n for n, p in enumerate(campaign.passes) if f"topdress.{p.number}" in begun]
    fixed = [(n, _session_of(n, own)) for n in numbers]
    others = (c for c in others if all(_session_of(n, c) == session for n, session in fixed))

    def moved(counts: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
        return sum(abs(n - held) for n, held in zip(counts, own, strict=True)), counts

    for counts in sorted(others, key=moved)[: round(setting.book.si("campaign.divisions_most"))]:
        yield _with_counts(campaign, counts)


def divided_by_windows(campaign: Campaign, days: Sequence[int]) -> Campaign:
    """The campaign with its passes in the sessions in which a plan had them on these days
    (ordinals); as it is where some of them lie in none."""
    windows = [session.window for session in campaign.sessions]
    counts = tuple(sum(_holds(window, day) for day in days) for window in windows)
    if len(days) != len(campaign.passes) or sum(counts) != len(days) or 0 in counts:
        return campaign
    return _with_counts(campaign, counts)


def _session_of(number: int, counts: Sequence[int]) -> int:
    """The place of the session that a pass, counted from 0, falls into."""
    return next(i for i, end in enumerate(accumulate(counts)) if number < end)


def _holds(window: OpenDays, day: int) -> bool:
    return window.start.toordinal() <= day <= window.end.toordinal()


def _with_counts(campaign: Campaign, counts: Sequence[int]) -> Campaign:
    left = list(campaign.passes)
    sessions = []
    for session, count in zip(campaign.sessions, counts, strict=True):
        taken = tuple(replace(layer, session=session.number) for layer in left[:count])
        sessions.append(replace(session, passes=taken))
        left = left[count:]
    return replace(campaign, sessions=tuple(sessions))
