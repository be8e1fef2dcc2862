"""Messages of `messages/en/office.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def title() -> Message:
    """Office"""
    return Message("office.title")


def tab_list() -> Message:
    """Lawns"""
    return Message("office.tab_list")


def tab_password() -> Message:
    """My password"""
    return Message("office.tab_password")


def sign_out() -> Message:
    """Sign out"""
    return Message("office.sign_out")


def pages() -> Message:
    """Office pages"""
    return Message("office.pages")


def sign_in() -> Message:
    """Sign in"""
    return Message("office.sign_in")


def name() -> Message:
    """Name"""
    return Message("office.name")


def password() -> Message:
    """Password"""
    return Message("office.password")


def do_sign_in() -> Message:
    """Sign in"""
    return Message("office.do_sign_in")


def no_seat(*, command: str) -> Message:
    """Who signs in here is entered at the machine: `{command}`"""
    return Message("office.no_seat", (("command", command),))


def wrong() -> Message:
    """Name and password do not go together. Look at both and try again."""
    return Message("office.wrong")


def wait(*, n: int) -> Message:
    """Too often in a short time. Try again in {n} minutes."""
    return Message("office.wait", (("n", n),))


def sign_in_first() -> Message:
    """Sign in first, then send it again: nothing was written."""
    return Message("office.sign_in_first")


def not_yours() -> Message:
    """This is not for a crew"""
    return Message("office.not_yours")


def not_yours_say() -> Message:
    """A crew sees the lawns of its day, their sheets and ticks."""
    return Message("office.not_yours_say")


def back_to_day() -> Message:
    """To the lawns of today"""
    return Message("office.back_to_day")


def unreadable() -> Message:
    """The list of who may sign in cannot be read"""
    return Message("office.unreadable")


def unreadable_say(*, file: str, command: str) -> Message:
    """Look at {file} in the data folder, or bring it back with `{command}`."""
    return Message("office.unreadable_say", (("file", file), ("command", command)))


def forgotten_ask() -> Message:
    """Forgotten? The office sets a new password at its machine."""
    return Message("office.forgotten_ask")


def password_title() -> Message:
    """My password"""
    return Message("office.password_title")


def old_password() -> Message:
    """Password so far"""
    return Message("office.old_password")


def new_password() -> Message:
    """New password"""
    return Message("office.new_password")


def again_password() -> Message:
    """The new one again"""
    return Message("office.again_password")


def password_rule(*, signs: int) -> Message:
    """{signs} signs or more, of any kind: several words do well."""
    return Message("office.password_rule", (("signs", signs),))


def set_password() -> Message:
    """Change the password"""
    return Message("office.set_password")


def password_set() -> Message:
    """The password is changed. Wherever else you were signed in, that has ended."""
    return Message("office.password_set")


def not_same() -> Message:
    """the two new passwords are not the same"""
    return Message("office.not_same")


def old_wrong() -> Message:
    """the password so far is another one"""
    return Message("office.old_wrong")


def too_short(*, signs: int) -> Message:
    """is too short: {signs} signs at least"""
    return Message("office.too_short", (("signs", signs),))


def too_long(*, signs: int) -> Message:
    """is too long: {signs} signs at most"""
    return Message("office.too_long", (("signs", signs),))


def unprintable() -> Message:
    """holds a sign that cannot be seen"""
    return Message("office.unprintable")


def too_plain() -> Message:
    """is too easily guessed: one sign over and over, a row of the keyboard, or a name"""
    return Message("office.too_plain")


def needs_name() -> Message:
    """a name is needed"""
    return Message("office.needs_name")


def name_taken() -> Message:
    """has this name already"""
    return Message("office.name_taken")


def change_instead() -> Message:
    """`change` gives other terms, `password` another password"""
    return Message("office.change_instead")


def no_operator() -> Message:
    """nobody of this name may sign in"""
    return Message("office.no_operator")


def end_is_over() -> Message:
    """this day is over"""
    return Message("office.end_is_over")


def no_crew() -> Message:
    """no lawn names this crew"""
    return Message("office.no_crew")


def crew_column() -> Message:
    """the column `crew` of the client file names the crew of a lawn"""
    return Message("office.crew_column")


def ask_password() -> Message:
    """Password"""
    return Message("office.ask_password")


def ask_again() -> Message:
    """The same again"""
    return Message("office.ask_again")


def operator_added(*, name: str, right: Message) -> Message:
    """{name} may sign in: {right}."""
    return Message("office.operator_added", (("name", name), ("right", right)))


def operator_changed(*, name: str, right: Message) -> Message:
    """{name} has other terms now: {right}. What was signed in has ended."""
    return Message("office.operator_changed", (("name", name), ("right", right)))


def operator_password(*, name: str) -> Message:
    """{name} has another password. What was signed in has ended."""
    return Message("office.operator_password", (("name", name),))


def operator_gone(*, name: str) -> Message:
    """{name} may sign in no more, and what was signed in has ended."""
    return Message("office.operator_gone", (("name", name),))


def operators_none() -> Message:
    """Nobody may sign in yet."""
    return Message("office.operators_none")


def right_office() -> Message:
    """the office, with all lawns, prices and lists"""
    return Message("office.right_office")


def right_crew(*, crew: str) -> Message:
    """crew {crew}, the lawns of its day"""
    return Message("office.right_crew", (("crew", crew),))


def right_until(*, right: Message, day: Day) -> Message:
    """{right}, until {day}"""
    return Message("office.right_until", (("right", right), ("day", day)))


def right_ended(*, right: Message, day: Day) -> Message:
    """{right}; it ended on {day}"""
    return Message("office.right_ended", (("right", right), ("day", day)))


def which_name() -> Message:
    """name who is meant"""
    return Message("office.which_name")


def no_password() -> Message:
    """no password came"""
    return Message("office.no_password")


def office_at(*, address: str) -> Message:
    """The office page: {address}"""
    return Message("office.office_at", (("address", address),))


def no_operators(*, command: str) -> Message:
    """Nobody may sign in there yet: {command}"""
    return Message("office.no_operators", (("command", command),))


def hours_of_week() -> Message:
    """Hours this week"""
    return Message("office.hours_of_week")


def need_failed(*, reason: Message) -> Message:
    """{reason}"""
    return Message("office.need_failed", (("reason", reason),))


def need_overdue(*, n: int, title: str, day: Day) -> Message:
    """{n} jobs are over without a word, the first by {day}: {title}"""
    return Message("office.need_overdue", (("n", n), ("title", title), ("day", day)))


def need_last_day(*, title: str, day: Day) -> Message:
    """{title} can be begun until {day}, and not after"""
    return Message("office.need_last_day", (("title", title), ("day", day)))


def need_quote(*, number: str, day: Day) -> Message:
    """Quote {number} is unanswered and holds until {day}"""
    return Message("office.need_quote", (("number", number), ("day", day)))


def need_answer(*, number: str, day: Day, title: str) -> Message:
    """Quote {number} is unanswered; after {day} it is too late for: {title}"""
    return Message("office.need_answer", (("number", number), ("day", day), ("title", title)))


def waits(*, number: str, day: Day) -> Message:
    """Waiting for the answer to quote {number}; it must come by {day}"""
    return Message("office.waits", (("number", number), ("day", day)))


def waits_open(*, number: str) -> Message:
    """Waiting for the answer to quote {number}"""
    return Message("office.waits_open", (("number", number),))


def need_quote_over(*, number: str, day: Day) -> Message:
    """Quote {number} ran out on {day} without an answer"""
    return Message("office.need_quote_over", (("number", number), ("day", day)))


def need_question(*, n: int, asked: str, day: Day) -> Message:
    """{n} open questions, the first by {day}: {asked}"""
    return Message("office.need_question", (("n", n), ("asked", asked), ("day", day)))


def need_message() -> Message:
    """The client does not know the days that hold: a message to send"""
    return Message("office.need_message")


def never_planned() -> Message:
    """it was never planned"""
    return Message("office.never_planned")


def kind_failed() -> Message:
    """Not planned"""
    return Message("office.kind_failed")


def kind_overdue() -> Message:
    """Overdue"""
    return Message("office.kind_overdue")


def kind_last_day() -> Message:
    """Last day near"""
    return Message("office.kind_last_day")


def kind_quote() -> Message:
    """Quote"""
    return Message("office.kind_quote")


def kind_question() -> Message:
    """Question"""
    return Message("office.kind_question")


def kind_message() -> Message:
    """Message"""
    return Message("office.kind_message")


def to_decide() -> Message:
    """To decide"""
    return Message("office.to_decide")


def of_today() -> Message:
    """Work today"""
    return Message("office.of_today")


def all_lawns() -> Message:
    """All lawns"""
    return Message("office.all_lawns")


def counted(*, name: Message, many: int) -> Message:
    """{name}: {many}"""
    return Message("office.counted", (("name", name), ("many", many)))


def whats_wanted() -> Message:
    """What is wanted"""
    return Message("office.whats_wanted")


def which_lawns() -> Message:
    """Which lawns"""
    return Message("office.which_lawns")


def find() -> Message:
    """Find a lawn: client, street, town, or any column"""
    return Message("office.find")


def do_find() -> Message:
    """Find"""
    return Message("office.do_find")


def found(*, n: int, asked: str) -> Message:
    """{n} lawns with “{asked}”"""
    return Message("office.found", (("n", n), ("asked", asked)))


def none_found() -> Message:
    """No lawn has this in its name, address, town or columns."""
    return Message("office.none_found")


def find_less() -> Message:
    """Try a part of the name or the street."""
    return Message("office.find_less")


def nothing_to_decide() -> Message:
    """Nothing needs a decision today."""
    return Message("office.nothing_to_decide")


def nothing_of_today() -> Message:
    """No lawn has work today."""
    return Message("office.nothing_of_today")


def lawns_of(*, n: int) -> Message:
    """{n} lawns"""
    return Message("office.lawns_of", (("n", n),))


def page_of(*, page: int, pages: int) -> Message:
    """Page {page} of {pages}"""
    return Message("office.page_of", (("page", page), ("pages", pages)))


def before() -> Message:
    """Before"""
    return Message("office.before")


def after() -> Message:
    """Next"""
    return Message("office.after")


def pages_of_list() -> Message:
    """Pages of the list"""
    return Message("office.pages_of_list")


def sheets() -> Message:
    """Sheets for crews, clients as a file"""
    return Message("office.sheets")


def sheet_day() -> Message:
    """All crews, today"""
    return Message("office.sheet_day")


def sheet_week() -> Message:
    """All crews, this week"""
    return Message("office.sheet_week")


def sheet_day_of(*, crew: str) -> Message:
    """{crew}: today"""
    return Message("office.sheet_day_of", (("crew", crew),))


def sheet_week_of(*, crew: str) -> Message:
    """{crew}: this week"""
    return Message("office.sheet_week_of", (("crew", crew),))


def export() -> Message:
    """Clients as a file"""
    return Message("office.export")


def crew_of(*, crew: str) -> Message:
    """Crew {crew}"""
    return Message("office.crew_of", (("crew", crew),))


def and_more(*, n: int) -> Message:
    """and {n} more"""
    return Message("office.and_more", (("n", n),))


def not_known() -> Message:
    """Nothing of this is known yet."""
    return Message("office.not_known")


def client() -> Message:
    """Client"""
    return Message("office.client")


def tab_client() -> Message:
    """Client"""
    return Message("office.tab_client")


def decide() -> Message:
    """To decide today"""
    return Message("office.decide")


def to_season() -> Message:
    """See its season"""
    return Message("office.to_season")


def to_today() -> Message:
    """Say what was done"""
    return Message("office.to_today")


def to_lawn() -> Message:
    """See what is known of it"""
    return Message("office.to_lawn")


def to_below() -> Message:
    """See below"""
    return Message("office.to_below")


def its_pages() -> Message:
    """The lawn"""
    return Message("office.its_pages")


def page_today() -> Message:
    """Today"""
    return Message("office.page_today")


def page_season() -> Message:
    """Season"""
    return Message("office.page_season")


def page_did() -> Message:
    """What was done"""
    return Message("office.page_did")


def page_calendar() -> Message:
    """Calendar, addresses"""
    return Message("office.page_calendar")


def page_brief() -> Message:
    """All that is known of it"""
    return Message("office.page_brief")


def address() -> Message:
    """Address"""
    return Message("office.address")


def telephone() -> Message:
    """Telephone"""
    return Message("office.telephone")


def access() -> Message:
    """Way in"""
    return Message("office.access")


def barred() -> Message:
    """Nobody may come on"""
    return Message("office.barred")


def price_of(*, item: str) -> Message:
    """Agreed price: {item}"""
    return Message("office.price_of", (("item", item),))


def message_head() -> Message:
    """Message to the client"""
    return Message("office.message_head")


def no_message() -> Message:
    """The client knows the days that hold."""
    return Message("office.no_message")


def message_say() -> Message:
    """Nothing is sent from here: copy it, send it as you write to this client, then say so."""
    return Message("office.message_say")


def message_text() -> Message:
    """The message"""
    return Message("office.message_text")


def message_sent() -> Message:
    """It was sent"""
    return Message("office.message_sent")


def message_marked() -> Message:
    """The client counts as told."""
    return Message("office.message_marked")


def quotes_head() -> Message:
    """Quotes"""
    return Message("office.quotes_head")


def no_quotes() -> Message:
    """Nothing was offered yet."""
    return Message("office.no_quotes")


def offer() -> Message:
    """Offer the plan as it is"""
    return Message("office.offer")


def offered(*, number: str) -> Message:
    """Quote {number} is made. Look at it, print it, send it."""
    return Message("office.offered", (("number", number),))


def see_quote() -> Message:
    """See and print it"""
    return Message("office.see_quote")


def quote_line(*, number: str, state: Message, total: str) -> Message:
    """{number}: {state}, {total}"""
    return Message("office.quote_line", (("number", number), ("state", state), ("total", total)))


def quote_of(*, day: str) -> Message:
    """Offered on {day}"""
    return Message("office.quote_of", (("day", day),))


def quote_until(*, day: str) -> Message:
    """holds until {day}"""
    return Message("office.quote_until", (("day", day),))


def accept_choice(*, choice: str, total: str) -> Message:
    """Accepted: {choice}, {total}"""
    return Message("office.accept_choice", (("choice", choice), ("total", total)))


def decline() -> Message:
    """Declined"""
    return Message("office.decline")


def sure_late() -> Message:
    """It has run out, and is accepted all the same"""
    return Message("office.sure_late")


def answer_head() -> Message:
    """What did the client say?"""
    return Message("office.answer_head")


def accepted_now(*, number: str) -> Message:
    """Quote {number} is accepted."""
    return Message("office.accepted_now", (("number", number),))


def declined_now(*, number: str) -> Message:
    """Quote {number} is declined."""
    return Message("office.declined_now", (("number", number),))


def quote_of_other() -> Message:
    """There is no such quote of this lawn."""
    return Message("office.quote_of_other")


def letter_head() -> Message:
    """Letter, and the client’s own page"""
    return Message("office.letter_head")


def letter() -> Message:
    """See and print the letter"""
    return Message("office.letter")


def address_say() -> Message:
    """The client’s page shows the season and its days: nothing can be written there, no price
    stands on it.
    """
    return Message("office.address_say")


def make_address() -> Message:
    """Make an address for the client"""
    return Message("office.make_address")


def withdraw_address() -> Message:
    """End this address"""
    return Message("office.withdraw_address")


def sure_address() -> Message:
    """It opens nothing any more, also where it was printed"""
    return Message("office.sure_address")


def no_address() -> Message:
    """The client has no address yet."""
    return Message("office.no_address")


def address_gone() -> Message:
    """The address has ended. The next one is another."""
    return Message("office.address_gone")


def tick_first() -> Message:
    """Tick the box first: an address that has ended never opens again."""
    return Message("office.tick_first")


def no_lawn() -> Message:
    """There is no lawn of this name"""
    return Message("office.no_lawn")


def home() -> Message:
    """To the list"""
    return Message("office.home")


def crew_title(*, crew: str) -> Message:
    """Crew {crew}: lawns of today"""
    return Message("office.crew_title", (("crew", crew),))


def crew_head(*, crew: str, day: str) -> Message:
    """Crew {crew}: {day}"""
    return Message("office.crew_head", (("crew", crew), ("day", day)))


def crew_none() -> Message:
    """No lawn is on for this crew today."""
    return Message("office.crew_none")


def crew_sheet_day() -> Message:
    """Today’s sheet, to print"""
    return Message("office.crew_sheet_day")


def crew_sheet_week() -> Message:
    """This week’s sheet, to print"""
    return Message("office.crew_sheet_week")


def crew_open() -> Message:
    """Jobs and ticks"""
    return Message("office.crew_open")


def crew_written() -> Message:
    """Nothing more for today: it is written down."""
    return Message("office.crew_written")


def crew_hours(*, hours: str) -> Message:
    """{hours} hours of work, all people together"""
    return Message("office.crew_hours", (("hours", hours),))


def crew_until(*, day: str) -> Message:
    """until {day}"""
    return Message("office.crew_until", (("day", day),))


def crew_tab() -> Message:
    """Today’s lawns"""
    return Message("office.crew_tab")


def not_today() -> Message:
    """This lawn is not on for your crew today"""
    return Message("office.not_today")


def not_today_say() -> Message:
    """A crew opens the lawns of its own day alone. Ask the office."""
    return Message("office.not_today_say")


def call() -> Message:
    """Call"""
    return Message("office.call")


def bad_form() -> Message:
    """This form cannot be read. Open the page anew."""
    return Message("office.bad_form")


def other_message() -> Message:
    """The days have changed since this message was shown. Look at it again: nobody counts as
    told.
    """
    return Message("office.other_message")


def not_readable() -> Message:
    """A file of the business cannot be read at this moment"""
    return Message("office.not_readable")


def other_index() -> Message:
    """No office page: it goes with the index of the data folder, without --index."""
    return Message("office.other_index")


def not_encrypted() -> Message:
    """This address is not encrypted: whoever listens in this network reads the password. On the
    internet use one that begins with https.
    """
    return Message("office.not_encrypted")


def callbacks_head() -> Message:
    """Callbacks"""
    return Message("office.callbacks_head")


def tick_callback() -> Message:
    """It was done"""
    return Message("office.tick_callback")


def callback_ticked() -> Message:
    """The callback is written down as done."""
    return Message("office.callback_ticked")


def callback_later() -> Message:
    """The callback is on a day to come."""
    return Message("office.callback_later")


def callback_over() -> Message:
    """Nobody waits for this callback."""
    return Message("office.callback_over")
