"""Ways out where the ground decides: what is in the soil, too little light, thatch, salt."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import TypeVar

from turfplan.book.words import grass_name
from turfplan.message import Days, Message, Number, as_written, length_mm, listed
from turfplan.phrases import ways_out as phrases
from turfplan.phrases.weed_killers import pot_passed
from turfplan.planning.changed_briefs import (
    ChangedBrief,
    from_then_on,
    next_year,
    with_part,
    written,
)
from turfplan.records.book_names import PlantForm, option_of_species
from turfplan.records.brief import Brief, Intent, LawnPart, Shape
from turfplan.work.drafts import OpenDays
from turfplan.work.grass_for_place import MOST_NAMED, grasses_instead
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.light import Light, hours_of
from turfplan.work.salt_holds import bearing_grasses, bearing_plants, surely_borne, too_salty
from turfplan.work.thatch import strip_limit_here

_Bare = TypeVar("_Bare", LawnPart, Shape)


def by_the_ground(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Every way that begins with the ground, nearest to the wish first."""
    yield from _with_a_pot_test(brief, setting)
    yield from _with_a_grass_that_lives(brief, setting)
    yield from _with_more_sun(brief, setting)
    yield from _without_thatch(brief, setting)
    yield from _with_less_salt(brief, setting)


def _with_a_pot_test(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Where something in the soil lets nothing grow: seed once it has grown in a pot of it."""
    if not any(hold.until is None for hold in setting.holds):
        return
    start = max(setting.today, brief.season.start or setting.today)
    after = start + timedelta(days=round(setting.book.si("site.pot_test")))
    waiting = {hold.number for hold in setting.holds if hold.until is None}
    uses = tuple(
        use.model_copy(update={"seed_after": after}) if number in waiting else use
        for number, use in enumerate(brief.history.herbicides, 1)
    )
    yield ChangedBrief(
        pot_passed(),
        as_written(f"seed_after = {after}"),
        with_part(brief, "history", herbicides=uses),
    )


def _with_a_grass_that_lives(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Where what is bought does not live: grasses that do, in the way that each is bought."""
    light, sowing = setting.plot.light, setting.sowing
    # A winter's cover need not live through the summer; another lawn is no green winter.
    if sowing.intent == "winter_overseed":
        return
    if light is None or light.dark or all(light.lives(grass) for grass in sowing.grasses):
        return
    if not light.watered:
        yield ChangedBrief(
            phrases.water_it(),
            as_written("possible = true"),
            with_part(brief, "water", possible=True),
        )
    without = _without_own_grass(brief, light)
    if without is not None:
        yield without
        return
    season = setting.book.species[brief.dominant.species].season
    for other in grasses_instead(light, season)[:MOST_NAMED]:
        lines, changed = _sown_with(brief, setting, other)
        title = phrases.living_grass(grass=grass_name(setting.book, other))
        yield ChangedBrief(title, as_written(lines), changed, another_lawn=True)


def _without_own_grass(brief: Brief, light: Light) -> ChangedBrief | None:
    """A brief whose parts and shapes have no grass of their own that does not live here; None where
    there is none of these."""
    lawn = brief.lawn
    parts = tuple(_dead_grass_out(piece, light) for piece in lawn.part)
    shapes = tuple(_dead_grass_out(piece, light) for piece in lawn.shape)
    if parts == lawn.part and shapes == lawn.shape:
        return None
    table = "lawn.shape.grass" if parts == lawn.part else "lawn.part.grass"
    return ChangedBrief(
        phrases.no_own_grass(),
        phrases.leave_out(table=table),
        brief.model_copy(update={"lawn": lawn.model_copy(update={"part": parts, "shape": shapes})}),
    )


def _dead_grass_out(piece: _Bare, light: Light) -> _Bare:
    """A piece of the lawn without a grass of its own that does not live here."""
    if piece.grass is None or light.lives(piece.grass):
        return piece
    return piece.model_copy(update={"grass": None})


def _sown_with(brief: Brief, setting: ResolvedLawn, other: str) -> tuple[str, Brief]:
    """A brief with another grass, and how the brief says so: what grows there is killed and cleared
    where it is no grass of this lawn's season."""
    entry = setting.book.species[other]
    stays = setting.cool == (entry.season == "cool")
    asked, bare = brief.seeding.intent, setting.turf.condition == "bare"
    planted = (asked == "plant" and bool(entry.plantable)) or not entry.seedable
    intent: Intent = asked
    # What stands dense leaves no room for plants of another grass among it.
    room = stays and not (planted and setting.turf.condition == "dense")
    if not (room or bare):
        intent = "renovate"
    elif planted:
        intent = "plant"
    elif asked == "plant" or (asked == "dormant" and entry.season == "warm"):
        intent = "overseed" if bare else "renovate"
    form: PlantForm | None = None
    if intent == "renovate" and planted:
        form = "sod" if "sod" in entry.plantable else entry.plantable[0]
    changed = with_part(brief, "seeding", species=other, intent=intent, form=form)
    lines = f'species = "{other}", intent = "{intent}"'
    return lines if form is None else f'{lines}, form = "{form}"', changed


def _with_more_sun(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Where it is too dark for what is sown: another grass, other plants, or more light."""
    light, grass = setting.plot.light, setting.turf.species
    if light is None or setting.sowing.refused is None or light.hours is None:
        return
    for other in light.others(grass.season) if not light.dark else ():
        entry, name = setting.book.species[other], grass_name(setting.book, other)
        intent = brief.seeding.intent
        if not entry.seedable or (intent == "plant" and entry.plantable):
            intent = "plant"
        yield ChangedBrief(
            phrases.other_grass(grass=name),
            as_written(f'species = "{other}", intent = "{intent}"'),
            with_part(brief, "seeding", species=other, intent=intent, form=None),
        )
    needed = max(light.least_h, light.needs_h(setting.sowing.grass.id))
    if light.hours < needed:
        yield ChangedBrief(
            phrases.more_sun(hours=hours_of(needed)),
            as_written(f"sun_hours = {needed:g}"),
            with_part(brief, "site", sun_hours=needed, shade_hours=None),
        )


def _without_thatch(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """The two ways with turf that is a sponge: strip it, or take the thatch down for a season and
    level it then.
    """
    book, thatch, grass = setting.book, brief.lawn.thatch_mm, setting.turf.species
    sponge = thatch is not None and thatch >= book.si(strip_limit_here(setting.brief, book)) - 1e-6
    if not sponge or brief.lawn.condition == "bare":
        return
    yield ChangedBrief(
        phrases.strip_turf(),
        as_written('intent = "renovate"'),
        with_part(brief, "seeding", intent="renovate"),
    )
    if grass.dethatch != "never":
        start, seasons = _after_a_season(brief, setting)
        left, depth = written(book.si("dethatch.limit"), setting.system)
        lighter = with_part(brief, "lawn", thatch_mm=left)
        yield ChangedBrief(
            _thatch_first(setting, seasons),
            from_then_on(brief, f'from = {start}, thatch = "{depth}"'),
            with_part(lighter, "season", start=start, until=None),
        )


def _after_a_season(brief: Brief, setting: ResolvedLawn) -> tuple[date, list[OpenDays]]:
    """The start of the next growing year before which a season for the thatch is over, and the
    seasons that are; without one the first such start."""
    start = next_year(brief, setting)
    for begins in (start, start.replace(year=start.year + 1)):
        seasons = [w for w in setting.open("dethatch") if setting.today <= w.end < begins]
        if seasons:
            return begins, seasons
    return start.replace(year=start.year + 1), []


def _thatch_first(setting: ResolvedLawn, seasons: Sequence[OpenDays]) -> Message:
    """Taking the thatch down in the seasons that this grass has for it before its turf is worked;
    with blades set wide apart where its runners bear no others."""
    grass = setting.turf.species
    apart = setting.book.known(option_of_species(grass.id, "dethatch_spacing"))
    if grass.dethatch == "wide" and apart is not None:
        spacing = length_mm(setting.book.si(apart))
        if not seasons:
            return phrases.thatch_cut_next(spacing=spacing)
        wide = (Days(max(w.start, setting.today), w.end, weekday=False) for w in seasons)
        return phrases.thatch_cut(spacing=spacing, days=listed(wide, "and"))
    if not seasons:
        return phrases.thatch_first_next()
    spans = (Days(max(w.start, setting.today), w.end, weekday=False) for w in seasons)
    return phrases.thatch_first(days=listed(spans, "and"))


def _with_less_salt(brief: Brief, setting: ResolvedLawn) -> Iterator[ChangedBrief]:
    """Where salt kills what is sown: washed out and tested again, or grasses that bear it."""
    if too_salty(setting) is None:
        return
    book, most = setting.book, surely_borne(setting, setting.sowing.grass.id)
    yield ChangedBrief(
        phrases.wash_out(
            most=Number(most, "plain"),
            half=length_mm(book.si("salt.leach_half")),
            water=length_mm(book.si("salt.leach_most")),
            depth=length_mm(book.si("salt.leach_depth")),
        ),
        as_written(f'salts = "{most:g} dS/m"'),
        with_part(brief, "soil_test", salts_ds_m=most),
        another_lawn=True,
    )
    seeded = bearing_grasses(setting)
    for other in seeded:
        yield ChangedBrief(
            phrases.salt_grass(grass=grass_name(book, other)),
            as_written(f'species = "{other}"'),
            with_part(brief, "seeding", species=other),
            another_lawn=True,
        )
    for other in () if seeded else bearing_plants(setting)[:MOST_NAMED]:
        planted = with_part(brief, "seeding", intent="plant")
        lines, changed = _sown_with(planted, setting, other)
        title = phrases.salt_plants(grass=grass_name(book, other))
        yield ChangedBrief(title, as_written(lines), changed, another_lawn=True)
