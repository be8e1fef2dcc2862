"""Messages of `messages/en/feeding.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import DateInYear, Day, Listed, Message, Number, Quantity


def blackout_own(*, first: DateInYear, last: DateInYear) -> Message:
    """no nitrogen from {first} to {last} by the local rules that were given"""
    return Message("feeding.blackout.own", (("first", first), ("last", last)))


def blackout_state(*, first: DateInYear, last: DateInYear, state: str) -> Message:
    """no nitrogen from {first} to {last} in {state}"""
    return Message("feeding.blackout.state", (("first", first), ("last", last), ("state", state)))


def blackout_ask_elsewhere() -> Message:
    """Rules for fertilizer are local: ask your authority on which dates none may be given and how
    far from water to stay, and tell the plan both⟦ (`[local]` in the brief)⟧.
    """
    return Message("feeding.blackout.ask_elsewhere")


def blackout_none_assumed() -> Message:
    """No such dates and distances are assumed here."""
    return Message("feeding.blackout.none_assumed")


def blackout_common(*, first: DateInYear, last: DateInYear) -> Message:
    """no nitrogen from {first} to {last}, as is common here though not everywhere"""
    return Message("feeding.blackout.common", (("first", first), ("last", last)))


def blackout_ask() -> Message:
    """Rules for fertilizer are local: ask the state, the county and the town on which dates none
    may be given and how far from water to stay, and tell the plan both⟦ (`[local]` in the brief)⟧.
    """
    return Message("feeding.blackout.ask")


def blackout_common_here(*, first: DateInYear, last: DateInYear, source: Message) -> Message:
    """Common here, though not everywhere: no nitrogen from {first} to {last} ({source}). Until you
    say what holds⟦ (`nitrogen_blackouts` in the brief, an empty list where none does)⟧ this plan
    feeds outside these days.
    """
    return Message(
        "feeding.blackout.common_here", (("first", first), ("last", last), ("source", source))
    )


def blackout_confirm(*, blackout: Message, source: Message) -> Message:
    """The state's rule as we read it: {blackout} ({source}). Confirm it where you live, and tell
    the plan what holds there⟦ (`[local]` in the brief)⟧; it keeps to this until you do.
    """
    return Message("feeding.blackout.confirm", (("blackout", blackout), ("source", source)))


def limit_total(*, rate: Quantity) -> Message:
    """{rate} of nitrogen"""
    return Message("feeding.limit.total", (("rate", rate),))


def limit_quick(*, rate: Quantity) -> Message:
    """{rate} of quick nitrogen"""
    return Message("feeding.limit.quick", (("rate", rate),))


def limit_state(*, limits: Listed, source: Message) -> Message:
    """The most that the state lets anyone give at once, as a starter too, as we read it: {limits}
    ({source}). Confirm it where you live.
    """
    return Message("feeding.limit.state", (("limits", limits), ("source", source)))


def limit_slow(*, share: Number) -> Message:
    """Choose products that release {share} or more of their nitrogen slowly."""
    return Message("feeding.limit.slow", (("share", share),))


def blackout_brief() -> Message:
    """what you said"""
    return Message("feeding.blackout.brief")


def against_blackout(*, blackout: Message, source: Message) -> Message:
    """{blackout} ({source})"""
    return Message("feeding.against.blackout", (("blackout", blackout), ("source", source)))


def against_heat(*, air: Quantity, source: Message) -> Message:
    """cool-season grass burns in summer heat, and the usual mean of that day is {air} ({source})"""
    return Message("feeding.against.heat", (("air", air), ("source", source)))


def against_rest(*, source: Message) -> Message:
    """grass hardly grows then and cannot use it ({source})"""
    return Message("feeding.against.rest", (("source", source),))


def against_day(*, task: Message, day: Day, why: Message) -> Message:
    """“{task}” on {day}: {why}."""
    return Message("feeding.against.day", (("task", task), ("day", day), ("why", why)))


def left_out_blackout(*, blackouts: Listed) -> Message:
    """The whole window lies in a blackout: {blackouts}."""
    return Message("feeding.left_out.blackout", (("blackouts", blackouts),))


def quiet_unbought() -> Message:
    """Nothing is in the house to feed with until a shop is open."""
    return Message("feeding.quiet.unbought")


def quiet_bare() -> Message:
    """No grass grows there yet: nitrogen would wash away."""
    return Message("feeding.quiet.bare")


def quiet_killed() -> Message:
    """What stands there makes way for new grass: it is not fed any more."""
    return Message("feeding.quiet.killed")


def quiet_torn() -> Message:
    """Dethatching is near: it tears off what a feeding has grown; the grass is fed after it."""
    return Message("feeding.quiet.torn")


def quiet_relaid() -> Message:
    """Relaid turf takes nothing up before it has rooted."""
    return Message("feeding.quiet.relaid")


def quiet_seed() -> Message:
    """In the weeks before and after the seed, nitrogen makes the old grass outgrow the seedlings;
    they are fed once they have been mown.
    """
    return Message("feeding.quiet.seed")


def plants_after(*, rate: Quantity, blackouts: Listed) -> Message:
    """Plants that hold take {rate} of nitrogen and spread; they get it on the first days that are
    open to nitrogen: {blackouts}.
    """
    return Message("feeding.plants.after", (("rate", rate), ("blackouts", blackouts)))


def quiet_plants() -> Message:
    """Plants without roots take nothing up: they are fed once they hold."""
    return Message("feeding.quiet.plants")


def quiet_rye() -> Message:
    """Before ryegrass is sown the grass below it must not be pushed, and in winter it sleeps: the
    ryegrass is fed on its own.
    """
    return Message("feeding.quiet.rye")


def seedlings_why(*, rate: Quantity, source: Message) -> Message:
    """{rate} of nitrogen once the seedlings have been mown: from then on they take more than the
    ground gives ({source}).
    """
    return Message("feeding.seedlings.why", (("rate", rate), ("source", source)))


def seedlings_pale(*, rate: Quantity) -> Message:
    """{rate} of nitrogen, but only where the look at their color finds the seedlings pale: where
    they are green, the compost feeds them and this is left out.
    """
    return Message("feeding.seedlings.pale", (("rate", rate),))


def seedlings_pale_go() -> Message:
    """Seedlings pale all over, growing and mown once; ground not frozen."""
    return Message("feeding.seedlings.pale_go")


def seedlings_pale_go_frostless() -> Message:
    """Seedlings pale all over, growing and mown once."""
    return Message("feeding.seedlings.pale_go_frostless")


def seedlings_green_fallback() -> Message:
    """Seedlings green: leave it out; the compost feeds them."""
    return Message("feeding.seedlings.green_fallback")


def starter_of_patches() -> Message:
    """The starter goes on what is sown, and only there: the nitrogen of the lawn counts what that
    comes to over all of it.
    """
    return Message("feeding.starter.of_patches")


def rye_apart(*, rate: Quantity, grass: Message) -> Message:
    """The ryegrass of the winter takes {rate} of nitrogen in feedings of its own, which do not
    count for the {grass} below it: that one sleeps then, and has its own year.
    """
    return Message("feeding.rye.apart", (("rate", rate), ("grass", grass)))


def rye_why(*, rate: Quantity, source: Message) -> Message:
    """{rate} of nitrogen for the ryegrass, which grows while the grass below it sleeps
    ({source}).
    """
    return Message("feeding.rye.why", (("rate", rate), ("source", source)))


def left_out_cold() -> Message:
    """The soil is too cold then: roots take nothing up, and what lies on frozen ground washes
    off.
    """
    return Message("feeding.left_out.cold")


def left_out_near_other(*, n: int) -> Message:
    """Another feeding lies less than {n} days away."""
    return Message("feeding.left_out.near_other", (("n", n),))


def left_out_year_full(*, grass: Message, high: Quantity) -> Message:
    """With it, twelve months would hold more than the {high} that {grass} takes."""
    return Message("feeding.left_out.year_full", (("grass", grass), ("high", high)))


def left_out_fresh_layer() -> Message:
    """A layer was just spread: it is fed once the tips show."""
    return Message("feeding.left_out.fresh_layer")


def left_out_last_date() -> Message:
    """So late in the year nitrogen is advised against here, for new grass too: what is pale by then
    is fed in spring.
    """
    return Message("feeding.left_out.last_date")


def left_out_too_late() -> Message:
    """By then the grass has its last feeding of the year behind it, or hardly grows."""
    return Message("feeding.left_out.too_late")


def left_out_no_day() -> Message:
    """No day of work lies in its window."""
    return Message("feeding.left_out.no_day")


def left_out_note(*, why: Message) -> Message:
    """A feeding is left out: {why}"""
    return Message("feeding.left_out.note", (("why", why),))


def short_year(
    *, first: Day, last: Day, rate: Quantity, grass: Message, low: Quantity, why: Message
) -> Message:
    """From {first} to {last} the lawn gets {rate} of nitrogen, less than the {low} that {grass}
    takes at least: {why}
    """
    return Message(
        "feeding.short_year",
        (
            ("first", first),
            ("last", last),
            ("rate", rate),
            ("grass", grass),
            ("low", low),
            ("why", why),
        ),
    )


def short_no_days() -> Message:
    """the days on which it may be fed hold no more."""
    return Message("feeding.short_no_days")


def after_pass() -> Message:
    """It follows a pass: fed grass grows through the layer sooner."""
    return Message("feeding.after_pass")


def starter_fed_before(*, day: Day) -> Message:
    """No starter: the nitrogen of {day} still feeds the seed."""
    return Message("feeding.starter.fed_before", (("day", day),))


def starter_cold() -> Message:
    """No starter: the soil is too cold when the seed goes in; the seedlings are fed once they
    grow.
    """
    return Message("feeding.starter.cold")


def starter_no_day() -> Message:
    """No starter: no day of work lies near enough to the seed; the seedlings are fed once they
    grow.
    """
    return Message("feeding.starter.no_day")


def starter_year_full() -> Message:
    """No starter: what was given in the last twelve months is as much as this grass takes."""
    return Message("feeding.starter.year_full")


def left_out_heat() -> Message:
    """No nitrogen on cool-season grass in summer heat: it burns and feeds disease."""
    return Message("feeding.left_out.heat")


def left_out_compost() -> Message:
    """The compost feeds the seedlings at that time; their color, weeks after they are up, tells
    whether it is enough.
    """
    return Message("feeding.left_out.compost")


def left_out_covered() -> Message:
    """What was given and what compost gives already cover the season's nitrogen."""
    return Message("feeding.left_out.covered")


def left_out_too_little(*, rate: Quantity) -> Message:
    """Less than {rate} would be left for it."""
    return Message("feeding.left_out.too_little", (("rate", rate),))


def left_out_too_close(*, n: int) -> Message:
    """Less than {n} days from a feeding at a time of stronger growth."""
    return Message("feeding.left_out.too_close", (("n", n),))


def left_out_fewer() -> Message:
    """The season's nitrogen fits into fewer feedings."""
    return Message("feeding.left_out.fewer")


def late_what() -> Message:
    """Nitrogen after growth has slowed greens the lawn early next spring and thickens it; but more
    of it can leach or run off.
    """
    return Message("feeding.late.what")


def late_asked() -> Message:
    """You asked for it."""
    return Message("feeding.late.asked")


def late_not_asked() -> Message:
    """You left it out."""
    return Message("feeding.late.not_asked")


def late_usual(*, region: Message) -> Message:
    """It is usual in {region}; you can ask for the other."""
    return Message("feeding.late.usual", (("region", region),))


def late_unusual(*, region: Message) -> Message:
    """It is usually left out in {region}; you can ask for the other."""
    return Message("feeding.late.unusual", (("region", region),))


def late_default() -> Message:
    """Advice on it differs; it is left out unless you ask for it."""
    return Message("feeding.late.default")


def stand_dense() -> Message:
    """dense"""
    return Message("feeding.stand.dense")


def stand_thin() -> Message:
    """thin"""
    return Message("feeding.stand.thin")


def stand_patchy() -> Message:
    """patchy"""
    return Message("feeding.stand.patchy")


def stand_bare() -> Message:
    """bare"""
    return Message("feeding.stand.bare")


def budget_removed(*, stand: Message, grass: Message, share: Number) -> Message:
    """A {stand} stand of {grass} takes {share} of the way up its yearly range of nitrogen;
    clippings are taken away, so nothing comes back.
    """
    return Message("feeding.budget.removed", (("stand", stand), ("grass", grass), ("share", share)))


def budget_returned(*, stand: Message, grass: Message, share: Number, credit: Number) -> Message:
    """A {stand} stand of {grass} takes {share} of the way up its yearly range of nitrogen;
    clippings left lying give back about {credit}.
    """
    return Message(
        "feeding.budget.returned",
        (("stand", stand), ("grass", grass), ("share", share), ("credit", credit)),
    )


def budget_assumed(*, stand: Message, grass: Message, share: Number, credit: Number) -> Message:
    """A {stand} stand of {grass} takes {share} of the way up its yearly range of nitrogen;
    clippings left lying (assumed) give back about {credit}.
    """
    return Message(
        "feeding.budget.assumed",
        (("stand", stand), ("grass", grass), ("share", share), ("credit", credit)),
    )


def counted(*, rate: Quantity) -> Message:
    """{rate} of nitrogen from before the plan still counts."""
    return Message("feeding.counted", (("rate", rate),))


def compost_credit(*, depth: Quantity, rate: Quantity, low: Quantity, high: Quantity) -> Message:
    """{depth} of compost counts as {rate} of nitrogen in its first year; it may be {low} to {high}:
    no turf figure for the first year has been published.
    """
    return Message(
        "feeding.compost_credit", (("depth", depth), ("rate", rate), ("low", low), ("high", high))
    )


def other_nutrients() -> Message:
    """Iron greens grass without making it grow, and other nutrients are given only where a test or
    a pale, well-fed lawn asks for them: advice, not part of the plan.
    """
    return Message("feeding.other_nutrients")


def why(*, rate: Quantity, budget: Quantity, growth: Number, most: Quantity) -> Message:
    """{rate} of nitrogen of the season's {budget}, shared out by how strongly grass grows then
    ({growth} of its best), never more than {most} at once.
    """
    return Message(
        "feeding.why", (("rate", rate), ("budget", budget), ("growth", growth), ("most", most))
    )


def plants_why(*, rate: Quantity) -> Message:
    """{rate} of nitrogen once what was planted holds against a pull: it knits, and plugs and sprigs
    spread over the ground between them.
    """
    return Message("feeding.plants.why", (("rate", rate),))


def plants_told(*, rate: Quantity, source: Message) -> Message:
    """Plugs, sprigs and sod bring roots of their own: no starter goes in with them. Once they hold
    against a pull, {rate} of nitrogen makes them spread ({source}), unless a feeding was given
    within the month or the law closes those days.
    """
    return Message("feeding.plants.told", (("rate", rate), ("source", source)))


def starter_why() -> Message:
    """Seed with no fresh compost under it gets a starter, once, with the seed: nitrogen for the
    seedlings, phosphorus only where test and law allow.
    """
    return Message("feeding.starter.why")


def starter_nothing_sown() -> Message:
    """Nothing is sown: no starter is needed."""
    return Message("feeding.starter.nothing_sown")


def starter_compost_feeds() -> Message:
    """The top-dressing mix holds compost, which feeds the seedlings: no starter fertilizer is used
    (common practice).
    """
    return Message("feeding.starter.compost_feeds")


def starter_blackout(*, blackout: Message) -> Message:
    """A starter would fall into the blackout ({blackout}): none is given."""
    return Message("feeding.starter.blackout", (("blackout", blackout),))


def starter_open_days(*, blackouts: Listed) -> Message:
    """A starter keeps to the days that are open to nitrogen: {blackouts}."""
    return Message("feeding.starter.open_days", (("blackouts", blackouts),))


def history_too_much(*, day: Day, source: Message) -> Message:
    """The nitrogen of {day} was more than grass takes at once ({source}): the rest burns or
    leaches.
    """
    return Message("feeding.history.too_much", (("day", day), ("source", source)))


def history_blackout(*, day: Day, blackout: Message) -> Message:
    """The nitrogen of {day} fell on days closed to it: {blackout}."""
    return Message("feeding.history.blackout", (("day", day), ("blackout", blackout)))


def history_too_much_in_year(*, grass: Message, source: Message) -> Message:
    """{grass:capital} got more than its yearly range of nitrogen ({source}): give none until it is
    used up.
    """
    return Message("feeding.history.too_much_in_year", (("grass", grass), ("source", source)))


def water_own(*, distance: Quantity) -> Message:
    """Keep fertilizer {distance} from open water, as you said."""
    return Message("feeding.water.own", (("distance", distance),))


def water_elsewhere(*, distance: Quantity) -> Message:
    """Keep fertilizer {distance} from open water, the distance of rules in other countries, and
    compost well away from it; yours is set locally: ask, and tell the plan⟦ (`[local]` in the
    brief)⟧.
    """
    return Message("feeding.water.elsewhere", (("distance", distance),))


def water_usual(*, distance: Quantity, source: Message) -> Message:
    """Keep fertilizer {distance} from open water ({source}), and compost well away from it; the
    distance is set locally: ask, and tell the plan⟦ (`[local]` in the brief)⟧.
    """
    return Message("feeding.water.usual", (("distance", distance), ("source", source)))


def bag_phosphorus(*, bag: str) -> Message:
    """{bag} is not used: it brings phosphorus that neither test nor law supports here. Buy a
    product whose middle number is 0; how much of it each feeding takes is its nitrogen divided by
    the first number of the bag.
    """
    return Message("feeding.bag.phosphorus", (("bag", bag),))


def bag_takes(*, bag: str, n: int, mass: Quantity, day: Day, first: Quantity) -> Message:
    """Of the {bag} at hand {n} feedings take {mass} in all, the first one, on {day}, {first}: buy
    only what is missing.
    """
    return Message(
        "feeding.bag.takes",
        (("bag", bag), ("n", n), ("mass", mass), ("day", day), ("first", first)),
    )


def bag_slow(*, share: Number) -> Message:
    """Choose a product with {share} or more of its nitrogen slowly released."""
    return Message("feeding.bag.slow", (("share", share),))


def bag_quick(*, rate: Quantity) -> Message:
    """{rate} of quick nitrogen at once is more than the rule here allows: choose a product that
    releases slowly.
    """
    return Message("feeding.bag.quick", (("rate", rate),))


def bag_too_much() -> Message:
    """More nitrogen than grass takes at once: split the feeding."""
    return Message("feeding.bag.too_much")


def level_low() -> Message:
    """low"""
    return Message("feeding.level.low")


def level_medium() -> Message:
    """medium"""
    return Message("feeding.level.medium")


def level_high() -> Message:
    """high"""
    return Message("feeding.level.high")


def test_given(*, nutrient: Message, rate: Quantity, reason: Message) -> Message:
    """{nutrient}: {rate}. {reason}"""
    return Message(
        "feeding.test.given", (("nutrient", nutrient), ("rate", rate), ("reason", reason))
    )


def test_none(*, nutrient: Message, reason: Message) -> Message:
    """{nutrient}: none. {reason}"""
    return Message("feeding.test.none", (("nutrient", nutrient), ("reason", reason)))


def potash_enough() -> Message:
    """The soil test finds enough potassium: none is given."""
    return Message("feeding.potash.enough")


def potash_once(*, level: Message) -> Message:
    """Potassium is {level} in the soil test: potash for a year goes on at once as soon as the grass
    grows, with a feeding where one is due; the laboratory's own rate comes first.
    """
    return Message("feeding.potash.once", (("level", level),))


def potash_parts(*, level: Message, parts: int) -> Message:
    """Potassium is {level} in the soil test: potash for a year goes on in {parts} parts, the first
    as soon as the grass grows, each with a feeding where one is due; the laboratory's own rate
    comes first.
    """
    return Message("feeding.potash.parts", (("level", level), ("parts", parts)))


def potash_worked_in() -> Message:
    """All of it is spread on the bare ground and worked in with the tilling; the laboratory's own
    rate comes first.
    """
    return Message("feeding.potash.worked_in")


def phosphate_banned() -> Message:
    """Phosphorus is banned here, as you said: use a product whose middle number is 0."""
    return Message("feeding.phosphate.banned")


def phosphate_not_tested() -> Message:
    """The soil test does not speak of phosphorus, which is given only where one shows the need and
    the law allows it: use a product whose middle number is 0.
    """
    return Message("feeding.phosphate.not_tested")


def phosphate_no_test() -> Message:
    """No soil test: phosphorus is given only where one shows the need and the law allows it: use a
    product whose middle number is 0.
    """
    return Message("feeding.phosphate.no_test")


def phosphate_unread() -> Message:
    """The number for phosphorus in the soil test cannot be read yet, and the laboratory is asked:
    use a product whose middle number is 0.
    """
    return Message("feeding.phosphate.unread")


def phosphate_yellows(*, grass: Message) -> Message:
    """{grass:capital} yellows where the pH is too high, and phosphorus locks up its iron still
    more: use a product whose middle number is 0.
    """
    return Message("feeding.phosphate.yellows", (("grass", grass),))


def phosphate_no_date() -> Message:
    """The soil test has no date, and the law asks how old it is: use a product whose middle number
    is 0.
    """
    return Message("feeding.phosphate.no_date")


def phosphate_too_old(*, day: str) -> Message:
    """The soil test of {day} is too old: use a product whose middle number is 0."""
    return Message("feeding.phosphate.too_old", (("day", day),))


def phosphate_enough(*, level: Message) -> Message:
    """Phosphorus is {level} in the soil test: none is needed: use a product whose middle number is
    0.
    """
    return Message("feeding.phosphate.enough", (("level", level),))


def phosphate_compost() -> Message:
    """Phosphorus is low, but the compost brings some: test again next year: use a product whose
    middle number is 0.
    """
    return Message("feeding.phosphate.compost")


def phosphate_compost_bag(*, bag: str) -> Message:
    """Phosphorus is low, and the compost brings some: what {bag} adds to it does no harm, more is
    not bought. Test again next year.
    """
    return Message("feeding.phosphate.compost_bag", (("bag", bag),))


def phosphate_no_day() -> Message:
    """Phosphorus is low in the soil test, but this plan has no day for it: it goes on with the
    first feeding after its end.
    """
    return Message("feeding.phosphate.no_day")


def phosphate_state_test() -> Message:
    """Phosphorus is low in a recent soil test. The state asks for this test as read; confirm it,
    and keep the report.
    """
    return Message("feeding.phosphate.state_test")


def phosphate_law_test() -> Message:
    """Phosphorus is low in a recent soil test. The law here asks for this test, and keep the
    report.
    """
    return Message("feeding.phosphate.law_test")


def phosphate_ask() -> Message:
    """Phosphorus is low in a recent soil test. Ask what the law says here, and keep the report."""
    return Message("feeding.phosphate.ask")
