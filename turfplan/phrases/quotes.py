"""Messages of `messages/en/quotes.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Month, Number, Quantity


def no_prices() -> Message:
    """says no prices, and nothing is priced without"""
    return Message("quotes.no_prices")


def write_prices() -> Message:
    """write [prices] with its currency into business.toml"""
    return Message("quotes.write_prices")


def not_in_list() -> Message:
    """is agreed, but is no price of the list"""
    return Message("quotes.not_in_list")


def name_price() -> Message:
    """person_hour, delivery, minimum, or the name of a machine or a material of business.toml"""
    return Message("quotes.name_price")


def no_lawn() -> Message:
    """is no lawn of this data folder"""
    return Message("quotes.no_lawn")


def no_quote() -> Message:
    """has no such quote"""
    return Message("quotes.no_quote")


def not_open() -> Message:
    """is not open any more"""
    return Message("quotes.not_open")


def not_accepted() -> Message:
    """was not accepted, and only what was accepted is changed"""
    return Message("quotes.not_accepted")


def ran_out() -> Message:
    """has run out"""
    return Message("quotes.ran_out")


def accept_late() -> Message:
    """offer anew, or accept it late with --yes"""
    return Message("quotes.accept_late")


def which_choice() -> Message:
    """is no choice of the quote"""
    return Message("quotes.which_choice")


def most_choices() -> Message:
    """is one too many: a quote has up to three choices, the lawn as it is planned among them"""
    return Message("quotes.most_choices")


def not_a_choice() -> Message:
    """is no choice"""
    return Message("quotes.not_a_choice")


def such_a_choice() -> Message:
    """KEY=VALUE of the brief, more with a semicolon between, such as leveling.depth=0.25 in; a name
    for it goes before, with a colon
    """
    return Message("quotes.such_a_choice")


def not_planned_so() -> Message:
    """cannot be planned so"""
    return Message("quotes.not_planned_so")


def because(*, reasons: Listed) -> Message:
    """{reasons}"""
    return Message("quotes.because", (("reasons", reasons),))


def work_begun() -> Message:
    """has work that is done, and its plan holds what is left: it tells no price of a change"""
    return Message("quotes.work_begun")


def say_price() -> Message:
    """say the price of the change with --price"""
    return Message("quotes.say_price")


def not_a_price() -> Message:
    """is no price"""
    return Message("quotes.not_a_price")


def such_a_price() -> Message:
    """a number such as 120.50 or -40"""
    return Message("quotes.such_a_price")


def say_what() -> Message:
    """say with --note what is changed"""
    return Message("quotes.say_what")


def by_hand() -> Message:
    """was written by hand, and is not written over"""
    return Message("quotes.by_hand")


def change_brief(*, changes: str) -> Message:
    """write {changes} into it, plan it and offer it again"""
    return Message("quotes.change_brief", (("changes", changes),))


def first_choice() -> Message:
    """as planned"""
    return Message("quotes.first_choice")


def offered(*, number: str, client: str, total: str) -> Message:
    """Quote {number} for {client}: {total}"""
    return Message("quotes.offered", (("number", number), ("client", client), ("total", total)))


def other_choice(*, choice: str, total: str) -> Message:
    """or {choice}: {total}"""
    return Message("quotes.other_choice", (("choice", choice), ("total", total)))


def accepted(*, number: str, total: str) -> Message:
    """Quote {number} accepted: {total}; it stands as it was offered"""
    return Message("quotes.accepted", (("number", number), ("total", total)))


def brief_changed(*, command: str) -> Message:
    """Its brief says now what was chosen. Plan it: {command}"""
    return Message("quotes.brief_changed", (("command", command),))


def declined(*, number: str) -> Message:
    """Quote {number} declined"""
    return Message("quotes.declined", (("number", number),))


def changed(*, number: str, change: int, price: str, total: str) -> Message:
    """Quote {number}, change {change}: {price}; {total} in all"""
    return Message(
        "quotes.changed",
        (("number", number), ("change", change), ("price", price), ("total", total)),
    )


def not_priced(*, n: int) -> Message:
    """{n} things that the plan buys have no price in business.toml; the quote says so"""
    return Message("quotes.not_priced", (("n", n),))


def none() -> Message:
    """No quote."""
    return Message("quotes.none")


def head_number() -> Message:
    """quote"""
    return Message("quotes.head_number")


def head_state() -> Message:
    """state"""
    return Message("quotes.head_state")


def head_day() -> Message:
    """since"""
    return Message("quotes.head_day")


def head_until() -> Message:
    """until"""
    return Message("quotes.head_until")


def head_total() -> Message:
    """total"""
    return Message("quotes.head_total")


def state_offered() -> Message:
    """offered"""
    return Message("quotes.state.offered")


def state_accepted() -> Message:
    """accepted"""
    return Message("quotes.state.accepted")


def state_declined() -> Message:
    """declined"""
    return Message("quotes.state.declined")


def state_run_out() -> Message:
    """run out"""
    return Message("quotes.state.run_out")


def state_withdrawn() -> Message:
    """taken back"""
    return Message("quotes.state.withdrawn")


def waiting() -> Message:
    """Waiting for an answer, and counted in no hours and no order:"""
    return Message("quotes.waiting")


def none_waiting() -> Message:
    """No quote waits for an answer."""
    return Message("quotes.none_waiting")


def head_begins() -> Message:
    """would begin"""
    return Message("quotes.head_begins")


def head_by() -> Message:
    """answer by"""
    return Message("quotes.head_by")


def head_lost() -> Message:
    """too late after that"""
    return Message("quotes.head_lost")


def left_out(*, n: int, command: str) -> Message:
    """{n} lawns are left out until their quotes are accepted: {command}"""
    return Message("quotes.left_out", (("n", n), ("command", command)))


def client_estimate_depth() -> Message:
    """The amount is an estimate from one depth for the whole lawn, until its heights are
    measured.
    """
    return Message("quotes.client.estimate_depth")


def client_estimate_grass() -> Message:
    """The seed is an estimate until the grass of the lawn is known, beside which it is chosen."""
    return Message("quotes.client.estimate_grass")


def client_estimate_soil() -> Message:
    """The mix is an estimate until the soil of the lawn is known, beside which it is chosen."""
    return Message("quotes.client.estimate_soil")


def client_estimate_test() -> Message:
    """The soil test may ask for lime, phosphate or potash."""
    return Message("quotes.client.estimate_test")


def client_heap_room() -> Message:
    """There is hard ground off the lawn for each delivery."""
    return Message("quotes.client.heap_room")


def client_permit() -> Message:
    """Where watering is restricted, a permit for new grass can be had."""
    return Message("quotes.client.permit")


def client_thin_share(*, share: Number, area: Quantity) -> Message:
    """{share} of the lawn is thin, dead or bare: {area}."""
    return Message("quotes.client.thin_share", (("share", share), ("area", area)))


def client_unknown_soil() -> Message:
    """The soil is loam."""
    return Message("quotes.client.unknown_soil")


def client_thin_cause() -> Message:
    """Nothing at work still, such as shade, insects or disease, has made the grass thin."""
    return Message("quotes.client.thin_cause")


def client_no_range(*, nutrient: Message) -> Message:
    """None of this is given until the laboratory says how its test of {nutrient} is read."""
    return Message("quotes.client.no_range", (("nutrient", nutrient),))


def client_unnamed_grass() -> Message:
    """The grass is looked at before anything is sown."""
    return Message("quotes.client.unnamed_grass")


def client_hose_hours(*, hours: Number) -> Message:
    """Somebody is there for {hours} hours a day to move the hose."""
    return Message("quotes.client.hose_hours", (("hours", hours),))


def client_weed_killer(*, day: Day) -> Message:
    """The label of what killed weeds on {day} decides when seed may follow."""
    return Message("quotes.client.weed_killer", (("day", day),))


def priceless(*, n: int) -> Message:
    """{n} quotes have things without a price"""
    return Message("quotes.priceless", (("n", n),))


def has_quotes(*, n: int) -> Message:
    """{n} lawns of the group have quotes already, and get no others unless they are named"""
    return Message("quotes.has_quotes", (("n", n),))


def choice_left_out(*, client: str, choice: str, reason: Message) -> Message:
    """{client}: without {choice}, which cannot be planned there: {reason}"""
    return Message(
        "quotes.choice_left_out", (("client", client), ("choice", choice), ("reason", reason))
    )


def name_lawns() -> Message:
    """name lawns, or a group with --group COLUMN=VALUE, or --all"""
    return Message("quotes.name_lawns")


def one_lawn() -> Message:
    """name one lawn"""
    return Message("quotes.one_lawn")


def choice_total(*, choice: str, total: str) -> Message:
    """{choice} {total}"""
    return Message("quotes.choice_total", (("choice", choice), ("total", total)))


def head_choices() -> Message:
    """choices"""
    return Message("quotes.head_choices")


def taken_back(*, number: str, state: str) -> Message:
    """Quote {number} is {state} again"""
    return Message("quotes.taken_back", (("number", number), ("state", state)))


def offer_gone(*, number: str) -> Message:
    """Quote {number} is taken back: nothing is offered by it"""
    return Message("quotes.offer_gone", (("number", number),))


def change_gone(*, number: str, total: str) -> Message:
    """The last change of quote {number} is taken back; {total} in all"""
    return Message("quotes.change_gone", (("number", number), ("total", total)))


def page_title(*, number: str) -> Message:
    """Quote {number}"""
    return Message("quotes.page.title", (("number", number),))


def page_description(*, number: str) -> Message:
    """Quote {number}: what is done, what it costs, and what is assumed"""
    return Message("quotes.page.description", (("number", number),))


def page_of(*, day: str) -> Message:
    """Of {day}"""
    return Message("quotes.page.of", (("day", day),))


def page_until(*, day: str) -> Message:
    """Holds until {day}"""
    return Message("quotes.page.until", (("day", day),))


def page_accepted_on(*, day: str) -> Message:
    """Accepted on {day}"""
    return Message("quotes.page.accepted_on", (("day", day),))


def page_declined_on(*, day: str) -> Message:
    """Declined on {day}"""
    return Message("quotes.page.declined_on", (("day", day),))


def page_ran_out_on(*, day: str) -> Message:
    """Ran out on {day}"""
    return Message("quotes.page.ran_out_on", (("day", day),))


def page_choices(*, currency: str) -> Message:
    """Prices in {currency}"""
    return Message("quotes.page.choices", (("currency", currency),))


def page_line() -> Message:
    """What"""
    return Message("quotes.page.line")


def page_choice(*, name: str) -> Message:
    """Choice {name}"""
    return Message("quotes.page.choice", (("name", name),))


def page_taken() -> Message:
    """taken"""
    return Message("quotes.page.taken")


def page_people(*, price: str) -> Message:
    """Hours of people, {price} each"""
    return Message("quotes.page.people", (("price", price),))


def page_machine(*, name: str, price: str) -> Message:
    """Hours of {name}, {price} each"""
    return Message("quotes.page.machine", (("name", name), ("price", price)))


def page_material(*, name: str, price: str) -> Message:
    """{name}, {price} each"""
    return Message("quotes.page.material", (("name", name), ("price", price)))


def page_delivery(*, price: str) -> Message:
    """Deliveries, {price} each"""
    return Message("quotes.page.delivery", (("price", price),))


def page_minimum() -> Message:
    """Up to the least that is charged"""
    return Message("quotes.page.minimum")


def page_net() -> Message:
    """Sum"""
    return Message("quotes.page.net")


def page_tax(*, name: str, percent: str) -> Message:
    """{name}, {percent}%"""
    return Message("quotes.page.tax", (("name", name), ("percent", percent)))


def page_total() -> Message:
    """Total"""
    return Message("quotes.page.total")


def page_work() -> Message:
    """What we do"""
    return Message("quotes.page.work")


def page_month_alone(*, month: Month) -> Message:
    """{month}"""
    return Message("quotes.page.month_alone", (("month", month),))


def page_month(*, month: Month, year: str) -> Message:
    """{month} {year}"""
    return Message("quotes.page.month", (("month", month), ("year", year)))


def page_otherwise() -> Message:
    """Unlike choice 1"""
    return Message("quotes.page.otherwise")


def page_as_first() -> Message:
    """The same work as in choice 1, in the same months."""
    return Message("quotes.page.as_first")


def page_moved(*, months: Listed) -> Message:
    """The rest as in choice 1, but in {months}"""
    return Message("quotes.page.moved", (("months", months),))


def page_months(*, first: str, last: str) -> Message:
    """other months, {first} to {last}"""
    return Message("quotes.page.months", (("first", first), ("last", last)))


def page_without() -> Message:
    """Not in this choice"""
    return Message("quotes.page.without")


def page_yours() -> Message:
    """What you do"""
    return Message("quotes.page.yours")


def page_unpriced() -> Message:
    """Not in the price"""
    return Message("quotes.page.unpriced")


def page_assumed() -> Message:
    """What is assumed"""
    return Message("quotes.page.assumed")


def page_may_change() -> Message:
    """What would change it"""
    return Message("quotes.page.may_change")


def page_other_facts() -> Message:
    """Where something assumed is not so, a numbered change with its price follows."""
    return Message("quotes.page.other_facts")


def page_days_move() -> Message:
    """Days may move with the weather, at the same price."""
    return Message("quotes.page.days_move")


def page_later() -> Message:
    """Changes since"""
    return Message("quotes.page.later")


def page_change(*, number: int, day: str) -> Message:
    """Change {number} of {day}"""
    return Message("quotes.page.change", (("number", number), ("day", day)))


def page_rounding() -> Message:
    """Lines are rounded, tax once."""
    return Message("quotes.page.rounding")


def page_pay_days(*, days: int) -> Message:
    """Payable within {days} days."""
    return Message("quotes.page.pay_days", (("days", days),))


def page_terms() -> Message:
    """Terms"""
    return Message("quotes.page.terms")


def page_signed() -> Message:
    """Accepted: choice, day, name"""
    return Message("quotes.page.signed")


def visits(*, n: int) -> Message:
    """{n} lawns to be measured"""
    return Message("quotes.visits", (("n", n),))


def all_measured() -> Message:
    """Every lawn has its survey."""
    return Message("quotes.all_measured")
