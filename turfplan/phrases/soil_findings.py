"""Messages of `messages/en/soil_findings.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Number, Quantity


def lime_unknown(
    *, ph: Number, below: Number, goal: Number, grass: Listed, ask: Message, when: Message
) -> Message:
    """The soil's pH of {ph} is {below} below the goal of {goal} for {grass}, and pH alone does not
    say how much lime that takes: no lime is planned yet. {ask} {when}
    """
    return Message(
        "soil_findings.lime_unknown",
        (
            ("ph", ph),
            ("below", below),
            ("goal", goal),
            ("grass", grass),
            ("ask", ask),
            ("when", when),
        ),
    )


def ask_rate() -> Message:
    """Ask the laboratory for its lime rate⟦ (`lime_rate`)⟧, or for the buffer pH with the name of
    the buffer⟦ (`buffer_ph`, `buffer_method`)⟧, and tell the plan⟦ under `[soil_test]`⟧.
    """
    return Message("soil_findings.ask_rate")


def ask_buffer_name(*, buffer: Number) -> Message:
    """The buffer pH of {buffer} means another amount in each buffer: ask the laboratory which one
    it used⟦ (`buffer_method`)⟧, or for its lime rate⟦ (`lime_rate`)⟧, and tell the plan⟦ under
    `[soil_test]`⟧.
    """
    return Message("soil_findings.ask_buffer_name", (("buffer", buffer),))


def ask_no_table(*, buffer: Number, method: Message) -> Message:
    """There is no table here for a buffer pH of {buffer} by {method}, and the table of another
    buffer must not be used: ask the laboratory for its lime rate⟦ (`lime_rate`)⟧, and tell the
    plan⟦ under `[soil_test]`⟧.
    """
    return Message("soil_findings.ask_no_table", (("buffer", buffer), ("method", method)))


def ask_peat() -> Message:
    """The tables are made for mineral soil and do not hold for peat: ask the laboratory for its
    lime rate for organic soil⟦ (`lime_rate`)⟧, and tell the plan⟦ under `[soil_test]`⟧.
    """
    return Message("soil_findings.ask_peat")


def lime_before_seed() -> Message:
    """Lime goes on before the seed or the plants: seedlings suffer most in sour soil."""
    return Message("soil_findings.lime_before_seed")


def lime_any_time() -> Message:
    """It can go on at any time while the ground is not frozen."""
    return Message("soil_findings.lime_any_time")


def lime_any_month() -> Message:
    """It can go on in any month."""
    return Message("soil_findings.lime_any_month")


def free_lime_unknown() -> Message:
    """Does the soil hold free lime? Drip vinegar on a dry crumb: fizzing means yes⟦ (`free_lime =
    true`)⟧, and sulfur is wasted on it; without fizzing⟦ (`free_lime = false`)⟧ a little sulfur can
    be given. Until then none is planned.
    """
    return Message("soil_findings.free_lime_unknown")


def salts_unknown() -> Message:
    """The ground is said to be salty: ask the laboratory for soluble salts (electrical
    conductivity⟦, `salts = \"4 dS/m\"`⟧) and for sodium⟦ (`sar`)⟧; no seed or plants before the
    answer.
    """
    return Message("soil_findings.salts_unknown")


def sodium_unknown() -> Message:
    """The ground is said to be sodic: ask the laboratory for the sodium adsorption ratio⟦ (`sar`)⟧
    and its gypsum rate⟦ (`gypsum_rate`)⟧; no gypsum is planned before the answer.
    """
    return Message("soil_findings.sodium_unknown")


def gypsum_unknown(*, sar: Number) -> Message:
    """A sodium adsorption ratio of {sar} is that of a sodic soil: ask the laboratory how much
    gypsum it takes⟦ (`gypsum_rate`)⟧, since that hangs on the clay.
    """
    return Message("soil_findings.gypsum_unknown", (("sar", sar),))


def ph_high(*, ph: Number, high: Number, grass: Listed) -> Message:
    """The soil's pH of {ph} is above {high}, up to which it suits {grass}: no lime, nor wood ash;
    iron sprayed on the leaves for color; feed as usual.
    """
    return Message("soil_findings.ph_high", (("ph", ph), ("high", high), ("grass", grass)))


def sulfur_useless() -> Message:
    """The soil holds free lime: sulfur would be used up by it for many years without changing the
    pH, so none is given (Purdue University).
    """
    return Message("soil_findings.sulfur_useless")


def no_lime_on_limy(*, ph: Number) -> Message:
    """The soil holds free lime: none is given, whatever its pH of {ph} says."""
    return Message("soil_findings.no_lime_on_limy", (("ph", ph),))


def no_lime_by_state(*, ph: Number, below: Number) -> Message:
    """At a pH of {ph} lime does no good by the rule of this state, which limes this grass below
    {below} only: none is given.
    """
    return Message("soil_findings.no_lime_by_state", (("ph", ph), ("below", below)))


def lime_given(*, rate: Quantity, left: Quantity) -> Message:
    """Of the {rate} of lime that was given before {left} had not reacted when the sample was taken,
    and the pH does not show them yet: tell the laboratory, so that its rate is less by that.
    """
    return Message("soil_findings.lime_given", (("rate", rate), ("left", left)))


def no_topsoil() -> Message:
    """The soil test is said to be of topsoil, and so much that roots would stand in it alone is not
    brought in here: it is taken for the lawn's own soil. Test that too.
    """
    return Message("soil_findings.no_topsoil")


def test_buried(*, depth: Quantity) -> Message:
    """The soil test is of ground that {depth} of topsoil will bury: nothing is limed or fertilized
    by it. Have the topsoil tested, or say of the test that it is the topsoil's⟦ (`of =
    \"topsoil\"`)⟧.
    """
    return Message("soil_findings.test_buried", (("depth", depth),))


def ph_in_range(*, ph: Number, low: Number, grass: Listed, goal: Number) -> Message:
    """The soil's pH of {ph} is a little under the {goal} that liming of {grass} aims at, and not
    below the {low} from which on none is needed: no lime is given. Test again in three years.
    """
    return Message(
        "soil_findings.ph_in_range", (("ph", ph), ("low", low), ("grass", grass), ("goal", goal))
    )


def ph_borne(*, ph: Number, high: Number, grass: Listed, goal: Number) -> Message:
    """The soil's pH of {ph} is above the {goal} that liming of {grass} aims at and within what it
    bears, up to {high}: no lime is given.
    """
    return Message(
        "soil_findings.ph_borne", (("ph", ph), ("high", high), ("grass", grass), ("goal", goal))
    )


def ph_right(*, ph: Number, goal: Number, grass: Listed) -> Message:
    """The soil's pH of {ph} is right for {grass} (goal {goal}): no lime is given."""
    return Message("soil_findings.ph_right", (("ph", ph), ("goal", goal), ("grass", grass)))


def rate_not_taken(*, rate: Quantity) -> Message:
    """The lime rate of {rate} that you gave is not taken: the pH beside it asks for none. Ask the
    laboratory for which goal it was reckoned.
    """
    return Message("soil_findings.rate_not_taken", (("rate", rate),))


def table_asks_none(*, measured: Message) -> Message:
    """{measured}: it asks for none."""
    return Message("soil_findings.table_asks_none", (("measured", measured),))


def given_enough(*, measured: Message) -> Message:
    """{measured}: what was given already covers it, so none is planned; test again before more."""
    return Message("soil_findings.given_enough", (("measured", measured),))


def test_undated() -> Message:
    """The soil test has no date⟦ (`on`)⟧: it is taken as recent, and nothing that the law ties to
    its age is given.
    """
    return Message("soil_findings.test_undated")


def test_old(*, day: Day) -> Message:
    """The soil test of {day} is over three years old: what it asks for is planned until a new
    sample says otherwise, and a new one is due first.
    """
    return Message("soil_findings.test_old", (("day", day),))


def salts_too_high(
    *, salts: Number, bears: Number, grass: Message, half: Quantity, most: Quantity, depth: Quantity
) -> Message:
    """Salts of {salts} dS/m are more than the {bears} dS/m that {grass} bears. First find where
    they come from (water, sea, road salt, a high water table) and let the ground drain; then water
    deeply: {half} of good water through the soil take about half of the salts from the upper
    {depth} of soil, {most} about four fifths. Test again.
    """
    return Message(
        "soil_findings.salts_too_high",
        (
            ("salts", salts),
            ("bears", bears),
            ("grass", grass),
            ("half", half),
            ("most", most),
            ("depth", depth),
        ),
    )


def salts_borne(*, salts: Number, grass: Message) -> Message:
    """Salts of {salts} dS/m are borne by {grass} once it is rooted; seedlings bear less."""
    return Message("soil_findings.salts_borne", (("salts", salts), ("grass", grass)))


def salts_wash_first(
    *, salts: Number, least: Number, most: Number, grass: Message, half: Quantity, depth: Quantity
) -> Message:
    """Salts of {salts} dS/m thin out seedlings of {grass}: by cultivar these bear {least} to
    {most}. In the weeks before the seed let {half} of good water soak through, in slow turns and
    where the ground drains, which takes about half of the salts from the upper {depth}, and test
    again; take a cultivar that is sold as bearing salt, and never let the seedbed dry, since salt
    rises as it does.
    """
    return Message(
        "soil_findings.salts_wash_first",
        (
            ("salts", salts),
            ("least", least),
            ("most", most),
            ("grass", grass),
            ("half", half),
            ("depth", depth),
        ),
    )


def salts_no_water(*, salts: Number, least: Number, most: Number, grass: Message) -> Message:
    """Salts of {salts} dS/m thin out seedlings of {grass}: by cultivar these bear {least} to
    {most}. Nobody waters here: only a wet season washes them down; test again after it, and take a
    cultivar that is sold as bearing salt.
    """
    return Message(
        "soil_findings.salts_no_water",
        (("salts", salts), ("least", least), ("most", most), ("grass", grass)),
    )


def salts_leach(*, half: Quantity, most: Quantity, depth: Quantity) -> Message:
    """Salt leaves only with water that runs through: {half} of good water take about half of it
    from the upper {depth} of soil, {most} about four fifths, where the ground drains.
    """
    return Message("soil_findings.salts_leach", (("half", half), ("most", most), ("depth", depth)))


def not_sodic(*, sar: Number) -> Message:
    """A sodium adsorption ratio of {sar} is not that of a sodic soil: gypsum would do nothing for
    it.
    """
    return Message("soil_findings.not_sodic", (("sar", sar),))


def gypsum_not_taken(*, rate: Quantity) -> Message:
    """The gypsum rate of {rate} that you gave is not taken: gypsum helps sodic soil alone, and no
    ratio of sodium⟦ (`sar`)⟧ shows one.
    """
    return Message("soil_findings.gypsum_not_taken", (("rate", rate),))


def on_peat() -> Message:
    """Peat bears little: barrows on boards, no truck, loader or heavy roller on it, and none at all
    when it is wet. It is never let dry out, since dry peat sheds water and shrinks.
    """
    return Message("soil_findings.on_peat")


def on_chalk() -> Message:
    """Chalk holds lime enough for ever: no lime, no limy compost; it dries early in summer, and
    pale grass wants iron.
    """
    return Message("soil_findings.on_chalk")


def on_subsoil(*, depth: Quantity) -> Message:
    """Subsoil left by builders is no seedbed: loosen it when it is dry enough to crumble and bring
    {depth} of topsoil before seed or sod; on living grass core it and dress it year after year. Its
    own test comes first, since it is often poor and out of its pH.
    """
    return Message("soil_findings.on_subsoil", (("depth", depth),))


def on_rubble(*, depth: Quantity) -> Message:
    """Rubble: pick out what a rake finds, expect pipes and wire, and bring {depth} of topsoil
    before seed or sod. Mortar in it keeps the pH high: no lime before a test. Try the tines of a
    machine by hand first.
    """
    return Message("soil_findings.on_rubble", (("depth", depth),))


def topsoil_short(*, ground: Message, given: Quantity, depth: Quantity) -> Message:
    """Do not order yet: {ground} asks for {depth} of topsoil before seed or sod, and what is asked
    for brings {given} where it brings least. Ask for a depth of {depth}⟦ (`depth = \"{depth}\"`
    under `[leveling]`)⟧, no less for any hollow or zone of its own.
    """
    return Message(
        "soil_findings.topsoil_short", (("ground", ground), ("given", given), ("depth", depth))
    )


def topsoil_none(*, ground: Message, depth: Quantity) -> Message:
    """Do not order yet: {ground} asks for {depth} of topsoil before seed or sod, and what is asked
    for leaves ground without any. Ask for a depth of {depth}⟦ (`depth = \"{depth}\"` under
    `[leveling]`)⟧, no less for any hollow or zone of its own.
    """
    return Message("soil_findings.topsoil_none", (("ground", ground), ("depth", depth)))


def topsoil_short_survey(*, ground: Message, depth: Quantity) -> Message:
    """Do not order yet: {ground} asks for {depth} of topsoil before seed or sod, and leveling to
    the survey brings less in places. Ask for a depth of {depth} in place of the survey⟦ (`depth =
    \"{depth}\"` under `[leveling]`, without `survey`)⟧.
    """
    return Message("soil_findings.topsoil_short_survey", (("ground", ground), ("depth", depth)))


def rubble() -> Message:
    """rubble"""
    return Message("soil_findings.rubble")


def subsoil() -> Message:
    """subsoil"""
    return Message("soil_findings.subsoil")


def rock_no_tines(*, depth: Quantity) -> Message:
    """Rock lies {depth} down: no hollow tines, they would strike it. Spike by hand, dress thinly,
    and water little and often: so thin a soil holds water for few days.
    """
    return Message("soil_findings.rock_no_tines", (("depth", depth),))


def rock_near(*, depth: Quantity) -> Message:
    """Rock lies {depth} down: probe by hand before the machine cores, and water little and often,
    since roots end there.
    """
    return Message("soil_findings.rock_near", (("depth", depth),))


def rock_deep(*, depth: Quantity) -> Message:
    """Rock lies {depth} down: below the roots that are watered for here; probe by hand where tines
    or a spade go in.
    """
    return Message("soil_findings.rock_deep", (("depth", depth),))
