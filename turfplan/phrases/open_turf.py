"""Messages of `messages/en/open_turf.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Quantity


def spring_coring_warm(*, grass: Message) -> Message:
    """What you said of coring in spring⟦ (`spring_aeration`)⟧ changes nothing: {grass} is cored
    while it grows hard, from late spring on.
    """
    return Message("open_turf.spring_coring.warm", (("grass", grass),))


def spring_coring_open() -> Message:
    """Coring in spring is open, as you said: Iowa State has it in April and September; autumn is
    better, since weeds find holes of spring.
    """
    return Message("open_turf.spring_coring.open")


def spring_coring_left_out() -> Message:
    """No cores are taken in spring, as you said: the work of spring goes on without holes, and the
    next cores are those of autumn. Advice differs by state: Iowa State has April and September,
    Maryland and Kansas late summer and autumn alone.
    """
    return Message("open_turf.spring_coring.left_out")


def spring_coring_closed() -> Message:
    """No cores are taken in spring, as you said; no work of this plan asks for them then."""
    return Message("open_turf.spring_coring.closed")


def mow_low_grown_again() -> Message:
    """The turf grows up again while it closes over the blades' cuts. Where it stands no higher than
    this height now, leave this cut out.
    """
    return Message("open_turf.mow_low.grown_again")


def mow_low_before_mix() -> Message:
    """Low grass shows the bumps and lets the mix be dragged down to the soil."""
    return Message("open_turf.mow_low.before_mix")


def mow_low_before_seed() -> Message:
    """Low grass lets light reach the seedlings."""
    return Message("open_turf.mow_low.before_seed")


def mow_low_before_lifting() -> Message:
    """Short turf lifts and rolls better. What is relaid roots on its leaves: no more than a third
    comes off, and no less than the usual height stays.
    """
    return Message("open_turf.mow_low.before_lifting")


def mow_low_lifting_title(*, height: Quantity) -> Message:
    """Mow the hollows to {height}, bag the clippings"""
    return Message("open_turf.mow_low.lifting_title", (("height", height),))


def mow_low_lifting_how() -> Message:
    """Mow where turf is lifted and a mower's width around it; the rest of the lawn is mown as
    usual.
    """
    return Message("open_turf.mow_low.lifting_how")


def clippings_lifting() -> Message:
    """Bag the clippings: under relaid turf they rot and keep roots from the soil."""
    return Message("open_turf.clippings.lifting")


def clippings_mix() -> Message:
    """Bag the clippings: what stays on top keeps the mix from reaching the soil."""
    return Message("open_turf.clippings.mix")


def clippings_seed() -> Message:
    """Bag the clippings: what stays on top keeps the seed from reaching the soil."""
    return Message("open_turf.clippings.seed")


def clippings_blades() -> Message:
    """Bag the clippings: they clog the blades that follow."""
    return Message("open_turf.clippings.blades")


def dead() -> Message:
    """Nothing roots in a dead mat: seed and plants need soil."""
    return Message("open_turf.dead")


def dead_title() -> Message:
    """Take the dead turf off the spots"""
    return Message("open_turf.dead_title")


def dead_moss_title() -> Message:
    """Take the dead turf and the moss off"""
    return Message("open_turf.dead_moss_title")


def moss_off() -> Message:
    """Rake the moss off down to the soil, with a steel rake or a dethatcher, wherever seed or
    plants go in, and take it away: it comes back where grass does not cover the ground within
    weeks.
    """
    return Message("open_turf.moss_off")


def dead_rake() -> Message:
    """Where grass is dead, rake the mat off down to the soil with a steel rake, or skim it off;
    pull at the edge until it holds.
    """
    return Message("open_turf.dead_rake")


def dead_loosen() -> Message:
    """Loosen the soil of the spots a finger deep, break crumbs, and level them with the ground
    around.
    """
    return Message("open_turf.dead_loosen")


def dead_leave() -> Message:
    """Leave what is only thin or brown but holds to the ground: it comes back."""
    return Message("open_turf.dead_leave")


def dead_go() -> Message:
    """Brown mats that come off without roots; ground moist, not wet."""
    return Message("open_turf.dead_go")


def dead_fallback() -> Message:
    """Too wet: on the next free day, still before seed or plants."""
    return Message("open_turf.dead_fallback")


def raise_fittings() -> Message:
    """Where the fill is deepest it would bury what stands level with the lawn."""
    return Message("open_turf.raise_fittings")


def lift_and_fill(*, n: int, depth: Quantity) -> Message:
    """These hollows are deeper than {n} passes of {depth}, through which this grass grows: turf
    that is lifted and laid back has nothing to grow through.
    """
    return Message("open_turf.lift_and_fill", (("n", n), ("depth", depth)))


def lift_and_fill_borne() -> Message:
    """Passes over these hollows have no season in time: turf that is lifted and laid back has
    nothing to grow through.
    """
    return Message("open_turf.lift_and_fill_borne")


def sponge(*, thatch: Quantity, limit: Quantity, work: Listed, source: Message) -> Message:
    """Thatch of {thatch} is a sponge for this grass: from {limit} on nothing is {work} on it
    ({source}). The mix would sink and the lawn stay soft; roots would stay in the thatch.
    """
    return Message(
        "open_turf.sponge",
        (("thatch", thatch), ("limit", limit), ("work", work), ("source", source)),
    )


def sponge_levelled() -> Message:
    """leveled"""
    return Message("open_turf.sponge.levelled")


def sponge_sown() -> Message:
    """sown"""
    return Message("open_turf.sponge.sown")


def dethatch(*, thatch: Quantity) -> Message:
    """Thatch of {thatch} keeps the mix and the seed from the soil."""
    return Message("open_turf.dethatch", (("thatch", thatch),))


def dethatch_unsown(*, thatch: Quantity) -> Message:
    """Thatch of {thatch} keeps the mix from the soil."""
    return Message("open_turf.dethatch.unsown", (("thatch", thatch),))


def dethatch_once() -> Message:
    """Set the blades to touch the soil surface lightly; go over it once, in one direction."""
    return Message("open_turf.dethatch.once")


def dethatch_ahead() -> Message:
    """It is taken down in a season of its own: blades, cores and a layer in one week would be too
    much for this grass, and it heals before the fill.
    """
    return Message("open_turf.dethatch.ahead")


def mow_low_before_blades() -> Message:
    """Blades reach the thatch only through short grass."""
    return Message("open_turf.mow_low.before_blades")


def dethatch_by_rake() -> Message:
    """Use a rake or a light setting only: this grass does not bear a power rake."""
    return Message("open_turf.dethatch.by_rake")


def dethatch_creeper() -> Message:
    """Cut vertically in two directions, with blades {1 to 2 in|25 to 50 mm} apart that just reach
    the soil: runners grow together again in the weeks before the first pass.
    """
    return Message("open_turf.dethatch.creeper")


def dethatch_clear() -> Message:
    """Rake up and remove everything that comes out."""
    return Message("open_turf.dethatch.clear")


def core_aerate() -> Message:
    """The holes let the mix, water and roots down; once before the first pass of a season."""
    return Message("open_turf.core_aerate")


def core_aerate_for_seed() -> Message:
    """The holes let water and roots down, and what seed falls into them lies moist; once before the
    seed.
    """
    return Message("open_turf.core_aerate_for_seed")


def plugs_remove() -> Message:
    """Rake up and remove the plugs: they are finer than the sand that goes into the holes."""
    return Message("open_turf.plugs.remove")


def plugs_leave() -> Message:
    """Let the plugs dry, break them up with a rake or the mower and leave them: they are your own
    soil.
    """
    return Message("open_turf.plugs.leave")


def dry_soil() -> Message:
    """Dry soil: water it one or two days before."""
    return Message("open_turf.dry_soil")


def dry_soil_fine() -> Message:
    """Dry soil: water it one or two days before, but clay never the night before."""
    return Message("open_turf.dry_soil_fine")


def dry_soil_law() -> Message:
    """Dry soil: water on the last open day before it, or core on the day after one."""
    return Message("open_turf.dry_soil_law")


def dry_soil_law_fine() -> Message:
    """Dry soil: water on the last open day before it, or core on the day after one, but water clay
    never the night before.
    """
    return Message("open_turf.dry_soil_law_fine")


def dry_soil_rain() -> Message:
    """Dry soil: wait for rain, nobody waters here."""
    return Message("open_turf.dry_soil_rain")


def mow_low_warm_go() -> Message:
    """Grass dry and growing; no drought."""
    return Message("open_turf.mow_low.warm_go")


def mow_low_warm_fallback() -> Message:
    """Dry or not growing: leave the blade up and wait for the next free day."""
    return Message("open_turf.mow_low.warm_fallback")


def septic_field() -> Message:
    """Septic field: hand tools only over it; no machine, no deep tines."""
    return Message("open_turf.septic_field")


def tree_roots() -> Message:
    """Keep tines off surface roots; within the root zone go shallow or not at all."""
    return Message("open_turf.tree_roots")


def black_moss(*, day: Day) -> Message:
    """Moss that was treated on {day} is black two to three weeks later: left in, it lies as a wet
    mat on what grass there is.
    """
    return Message("open_turf.black_moss", (("day", day),))


def black_moss_seed() -> Message:
    """Nothing is sown in this plan: what the moss leaves bare, moss or weeds take again. Seed it as
    soon as the season allows: ask the plan for overseeding⟦ (`intent = \"overseed\"` under
    `[seeding]`)⟧.
    """
    return Message("open_turf.black_moss_seed")


def moss_treated_off() -> Message:
    """Moss that was treated comes off once it is black (a task of its own); green moss stays where
    it lies.
    """
    return Message("open_turf.moss_treated_off")


def moss_until_seed() -> Message:
    """Leave the moss itself where it lies until the week of the seed: raked off earlier it leaves
    bare ground to weeds and rain.
    """
    return Message("open_turf.moss_until_seed")


def moss_no_seed() -> Message:
    """Leave the moss itself where it lies as long as nothing is sown there: raked off it leaves
    bare ground to weeds and rain. Where grass is thin, ask for seed with it⟦ (`intent =
    \"overseed\"` under `[seeding]`)⟧.
    """
    return Message("open_turf.moss_no_seed")
