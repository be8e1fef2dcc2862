"""Messages of `messages/en/page.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import DateInYear, Day, Days, Listed, Message, Month, Number, Quantity, Sold


def title_today(*, lawn: str) -> Message:
    """{lawn}: today"""
    return Message("page.title_today", (("lawn", lawn),))


def title_did(*, lawn: str) -> Message:
    """{lawn}: what I did"""
    return Message("page.title_did", (("lawn", lawn),))


def title_ask(*, lawn: str) -> Message:
    """{lawn}: please look again"""
    return Message("page.title_ask", (("lawn", lawn),))


def title_calendar(*, lawn: str) -> Message:
    """{lawn}: calendar"""
    return Message("page.title_calendar", (("lawn", lawn),))


def lawn() -> Message:
    """Lawn"""
    return Message("page.lawn")


def pages() -> Message:
    """Pages"""
    return Message("page.pages")


def tab_today() -> Message:
    """Today"""
    return Message("page.tab_today")


def tab_did() -> Message:
    """What I did"""
    return Message("page.tab_did")


def tab_calendar() -> Message:
    """Calendar"""
    return Message("page.tab_calendar")


def basis(*, campaign: str, source: str, days: int) -> Message:
    """{campaign:capital}. Dates rest on {source}; they may be off by about {days} days."""
    return Message("page.basis", (("campaign", campaign), ("source", source), ("days", days)))


def rules_first() -> Message:
    """Local rules and product labels come first."""
    return Message("page.rules_first")


def only_seen() -> Message:
    """From here the season can be seen, not ticked off."""
    return Message("page.only_seen")


def was_done(*, n: int) -> Message:
    """Were these {n} done?"""
    return Message("page.was_done", (("n", n),))


def all_as_planned(*, n: int) -> Message:
    """Yes, all as planned"""
    return Message("page.all_as_planned", (("n", n),))


def one_by_one() -> Message:
    """No, or not all: one by one"""
    return Message("page.one_by_one")


def answer_planned() -> Message:
    """Done as planned"""
    return Message("page.answer_planned")


def answer_on() -> Message:
    """Done on another day:"""
    return Message("page.answer_on")


def answer_not_done() -> Message:
    """Not done, still wanted"""
    return Message("page.answer_not_done")


def answer_skip() -> Message:
    """Left out"""
    return Message("page.answer_skip")


def jobs_today(*, n: int) -> Message:
    """{n} jobs today, in this order"""
    return Message("page.jobs_today", (("n", n),))


def nothing_today() -> Message:
    """Nothing to do today"""
    return Message("page.nothing_today")


def season_over() -> Message:
    """All of this plan is done."""
    return Message("page.season_over")


def next() -> Message:
    """Next:"""
    return Message("page.next")


def next_when(*, day: str, away: str) -> Message:
    """{day}, {away}"""
    return Message("page.next_when", (("day", day), ("away", away)))


def coming() -> Message:
    """Coming up"""
    return Message("page.coming")


def today() -> Message:
    """today"""
    return Message("page.today")


def tomorrow() -> Message:
    """tomorrow"""
    return Message("page.tomorrow")


def in_days(*, n: int) -> Message:
    """in {n} days"""
    return Message("page.in_days", (("n", n),))


def in_weeks(*, n: int) -> Message:
    """in {n} weeks"""
    return Message("page.in_weeks", (("n", n),))


def in_months(*, n: int) -> Message:
    """in {n} months"""
    return Message("page.in_months", (("n", n),))


def by_when() -> Message:
    """At the latest"""
    return Message("page.by_when")


def go() -> Message:
    """Go if:"""
    return Message("page.go")


def wait() -> Message:
    """Else wait:"""
    return Message("page.wait")


def how() -> Message:
    """How to do it"""
    return Message("page.how")


def done_as_planned() -> Message:
    """Done as planned"""
    return Message("page.done_as_planned")


def this_done() -> Message:
    """This one is done"""
    return Message("page.this_done")


def all_done(*, n: int) -> Message:
    """All {n} done as planned"""
    return Message("page.all_done", (("n", n),))


def not_today() -> Message:
    """Not today"""
    return Message("page.not_today")


def reason_rain() -> Message:
    """Rain, or too wet"""
    return Message("page.reason_rain")


def reason_no_time() -> Message:
    """No time"""
    return Message("page.reason_no_time")


def reason_no_hands() -> Message:
    """No helper, or no machine"""
    return Message("page.reason_no_hands")


def reason_refused() -> Message:
    """The load was refused"""
    return Message("page.reason_refused")


def other() -> Message:
    """Other"""
    return Message("page.other")


def other_done() -> Message:
    """Done otherwise than planned"""
    return Message("page.other_done")


def done_on() -> Message:
    """Done on"""
    return Message("page.done_on")


def how_much() -> Message:
    """How much of it"""
    return Message("page.how_much")


def share_all() -> Message:
    """All that was left"""
    return Message("page.share_all")


def share_most() -> Message:
    """Three quarters"""
    return Message("page.share_most")


def share_half() -> Message:
    """Half"""
    return Message("page.share_half")


def share_some() -> Message:
    """A quarter"""
    return Message("page.share_some")


def used() -> Message:
    """Amount used, with its unit, if you know it"""
    return Message("page.used")


def write_down() -> Message:
    """Write it down"""
    return Message("page.write_down")


def other_day() -> Message:
    """Do it on a day of your choice"""
    return Message("page.other_day")


def hold_on() -> Message:
    """Day"""
    return Message("page.hold_on")


def hold() -> Message:
    """Keep it for that day"""
    return Message("page.hold")


def other_skip() -> Message:
    """Not at all this time"""
    return Message("page.other_skip")


def skip() -> Message:
    """Leave it out"""
    return Message("page.skip")


def none_today() -> Message:
    """None of them today"""
    return Message("page.none_today")


def many_written(*, n: int) -> Message:
    """{n} jobs. They stand, and can be taken back, under"""
    return Message("page.many_written", (("n", n),))


def nothing_moved() -> Message:
    """Nothing else moves."""
    return Message("page.nothing_moved")


def my_calendar() -> Message:
    """The owner's calendar"""
    return Message("page.my_calendar")


def planning() -> Message:
    """Working it out…"""
    return Message("page.planning")


def water_today() -> Message:
    """Water today"""
    return Message("page.water_today")


def it_rained() -> Message:
    """It rained: skip today"""
    return Message("page.it_rained")


def rain_did_it() -> Message:
    """Skipped today: it rained."""
    return Message("page.rain_did_it")


def written_down() -> Message:
    """Written down"""
    return Message("page.written_down")


def ticked_before() -> Message:
    """Was ticked already, and counts once"""
    return Message("page.ticked_before")


def undo() -> Message:
    """Undo"""
    return Message("page.undo")


def undone() -> Message:
    """Taken back."""
    return Message("page.undone")


def nothing_written() -> Message:
    """Nothing yet. What you tick off stands here, and can be taken back at any time."""
    return Message("page.nothing_written")


def not_planned() -> Message:
    """The days below do not know all of it yet"""
    return Message("page.not_planned")


def not_planned_say() -> Message:
    """What you wrote is kept, but the season could not be worked out anew with it. The days below
    are those from before.
    """
    return Message("page.not_planned_say")


def damaged_owner(*, command: str) -> Message:
    """A line of what was written for this lawn cannot be read: `{command}` with the lawn's brief
    names it, at the computer that serves.
    """
    return Message("page.damaged_owner", (("command", command),))


def damaged_tell() -> Message:
    """A line of what was written for this lawn cannot be read: tell whoever gave you this
    address.
    """
    return Message("page.damaged_tell")


def plan_again() -> Message:
    """Try again"""
    return Message("page.plan_again")


def look_again() -> Message:
    """Please look again"""
    return Message("page.look_again")


def cannot_be() -> Message:
    """This was not written down"""
    return Message("page.cannot_be")


def keep() -> Message:
    """It is right: write it down"""
    return Message("page.keep")


def write_changed() -> Message:
    """Write it down as changed"""
    return Message("page.write_changed")


def write_nothing() -> Message:
    """Back, and write nothing"""
    return Message("page.write_nothing")


def wrote_by(*, entry: Message, by: str) -> Message:
    """{entry} Written by {by}."""
    return Message("page.wrote_by", (("entry", entry), ("by", by)))


def wrote_done(*, title: str, on: Day) -> Message:
    """{title}: done on {on}."""
    return Message("page.wrote_done", (("title", title), ("on", on)))


def wrote_part(*, title: str, on: Day, share: Number) -> Message:
    """{title}: {share} of it done on {on}."""
    return Message("page.wrote_part", (("title", title), ("on", on), ("share", share)))


def wrote_skipped(*, title: str) -> Message:
    """{title}: left out."""
    return Message("page.wrote_skipped", (("title", title),))


def wrote_moved(*, title: str, to: Day) -> Message:
    """{title}: kept for {to}."""
    return Message("page.wrote_moved", (("title", title), ("to", to)))


def wrote_rained(*, title: str, on: Day) -> Message:
    """{title}: rained off on {on}."""
    return Message("page.wrote_rained", (("title", title), ("on", on)))


def wrote_all_rained(*, on: Day) -> Message:
    """All that needs it dry: rained off on {on}."""
    return Message("page.wrote_all_rained", (("on", on),))


def wrote_refused(*, title: str, on: Day) -> Message:
    """{title}: the load was refused on {on}."""
    return Message("page.wrote_refused", (("title", title), ("on", on)))


def wrote_not_done(*, title: str) -> Message:
    """{title}: not done, still wanted."""
    return Message("page.wrote_not_done", (("title", title),))


def wrote_put_off(*, title: str, on: Day) -> Message:
    """{title}: not done on {on}, still wanted."""
    return Message("page.wrote_put_off", (("title", title), ("on", on)))


def wrote_note(*, note: str) -> Message:
    """A note: {note}"""
    return Message("page.wrote_note", (("note", note),))


def wrote_note_of(*, note: str, on: Day) -> Message:
    """A note of {on}: {note}"""
    return Message("page.wrote_note_of", (("note", note), ("on", on)))


def wrote_measured(*, what: Message, value: Sold, on: Day) -> Message:
    """Measured on {on}: {what}, {value}."""
    return Message("page.wrote_measured", (("what", what), ("value", value), ("on", on)))


def wrote_undo(*, number: int) -> Message:
    """Entry {number} was taken back."""
    return Message("page.wrote_undo", (("number", number),))


def stakes() -> Message:
    """Stakes"""
    return Message("page.stakes")


def stakes_caption() -> Message:
    """Stakes; depths are settled"""
    return Message("page.stakes_caption")


def changed() -> Message:
    """What moved last, and why"""
    return Message("page.changed")


def change(*, kind: str, task: str, because: str) -> Message:
    """{kind}: {task}. {because}"""
    return Message("page.change", (("kind", kind), ("task", task), ("because", because)))


def change_was(*, kind: str, task: str, before: str, because: str) -> Message:
    """{kind}: {task}, was {before}. {because}"""
    return Message(
        "page.change_was",
        (("kind", kind), ("task", task), ("before", before), ("because", because)),
    )


def change_now(*, kind: str, task: str, after: str, because: str) -> Message:
    """{kind}: {task}, now {after}. {because}"""
    return Message(
        "page.change_now", (("kind", kind), ("task", task), ("after", after), ("because", because))
    )


def change_both(*, kind: str, task: str, before: str, after: str, because: str) -> Message:
    """{kind}: {task}, was {before}, now {after}. {because}"""
    return Message(
        "page.change_both",
        (
            ("kind", kind),
            ("task", task),
            ("before", before),
            ("after", after),
            ("because", because),
        ),
    )


def in_calendar() -> Message:
    """In your calendar"""
    return Message("page.in_calendar")


def subscribe() -> Message:
    """Subscribe on this device"""
    return Message("page.subscribe")


def or_address() -> Message:
    """Or give your calendar this address:"""
    return Message("page.or_address")


def qr() -> Message:
    """The calendar's address as a QR code"""
    return Message("page.qr")


def qr_page() -> Message:
    """The page's address as a QR code"""
    return Message("page.qr_page")


def who_reaches() -> Message:
    """Which calendars reach it"""
    return Message("page.who_reaches")


def reach_machine() -> Message:
    """It works on this computer alone, and stops while it sleeps."""
    return Message("page.reach_machine")


def reach_home() -> Message:
    """This address works at home, for calendars on phones and computers, not for those that live on
    the web. A computer that sleeps stops it.
    """
    return Message("page.reach_home")


def reach_everywhere() -> Message:
    """This address works everywhere, for calendars on phones, on computers and on the web. A
    computer that sleeps stops it.
    """
    return Message("page.reach_everywhere")


def not_secure() -> Message:
    """It is not encrypted: some calendars take addresses that begin with https alone."""
    return Message("page.not_secure")


def limits() -> Message:
    """Calendars that subscribe look once or twice a day at best, and many leave out reminders: what
    must not be missed stands on the page of today and on the printed week.
    """
    return Message("page.limits")


def who_reads() -> Message:
    """Whoever has an address can read this lawn's season. If it has gone where it should not, take
    it back.
    """
    return Message("page.who_reads")


def give_back() -> Message:
    """Take this address back"""
    return Message("page.give_back")


def sure() -> Message:
    """This page and its calendar shall stop working for good"""
    return Message("page.sure")


def take_back() -> Message:
    """Take the address back"""
    return Message("page.take_back")


def give() -> Message:
    """Give somebody an address"""
    return Message("page.give")


def holder() -> Message:
    """Who it is for"""
    return Message("page.holder")


def right() -> Message:
    """What it may do"""
    return Message("page.right")


def give_feed() -> Message:
    """A calendar that subscribes"""
    return Message("page.give_feed")


def give_feed_work() -> Message:
    """A calendar of the work alone"""
    return Message("page.give_feed_work")


def give_feed_water() -> Message:
    """A calendar of the waterings alone"""
    return Message("page.give_feed_water")


def shows_from() -> Message:
    """For a stand-in: show the calendar from"""
    return Message("page.shows_from")


def shows_to() -> Message:
    """to"""
    return Message("page.shows_to")


def shows_days() -> Message:
    """The first and the last of the days go together, the first before the last, and are of a
    calendar alone.
    """
    return Message("page.shows_days")


def give_read() -> Message:
    """See the pages of this lawn"""
    return Message("page.give_read")


def give_edit() -> Message:
    """See, and tick off what was done"""
    return Message("page.give_edit")


def limited() -> Message:
    """An end, or certain days only"""
    return Message("page.limited")


def until() -> Message:
    """Last day, if it shall end"""
    return Message("page.until")


def make_address() -> Message:
    """Make the address"""
    return Message("page.make_address")


def new_page() -> Message:
    """The new address of the page"""
    return Message("page.new_page")


def new_feed() -> Message:
    """The calendar's new address"""
    return Message("page.new_feed")


def shown_once() -> Message:
    """It is shown this once."""
    return Message("page.shown_once")


def held() -> Message:
    """Who holds an address"""
    return Message("page.held")


def none_held() -> Message:
    """Nobody yet."""
    return Message("page.none_held")


def nobody_named() -> Message:
    """No name"""
    return Message("page.nobody_named")


def given_on(*, day: str) -> Message:
    """Since {day}."""
    return Message("page.given_on", (("day", day),))


def ends_on(*, day: str) -> Message:
    """Until {day}."""
    return Message("page.ends_on", (("day", day),))


def last_read(*, day: Day) -> Message:
    """Last read {day}."""
    return Message("page.last_read", (("day", day),))


def read_now() -> Message:
    """Last read within the hour."""
    return Message("page.read_now")


def read_hours(*, n: int) -> Message:
    """Last read {n} hours ago."""
    return Message("page.read_hours", (("n", n),))


def read_days(*, n: int) -> Message:
    """Last read {n} days ago."""
    return Message("page.read_days", (("n", n),))


def silent(*, holder: str, day: str) -> Message:
    """{holder}: this calendar has not looked since {day}."""
    return Message("page.silent", (("holder", holder), ("day", day)))


def silent_from_start(*, holder: str, day: str) -> Message:
    """{holder}: this calendar has never looked since it was given on {day}."""
    return Message("page.silent_from_start", (("holder", holder), ("day", day)))


def silent_say() -> Message:
    """It shows old days meanwhile. Is the computer that serves it awake, and is the phone at
    home?
    """
    return Message("page.silent_say")


def subscribe_here() -> Message:
    """Subscribe on this computer"""
    return Message("page.subscribe_here")


def or_once() -> Message:
    """Or add it once"""
    return Message("page.or_once")


def once_say() -> Message:
    """A copy that will not move by itself: when days move, add it again."""
    return Message("page.once_say")


def copy() -> Message:
    """Get a copy"""
    return Message("page.copy")


def for_phones(*, command: str) -> Message:
    """For a phone, start `{command}` instead."""
    return Message("page.for_phones", (("command", command),))


def for_web(*, command: str) -> Message:
    """For calendars that live on the web, `{command}` writes the calendar for any web host."""
    return Message("page.for_web", (("command", command),))


def give_day() -> Message:
    """See the sheets of one day, for example a contractor"""
    return Message("page.give_day")


def which_day() -> Message:
    """Say which day's sheets it shall show."""
    return Message("page.which_day")


def the_day() -> Message:
    """Which day, if it is for one day"""
    return Message("page.the_day")


def right_day(*, day: Day) -> Message:
    """Sees the sheets of {day}"""
    return Message("page.right_day", (("day", day),))


def title_day(*, lawn: str, day: str) -> Message:
    """{lawn}: {day}"""
    return Message("page.title_day", (("lawn", lawn), ("day", day)))


def one_day_say() -> Message:
    """This address shows the work of this one day."""
    return Message("page.one_day_say")


def to_do() -> Message:
    """To do"""
    return Message("page.to_do")


def day_free() -> Message:
    """Nothing is planned for this day, or all of it is done."""
    return Message("page.day_free")


def no_signal() -> Message:
    """No signal. This is the page as it was when it was last opened here. What you tick off is kept
    on this device.
    """
    return Message("page.no_signal")


def waits_here() -> Message:
    """Kept on this device"""
    return Message("page.waits_here")


def waits_say() -> Message:
    """It is sent by itself, once, when this page is open and the server can be reached."""
    return Message("page.waits_say")


def waits_open() -> Message:
    """Leave the page open until then: its address is not encrypted, so the browser cannot open it
    without signal.
    """
    return Message("page.waits_open")


def not_sent() -> Message:
    """This could not be written as it stood"""
    return Message("page.not_sent")


def not_sent_say() -> Message:
    """The season has changed meanwhile, or something about it is asked. Tick it off here again."""
    return Message("page.not_sent_say")


def all_right() -> Message:
    """All right"""
    return Message("page.all_right")


def paper() -> Message:
    """On paper"""
    return Message("page.paper")


def pdf_today() -> Message:
    """Today as PDF"""
    return Message("page.pdf_today")


def pdf_day() -> Message:
    """This day as PDF"""
    return Message("page.pdf_day")


def pdf_week() -> Message:
    """This week as PDF"""
    return Message("page.pdf_week")


def print_today() -> Message:
    """Print today"""
    return Message("page.print_today")


def print_day() -> Message:
    """Print this day"""
    return Message("page.print_day")


def print_week() -> Message:
    """Print this week"""
    return Message("page.print_week")


def never_read() -> Message:
    """Never read."""
    return Message("page.never_read")


def right_feed() -> Message:
    """Calendar"""
    return Message("page.right_feed")


def right_feed_work() -> Message:
    """Calendar of the work"""
    return Message("page.right_feed_work")


def right_feed_water() -> Message:
    """Calendar of the waterings"""
    return Message("page.right_feed_water")


def right_on_days(*, right: Message, days: Days) -> Message:
    """{right}, {days}"""
    return Message("page.right_on_days", (("right", right), ("days", days)))


def right_read() -> Message:
    """Sees"""
    return Message("page.right_read")


def right_edit() -> Message:
    """Sees and ticks off"""
    return Message("page.right_edit")


def withdraw() -> Message:
    """Withdraw"""
    return Message("page.withdraw")


def is_withdrawn() -> Message:
    """Withdrawn"""
    return Message("page.is_withdrawn")


def is_over() -> Message:
    """Ended"""
    return Message("page.is_over")


def browsers() -> Message:
    """Browsers of the owner"""
    return Message("page.browsers")


def this_browser() -> Message:
    """(this browser)"""
    return Message("page.this_browser")


def browsers_say(*, command: str) -> Message:
    """They may do everything, for every lawn of this server. Whoever runs the server makes a new
    one with `{command}`.
    """
    return Message("page.browsers_say", (("command", command),))


def claim() -> Message:
    """Make this browser the owner's"""
    return Message("page.claim")


def claim_say() -> Message:
    """It may then do everything here. This address works once."""
    return Message("page.claim_say")


def claim_label() -> Message:
    """What to call it"""
    return Message("page.claim_label")


def claim_do() -> Message:
    """This is my browser"""
    return Message("page.claim_do")


def once_used() -> Message:
    """This address has been used, or its day is over."""
    return Message("page.once_used")


def once_again(*, command: str) -> Message:
    """Whoever runs the server gets a new one there with `{command}`."""
    return Message("page.once_again", (("command", command),))


def lawns() -> Message:
    """Your lawns"""
    return Message("page.lawns")


def no_lawns() -> Message:
    """None is served yet."""
    return Message("page.no_lawns")


def new_lawn() -> Message:
    """A new lawn"""
    return Message("page.new_lawn")


def question_of(*, number: int, count: int) -> Message:
    """{number}/{count}"""
    return Message("page.question_of", (("number", number), ("count", count)))


def ask_place() -> Message:
    """Where is the lawn?"""
    return Message("page.ask_place")


def place_hint() -> Message:
    """A town and country, or a US postal code."""
    return Message("page.place_hint")


def ask_grass() -> Message:
    """Which grass?"""
    return Message("page.ask_grass")


def ask_soil() -> Message:
    """Which soil: clay, silt, loam, sand?"""
    return Message("page.ask_soil")


def press_to_change() -> Message:
    """Press an answer to change it."""
    return Message("page.press_to_change")


def ask_everywhere() -> Message:
    """Low everywhere, or only in hollows?"""
    return Message("page.ask_everywhere")


def low_everywhere() -> Message:
    """Everywhere"""
    return Message("page.low_everywhere")


def low_hollows() -> Message:
    """Only in hollows"""
    return Message("page.low_hollows")


def low_share(*, share: Number) -> Message:
    """Only in hollows, {share} of the lawn"""
    return Message("page.low_share", (("share", share),))


def hollow_share() -> Message:
    """How much lies in hollows"""
    return Message("page.hollow_share")


def ask_intent() -> Message:
    """Sow or plant?"""
    return Message("page.ask_intent")


def intent_none() -> Message:
    """Sow nothing"""
    return Message("page.intent_none")


def intent_patch() -> Message:
    """Seed the bare spots"""
    return Message("page.intent_patch")


def intent_overseed() -> Message:
    """Seed over the whole lawn"""
    return Message("page.intent_overseed")


def intent_renovate() -> Message:
    """Make the lawn anew"""
    return Message("page.intent_renovate")


def intent_dormant() -> Message:
    """Seed before winter, to come up in spring"""
    return Message("page.intent_dormant")


def intent_plant() -> Message:
    """Plant it: sod, plugs or sprigs"""
    return Message("page.intent_plant")


def intent_winter_overseed() -> Message:
    """Green over winter, over a lawn that turns brown"""
    return Message("page.intent_winter_overseed")


def place_found(*, place: Message, last: DateInYear, first: DateInYear) -> Message:
    """{place:capital}: last frost about {last}, first about {first}."""
    return Message("page.place_found", (("place", place), ("last", last), ("first", first)))


def place_without_frost(*, place: Message) -> Message:
    """{place:capital}: most years have no frost."""
    return Message("page.place_without_frost", (("place", place),))


def answer_needed() -> Message:
    """An answer is needed here."""
    return Message("page.answer_needed")


def answer_or_unknown() -> Message:
    """Answer here, or say “I don't know”."""
    return Message("page.answer_or_unknown")


def help_area(*, example: str, pieces: str, triangle: str) -> Message:
    """Length by width will do, paced off: {example}. Of several pieces add them up: {pieces}. A
    triangle is half of it: {triangle}.
    """
    return Message(
        "page.help_area", (("example", example), ("pieces", pieces), ("triangle", triangle))
    )


def help_grass() -> Message:
    """Look at it below, or say “I don't know”."""
    return Message("page.help_grass")


def help_no_grass() -> Message:
    """Moss and weeds are no grass: say which grass grows between them, look at it below, or say “I
    don't know”.
    """
    return Message("page.help_no_grass")


def which_grass(*, grasses: Listed) -> Message:
    """Which of them is it: {grasses}?"""
    return Message("page.which_grass", (("grasses", grasses),))


def help_soil() -> Message:
    """Say clay, silt, loam or sand, feel it below, or say “I don't know”."""
    return Message("page.help_soil")


def help_depth(*, unit: str, example: str, finger: Quantity) -> Message:
    """Say how deep in {unit} ({example}) or in fingers (one is about {finger}), or say “I don't
    know”.
    """
    return Message("page.help_depth", (("unit", unit), ("example", example), ("finger", finger)))


def ask_area(*, example: str) -> Message:
    """How large is it (for example {example})?"""
    return Message("page.ask_area", (("example", example),))


def ask_depth() -> Message:
    """How uneven is it?"""
    return Message("page.ask_depth")


def depth_hint(*, example: str) -> Message:
    """Fill on average, such as {example}; 0: none."""
    return Message("page.depth_hint", (("example", example),))


def take_a_way() -> Message:
    """Each of these was tried, and can be planned. Or change an answer below."""
    return Message("page.take_a_way")


def plan_so() -> Message:
    """Plan it so"""
    return Message("page.plan_so")


def why_not() -> Message:
    """Why not as I said?"""
    return Message("page.why_not")


def go_on() -> Message:
    """Go on"""
    return Message("page.go_on")


def look_at_it() -> Message:
    """Look at it"""
    return Message("page.look_at_it")


def look_winter() -> Message:
    """What color is it in midwinter?"""
    return Message("page.look_winter")


def look_green() -> Message:
    """Green"""
    return Message("page.look_green")


def look_straw() -> Message:
    """Brown as straw"""
    return Message("page.look_straw")


def look_runners() -> Message:
    """How does it grow?"""
    return Message("page.look_runners")


def look_creeps() -> Message:
    """It creeps, by runners above or below the ground"""
    return Message("page.look_creeps")


def look_tufts() -> Message:
    """In tufts"""
    return Message("page.look_tufts")


def look_leaf() -> Message:
    """How broad is a blade, beside a matchstick?"""
    return Message("page.look_leaf")


def look_fine() -> Message:
    """Fine as a bristle"""
    return Message("page.look_fine")


def look_medium() -> Message:
    """About as broad"""
    return Message("page.look_medium")


def look_broad() -> Message:
    """Clearly broader"""
    return Message("page.look_broad")


def feel_it() -> Message:
    """Feel it"""
    return Message("page.feel_it")


def feel_say() -> Message:
    """Wet a handful, knead it, and press it out flat between thumb and finger."""
    return Message("page.feel_say")


def feel_ribbon() -> Message:
    """How long does the ribbon get before it breaks?"""
    return Message("page.feel_ribbon")


def feel_crumbles() -> Message:
    """It does not even hold as a ball"""
    return Message("page.feel_crumbles")


def feel_ball() -> Message:
    """A ball, but no ribbon"""
    return Message("page.feel_ball")


def feel_short(*, short: Quantity) -> Message:
    """Shorter than {short}"""
    return Message("page.feel_short", (("short", short),))


def feel_middle(*, short: Quantity, long: Quantity) -> Message:
    """{short} to {long}"""
    return Message("page.feel_middle", (("short", short), ("long", long)))


def feel_long(*, long: Quantity) -> Message:
    """Longer than {long}"""
    return Message("page.feel_long", (("long", long),))


def feel_springs() -> Message:
    """It is black and light, and springs back: peat"""
    return Message("page.feel_springs")


def feel_rub() -> Message:
    """Rubbed wet in the palm, how does it feel?"""
    return Message("page.feel_rub")


def feel_gritty() -> Message:
    """Gritty, as sand"""
    return Message("page.feel_gritty")


def feel_smooth() -> Message:
    """Smooth, as flour"""
    return Message("page.feel_smooth")


def feel_neither() -> Message:
    """Neither"""
    return Message("page.feel_neither")


def feel_go_on() -> Message:
    """Go on with what I felt"""
    return Message("page.feel_go_on")


def jar() -> Message:
    """Jar test"""
    return Message("page.jar")


def jar_say(*, sand: int, silt: int, clay: int) -> Message:
    """Fill a straight jar to a third with soil, add water and a drop of dish soap, shake it for
    minutes and let it stand. Mark the top of what has settled after {sand} minute (sand), {silt}
    hours (silt) and {clay} hours (clay), and measure the three layers.
    """
    return Message("page.jar_say", (("sand", sand), ("silt", silt), ("clay", clay)))


def jar_sand() -> Message:
    """Sand: the lowest layer"""
    return Message("page.jar_sand")


def jar_silt() -> Message:
    """Silt: the layer on it"""
    return Message("page.jar_silt")


def jar_clay() -> Message:
    """Clay: the top layer"""
    return Message("page.jar_clay")


def jar_go_on() -> Message:
    """Go on with the jar"""
    return Message("page.jar_go_on")


def jar_wrong() -> Message:
    """Write how high each of the three layers is, all with the same ruler, for example 40, 35 and
    25.
    """
    return Message("page.jar_wrong")


def by_looks() -> Message:
    """By its looks"""
    return Message("page.by_looks")


def by_looks_of(*, grasses: Listed) -> Message:
    """By its looks: {grasses}"""
    return Message("page.by_looks_of", (("grasses", grasses),))


def not_sure_grass(*, grasses: Listed) -> Message:
    """I don't know: {grasses}"""
    return Message("page.not_sure_grass", (("grasses", grasses),))


def not_sure_soil() -> Message:
    """I don't know: loam"""
    return Message("page.not_sure_soil")


def not_sure_depth() -> Message:
    """I don't know: fill nothing"""
    return Message("page.not_sure_depth")


def not_sure_everywhere() -> Message:
    """Don't know: everywhere"""
    return Message("page.not_sure_everywhere")


def not_sure_intent() -> Message:
    """I don't know: sow nothing"""
    return Message("page.not_sure_intent")


def not_sure_weekdays(*, days: str) -> Message:
    """I don't know: {days}"""
    return Message("page.not_sure_weekdays", (("days", days),))


def not_sure_grass_yet() -> Message:
    """I don't know: the usual there"""
    return Message("page.not_sure_grass_yet")


def ask_condition() -> Message:
    """How does it stand?"""
    return Message("page.ask_condition")


def stands_dense() -> Message:
    """Thick"""
    return Message("page.stands_dense")


def stands_thin() -> Message:
    """Thin"""
    return Message("page.stands_thin")


def stands_patchy() -> Message:
    """Patchy"""
    return Message("page.stands_patchy")


def stands_bare() -> Message:
    """Bare"""
    return Message("page.stands_bare")


def not_sure_condition() -> Message:
    """Don't know: thin"""
    return Message("page.not_sure_condition")


def where_low() -> Message:
    """Where?"""
    return Message("page.where_low")


def ask_cause() -> Message:
    """Why?"""
    return Message("page.ask_cause")


def cause_settled() -> Message:
    """It settled long ago"""
    return Message("page.cause_settled")


def not_sure_cause() -> Message:
    """Don't know: look if deep"""
    return Message("page.not_sure_cause")


def which_town(*, n: int) -> Message:
    """There are {n} towns of this name. Which is yours?"""
    return Message("page.which_town", (("n", n),))


def choose_instead(*, kind: Message) -> Message:
    """Choose “{kind}” instead"""
    return Message("page.choose_instead", (("kind", kind),))


def have_survey() -> Message:
    """Surveyed heights"""
    return Message("page.have_survey")


def survey_say() -> Message:
    """Its first line names the columns: x_m, y_m and height_mm, or x_ft, y_ft and depth_in; then a
    line for each point.
    """
    return Message("page.survey_say")


def survey_paste() -> Message:
    """Paste it"""
    return Message("page.survey_paste")


def survey_file() -> Message:
    """or choose its file (CSV)"""
    return Message("page.survey_file")


def depth_or_survey() -> Message:
    """Give a depth or a table, not both: the table tells the depth of each spot"""
    return Message("page.depth_or_survey")


def more_faults(*, n: int) -> Message:
    """and {n} more"""
    return Message("page.more_faults", (("n", n),))


def survey_points(*, n: int, area: Quantity, mean: Quantity, deepest: Quantity) -> Message:
    """{n} points over {area}: {mean} on average, {deepest} at the deepest"""
    return Message(
        "page.survey_points", (("n", n), ("area", area), ("mean", mean), ("deepest", deepest))
    )


def survey_hollows(*, n: int, mean: Quantity, deepest: Quantity) -> Message:
    """{n} hollows: {mean} on average over the lawn, {deepest} at the deepest"""
    return Message("page.survey_hollows", (("n", n), ("mean", mean), ("deepest", deepest)))


def measure_low() -> Message:
    """How to measure"""
    return Message("page.measure_low")


def measure_say() -> Message:
    """Stretch a string over the high places, or lay a straight board across. Measure from it down
    to the soil with a ruler, at ten places or more, and write the mean.
    """
    return Message("page.measure_say")


def ask_water() -> Message:
    """How is it watered?"""
    return Message("page.ask_water")


def water_hose() -> Message:
    """Hose, moved by hand"""
    return Message("page.water_hose")


def water_timer() -> Message:
    """Hose on a timer"""
    return Message("page.water_timer")


def water_system() -> Message:
    """Sprinklers in the ground"""
    return Message("page.water_system")


def water_rain() -> Message:
    """Rain only"""
    return Message("page.water_rain")


def not_sure_water() -> Message:
    """I don't know: hose"""
    return Message("page.not_sure_water")


def ask_heads() -> Message:
    """Which heads?"""
    return Message("page.ask_heads")


def heads_spray() -> Message:
    """Spray: a fixed fan"""
    return Message("page.heads_spray")


def heads_rotor() -> Message:
    """Rotor: one jet that turns"""
    return Message("page.heads_rotor")


def heads_streams() -> Message:
    """Several fine streams that turn"""
    return Message("page.heads_streams")


def not_sure_heads(*, rate: Quantity) -> Message:
    """Don't know: {rate}, until measured"""
    return Message("page.not_sure_heads", (("rate", rate),))


def ask_sprayed() -> Message:
    """Weed killer in the last year?"""
    return Message("page.ask_sprayed")


def sprayed_nothing() -> Message:
    """None"""
    return Message("page.sprayed_nothing")


def sprayed_sprouting() -> Message:
    """To stop seeds sprouting"""
    return Message("page.sprayed_sprouting")


def sprayed_leaves() -> Message:
    """On leaves of weeds"""
    return Message("page.sprayed_leaves")


def sprayed_feed() -> Message:
    """Weed-and-feed"""
    return Message("page.sprayed_feed")


def not_sure_sprayed() -> Message:
    """I don't know: none"""
    return Message("page.not_sure_sprayed")


def ask_sprayed_on() -> Message:
    """When, last?"""
    return Message("page.ask_sprayed_on")


def not_sure_sprayed_on() -> Message:
    """Don't know: today"""
    return Message("page.not_sure_sprayed_on")


def month_of(*, month: Month, year: str) -> Message:
    """{month} {year}"""
    return Message("page.month_of", (("month", month), ("year", year)))


def help_sprayed_on(*, day: Day) -> Message:
    """Write the month or the day, for example {day}, not one that lies ahead"""
    return Message("page.help_sprayed_on", (("day", day),))


def ask_killer() -> Message:
    """Active ingredient, in small print on its label"""
    return Message("page.ask_killer")


def killer_say(*, weeks: int) -> Message:
    """If you don't know: seed waits {weeks} weeks, unless its label says otherwise."""
    return Message("page.killer_say", (("weeks", weeks),))


def killer_unknown() -> Message:
    """name not known"""
    return Message("page.killer_unknown")


def ask_people() -> Message:
    """How many people?"""
    return Message("page.ask_people")


def people_one() -> Message:
    """1"""
    return Message("page.people_one")


def people_two() -> Message:
    """2"""
    return Message("page.people_two")


def people_three() -> Message:
    """3"""
    return Message("page.people_three")


def people_four() -> Message:
    """4 or more"""
    return Message("page.people_four")


def not_sure_people(*, people: int) -> Message:
    """Don't know: {people}"""
    return Message("page.not_sure_people", (("people", people),))


def see_answers() -> Message:
    """See my answers"""
    return Message("page.see_answers")


def more() -> Message:
    """More"""
    return Message("page.more")


def more_say() -> Message:
    """All else that a plan can be told stands in one text, which can be changed before it is
    planned.
    """
    return Message("page.more_say")


def more_text() -> Message:
    """Change the text"""
    return Message("page.more_text")


def short_water() -> Message:
    """Water"""
    return Message("page.short_water")


def short_sprayed() -> Message:
    """Weed killer"""
    return Message("page.short_sprayed")


def ask_away() -> Message:
    """When are you away?"""
    return Message("page.ask_away")


def help_away(*, example: str) -> Message:
    """Write the days with the month as a word, several with a comma between: {example}."""
    return Message("page.help_away", (("example", example),))


def days_and_away(*, days: str, away: str) -> Message:
    """{days}; away {away}"""
    return Message("page.days_and_away", (("days", days), ("away", away)))


def one_back() -> Message:
    """Back"""
    return Message("page.one_back")


def kept_so_far() -> Message:
    """Every answer is kept."""
    return Message("page.kept_so_far")


def more_ways() -> Message:
    """Other"""
    return Message("page.more_ways")


def short_place() -> Message:
    """Where"""
    return Message("page.short_place")


def short_area() -> Message:
    """Size"""
    return Message("page.short_area")


def short_grass() -> Message:
    """Grass"""
    return Message("page.short_grass")


def short_soil() -> Message:
    """Soil"""
    return Message("page.short_soil")


def short_depth() -> Message:
    """Uneven"""
    return Message("page.short_depth")


def short_intent() -> Message:
    """Plan"""
    return Message("page.short_intent")


def short_weekdays() -> Message:
    """Days"""
    return Message("page.short_weekdays")


def short_name() -> Message:
    """Name"""
    return Message("page.short_name")


def plan_made() -> Message:
    """The plan is made"""
    return Message("page.plan_made")


def begins_with(*, title: str, day: str) -> Message:
    """It begins on {day}: {title}."""
    return Message("page.begins_with", (("title", title), ("day", day)))


def into_calendar() -> Message:
    """Put it into my calendar"""
    return Message("page.into_calendar")


def onto_phone() -> Message:
    """Get it on a phone"""
    return Message("page.onto_phone")


def see_today() -> Message:
    """See the plan"""
    return Message("page.see_today")


def check() -> Message:
    """Is this right?"""
    return Message("page.check")


def make_plan() -> Message:
    """Make the plan"""
    return Message("page.make_plan")


def not_known() -> Message:
    """This browser is not known here"""
    return Message("page.not_known")


def open_yours() -> Message:
    """Open the whole address that you were given."""
    return Message("page.open_yours")


def lost_owner(*, command: str) -> Message:
    """If the server is yours: the terminal that it was started in has printed an address for you;
    `{command}` prints a new one.
    """
    return Message("page.lost_owner", (("command", command),))


def gone() -> Message:
    """This address no longer works."""
    return Message("page.gone")


def over() -> Message:
    """This address was given until a day that is over."""
    return Message("page.over")


def ask_for_new() -> Message:
    """Ask whoever gave it to you for a new one."""
    return Message("page.ask_for_new")


def unknown() -> Message:
    """Not found."""
    return Message("page.unknown")


def whole_address() -> Message:
    """Look whether the address is whole."""
    return Message("page.whole_address")


def no_plan() -> Message:
    """This lawn has no plan yet."""
    return Message("page.no_plan")


def plan_first() -> Message:
    """It stands here as soon as it is planned."""
    return Message("page.plan_first")


def plan_with(*, command: str) -> Message:
    """At the computer that serves, `{command}` makes it, or says what is wrong."""
    return Message("page.plan_with", (("command", command),))


def other_host() -> Message:
    """Nothing is served under this name."""
    return Message("page.other_host")


def too_many() -> Message:
    """Too many requests."""
    return Message("page.too_many")


def bad_form() -> Message:
    """This form cannot be read."""
    return Message("page.bad_form")


def failed() -> Message:
    """Something is wrong here; whoever serves this page can read what."""
    return Message("page.failed")


def foreign_form() -> Message:
    """A form must come from this page."""
    return Message("page.foreign_form")


def too_large() -> Message:
    """Too large."""
    return Message("page.too_large")


def no_length() -> Message:
    """A form must say how long it is."""
    return Message("page.no_length")


def other_method() -> Message:
    """This address does not take that."""
    return Message("page.other_method")


def tick_first() -> Message:
    """Tick the box first: the address stops working for good."""
    return Message("page.tick_first")


def read_only() -> Message:
    """This address may only be read."""
    return Message("page.read_only")


def choose_job() -> Message:
    """Choose one of the jobs on this page."""
    return Message("page.choose_job")


def choose_reason() -> Message:
    """Choose why not."""
    return Message("page.choose_reason")


def choose_how() -> Message:
    """Choose what became of it."""
    return Message("page.choose_how")


def choose_right() -> Message:
    """Choose what the address may do."""
    return Message("page.choose_right")


def name_holder() -> Message:
    """Say who it is for, so that it can be withdrawn alone."""
    return Message("page.name_holder")


def end_is_over() -> Message:
    """That day is over."""
    return Message("page.end_is_over")


def write_day(*, example: str) -> Message:
    """Write the day as year-month-day, for example {example}."""
    return Message("page.write_day", (("example", example),))


def phones_title() -> Message:
    """Phones on this network"""
    return Message("page.phones_title")


def phones_say() -> Message:
    """A phone at home cannot reach this computer yet. Open it to phones on this network, and
    calendars on phones and computers at home can subscribe; those that live on the web cannot. Only
    addresses that you give open, and none of your own pages. Anyone on this network could read
    along. While this computer sleeps, phones keep what they have and hear nothing new.
    """
    return Message("page.phones_say")


def phones_open() -> Message:
    """Open to phones on this network"""
    return Message("page.phones_open")


def phones_are_open(*, address: str) -> Message:
    """Open to phones on this network at {address}, and again after a restart. Make an address for
    the phone, and point its camera at the square that comes with it. While this computer sleeps,
    phones keep what they have and hear nothing new.
    """
    return Message("page.phones_are_open", (("address", address),))


def phones_close() -> Message:
    """Close to this network"""
    return Message("page.phones_close")


def phones_seen() -> Message:
    """A device of this network has asked already."""
    return Message("page.phones_seen")


def phones_firewall(*, port: str) -> Message:
    """No other device has asked yet. If a phone finds nothing, the firewall of this computer may
    stop it: let it accept connections to port {port}. A guest network often keeps its devices
    apart.
    """
    return Message("page.phones_firewall", (("port", port),))


def phones_refused(*, address: str, reason: Message) -> Message:
    """This computer could not be opened at {address}: {reason}"""
    return Message("page.phones_refused", (("address", address), ("reason", reason)))


def no_network() -> Message:
    """This computer is in no network: connect it to the one at home first."""
    return Message("page.no_network")
