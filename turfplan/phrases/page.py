"""Messages of `messages/en/page.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def title(*, lawn: str) -> Message:
    """{lawn}: the next two weeks"""
    return Message("page.title", (("lawn", lawn),))


def lawn() -> Message:
    """Lawn"""
    return Message("page.lawn")


def basis(*, campaign: str, source: str, days: int) -> Message:
    """{campaign:capital}. Dates rest on {source}; they may be off by about {days} days."""
    return Message("page.basis", (("campaign", campaign), ("source", source), ("days", days)))


def was_done() -> Message:
    """Was this done?"""
    return Message("page.was_done")


def next_weeks() -> Message:
    """The next two weeks"""
    return Message("page.next_weeks")


def nothing_due() -> Message:
    """Nothing falls due."""
    return Message("page.nothing_due")


def only_if(*, go: str) -> Message:
    """Only if: {go}"""
    return Message("page.only_if", (("go", go),))


def done_on() -> Message:
    """Done on"""
    return Message("page.done_on")


def tick_off(*, task: str) -> Message:
    """Tick off {task}"""
    return Message("page.tick_off", (("task", task),))


def stakes() -> Message:
    """Stakes"""
    return Message("page.stakes")


def stakes_caption() -> Message:
    """Stakes; depths are settled"""
    return Message("page.stakes_caption")


def changed() -> Message:
    """What has changed"""
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


def or_address(*, link: str) -> Message:
    """{link}, or give this address to your calendar program:"""
    return Message("page.or_address", (("link", link),))


def qr() -> Message:
    """The calendar's address as a QR code"""
    return Message("page.qr")


def who_reads() -> Message:
    """Whoever has an address can read this lawn's season. If it has gone where it should not, take
    it back.
    """
    return Message("page.who_reads")


def sure() -> Message:
    """This page and its calendar shall stop working for good"""
    return Message("page.sure")


def take_back() -> Message:
    """Take the address back"""
    return Message("page.take_back")


def limits() -> Message:
    """Calendars that subscribe look at a feed once or twice a day at best, and many leave out its
    reminders: what must not be missed stands here and on the printed week. Local rules and product
    labels come first.
    """
    return Message("page.limits")


def gone() -> Message:
    """This address no longer works."""
    return Message("page.gone")


def unknown() -> Message:
    """Not found."""
    return Message("page.unknown")


def no_plan() -> Message:
    """This lawn has no plan yet."""
    return Message("page.no_plan")


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


def closed_job() -> Message:
    """This job is closed already."""
    return Message("page.closed_job")


def write_day(*, example: str) -> Message:
    """Write the day as year-month-day, for example {example}."""
    return Message("page.write_day", (("example", example),))


def keep() -> Message:
    """It is right all the same."""
    return Message("page.keep")
