"""Seeding or planting: what is sown when, how it is covered and pressed, when to look for it."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType

from turfplan.book.words import book_message, book_messages, grass_name
from turfplan.message import Day, Message, Number, Quantity, Value, length_mm, sentences
from turfplan.phrases import looks, plan_cautions, slopes
from turfplan.phrases import past_of_lawn as past_phrases
from turfplan.phrases import sow as phrases
from turfplan.phrases import watering as by_hose
from turfplan.records.book_names import PlantForm, of_species
from turfplan.work import slopes as bank
from turfplan.work.campaign_reasons import heat_of_summer
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.emergence import emergence
from turfplan.work.feeding.soil_findings import washed_first
from turfplan.work.labour import working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, SOW, Extent, Timing, Wording, make
from turfplan.work.past_of_lawn import young_sowings
from turfplan.work.phases.seedling_look import look_days, look_for_seedlings
from turfplan.work.phases.wet_at_once import FACTS as WET_FACTS
from turfplan.work.phases.wet_at_once import wet_at_once, wetting_hours
from turfplan.work.places import WorkPlace, sown_now_place, spots_of, these
from turfplan.work.plants import planting_hours, sprig_rows_mm
from turfplan.work.seed_mix import seed_name, slowest
from turfplan.work.watering.hose import hose_hours, kept_wet_share, seedbed_day
from turfplan.work.watering.intake import intake_of
from turfplan.work.watering.sprinklers import zones
from turfplan.work.where_spread import HAIR

_FORMS: Mapping[PlantForm, Callable[[], Message]] = MappingProxyType(
    {"sod": phrases.form_sod, "plugs": phrases.form_plugs, "sprigs": phrases.form_sprigs}
)


def nothing_sown(setting: ResolvedLawn) -> tuple[Message, ...]:
    """Why nothing can be sown or planted at all, as was asked: the light, or what is in the soil.

    Empty where it can, or where nothing was asked for.
    """
    if setting.sowing.operation is None:
        return ()
    dark = () if setting.sowing.refused is None else (setting.sowing.refused,)
    return (*dark, *(hold.why for hold in setting.holds if hold.until is None))


def look_at_earlier(setting: ResolvedLawn) -> list[Draft]:
    """The look at what came up of seed that was sown shortly before the plan begins."""
    young = young_sowings(setting)
    if not young:
        return []
    wording = Wording(
        past_phrases.look_why(),
        title=past_phrases.look_title(),
        how=(past_phrases.look_how(), looks.seedlings_washed()),
        go=looks.seedlings_go(),
        fallback=looks.next_free_day(),
    )
    timing = Timing(CARE, session=-1, ideal=max(day for _, day in young))
    return [make(setting, "inspect", "earlier", timing=timing, wording=wording)]


def sow(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """The sowing or planting with what belongs to it, and the looks that follow."""
    window = campaign.sow_window
    if setting.sowing.operation is None or window is None:
        return []
    session = campaign.sessions[-1].number if campaign.sow_on_pass else 0
    share, wanted = sown_share(setting, campaign), setting.mended_share
    place = sown_now_place(setting, share)
    if window.operation == "plant":
        sowing = _planting(setting, window, session, place)
    else:
        sowing = _sowing(setting, window, session, place)
    if share < wanted:
        told = (*sowing.cautions, _part(setting, share))
        sowing = replace(sowing, sown_share=share, cautions=told)
    elif _by_one_hose(setting):
        sowing = replace(sowing, sown_share=wanted)
    up = emergence(setting, campaign)
    if up is None:
        return [sowing]
    with_seed = Timing(CARE, session=session, anchor=sowing.id)
    drafts = [sowing]
    wet_clay = setting.book.soils[setting.plot.soil].fine
    if window.operation != "dormant_seed" and not wet_clay:
        why, rolled = Wording(phrases.roll()), place.extent(setting)
        drafts.append(make(setting, "roll", timing=with_seed, wording=why, extent=rolled))
    drafts = _before_water(setting, [*drafts, *_cover(setting, with_seed, place)])
    look = look_days(setting, campaign)
    if look is not None:
        drafts.append(
            look_for_seedlings(setting, replace(with_seed, offset=look.wished), look.last)
        )
    return drafts


def _cover(setting: ResolvedLawn, with_seed: Timing, sown: WorkPlace) -> list[Draft]:
    """The cover of what is sown now, where the ground sheds water."""
    sown_m2 = setting.plot.area_m2 * sown.share
    straw_m2 = min(bank.straw_area_m2(setting), sown_m2)
    if not straw_m2:
        return []
    cover = make(
        setting,
        "cover",
        timing=with_seed,
        wording=_of_cover(setting),
        extent=Extent(straw_m2, where=sown.name if straw_m2 > sown_m2 - HAIR else _steep(setting)),
        facts=("site.slope_cover",),
    )
    return [cover]


def _steep(setting: ResolvedLawn) -> Message:
    """What the steep ground is called that is sown: the parts, of turf that is mended its spots."""
    names = [part.name for part in bank.steep_sown(setting)]
    return these(names) if setting.mended_share >= 1 else spots_of(names)


def _before_water(setting: ResolvedLawn, jobs: list[Draft]) -> list[Draft]:
    """The sowing with what is done before the first water on it: rolled, then covered.

    All of it is done on the days of the seed.
    """
    if len(jobs) < 2:
        return jobs
    days = working_days(setting, sum(job.person_hours for job in jobs))
    seed = jobs[0].id
    return [
        replace(job, duration_days=days, beside=None if job.id == seed else seed) for job in jobs
    ]


def sown_share(setting: ResolvedLawn, campaign: Campaign) -> float:
    """The part of the lawn whose seed or plants can be kept wet by hose; 0 where it is too little.
    It is 1 where nothing is sown.

    Dormant seed is kept wet from the day on which it wakes in spring.
    """
    book, lawn = setting.book, zones(setting.brief.water, setting.book, setting.plot.area_m2)
    window = campaign.sow_window
    if window is None or setting.brief.water.possible is False:
        return 1.0
    late = book.get(of_species(slowest(book, setting.sowing.grasses), "germination_days"))
    days = round(late.high_si if late is not None else book.fact("water.rooting_days").high_si)
    slope = setting.brief.site.slope_percent or 0.0
    intake = intake_of(book, setting.plot.soil, slope, bare=setting.on_open_ground)
    up = emergence(setting, campaign)
    moist_from = window.best + timedelta(0 if up is None else up.wakes)
    wet_day = seedbed_day(book, setting.climate, intake, moist_from, days)
    return kept_wet_share(lawn[0], book, wet_day)


def _of_cover(setting: ResolvedLawn) -> Wording:
    """What is said of the cover: straw, or a mat."""
    if not bank.is_pegged(setting):
        return Wording(phrases.cover())
    return Wording(phrases.cover(), title=phrases.cover_mat_title(), how=(slopes.pegged_mat(),))


def _by_one_hose(setting: ResolvedLawn) -> bool:
    lawn = zones(setting.brief.water, setting.book, setting.plot.area_m2)
    return lawn[0].hose is not None


def _part(setting: ResolvedLawn, share: float) -> Message:
    """What of the lawn is sown now, since one hose waters no more."""
    part = by_hose.hose_part_bare if setting.on_open_ground else by_hose.hose_part
    return part(
        share=Number(share, "percent"),
        area=Quantity(setting.plot.area_m2 * share, "area"),
        hours=Number(hose_hours(setting.brief.water, setting.book), "plain"),
    )


def _planting(setting: ResolvedLawn, window: OpenDays, session: int, place: WorkPlace) -> Draft:
    """The planting of sod, plugs or sprigs on the window's best day."""
    form = setting.brief.seeding.form or _form(setting)
    grass = grass_name(setting.book, setting.sowing.grass.id)
    area_m2 = setting.plot.area_m2 * place.share
    hours = planting_hours(setting, form, area_m2) + wetting_hours(setting, area_m2)
    days = working_days(setting, hours)
    wet = wet_at_once(setting, area_m2, hours, days)
    draft = make(
        setting,
        "plant",
        timing=Timing(SOW, session=session, ideal=window.best.toordinal()),
        wording=Wording(
            phrases.plant(grass=grass),
            {"grass": grass, "form": _FORMS[form](), **_deadline(setting, window)},
            how=(*_how_planted(setting, form, area_m2, days), *wet),
            cautions=(
                *_minded(setting, window),
                *_long_planting(setting, days),
                *_near_trees(setting, form),
            ),
        ),
        extent=replace(place.extent(setting), more_hours=hours),
        facts=WET_FACTS if wet else (),
    )
    return replace(draft, form=form)


def _near_trees(setting: ResolvedLawn, form: PlantForm) -> tuple[Message, ...]:
    """How far holes for plugs and furrows for sprigs go among the roots of trees; sod is laid on
    top."""
    if form == "sod" or not setting.near_trees:
        return ()
    return (book_message(setting.book, "cautions.tree_digging.text"),)


def _long_planting(setting: ResolvedLawn, days: int) -> tuple[Message, ...]:
    """What to do where planting keeps the people at hand busy beyond a week-end."""
    most = round(setting.book.si("work.pass_days_most"))
    if days <= most:
        return ()
    people = setting.labour.people
    needed = math.ceil(people * days / most)
    return (phrases.long_planting(days=days, people=people, needed=needed, most=most),)


def _how_planted(
    setting: ResolvedLawn, form: PlantForm, area_m2: float, days: int
) -> tuple[Message, ...]:
    """How sod is laid, plugs and sprigs are set."""
    if form == "sod":
        return _laid(setting, area_m2, days)
    each = Quantity(area_m2 / days, "area")
    by_day = (phrases.plants_by_day(days=days, area=each),) if days > 1 else ()
    if form == "plugs":
        dry = "how_on_rain" if setting.brief.water.possible is False else "how"
        return (*by_day, *book_messages(setting.book, f"operations.plant.{dry}"))
    depth = setting.book.fact("planting.sprig_depth")
    return (
        *by_day,
        phrases.sprigs_furrows(
            rows=length_mm(sprig_rows_mm(setting), kind="height"),
            least=length_mm(depth.low_si),
            most=length_mm(depth.high_si),
        ),
        phrases.sprigs_on_rain()
        if setting.brief.water.possible is False
        else phrases.sprigs_water(),
    )


def _laid(setting: ResolvedLawn, area_m2: float, days: int) -> tuple[Message, ...]:
    """How sod is laid: by the day, where it takes several; on a bank from its foot, across the
    slope, and pegged.
    """
    by_day = (phrases.sod_by_day(days=days, area=Quantity(area_m2 / days, "area")),)
    steep = (setting.brief.site.slope_percent or 0) / 100 >= setting.book.si("site.slope_cover")
    return (
        *(by_day if days > 1 else ()),
        phrases.sod_ground(),
        phrases.sod_joints(),
        *((phrases.sod_bank(),) if steep else ()),
        phrases.sod_on_rain() if setting.brief.water.possible is False else phrases.sod_water(),
    )


def _sowing(setting: ResolvedLawn, window: OpenDays, session: int, place: WorkPlace) -> Draft:
    """The sowing on the window's best day."""
    book, sown = setting.book, setting.sowing.grass
    grass = seed_name(book, setting.sowing.grasses)
    # The smallest seed says how thinly all of it is covered.
    covers = [of_species(kind, "seed_cover_max") for kind in setting.sowing.grasses]
    cover = min(covers, key=book.si)
    on_rain = setting.brief.water.possible is False
    asleep = window.operation == "dormant_seed" or setting.sowing.intent == "winter_overseed"
    why, late = _why(setting, window), None if asleep else phrases.late()
    if sown.spreads and window.operation == "overseed":
        spreads = phrases.spreads(grass=grass_name(book, sown.id))
        why, late = sentences(why, spreads), late and sentences(late, spreads)
    return make(
        setting,
        window.operation,
        timing=Timing(SOW, session=session, ideal=window.best.toordinal()),
        wording=Wording(
            why,
            {
                "grass": grass,
                "cover": length_mm(book.si(cover), "down"),
                **_deadline(setting, window),
            },
            go=phrases.go_on_rain() if on_rain and not asleep else None,
            cautions=_minded(setting, window),
            why_late=late,
        ),
        extent=place.extent(setting),
        facts=(cover,),
    )


def _why(setting: ResolvedLawn, window: OpenDays) -> Message:
    """Why seed goes in then: a cool-season grass has its second-best time in spring."""
    if window.operation == "dormant_seed":
        open_too = any(
            w.start <= window.end and w.end >= window.start
            for w in setting.open(setting.sowing.operation or "overseed")
        )
        return phrases.dormant_seed_waits() if open_too else phrases.dormant_seed()
    if setting.sowing.intent == "winter_overseed":
        return phrases.overseed_winter()
    spring = setting.sowing.grass.season == "cool" and window.season == "spring"
    if window.operation == "seed" and not setting.on_open_ground:
        return phrases.seed_into()
    cool = heat_of_summer(setting) == 0
    if window.operation == "seed" and spring:
        return phrases.seed_spring_cool() if cool else phrases.seed_spring()
    if window.operation == "seed":
        return phrases.seed()
    if spring:
        return phrases.overseed_spring_cool() if cool else phrases.overseed_spring()
    return phrases.overseed_dense() if setting.turf.condition == "dense" else phrases.overseed()


def _form(setting: ResolvedLawn) -> PlantForm:
    """What is planted where the brief does not say: plugs among living grass, else sod."""
    forms = setting.sowing.grass.plantable
    wanted: PlantForm = "sod" if setting.on_open_ground or "plugs" not in forms else "plugs"
    return wanted if wanted in forms or not forms else forms[0]


def _minded(setting: ResolvedLawn, window: OpenDays) -> tuple[Message, ...]:
    """What is minded at a sowing: the choice of grass, salt, rain, weed killers that hold it."""
    begins = max(setting.first_day, window.start.toordinal())
    held = (hold.why for hold in setting.holds if hold.binds(begins))
    on_rain = (phrases.on_rain(),) if setting.brief.water.possible is False else ()
    pets = (plan_cautions.dogs(),) if setting.brief.site.pets else ()
    minded = (*setting.sowing.cautions, *setting.told_of_shade, *washed_first(setting))
    return (*minded, *pets, *on_rain, *held)


def _deadline(setting: ResolvedLawn, window: OpenDays) -> dict[str, Value]:
    """The last safe day, and what is left after it."""
    if window.after is not None and setting.brief.water.possible is False:
        left = phrases.plan_b_rains(days=window.after)
    elif window.operation == "plant" or not setting.cool:
        left = phrases.plan_b_next_year()
    elif window.season == "spring":
        left = phrases.plan_b_late_summer()
    else:
        asleep = any(setting.open("dormant_seed"))
        left = phrases.plan_b_dormant() if asleep else phrases.plan_b_spring()
    return {"last_safe": Day(window.end), "plan_b": left}
