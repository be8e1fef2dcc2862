"""Buying: what a grower brings is ordered and received, a machine is reserved, and what comes in
bags is fetched, one trip for what is needed together.

A trip is named by what it is for and a call by its session of work, never by a day. The days that
a grower or a shop needs are lags: what waits for the goods moves with them.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Final, cast, get_args

from turfplan.book.words import book_message, book_messages
from turfplan.message import Message, Quantity, listed
from turfplan.phrases import befallen
from turfplan.phrases import buying as phrases
from turfplan.phrases import order as of_order
from turfplan.records.book_names import HiredMachine, OperationName, PlantForm, Trip
from turfplan.work.buying_lags import KEEPS, PLANTS_LEAD, SAMPLES
from turfplan.work.days_off import on_sundays_alone
from turfplan.work.drafts import Draft, Load
from turfplan.work.feeding.bag import may_be_used
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.feeding.starter import STARTER_TASK
from turfplan.work.ground_fill import cover_is_bought
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import PREPARE, SURFACE, Timing, Wording, make
from turfplan.work.pesticide_law import closed_by
from turfplan.work.phases.doubts import grass_open, look_of, looks_into_doubts

# Bound to no session: no rule of the order of work that pairs by sessions binds what is bought.
APART: Final = -1
LATE: Final = date.max.toordinal()
# The trips whose goods the answer of a soil test may change.
TESTED: Final[tuple[Trip, ...]] = ("seed", "soil", "fertilizer")
# The trip for seed in place of what was lost.
MORE_SEED: Final = "seed.more"
# What a trip is named by where nothing is left to be fetched on it.
_FOR: Mapping[Trip, Message] = MappingProxyType(
    {
        "seed": phrases.of_seed(),
        "soil": phrases.of_soil(),
        "fertilizer": phrases.of_fertilizer(),
        "preventer": phrases.of_preventer(),
        "weed_killer": phrases.of_weed_killer(),
        "covers": phrases.of_covers(),
    }
)
# What a soil test may ask for once the fertilizer is here: each has a trip of its own.
NUTRIENT_TRIPS: Mapping[str, Message] = MappingProxyType(
    {"potash": of_order.name_potash(), "phosphate": of_order.name_phosphate()}
)


def machine_name(setting: ResolvedLawn, machine: HiredMachine) -> Message:
    """What a hired machine is called here."""
    operation = next(o.id for o in setting.book.operations.values() if o.hires == machine)
    return book_message(setting.book, f"operations.{operation}.machine_name")


def with_buying(
    setting: ResolvedLawn, drafts: Sequence[Draft], loads: Sequence[Load], feeding: FeedingPlan
) -> list[Draft]:
    """The tasks of a season with those that buy what they take, beside bulk material, which its
    loads bring; what an answer to come may change is an estimate."""
    bought = [
        *(draft for plant in drafts if plant.form for draft in _plants(setting, plant)),
        *_calls_off(setting, loads),
        *_reserved(setting, drafts),
        *_trips(setting, drafts, feeding),
    ]
    whole = (*_told_their_buyers(drafts, bought), *bought)
    looks = looks_into_doubts(
        setting, ((d, told) for d in whole for told in _still_open(setting, d, drafts))
    )
    return [*(estimated(setting, draft, drafts) for draft in whole), *looks]


def with_trip_of_feedings(
    setting: ResolvedLawn, feeds: Sequence[Draft], drafts: Sequence[Draft], feeding: FeedingPlan
) -> list[Draft]:
    """Feedings, and the one trip on which what they all take is fetched; `drafts` are the others of
    the season."""
    trips = _trips(setting, feeds, feeding, "fertilizer")
    fetched = (estimated(setting, trip, drafts) for trip in trips)
    return [*_told_their_buyers(feeds, trips), *fetched]


def _told_their_buyers(drafts: Sequence[Draft], bought: Sequence[Draft]) -> Iterator[Draft]:
    """Tasks that know what buys for them."""
    buyers: dict[str, list[str]] = defaultdict(list)
    for task in bought:
        for user in task.buys_for if not task.hired else ():
            buyers[user].append(task.id)
    for draft in drafts:
        yield replace(draft, bought_by=tuple(buyers[draft.id])) if draft.id in buyers else draft


def _trips(
    setting: ResolvedLawn,
    drafts: Sequence[Draft],
    feeding: FeedingPlan,
    only: Trip | None = None,
) -> list[Draft]:
    """The trips to a shop for what some tasks take; all of them on the trip `only` where given."""
    wanted: dict[Trip, list[Draft]] = defaultdict(list)
    for draft in drafts:
        trip = setting.book.operations[draft.operation].trip
        if trip is not None and _takes_goods(setting, draft, feeding):
            wanted[only or trip].append(draft)
    return [_trip(setting, trip, wanted[trip]) for trip in get_args(Trip) if trip in wanted]


def _takes_goods(setting: ResolvedLawn, draft: Draft, feeding: FeedingPlan) -> bool:
    """Whether a task takes what is fetched: nothing is where a bag is at hand that may be used, the
    law closes lawns to weed killers, no test asks for what is worked in, or fill needs no cover."""
    tested = feeding.potassium is not None or feeding.phosphorus is not None
    bag = setting.brief.feeding.analysis
    at_hand = bag is not None and may_be_used(bag, phosphorus_short=feeding.phosphorus_short)
    takes: dict[OperationName, bool] = {
        "kill_stand": closed_by(setting) is None,
        "till": feeding.fresh_ground and tested,
        "grade": feeding.fresh_ground and tested,
        "nurse_cover": cover_is_bought(setting),
        "starter_feed": tested or not at_hand,
        "feed_nitrogen": tested or not at_hand,
    }
    return takes.get(draft.operation, True)


def estimated(setting: ResolvedLawn, draft: Draft, others: Sequence[Draft]) -> Draft:
    """A task of buying, marked as an estimate where what it buys may still change."""
    still_open = _still_open(setting, draft, others)
    told = next((told for told in still_open if look_of(told) not in setting.answered), None)
    if told is None:
        return draft
    return replace(draft, estimate=told, cautions=(told, *draft.cautions))


def _still_open(setting: ResolvedLawn, draft: Draft, others: Sequence[Draft]) -> Iterator[Message]:
    """What may still change what a task buys: the soil that was assumed, one depth for a whole
    lawn, a grass without a name, a soil test that is out."""
    brief = setting.brief
    if draft.loads and draft.load is None and draft.operation == "order_material":
        if brief.lawn.soil in (None, "unknown"):
            yield phrases.estimate_soil()
        leveling = brief.leveling
        measured = leveling.survey is not None or bool(leveling.lows)
        if not measured and _is_deep(setting):
            yield phrases.estimate_depth()
    if draft.id == "collect.seed" and grass_open(setting):
        yield phrases.estimate_grass()
    tested = draft.operation == "collect" and draft.key in TESTED
    starts = draft.key != "seed" or any(name == STARTER_TASK for name in draft.buys_for)
    if tested and starts and any(other.id in SAMPLES for other in others):
        yield phrases.estimate_test()


def _is_deep(setting: ResolvedLawn) -> bool:
    """Whether so much is filled that a depth read in the wrong place would buy far too much."""
    return setting.levelling.mean_mm >= setting.book.si("campaign.fill_warning") - 1e-6


def _trip(setting: ResolvedLawn, trip: Trip, users: Sequence[Draft]) -> Draft:
    first = min(users, key=_wished)
    how = book_messages(setting.book, "operations.collect.how")
    if on_sundays_alone(setting.calendar.shops):
        how = (*how, phrases.sunday())
    drafted = make(
        setting,
        "collect",
        trip,
        timing=_ahead_of(setting, first, setting.days("delivery.small_lead")),
        wording=Wording(
            phrases.collect(), {"what": _FOR[trip]}, name=phrases.collect_name(), how=how
        ),
        facts=("delivery.small_lead",),
    )
    return replace(drafted, buys_for=tuple(draft.id for draft in users))


def _wished(draft: Draft) -> tuple[int, str]:
    """Which of some tasks is wished first, as far as that is known before they have days."""
    day = draft.ideal if draft.ideal is not None else (draft.window or (LATE, LATE))[0]
    return day, draft.id


def _ahead_of(setting: ResolvedLawn, first: Draft, days: int) -> Timing:
    """Some days before a task, never before the plan begins."""
    if first.ideal is not None:
        day = max(setting.first_day, first.ideal - days)
        return Timing(PREPARE, session=APART, ideal=day, anchor=first.id, offset=-days)
    return Timing(PREPARE, session=APART, anchor=first.id, offset=-days)


def _plants(setting: ResolvedLawn, plant: Draft) -> list[Draft]:
    """Ordering and receiving of sod, plugs or sprigs, which a grower cuts or lifts for the day."""
    form = cast(PlantForm, plant.form)
    ahead = setting.days(PLANTS_LEAD) + setting.days("wish.order_ahead")
    title = {
        "sod": (phrases.order_sod(), phrases.receive_sod()),
        "plugs": (phrases.order_plugs(), phrases.receive_plugs()),
        "sprigs": (phrases.order_sprigs(), phrases.receive_sprigs()),
    }[form]
    ordered = make(
        setting,
        "order_material",
        form,
        timing=Timing(PREPARE, session=APART, anchor=f"delivery.{form}", offset=-ahead),
        wording=Wording(
            phrases.order_plants(),
            title=title[0],
            how=(phrases.order_plants_ask(), phrases.order_plants_ground()),
            go=phrases.order_plants_go(),
            fallback=phrases.order_plants_fallback(),
        ),
        facts=(PLANTS_LEAD,),
    )
    several = (phrases.receive_by_day(),) if plant.duration_days > 1 and form == "sod" else ()
    received = make(
        setting,
        "delivery",
        form,
        timing=Timing(SURFACE, session=APART, anchor=plant.id),
        wording=Wording(
            phrases.receive_plants(),
            title=title[1],
            how=(phrases.receive_plants_look(), phrases.receive_plants_shade(), *several),
            go=phrases.receive_plants_go(),
            fallback=phrases.receive_plants_fallback(),
        ),
        facts=(KEEPS[form],),
    )
    return [replace(draft, buys_for=(plant.id,), cautions=()) for draft in (ordered, received)]


def _calls_off(setting: ResolvedLawn, loads: Sequence[Load]) -> list[Draft]:
    """The call for each load that was ordered with an earlier one and comes weeks after it."""
    return [
        replace(
            make(
                setting,
                "call",
                str(load.number),
                timing=Timing(
                    PREPARE,
                    session=APART,
                    position=load.number,
                    anchor=f"delivery.{load.number}",
                    offset=-setting.days("delivery.confirm_wish"),
                ),
                wording=Wording(
                    phrases.call_off(),
                    title=phrases.call_off_title(),
                    how=(phrases.call_off_ask(), phrases.call_off_room()),
                    go=phrases.call_off_go(),
                    fallback=phrases.call_off_fallback(),
                ),
                facts=("delivery.confirm_lead",),
            ),
            buys_for=(f"delivery.{load.number}",),
        )
        for load in loads
        if load.number != load.order and not load.bags and load.strips is None
    ]


def refused_call(setting: ResolvedLawn, delivery: Draft) -> Draft:
    """The call for what was sent back, on the first day on which somebody answers; plants are
    asked for anew for the day on which they go in."""
    drafted = make(
        setting,
        "call",
        f"refused.{delivery.key}",
        timing=Timing(PREPARE, session=APART, ideal=setting.today.toordinal()),
        wording=Wording(
            phrases.refused(),
            title=phrases.refused_title(),
            how=(phrases.refused_ask(),),
            go=phrases.refused_go(),
            fallback=phrases.refused_fallback(),
        ),
    )
    return replace(drafted, buys_for=(delivery.id, *delivery.buys_for), urgent=True)


def fetched_more(
    setting: ResolvedLawn, key: str, passes: Sequence[Draft], short_m3: float
) -> Draft:
    """The trip for what is short of the mix, before the first of the passes still to come."""
    first = min(passes, key=lambda draft: draft.position)
    drafted = make(
        setting,
        "collect",
        key,
        timing=Timing(
            PREPARE, session=APART, anchor=first.id, offset=-setting.days("wish.delivery")
        ),
        wording=Wording(
            phrases.mix_why(),
            title=phrases.mix_title(amount=Quantity(short_m3, "volume", "up")),
            how=(phrases.mix_how(),),
        ),
    )
    return replace(drafted, buys_for=tuple(draft.id for draft in passes))


def more_seed(setting: ResolvedLawn, sowing: Draft, why: Message) -> Draft:
    """The trip for more seed before it is sown: in place of what was lost, or what is missing."""
    drafted = make(
        setting,
        "collect",
        MORE_SEED,
        timing=Timing(
            PREPARE, session=APART, anchor=sowing.id, offset=-setting.days("wish.delivery")
        ),
        wording=Wording(why, title=befallen.seed_title()),
    )
    return replace(drafted, buys_for=(sowing.id,))


def nutrient_trip(setting: ResolvedLawn, key: str, feeds: Sequence[Draft]) -> Draft:
    """The trip for potash or phosphate (`key`) that a soil test asks for after the fertilizer was
    fetched, before the first of the feedings still to come."""
    first = min(feeds, key=_wished)
    drafted = make(
        setting,
        "collect",
        key,
        timing=_ahead_of(setting, first, setting.days("delivery.small_lead")),
        wording=Wording(
            phrases.collect(), {"what": NUTRIENT_TRIPS[key]}, name=phrases.collect_name()
        ),
        facts=("delivery.small_lead",),
    )
    return replace(drafted, buys_for=tuple(draft.id for draft in feeds))


def _reserved(setting: ResolvedLawn, drafts: Sequence[Draft]) -> list[Draft]:
    """One call for the machines that a session of work hires; a contractor brings its own."""
    if setting.brief.work.by == "contractor":
        return []
    last = max((draft.session for draft in drafts), default=0)
    hiring: dict[int, list[Draft]] = defaultdict(list)
    for draft in drafts:
        if hired_for(setting, draft) is not None:
            # What belongs to no session of passes goes with the last of them, as seed does.
            hiring[draft.session or last].append(draft)
    calls = []
    for session, users in sorted(hiring.items()):
        number = max(1, session)
        machines = tuple(
            dict.fromkeys(m for d in users if (m := hired_for(setting, d)) is not None)
        )
        drafted = make(
            setting,
            "call",
            "machines.ahead" if session == APART else f"machines.{number}",
            timing=_ahead_of(setting, users[0], setting.days("delivery.hire_wish")),
            wording=Wording(
                phrases.call(),
                values={"what": listed((machine_name(setting, m) for m in machines), "and")},
                name=phrases.call_name(),
            ),
            facts=("delivery.hire_lead",),
        )
        calls.append(
            replace(
                drafted,
                position=number,
                hired=machines,
                buys_for=tuple(draft.id for draft in users),
            )
        )
    return calls


def hired_for(setting: ResolvedLawn, draft: Draft) -> HiredMachine | None:
    """The machine that is hired for a task; None where there is one, or none is needed."""
    entry = setting.book.operations[draft.operation]
    owned = entry.machine is not None and entry.machine in setting.brief.work.machines
    return None if owned or draft.by_hand else entry.hires
