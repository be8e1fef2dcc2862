"""Messages of `messages/en/watering.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Listed, Message, Month, Number, Quantity


def stage_settle_fill() -> Message:
    """Settle the fill"""
    return Message("watering.stage.settle_fill")


def stage_settle() -> Message:
    """Settle the new layer"""
    return Message("watering.stage.settle")


def stage_recover() -> Message:
    """Water the dressed lawn"""
    return Message("watering.stage.recover")


def stage_soak() -> Message:
    """Water in the seed"""
    return Message("watering.stage.soak")


def stage_soak_plants() -> Message:
    """Water in the plants"""
    return Message("watering.stage.soak_plants")


def stage_germination() -> Message:
    """Keep the seed moist"""
    return Message("watering.stage.germination")


def stage_establishment() -> Message:
    """Water the seedlings"""
    return Message("watering.stage.establishment")


def stage_rooting() -> Message:
    """Water the new plants"""
    return Message("watering.stage.rooting")


def stage_weaning() -> Message:
    """Water deeper, less often"""
    return Message("watering.stage.weaning")


def stage_weaning_often() -> Message:
    """Water the young grass deeper"""
    return Message("watering.stage.weaning_often")


def stage_soak_relaid() -> Message:
    """Water in the relaid turf"""
    return Message("watering.stage.soak_relaid")


def stage_relaid() -> Message:
    """Water the relaid turf"""
    return Message("watering.stage.relaid")


def why_soak_relaid() -> Message:
    """Turf that was lifted has lost its deep roots: it is watered in at once, until the fill under
    it is moist; lift a corner and look.
    """
    return Message("watering.why.soak_relaid")


def stage_winter() -> Message:
    """Water the winter grass"""
    return Message("watering.stage.winter")


def title_run(*, stage: Message, minutes: int) -> Message:
    """{stage}: {minutes} min"""
    return Message("watering.title.run", (("stage", stage), ("minutes", minutes)))


def title_cycles(*, stage: Message, minutes: int, cycles: int) -> Message:
    """{stage}: {minutes} min in {cycles} cycles"""
    return Message(
        "watering.title.cycles", (("stage", stage), ("minutes", minutes), ("cycles", cycles))
    )


def title_settings(*, stage: Message, settings: int, minutes: int) -> Message:
    """{stage}: {settings} settings of {minutes} min"""
    return Message(
        "watering.title.settings", (("stage", stage), ("settings", settings), ("minutes", minutes))
    )


def title_settings_cycles(*, stage: Message, settings: int, cycles: int, minutes: int) -> Message:
    """{stage}: {settings} settings, {cycles} cycles of {minutes} min each"""
    return Message(
        "watering.title.settings_cycles",
        (("stage", stage), ("settings", settings), ("cycles", cycles), ("minutes", minutes)),
    )


def title_of_zone(*, run: Message, zone: Message) -> Message:
    """{run}, {zone}"""
    return Message("watering.title.of_zone", (("run", run), ("zone", zone)))


def title_stand_in(*, run: Message) -> Message:
    """Whoever stands in: {run}"""
    return Message("watering.title.stand_in", (("run", run),))


def how_stand_in() -> Message:
    """Nobody of the household is there: a neighbor, or a timer that is set for these minutes,
    waters on these days. Show where the tap is and what is to stay moist.
    """
    return Message("watering.how.stand_in")


def zone_lawn() -> Message:
    """lawn"""
    return Message("watering.zone.lawn")


def zone_every() -> Message:
    """all zones"""
    return Message("watering.zone.every")


def zone_reaching() -> Message:
    """the zones that reach it"""
    return Message("watering.zone.reaching")


def zone_line(*, zone: Message, line: Message) -> Message:
    """{zone}: {line}"""
    return Message("watering.zone.line", (("zone", zone), ("line", line)))


def why_settle_fill() -> Message:
    """A soaking once the work is done settles the lift to its bottom: water does what feet
    cannot.
    """
    return Message("watering.why.settle_fill")


def why_settle_bank() -> Message:
    """Short cycles with pauses moisten the lift once the work is done and wash nothing away: on a
    bank firming settles it, and water only helps.
    """
    return Message("watering.why.settle_bank")


def why_settle() -> Message:
    """A light watering once the work is done settles the new layer among the leaves."""
    return Message("watering.why.settle")


def why_soak() -> Message:
    """The first water goes on once the seed is down, gently, until its layer is moist all
    through.
    """
    return Message("watering.why.soak")


def why_soak_on_mix() -> Message:
    """The first water goes on once the seed is down, gently, until its layer is moist all through:
    not before, since the mix must be dry when it is spread.
    """
    return Message("watering.why.soak_on_mix")


def why_soak_plants() -> Message:
    """New plants are watered in at once, until the soil under them is moist: lift a corner and
    look.
    """
    return Message("watering.why.soak_plants")


def why_recover_capped(*, days: int, fewest: Number, most: Number, cap: Quantity) -> Message:
    """For {days} days after a pass the covered grass is watered every {fewest} to {most} days with
    {cap}, less part of the usual rain. In this heat it uses more and draws on what the soil holds:
    water a day sooner where it wilts.
    """
    return Message(
        "watering.why.recover_capped",
        (("days", days), ("fewest", fewest), ("most", most), ("cap", cap)),
    )


def why_recover(*, days: int, fewest: Number, most: Number) -> Message:
    """For {days} days after a pass the covered grass is watered every {fewest} to {most} days with
    what it uses in them, less part of the usual rain.
    """
    return Message("watering.why.recover", (("days", days), ("fewest", fewest), ("most", most)))


def why_moist(*, layer: Quantity, ready: Quantity, need: Quantity, n: int) -> Message:
    """The top {layer} of this soil gives {ready} before it is too dry, and a sunny day takes
    {need}: {n} short runs a day.
    """
    return Message(
        "watering.why.moist", (("layer", layer), ("ready", ready), ("need", need), ("n", n))
    )


def why_moist_less(*, layer: Quantity, ready: Quantity, need: Quantity, n: int) -> Message:
    """The top {layer} of this soil gives {ready} before it is too dry, and a sunny day takes
    {need}. It gets {n} short runs a day; between them a hot day may dry its top.
    """
    return Message(
        "watering.why.moist_less", (("layer", layer), ("ready", ready), ("need", need), ("n", n))
    )


def why_winter(*, use: Quantity, rain: Quantity, share: Number) -> Message:
    """Ryegrass that is green in winter uses about {use} a week now and rain usually brings {rain}
    it can use, of which {share} is counted on.
    """
    return Message("watering.why.winter", (("use", use), ("rain", rain), ("share", share)))


def why_weaning(*, use: Quantity, rain: Quantity, share: Number) -> Message:
    """Grass uses about {use} a week now and rain usually brings {rain} it can use, of which {share}
    is counted on; fewer, deeper runs send roots down.
    """
    return Message("watering.why.weaning", (("use", use), ("rain", rain), ("share", share)))


def why_weaning_often(*, use: Quantity, rain: Quantity, share: Number) -> Message:
    """Grass uses about {use} a week now and rain usually brings {rain} it can use, of which {share}
    is counted on; this ground, or the hours there are, hold too little at a time for fewer runs.
    """
    return Message("watering.why.weaning_often", (("use", use), ("rain", rain), ("share", share)))


def how_tug_first() -> Message:
    """Before the first of these runs tug at the young grass in several places: where it comes up it
    has not rooted, and is watered every day for some days more.
    """
    return Message("watering.how.tug_first")


def how_puts_down(*, minutes: int, depth: Quantity, rate: Quantity, reason: Message) -> Message:
    """{minutes} min puts down {depth} where least falls, at {rate} ({reason})."""
    return Message(
        "watering.how.puts_down",
        (("minutes", minutes), ("depth", depth), ("rate", rate), ("reason", reason)),
    )


def how_cycles(*, cycles: int, minutes: int, pause: int) -> Message:
    """In {cycles} cycles of {minutes} min, {pause} min apart, so that nothing runs off."""
    return Message(
        "watering.how.cycles", (("cycles", cycles), ("minutes", minutes), ("pause", pause))
    )


def amount(*, depth: Quantity, area: Quantity, n: int) -> Message:
    """{depth} on average over {area} on {n} days"""
    return Message("watering.amount", (("depth", depth), ("area", area), ("n", n)))


def go() -> Message:
    """Skip it after real rain; look at the soil, not at the clock."""
    return Message("watering.go")


def week_rain_does_it(*, stage: Message, days: Days) -> Message:
    """{stage}: rain usually does it from {days}; water if it stays dry."""
    return Message("watering.week.rain_does_it", (("stage", stage), ("days", days)))


def week_grass_rests(*, stage: Message, days: Days) -> Message:
    """{stage}: from {days} it is too cold for grass to use water, and none is given."""
    return Message("watering.week.grass_rests", (("stage", stage), ("days", days)))


def week_waits(*, stage: Message, day: Day, next: Day) -> Message:
    """{stage}: watering is not allowed on {day}; it waits for {next}."""
    return Message("watering.week.waits", (("stage", stage), ("day", day), ("next", next)))


def week_waits_after_work(*, stage: Message, day: Day, next: Day) -> Message:
    """{stage}: watering is not allowed on {day}, after the work; it waits for {next}."""
    return Message(
        "watering.week.waits_after_work", (("stage", stage), ("day", day), ("next", next))
    )


def week_night_after(*, stage: Message, day: Day, next: Day) -> Message:
    """{stage}: what is left of {day} after the work is too short for it; it runs on {next}."""
    return Message("watering.week.night_after", (("stage", stage), ("day", day), ("next", next)))


def week_split_after_work(*, stage: Message, day: Day, share: Number, next: Day) -> Message:
    """{stage}: what is left of {day} after the work holds {share} of it; the rest runs on
    {next}.
    """
    return Message(
        "watering.week.split_after_work",
        (("stage", stage), ("day", day), ("share", share), ("next", next)),
    )


def week_wait_of(*, day: Day, next: Day) -> Message:
    """{day} until {next}"""
    return Message("watering.week.wait_of", (("day", day), ("next", next)))


def week_waits_days(*, stage: Message, days: Listed) -> Message:
    """{stage}: watering is not allowed on days of work; it waits from {days}."""
    return Message("watering.week.waits_days", (("stage", stage), ("days", days)))


def week_waits_after_work_days(*, stage: Message, days: Listed) -> Message:
    """{stage}: watering is not allowed after the work; it waits from {days}."""
    return Message("watering.week.waits_after_work_days", (("stage", stage), ("days", days)))


def week_left_out_days(*, stage: Message, days: Listed) -> Message:
    """{stage}: watering is not allowed on {days}; it is left out."""
    return Message("watering.week.left_out_days", (("stage", stage), ("days", days)))


def week_left_out_after_work_days(*, stage: Message, days: Listed) -> Message:
    """{stage}: watering is not allowed after the work on {days}; it is left out."""
    return Message("watering.week.left_out_after_work_days", (("stage", stage), ("days", days)))


def week_left_out(*, stage: Message, day: Day) -> Message:
    """{stage}: watering is not allowed on {day}; it is left out."""
    return Message("watering.week.left_out", (("stage", stage), ("day", day)))


def week_left_out_after_work(*, stage: Message, day: Day) -> Message:
    """{stage}: watering is not allowed on {day}, after the work; it is left out."""
    return Message("watering.week.left_out_after_work", (("stage", stage), ("day", day)))


def week_days_closed(*, stage: Message, closed: int, days: int, weeks: Listed) -> Message:
    """{stage}: {closed} of {days} days are closed to watering, from {weeks}, and this stage must
    not dry out: ask for a permit, or do this work in a season in which rain helps.
    """
    return Message(
        "watering.week.days_closed",
        (("stage", stage), ("closed", closed), ("days", days), ("weeks", weeks)),
    )


def week_short(*, stage: Message, weeks: Listed, given: Quantity, need: Quantity) -> Message:
    """{stage}: from {weeks} the days open to watering give too little, in the worst week {given} of
    the {need} that the grass needs beyond rain, and what dries thins: ask for more days, or do this
    work in a season in which rain helps.
    """
    return Message(
        "watering.week.short",
        (("stage", stage), ("weeks", weeks), ("given", given), ("need", need)),
    )


def week_short_of_hours(
    *, stage: Message, weeks: Listed, given: Quantity, need: Quantity
) -> Message:
    """{stage}: from {weeks} the hours at hand put down too little, in the worst week {given} of the
    {need} that the grass needs beyond rain, and what dries thins: let somebody help, take a timer
    with several outlets, or do this work in a season in which rain helps.
    """
    return Message(
        "watering.week.short_of_hours",
        (("stage", stage), ("weeks", weeks), ("given", given), ("need", need)),
    )


def week_all_away(*, stage: Message, weeks: Listed) -> Message:
    """{stage}: nobody is there from {weeks}, and without a timer nothing is watered."""
    return Message("watering.week.all_away", (("stage", stage), ("weeks", weeks)))


def week_all_closed(*, stage: Message, weeks: Listed) -> Message:
    """{stage}: no day is open to watering from {weeks}."""
    return Message("watering.week.all_closed", (("stage", stage), ("weeks", weeks)))


def week_no_run_fits_home(*, stage: Message) -> Message:
    """{stage}: the hours at home are too short for this lawn by hose: do a part now and the rest
    later, let somebody help, or take a timer with several outlets.
    """
    return Message("watering.week.no_run_fits_home", (("stage", stage),))


def week_no_run_fits_day(*, stage: Message) -> Message:
    """{stage}: one supply of water does not get round this lawn within a day: do a part now and the
    rest later, or take a second tap or a faster sprinkler.
    """
    return Message("watering.week.no_run_fits_day", (("stage", stage),))


def week_no_run_fits_ground(*, stage: Message) -> Message:
    """{stage}: this ground takes water in more slowly than any sensible number of cycles puts it
    down: take a slower sprinkler.
    """
    return Message("watering.week.no_run_fits_ground", (("stage", stage),))


def week_no_run_fits(*, stage: Message) -> Message:
    """{stage}: the lawful hours of a day are too short for this lawn and sprinkler: do a part now
    and the rest later, ask for longer hours, or get a faster sprinkler.
    """
    return Message("watering.week.no_run_fits", (("stage", stage),))


def week_fewer_runs_home(*, stage: Message, held: int, wished: int) -> Message:
    """{stage}: the hours at home hold {held} of {wished} runs a day; each is longer instead."""
    return Message(
        "watering.week.fewer_runs_home", (("stage", stage), ("held", held), ("wished", wished))
    )


def week_fewer_runs_day(*, stage: Message, held: int, wished: int) -> Message:
    """{stage}: a day holds {held} of {wished} runs, since they take so long; each is longer
    instead.
    """
    return Message(
        "watering.week.fewer_runs_day", (("stage", stage), ("held", held), ("wished", wished))
    )


def week_fewer_runs(*, stage: Message, held: int, wished: int) -> Message:
    """{stage}: the lawful hours hold {held} of {wished} runs a day; each is longer instead."""
    return Message(
        "watering.week.fewer_runs", (("stage", stage), ("held", held), ("wished", wished))
    )


def week_part_fits_home(*, stage: Message, share: Number) -> Message:
    """{stage}: the hours at home hold {share} of the water by hose: do that part of the lawn now
    and the rest later, let somebody help, or take a timer with several outlets.
    """
    return Message("watering.week.part_fits_home", (("stage", stage), ("share", share)))


def week_part_fits_day(*, stage: Message, share: Number) -> Message:
    """{stage}: one supply of water puts down {share} of the water in a day: do that part of the
    lawn now and the rest later, or take a second tap.
    """
    return Message("watering.week.part_fits_day", (("stage", stage), ("share", share)))


def week_part_fits_ground(*, stage: Message, share: Number) -> Message:
    """{stage}: on the days there are this ground takes in {share} of the water without runoff: take
    a slower sprinkler, more days, or accept that the grass is thirsty.
    """
    return Message("watering.week.part_fits_ground", (("stage", stage), ("share", share)))


def week_part_fits_ground_fill(*, stage: Message, share: Number) -> Message:
    """{stage}: in a day this ground takes in {share} of the water without runoff. More would wash
    it: firm what is spread by foot or tamper in thin layers, and go on with short cycles on the
    days after.
    """
    return Message("watering.week.part_fits_ground_fill", (("stage", stage), ("share", share)))


def week_part_fits_ground_young(*, stage: Message, share: Number) -> Message:
    """{stage}: in a day this ground takes in {share} of the water without runoff. More would wash
    it away: take a slower sprinkler, cover the ground so that it stays moist, or begin with a
    smaller part.
    """
    return Message("watering.week.part_fits_ground_young", (("stage", stage), ("share", share)))


def week_part_fits(*, stage: Message, share: Number) -> Message:
    """{stage}: the lawful hours are too short and hold {share} of the water: do that part of the
    lawn now and the rest later, or ask for longer hours.
    """
    return Message("watering.week.part_fits", (("stage", stage), ("share", share)))


def season_timer_alone(*, days: Listed) -> Message:
    """Young grass must not dry out, and nobody is there from {days}: the timer alone waters then.
    Ask somebody to look at the ground every other day, or choose a day for the work after it.
    """
    return Message("watering.season.timer_alone", (("days", days),))


def season_nobody_there(*, days: Listed) -> Message:
    """Young grass must not dry out, and nobody is there from {days}: before you order, see that a
    neighbor or a timer waters on those days. Their runs stand in the plan with minutes and times,
    marked for whoever stands in. With neither, choose a day for the work from which on you are
    there.
    """
    return Message("watering.season.nobody_there", (("days", days),))


def season_nobody_there_relaid(*, days: Listed) -> Message:
    """Relaid turf must not dry out, and nobody is there from {days}: before you lift it, see that a
    neighbor or a timer waters on those days. Their runs stand in the plan with minutes and times,
    marked for whoever stands in. With neither, choose a day from which on you are there.
    """
    return Message("watering.season.nobody_there_relaid", (("days", days),))


def season_permit(*, days: Listed) -> Message:
    """Begin only with the permit in hand, and see that it covers every day from {days}: where it
    ends earlier, what is young dries before it has rooted.
    """
    return Message("watering.season.permit", (("days", days),))


def season_too_fast(*, zone: Message, rate: Quantity, source: Message) -> Message:
    """{zone}: {rate} is faster than sprinklers usually are ({source}): measure it with catch cans
    before any run.
    """
    return Message("watering.season.too_fast", (("zone", zone), ("rate", rate), ("source", source)))


def season_too_much_at_once(
    *, zone: Message, area: Quantity, rate: Quantity, flow: Quantity, supply: Quantity, parts: int
) -> Message:
    """{zone}: {rate} over {area} at once takes {flow}, and you gave {supply}: it is watered in
    {parts} parts or more, one after the other, each for the minutes that are told. Tell the plan
    the parts⟦ (`zones` under `[water]`)⟧.
    """
    return Message(
        "watering.season.too_much_at_once",
        (
            ("zone", zone),
            ("area", area),
            ("rate", rate),
            ("flow", flow),
            ("supply", supply),
            ("parts", parts),
        ),
    )


def season_beyond_one_tap(
    *, zone: Message, area: Quantity, rate: Quantity, flow: Quantity, supply: Quantity
) -> Message:
    """{zone}: {rate} over {area} at once takes {flow}, and one tap gives {supply} at most: where
    valves water it in parts, the minutes that are told are those of each part. Tell the plan the
    parts⟦ (`zones` under `[water]`)⟧, or what the supply gives⟦ (`flow`)⟧.
    """
    return Message(
        "watering.season.beyond_one_tap",
        (("zone", zone), ("area", area), ("rate", rate), ("flow", flow), ("supply", supply)),
    )


def how_in_parts(*, parts: int, minutes: int) -> Message:
    """These {minutes} min are those of each part, of {parts} or more, one after the other: more at
    once is more than the supply gives.
    """
    return Message("watering.how.in_parts", (("parts", parts), ("minutes", minutes)))


def how_each_part(*, minutes: int) -> Message:
    """Where valves water the lawn in parts, these {minutes} min are those of each part."""
    return Message("watering.how.each_part", (("minutes", minutes),))


def season_unmeasured(*, zone: Message, reason: Message) -> Message:
    """{zone}: run times rest on {reason}; set out catch cans to be sure."""
    return Message("watering.season.unmeasured", (("zone", zone), ("reason", reason)))


def season_until_up() -> Message:
    """The seed stage ends when the grass is up, not on a date: say when it has come up, and the
    plan goes on from that day.
    """
    return Message("watering.season.until_up")


def season_dormant_on_rain() -> Message:
    """Dormant seed is not watered in winter, and here nobody waters it once it wakes: rain alone
    keeps it moist, or it dies.
    """
    return Message("watering.season.dormant_on_rain")


def season_dormant() -> Message:
    """Dormant seed is not watered in winter; from the week on in which it wakes it is kept moist,
    as any seed is.
    """
    return Message("watering.season.dormant")


def season_rooted(*, mature: Quantity) -> Message:
    """From the first to the last day of this plan the grass takes about {mature} of water, beside
    the usual rain.
    """
    return Message("watering.season.rooted", (("mature", mature),))


def season_total(*, staged: Quantity, mature: Quantity) -> Message:
    """The work takes about {staged} of water; grass that has rooted takes about {mature} from the
    first to the last day of this plan, beside the usual rain.
    """
    return Message("watering.season.total", (("staged", staged), ("mature", mature)))


def season_cost(*, cost: Number) -> Message:
    """At the price that you gave that comes to about {cost}."""
    return Message("watering.season.cost", (("cost", cost),))


def rooted_minutes(*, month: Month, weekly: Quantity, minutes: int, n: int) -> Message:
    """{month}: grass that has rooted needs about {weekly} of water a week beside the usual rain,
    about {minutes} min at a time, every {n} days; none after real rain.
    """
    return Message(
        "watering.rooted.minutes",
        (("month", month), ("weekly", weekly), ("minutes", minutes), ("n", n)),
    )


def rooted_hours(*, month: Month, weekly: Quantity, hours: Number, n: int) -> Message:
    """{month}: grass that has rooted needs about {weekly} of water a week beside the usual rain,
    about {hours} hours at a time, in parts, every {n} days; none after real rain.
    """
    return Message(
        "watering.rooted.hours", (("month", month), ("weekly", weekly), ("hours", hours), ("n", n))
    )


def rooted_settings(
    *, month: Month, weekly: Quantity, minutes: int, n: int, settings: int
) -> Message:
    """{month}: grass that has rooted needs about {weekly} of water a week beside the usual rain,
    about {minutes} min in each of {settings} settings of the sprinkler, every {n} days; none after
    real rain.
    """
    return Message(
        "watering.rooted.settings",
        (
            ("month", month),
            ("weekly", weekly),
            ("minutes", minutes),
            ("n", n),
            ("settings", settings),
        ),
    )


def rooted_in_cycles(*, minutes: int, pause: int) -> Message:
    """Not more than {minutes} min at once in one place, then {pause} min to soak in, on two days if
    it must be: more runs off.
    """
    return Message("watering.rooted.in_cycles", (("minutes", minutes), ("pause", pause)))


def rate_cans(*, cans: int, share: Number) -> Message:
    """{cans} catch cans: the driest quarter gets {share} of the mean"""
    return Message("watering.rate.cans", (("cans", cans), ("share", share)))


def rate_given() -> Message:
    """the rate that you gave"""
    return Message("watering.rate.given")


def rate_spacing() -> Message:
    """the flow of a head over the spacing of heads"""
    return Message("watering.rate.spacing")


def rate_flow() -> Message:
    """the flow spread over the area"""
    return Message("watering.rate.flow")


def rate_spray() -> Message:
    """what spray heads usually give"""
    return Message("watering.rate.spray")


def rate_rotor() -> Message:
    """what rotors usually give"""
    return Message("watering.rate.rotor")


def rate_rotary_nozzle() -> Message:
    """what rotary nozzles usually give"""
    return Message("watering.rate.rotary_nozzle")


def rate_impact() -> Message:
    """what impact sprinklers usually give"""
    return Message("watering.rate.impact")


def rate_oscillating() -> Message:
    """what oscillating sprinklers usually give"""
    return Message("watering.rate.oscillating")


def rate_drip() -> Message:
    """what drip lines usually give"""
    return Message("watering.rate.drip")


def rate_assumed() -> Message:
    """an assumed hose sprinkler: measure it with cans"""
    return Message("watering.rate.assumed")


def advice_few_cans(*, cans: int) -> Message:
    """only {cans} cans: treat the evenness as a rough guess and test again with more."""
    return Message("watering.advice.few_cans", (("cans", cans),))


def advice_mend(*, share: Number) -> Message:
    """the driest quarter gets {share} of the mean: mend the system before sowing. Look for a
    clogged or broken nozzle, a tilted or sunken head, mixed types of head on one valve, too much or
    too little pressure, and spacing wider than the throw.
    """
    return Message("watering.advice.mend", (("share", share),))


def advice_straighten(*, share: Number) -> Message:
    """the driest quarter gets {share} of the mean: straighten heads, clean nozzles, and turn arcs
    so that each head reaches the next.
    """
    return Message("watering.advice.straighten", (("share", share),))


def verdict_rain_seed(*, grass: Message) -> Message:
    """Nobody waters here: seed of {grass} lives on rain alone. A dry spell before it has rooted
    kills it, so keep seed for a second sowing.
    """
    return Message("watering.verdict.rain_seed", (("grass", grass),))


def verdict_rain_plants(*, grass: Message) -> Message:
    """Nobody waters here: new plants of {grass} live on rain alone. A dry spell before they have
    rooted kills them.
    """
    return Message("watering.verdict.rain_plants", (("grass", grass),))


def verdict_rain_doubtful(*, grass: Message) -> Message:
    """Nobody waters here, and nothing is sown or planted on rain that is doubtful: whether it keeps
    {grass} moist is not known.
    """
    return Message("watering.verdict.rain_doubtful", (("grass", grass),))


def verdict_dormant_doubtful(*, grass: Message) -> Message:
    """Nobody waters here, and whether rain keeps seed of {grass} moist once it wakes in spring is
    not known: what is wetted and dries out is dead. Keep seed for a second sowing, or water it.
    """
    return Message("watering.verdict.dormant_doubtful", (("grass", grass),))


def verdict_dormant_dry(*, grass: Message) -> Message:
    """Nobody waters here: seed of {grass} that wakes in spring and dries out is dead. Keep seed for
    a second sowing, or water it.
    """
    return Message("watering.verdict.dormant_dry", (("grass", grass),))


def verdict_no_water_seed(*, grass: Message) -> Message:
    """The lawn cannot be watered: seed of {grass} that is wetted and dries out is dead."""
    return Message("watering.verdict.no_water_seed", (("grass", grass),))


def verdict_no_water_plants(*, grass: Message) -> Message:
    """The lawn cannot be watered: new plants of {grass} that dry out before they root are dead."""
    return Message("watering.verdict.no_water_plants", (("grass", grass),))


def verdict_gap_seed(*, gap: int, grass: Message, days: int) -> Message:
    """The law leaves up to {gap} days between waterings and seed of {grass} must stay moist every
    day for up to {days} days: get an establishment permit, or change the season.
    """
    return Message("watering.verdict.gap_seed", (("gap", gap), ("grass", grass), ("days", days)))


def verdict_gap_plants(*, gap: int, grass: Message, days: int) -> Message:
    """The law leaves up to {gap} days between waterings and new plants of {grass} must stay moist
    every day for up to {days} days: get an establishment permit, or change the season.
    """
    return Message("watering.verdict.gap_plants", (("gap", gap), ("grass", grass), ("days", days)))


def verdict_gap_relaid(*, gap: int, days: int) -> Message:
    """The law leaves up to {gap} days between waterings and you have no permit for more; turf that
    is lifted and laid back is watered at once and must stay moist every day for up to {days} days
    until it roots, as sod must: no hollow is lifted without a permit (`permit = true` with the
    water).
    """
    return Message("watering.verdict.gap_relaid", (("gap", gap), ("days", days)))


def verdict_unsaid_seed(*, days: int, grass: Message) -> Message:
    """Nobody said whether the lawn can be watered: {days} days of daily water are counted on for
    seed of {grass}.
    """
    return Message("watering.verdict.unsaid_seed", (("days", days), ("grass", grass)))


def verdict_unsaid_plants(*, days: int, grass: Message) -> Message:
    """Nobody said whether the lawn can be watered: {days} days of daily water are counted on for
    new plants of {grass}.
    """
    return Message("watering.verdict.unsaid_plants", (("days", days), ("grass", grass)))


def verdict_banned(*, banned: Days, closed: Days, days: int) -> Message:
    """Watering is banned from {banned}: nothing is sown or planted from {closed}, since young grass
    needs {days} days of water.
    """
    return Message(
        "watering.verdict.banned", (("banned", banned), ("closed", closed), ("days", days))
    )


def verdict_rain_nowhere() -> Message:
    """In no growing month does the usual rain keep a seedbed moist here."""
    return Message("watering.verdict.rain_nowhere")


def verdict_rain_keeps_up(*, months: Listed) -> Message:
    """The usual rain keeps up with a wet seedbed in {months} here, though not every day."""
    return Message("watering.verdict.rain_keeps_up", (("months", months),))


def verdict_dark_hours() -> Message:
    """No hour between dawn and dusk is open to watering, so the surface cannot be held moist: seed
    and plants are watered before dawn and at dusk, as far as these hours hold it, and dry between.
    Ask for hours by day until they have rooted.
    """
    return Message("watering.verdict.dark_hours")


def verdict_short_hours(*, hours: Number, allowed: Number, share: Number) -> Message:
    """A hot day of seed watering takes {hours} hours and {allowed} are allowed: sow about {share}
    of the lawn at a time, or get a faster sprinkler.
    """
    return Message(
        "watering.verdict.short_hours", (("hours", hours), ("allowed", allowed), ("share", share))
    )


def verdict_short_hours_plants(*, hours: Number, allowed: Number, share: Number) -> Message:
    """A hot day of watering new plants takes {hours} hours and {allowed} are allowed: plant about
    {share} of the lawn at a time, or get a faster sprinkler.
    """
    return Message(
        "watering.verdict.short_hours_plants",
        (("hours", hours), ("allowed", allowed), ("share", share)),
    )


def verdict_short_day(*, hours: Number, allowed: Number, share: Number) -> Message:
    """A hot day of seed watering takes {hours} hours of this water and a day has {allowed}: sow
    about {share} of the lawn at a time, or take a second tap or a faster sprinkler.
    """
    return Message(
        "watering.verdict.short_day", (("hours", hours), ("allowed", allowed), ("share", share))
    )


def verdict_short_day_plants(*, hours: Number, allowed: Number, share: Number) -> Message:
    """A hot day of watering new plants takes {hours} hours of this water and a day has {allowed}:
    plant about {share} of the lawn at a time, or take a second tap or a faster sprinkler.
    """
    return Message(
        "watering.verdict.short_day_plants",
        (("hours", hours), ("allowed", allowed), ("share", share)),
    )


def rate_hose(*, flow: Quantity) -> Message:
    """one hose on one tap, {flow}"""
    return Message("watering.rate.hose", (("flow", flow),))


def rate_hose_assumed(*, flow: Quantity) -> Message:
    """an assumed hose on one tap, {flow}: time how long a bucket takes to fill"""
    return Message("watering.rate.hose_assumed", (("flow", flow),))


def hose_settings(*, n: int, minutes: int, work: int) -> Message:
    """By hose: {n} settings of the sprinkler one after the other, {minutes} minutes each; about
    {work} minutes of your own work to move it.
    """
    return Message("watering.hose.settings", (("n", n), ("minutes", minutes), ("work", work)))


def hose_with_timer(*, n: int, minutes: int) -> Message:
    """{n} settings of {minutes} minutes each: a timer with that many outlets, or somebody moves the
    sprinkler.
    """
    return Message("watering.hose.with_timer", (("n", n), ("minutes", minutes)))


def hose_rounds(*, settings: int, wait: int) -> Message:
    """Go round all {settings} settings once for each cycle, and wait {wait} min more before the
    next round.
    """
    return Message("watering.hose.rounds", (("settings", settings), ("wait", wait)))


def hose_rounds_at_once(*, settings: int) -> Message:
    """Go round all {settings} settings once for each cycle; by then the first has soaked in, and
    the next round follows at once.
    """
    return Message("watering.hose.rounds_at_once", (("settings", settings),))


def hose_hours_assumed(*, hours: Number) -> Message:
    """Nobody said how long a day somebody is there to move the hose: {hours} hours are taken, and
    no more is sown than that keeps wet. Tell the plan yours⟦ (`hours_per_day` under `[water]`)⟧.
    """
    return Message("watering.hose.hours_assumed", (("hours", hours),))


def hose_part(*, share: Number, area: Quantity, hours: Number) -> Message:
    """One hose keeps about {share} of the lawn ({area}) wet in {hours} hours a day: sow that part
    now, the thinnest first, and the rest in the next season. A timer with several outlets,
    sprinklers, a second tap or more hours at home water more⟦ (`[water]` `timer`, `zones`, `flow`,
    `hours_per_day`)⟧.
    """
    return Message("watering.hose.part", (("share", share), ("area", area), ("hours", hours)))


def hose_part_bare(*, share: Number, area: Quantity, hours: Number) -> Message:
    """One hose keeps about {share} of the lawn ({area}) wet in {hours} hours a day: sow that part
    now, and the rest in the next season. The same day cover the rest, which else washes and grows
    weeds: clean straw so that half the soil shows, or a thin nurse grass (annual ryegrass or oats).
    A timer with several outlets, sprinklers, a second tap or more hours at home water more⟦
    (`[water]` `timer`, `zones`, `flow`, `hours_per_day`)⟧.
    """
    return Message("watering.hose.part_bare", (("share", share), ("area", area), ("hours", hours)))


def hose_bares(*, hours: Number, share: Number) -> Message:
    """No stand is killed that is not sown again in the same season: in {hours} hours a day one hose
    keeps {share} of the lawn wet, and the rest would lie bare. A timer with several outlets,
    sprinklers, a second tap or more hours at home water more⟦ (`[water]` `timer`, `zones`, `flow`,
    `hours_per_day`)⟧.
    """
    return Message("watering.hose.bares", (("hours", hours), ("share", share)))


def hose_waits(*, hours: Number, least: Number) -> Message:
    """Seed waits: in {hours} hours a day one hose keeps less than {least} of the lawn wet, and seed
    that dries once is dead.
    """
    return Message("watering.hose.waits", (("hours", hours), ("least", least)))


def how_work_of(*, day: Day) -> Message:
    """It waters in the work of {day}."""
    return Message("watering.how.work_of", (("day", day),))


def how_strip_before() -> Message:
    """Water in what was done on the working day before; what was done today has its turn after
    it.
    """
    return Message("watering.how.strip_before")


def how_strip_of_day() -> Message:
    """Water in what was done today; what was done before it has waterings of its own."""
    return Message("watering.how.strip_of_day")
