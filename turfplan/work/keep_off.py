"""How long people keep off what has been sown, planted or laid."""

from datetime import date, timedelta

from turfplan.book.citations import who_says
from turfplan.message import Day, Message
from turfplan.phrases import keep_off as phrases
from turfplan.records.book_names import FactName
from turfplan.records.plan_task import Role
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.emergence import emergence
from turfplan.work.lawn import ResolvedLawn

FIRST_CUT = "first_mow"


def keep_off(
    setting: ResolvedLawn, campaign: Campaign, draft: Draft, end: date, first_cut: date | None
) -> tuple[Message, ...]:
    """The step that says until when people keep off, for a job that sows, plants or relays turf
    and ends on a day; none for any other.

    `first_cut` is the day on which what was sown is first mown, None where the plan has none.
    """
    roles: tuple[Role, ...] = setting.book.operations[draft.operation].roles
    if "relaying" in roles or ("planting" in roles and draft.form == "sod"):
        return (_of_sod(setting, end),)
    if "planting" in roles:
        first, last, source = _between(setting, "keep_off.plugs", end)
        return (phrases.plugs(first=first, last=last, source=source),)
    return (_of_seed(setting, campaign, end, first_cut),) if "sowing" in roles else ()


def _of_sod(setting: ResolvedLawn, laid: date) -> Message:
    first, _, source = _between(setting, "keep_off.sod", laid)
    _, running, _ = _between(setting, "keep_off.sod_running", laid)
    return phrases.sod(first=first, running=running, source=source)


def _of_seed(
    setting: ResolvedLawn, campaign: Campaign, sown: date, first_cut: date | None
) -> Message:
    """Until the third mowing; what rests over winter counts from the day on which it wakes."""
    up = emergence(setting, campaign)
    wakes = sown + timedelta(0 if up is None else up.wakes)
    third = timedelta(setting.days("seeding.third_mowing"))
    least = timedelta(setting.days("seeding.no_dressing"))
    mown = Day(wakes + least if first_cut is None else max(first_cut, wakes) + third)
    if setting.sowing.intent == "winter_overseed":
        return phrases.second_grass(mown=mown)
    first, last, source = _between(setting, "keep_off.seed", wakes)
    return phrases.seed(mown=mown, first=first, last=last, source=source)


def _between(setting: ResolvedLawn, name: FactName, day: date) -> tuple[Day, Day, Message]:
    """The days on which the least and the most of a fact are over, counted from a day; and whose
    figure it is."""
    fact = setting.book.fact(name)
    least, most = (day + timedelta(round(n)) for n in (fact.low_si, fact.high_si))
    return Day(least), Day(most), who_says(setting.book, fact.source)
