"""Messages of `messages/en/house.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message, Sold


def hours_unknown() -> Message:
    """Another lawn of this house has a plan that cannot be read: the hours that it has promised are
    not kept free.
    """
    return Message("house.hours_unknown")


def calendar() -> Message:
    """Our lawns"""
    return Message("house.calendar")


def entry(*, lawn: str, title: str) -> Message:
    """{lawn}: {title}"""
    return Message("house.entry", (("lawn", lawn), ("title", title)))


def kept_off(*, n: int) -> Message:
    """{n} jobs keep off days whose hours the same hands have promised to another lawn."""
    return Message("house.kept_off", (("n", n),))


def below(*, line: Message) -> Message:
    """! {line}"""
    return Message("house.below", (("line", line),))


def planned(*, lawn: str, campaign: str) -> Message:
    """{lawn}: {campaign}"""
    return Message("house.planned", (("lawn", lawn), ("campaign", campaign)))


def failed(*, lawn: str) -> Message:
    """{lawn}: not planned, as told below; the others are."""
    return Message("house.failed", (("lawn", lawn),))


def no_news(*, lawn: str) -> Message:
    """{lawn}: nothing is new, the plan stands."""
    return Message("house.no_news", (("lawn", lawn),))


def coming(*, days: Days, title: str) -> Message:
    """Next: {title}, {days}"""
    return Message("house.coming", (("days", days), ("title", title)))


def note(*, lawn: str, note: str) -> Message:
    """{lawn}: {note}"""
    return Message("house.note", (("lawn", lawn), ("note", note)))


def written(*, folder: str, files: Listed) -> Message:
    """Written to {folder} for all of them: {files}"""
    return Message("house.written", (("folder", folder), ("files", files)))


def each_its_folder() -> Message:
    """the lawns of a house have their own folders"""
    return Message("house.each_its_folder")


def leave_out() -> Message:
    """leave it out, or name the brief of one lawn"""
    return Message("house.leave_out")


def lawn(*, lawn: str) -> Message:
    """{lawn}:"""
    return Message("house.lawn", (("lawn", lawn),))


def share(*, lawn: str, amount: Sold) -> Message:
    """{lawn} {amount}"""
    return Message("house.share", (("lawn", lawn), ("amount", amount)))


def shares(*, shares: Listed) -> Message:
    """Bought and brought at once for several lawns: {shares}."""
    return Message("house.shares", (("shares", shares),))


def one_lawn_sheet() -> Message:
    """this sheet is of one lawn"""
    return Message("house.one_lawn_sheet")


def house_sheets(*, sheets: str) -> Message:
    """name the brief of one lawn; of a whole house there are {sheets}"""
    return Message("house.house_sheets", (("sheets", sheets),))


def tab() -> Message:
    """All lawns"""
    return Message("house.tab")


def tab_addresses() -> Message:
    """Addresses"""
    return Message("house.tab_addresses")


def title_today() -> Message:
    """Today on our lawns"""
    return Message("house.title_today")


def title_addresses() -> Message:
    """One calendar for all lawns"""
    return Message("house.title_addresses")


def one_for_all() -> Message:
    """Whoever has one of these addresses sees all lawns of the house. To show one lawn alone, give
    an address on that lawn's own page.
    """
    return Message("house.one_for_all")


def give_read() -> Message:
    """See the pages of all lawns"""
    return Message("house.give_read")


def subscribe() -> Message:
    """One calendar for all lawns"""
    return Message("house.subscribe")


def more_of(*, lawn: str) -> Message:
    """More of {lawn}"""
    return Message("house.more_of", (("lawn", lawn),))


def not_shown() -> Message:
    """The plan of this lawn cannot be read. The other lawns go on."""
    return Message("house.not_shown")


def days_of_lawn() -> Message:
    """an address of a house shows all days"""
    return Message("house.days_of_lawn")


def name_lawn() -> Message:
    """leave the days out, or name the folder of one lawn"""
    return Message("house.name_lawn")
