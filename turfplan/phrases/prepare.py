"""Messages of `messages/en/prepare.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message


def cause_moles() -> Message:
    """Moles are still at work: what is filled is lifted again."""
    return Message("prepare.cause.moles")


def cause_traffic() -> Message:
    """Feet or wheels pressed the ground down: they press the same tracks into loose fill, and shift
    turf that has not rooted.
    """
    return Message("prepare.cause.traffic")


def traffic_title() -> Message:
    """Lead the traffic elsewhere before anything is filled"""
    return Message("prepare.traffic.title")


def traffic_lead() -> Message:
    """Fence off or block the way that feet, bicycles or wheels take, and give them another that is
    nearer or firmer.
    """
    return Message("prepare.traffic.lead")


def traffic_firm() -> Message:
    """Where the way has to stay, make it firm first: stepping stones or a path on a base of its
    own, level with the lawn; that strip is not filled as turf.
    """
    return Message("prepare.traffic.firm")


def traffic_cleared() -> Message:
    """Keep the fence until what is filled has been grown over, relaid turf has rooted, and what is
    sown or planted bears it; once nobody goes there, tell the plan⟦ (`cleared` under `[site]`)⟧.
    """
    return Message("prepare.traffic.cleared")


def cause_trench() -> Message:
    """The dip follows a trench or pipe: it settles again until the cause is mended."""
    return Message("prepare.cause.trench")


def cause_stump() -> Message:
    """A rotting stump goes on sinking: dig it out or fill again every year."""
    return Message("prepare.cause.stump")


def cause_worms() -> Message:
    """Worm casts make the bumps: they come back; brush dry casts in rather than rolling."""
    return Message("prepare.cause.worms")


def cause_settling() -> Message:
    """Builder's fill is still settling."""
    return Message("prepare.cause.settling")


def cause_frost() -> Message:
    """Frost heave comes back where water stands: look at the drainage first."""
    return Message("prepare.cause.frost")


def cause_thatch() -> Message:
    """The sponge is thatch: a layer over it does not make it firm."""
    return Message("prepare.cause.thatch")


def cause_construction() -> Message:
    """Builder's rubble or fill lies below: see what is there first."""
    return Message("prepare.cause.construction")


def cause_unknown() -> Message:
    """Nobody knows yet why the ground is uneven."""
    return Message("prepare.cause.unknown")


def bare_holes() -> Message:
    """Dig a spade-deep hole in three of the worst spots: look for rubble, a rotten root, a trench
    line, a hard layer; water standing a day after rain means drainage.
    """
    return Message("prepare.bare.holes")


def bare_below() -> Message:
    """Ask what lies below: pipes, an old stump, builder's fill, and what was poured or washed out
    there.
    """
    return Message("prepare.bare.below")


def soil_test() -> Message:
    """Lime, phosphorus and potassium are given by test alone, and the laboratory needs weeks."""
    return Message("prepare.soil_test")


def topsoil_test() -> Message:
    """The new grass will root in the topsoil that is brought in, not in what lies below it: its pH,
    its salts and its nutrients decide, and a test of the old soil says nothing of them.
    """
    return Message("prepare.topsoil_test")


def topsoil_test_title() -> Message:
    """Have the topsoil tested before you order it"""
    return Message("prepare.topsoil_test_title")


def topsoil_test_ask() -> Message:
    """Ask each supplier for a test of the heap that you would get: pH, soluble salts, phosphorus,
    potassium, organic matter and texture, not older than a year.
    """
    return Message("prepare.topsoil_test_ask")


def topsoil_test_sample() -> Message:
    """Where there is none, take a handful from ten places of the heap, mix them, and send the
    sample to a laboratory yourself.
    """
    return Message("prepare.topsoil_test_sample")


def topsoil_test_write() -> Message:
    """Give the plan what it found, as the test of the topsoil⟦ (`of = \"topsoil\"` under
    `[soil_test]`)⟧: lime, phosphate and potash then go into the last lift.
    """
    return Message("prepare.topsoil_test_write")


def topsoil_test_go() -> Message:
    """You know who could deliver."""
    return Message("prepare.topsoil_test_go")


def topsoil_test_fallback() -> Message:
    """No answer: ask another supplier rather than order untested soil."""
    return Message("prepare.topsoil_test_fallback")


def soil_questions() -> Message:
    """The soil test leaves something open, and lime, phosphorus, potassium or seed wait for the
    answer.
    """
    return Message("prepare.soil_questions")


def soil_questions_title() -> Message:
    """Ask the laboratory about the soil test"""
    return Message("prepare.soil_questions_title")


def soil_questions_go() -> Message:
    """The report is at hand."""
    return Message("prepare.soil_questions_go")


def soil_questions_fallback() -> Message:
    """If the laboratory cannot say, take a new sample and ask for it with that."""
    return Message("prepare.soil_questions_fallback")


def ask_organic() -> Message:
    """Say that it is peat: organic soil has lime rates and ranges of its own."""
    return Message("prepare.ask_organic")


def ask_free_lime() -> Message:
    """Ask for free lime (carbonates) too: with it in the soil neither lime nor sulfur is of use."""
    return Message("prepare.ask_free_lime")


def marks_tines() -> Message:
    """Tines and blades meet what is buried; each job needs its own request."""
    return Message("prepare.marks.tines")


def marks_spade() -> Message:
    """The spade meets what is buried; each job needs its own request."""
    return Message("prepare.marks.spade")


def marks_spade_title() -> Message:
    """Ask for marks where turf is lifted"""
    return Message("prepare.marks.spade_title")


def marks_cause_title() -> Message:
    """Ask for marks where the cause is dug for"""
    return Message("prepare.marks.cause_title")


def marks_title() -> Message:
    """Ask for utility marks"""
    return Message("prepare.marks.title")


def marks_ask_us() -> Message:
    """Ask for the marks (call 811, or ask on its pages): write down the ticket number and the day
    it ends; each job needs a new request.
    """
    return Message("prepare.marks.ask_us")


def marks_ask_elsewhere() -> Message:
    """Ask the inquiry service for buried lines in your country, or the owners of the lines, for
    plans or marks: write down the number of the request; each job needs a new one.
    """
    return Message("prepare.marks.ask_elsewhere")


def marks_hold_here(*, n: int) -> Message:
    """A request holds {n} days here."""
    return Message("prepare.marks.hold_here", (("n", n),))


def marks_hold_unknown() -> Message:
    """How long a request holds differs, often two to four weeks: ask."""
    return Message("prepare.marks.hold_unknown")


def marks_own_sprinklers() -> Message:
    """The marks cover only what the utilities own: flag sprinkler heads and lines, valve boxes, dog
    fence, lighting cable and septic parts yourself.
    """
    return Message("prepare.marks.own_sprinklers")


def marks_own_lines() -> Message:
    """The marks cover only what the utilities own: flag drains, dog fence, lighting cable and
    septic parts yourself.
    """
    return Message("prepare.marks.own_lines")


def marks_again_title() -> Message:
    """Ask for the marks again"""
    return Message("prepare.marks.again_title")


def marks_again() -> Message:
    """The first request runs out before the work in the ground is surely over: marks are asked for
    anew.
    """
    return Message("prepare.marks.again")


def marks_renewed() -> Message:
    """The job takes longer than a request for marks holds: marks are asked for anew, early enough
    to lie before the last request runs out.
    """
    return Message("prepare.marks.renewed")


def marks_begin() -> Message:
    """A request for marks runs out: the job begins while the first one holds, and goes on under the
    next.
    """
    return Message("prepare.marks.begin")


def marks_plugs_title() -> Message:
    """Ask for marks where plugs are set"""
    return Message("prepare.marks.plugs_title")


def irrigation_check() -> Message:
    """The new seed lives on measured water: find leaks and the minutes before it is sown."""
    return Message("prepare.irrigation_check")


def irrigation_check_passes() -> Message:
    """Each layer, and the seed after the last, lives on measured water: find leaks and the minutes
    before the first.
    """
    return Message("prepare.irrigation_check_passes")


def irrigation_check_relaid() -> Message:
    """Relaid turf lives on measured water until it roots: find leaks and the minutes before it is
    lifted.
    """
    return Message("prepare.irrigation_check_relaid")


def irrigation_check_plants() -> Message:
    """New plants live on measured water: find leaks and the minutes before they are laid or set."""
    return Message("prepare.irrigation_check_plants")


def permit() -> Message:
    """The allowed watering days are fewer than seed or new plants need."""
    return Message("prepare.permit")


def permit_killed_go() -> Message:
    """The old stand still lives, and nothing is bought yet."""
    return Message("prepare.permit_killed_go")


def permit_fallback() -> Message:
    """No permit, no seed and no plants: tell the plan that there is none⟦ (`permit = false`)⟧. Kill
    and strip nothing; here no seed waits in the ground for spring, so the way out is to keep the
    lawn as it is⟦ (`intent = \"none\"`)⟧.
    """
    return Message("prepare.permit_fallback")


def permit_hours() -> Message:
    """Watering is allowed in the dark alone, and what is young dries by day."""
    return Message("prepare.permit_hours")


def permit_hours_title() -> Message:
    """Ask for watering hours by day"""
    return Message("prepare.permit_hours_title")


def permit_hours_fallback() -> Message:
    """Refused: water as the calendar says, once before dawn and once at dusk; seed under mulch
    bears it better, and comes up thinner all the same.
    """
    return Message("prepare.permit_hours_fallback")


def permit_relaid() -> Message:
    """The allowed watering days are fewer than relaid turf needs until it has rooted."""
    return Message("prepare.permit_relaid")


def permit_relaid_go() -> Message:
    """No turf is lifted yet."""
    return Message("prepare.permit_relaid_go")


def permit_relaid_fallback() -> Message:
    """No permit: tell the plan that there is none⟦ (`permit = false`)⟧; no turf is lifted then, and
    passes fill what they can.
    """
    return Message("prepare.permit_relaid_fallback")


def weed_control() -> Message:
    """Weeds that stand now would have the prepared soil before the seed."""
    return Message("prepare.weed_control")


def order_days(*, n: int) -> Message:
    """One order, {n} deliveries: agree on the day of each now, so that no heap lies longer than it
    keeps.
    """
    return Message("prepare.order_days", (("n", n),))


def order_material() -> Message:
    """Dry, screened material is not in every yard: ask and order in time."""
    return Message("prepare.order_material")


def cause_over(*, over: Message, cause: str) -> Message:
    """It is over when {over}. Tell the plan then that this job is done, or that {cause} is cleared⟦
    (`cleared` under `[site]`)⟧.
    """
    return Message("prepare.cause.over", (("over", over), ("cause", cause)))


def cause_alive() -> Message:
    """Still alive: tell the plan⟦ (`turfplan log BRIEF measured live_cause 1`)⟧: order, fill and
    seed wait until it is over⟦; with 0 they go on⟧.
    """
    return Message("prepare.cause.alive")


def insects_again() -> Message:
    """Weeks have gone by since the first look, and chinch bugs and caterpillars come in hot, dry
    weeks: what is there now eats the new grass first.
    """
    return Message("prepare.insects_again")


def insects_again_title() -> Message:
    """Look for insects again before you sow or plant"""
    return Message("prepare.insects_again_title")


def insects_treat() -> Message:
    """Where some are found, treat what is there by its label, wait until it says people and water
    may be on it again, and put seed or plants off until then; cut sod is put off before it is cut.
    """
    return Message("prepare.insects_treat")


def insects_go() -> Message:
    """It is warm and dry, in the sun."""
    return Message("prepare.insects_go")


def insects_fallback() -> Message:
    """Cool or wet: the first warm day after it, before seed or plants go in."""
    return Message("prepare.insects_fallback")


def cause_grubs_hatched_title() -> Message:
    """Grubs: count those that have hatched"""
    return Message("prepare.cause.grubs_hatched_title")


def cause_grubs_hatched() -> Message:
    """The beetles have laid since the first count: the grubs that are small now are those that
    would eat the new roots.
    """
    return Message("prepare.cause.grubs_hatched")


def seen_growth() -> Message:
    """It shows only while the grass grows: in turf at rest everything looks dead."""
    return Message("prepare.seen_growth")


def seen_warmth() -> Message:
    """Insects that eat grass are at work, and can be found, from warm weeks in spring to autumn: a
    look in the cold finds nothing, and says nothing.
    """
    return Message("prepare.seen_warmth")


def seen_surface() -> Message:
    """Grubs are near the surface in spring and from August to autumn; in winter they lie deep, in
    early summer they are beetles and eggs (half a year later south of the equator).
    """
    return Message("prepare.seen_surface")


def seen_from(*, cause: Message, day: Day, why: Message) -> Message:
    """The look for {cause} is from {day} on, and what it holds waits for it. {why}"""
    return Message("prepare.seen_from", (("cause", cause), ("day", day), ("why", why)))


def cause_left() -> Message:
    """Not put right yet: tell the plan⟦ (`turfplan log BRIEF measured cause_left 1`)⟧: order, fill
    and seed wait until it is⟦; with 0 they go on⟧.
    """
    return Message("prepare.cause.left")


def cause_again() -> Message:
    """The cause was found still at work: what is put over it now is lost."""
    return Message("prepare.cause.again")


def cause_again_title() -> Message:
    """Look again whether the cause is over"""
    return Message("prepare.cause.again_title")


def cause_again_how() -> Message:
    """Go to the same spots and look for what you found before, and for new damage since."""
    return Message("prepare.cause.again_how")


def waits(*, causes: Listed) -> Message:
    """Held until it is answered: {causes} as the cause of thin grass. Until somebody has looked, no
    fill or seed is ordered, no fill is spread, and nothing is sown or planted; samples, lime and
    feedings do not wait for it.
    """
    return Message("prepare.waits", (("causes", causes),))


def waits_bare(*, causes: Listed) -> Message:
    """Held until it is answered: {causes} as the reason why no grass stands there. Until somebody
    has looked, no fill or seed is ordered, no fill is spread, and nothing is sown or planted;
    samples and lime do not wait for it.
    """
    return Message("prepare.waits_bare", (("causes", causes),))


def waits_unknown() -> Message:
    """Held until it is answered: why the grass is thin, which nobody knows yet. Until somebody has
    looked, no fill or seed is ordered, no fill is spread, and nothing is sown or planted; samples,
    lime and feedings do not wait for it.
    """
    return Message("prepare.waits_unknown")


def waits_bare_unknown() -> Message:
    """Held until it is answered: why no grass stands there, which nobody knows yet. Until somebody
    has looked, no fill or seed is ordered, no fill is spread, and nothing is sown or planted;
    samples and lime do not wait for it.
    """
    return Message("prepare.waits_bare_unknown")


def waits_bumps() -> Message:
    """Held until it is answered: the cause of the bumps. Until somebody has looked, no fill is
    ordered or spread.
    """
    return Message("prepare.waits_bumps")


def waits_known(*, causes: Listed) -> Message:
    """It is answered whether it is {causes} that thins the grass"""
    return Message("prepare.waits_known", (("causes", causes),))


def waits_bare_known(*, causes: Listed) -> Message:
    """It is answered whether {causes} is why no grass stands there"""
    return Message("prepare.waits_bare_known", (("causes", causes),))


def waits_unknown_known() -> Message:
    """It is known why the grass is thin"""
    return Message("prepare.waits_unknown_known")


def waits_bare_unknown_known() -> Message:
    """It is known why no grass stands there"""
    return Message("prepare.waits_bare_unknown_known")


def waits_bumps_known() -> Message:
    """The cause of the bumps is known"""
    return Message("prepare.waits_bumps_known")


def waits_again_known(*, day: Day) -> Message:
    """Another look, on {day} or later, found the cause over"""
    return Message("prepare.waits_again_known", (("day", day),))


def waits_again(*, day: Day) -> Message:
    """A cause was found still at work: order, fill and seed wait for another look, on {day} or
    later.
    """
    return Message("prepare.waits_again", (("day", day),))


def ask_thin_cause() -> Message:
    """Nobody said why the grass is thin: look for salt, shade, packed soil, grubs or other insects,
    disease, drought, dogs, moss, traffic or a spill before you buy seed, and tell the plan what you
    find⟦ (`thin_cause` under `[site]`)⟧.
    """
    return Message("prepare.ask_thin_cause")


def heap_again() -> Message:
    """The heap is looked at again before its pass: it has lain longer than a heap keeps, or nobody
    said that it was dry. What is lumpy, sour or full of roots is not spread.
    """
    return Message("prepare.heap_again")


def prepared_again() -> Message:
    """It was done for a pass that did not come in time: the grass has grown back and the holes have
    closed since, so it is done again.
    """
    return Message("prepare.prepared_again")
