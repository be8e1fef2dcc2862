"""Messages of `messages/en/letters.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message


def no_lawn() -> Message:
    """is no lawn of this data folder"""
    return Message("letters.no_lawn")


def message(*, news: Listed) -> Message:
    """{news}."""
    return Message("letters.message", (("news", news),))


def comes(*, title: str, days: Days) -> Message:
    """{days}: {title}"""
    return Message("letters.comes", (("title", title), ("days", days)))


def moved(*, title: str, before: Days, days: Days) -> Message:
    """{days} (was {before}): {title}"""
    return Message("letters.moved", (("title", title), ("before", before), ("days", days)))


def falls_away(*, title: str) -> Message:
    """No longer: {title}"""
    return Message("letters.falls_away", (("title", title),))


def no_news() -> Message:
    """Every client was told the days that hold."""
    return Message("letters.no_news")


def marked(*, n: int) -> Message:
    """{n} clients count as told; nothing was sent."""
    return Message("letters.marked", (("n", n),))


def not_marked(*, n: int) -> Message:
    """{n} clients are to be told; nothing was marked."""
    return Message("letters.not_marked", (("n", n),))


def written(*, n: int) -> Message:
    """{n} letters written; nothing was sent."""
    return Message("letters.written", (("n", n),))


def no_web() -> Message:
    """Without an address to look at: `web` in business.toml says where your server is found."""
    return Message("letters.no_web")


def withdrawn(*, lawn: str) -> Message:
    """The address of {lawn} has ended; its next letter bears another one."""
    return Message("letters.withdrawn", (("lawn", lawn),))


def which_lawn() -> Message:
    """say with --withdraw whose address ends: name the lawn"""
    return Message("letters.which_lawn")


def page_title() -> Message:
    """Your lawn: what comes when"""
    return Message("letters.page.title")


def page_description() -> Message:
    """What is done at your lawn and when, and what you do"""
    return Message("letters.page.description")


def page_of(*, day: str) -> Message:
    """By the plan of {day}"""
    return Message("letters.page.of", (("day", day),))


def page_ours() -> Message:
    """What we do"""
    return Message("letters.page.ours")


def page_nothing() -> Message:
    """Nothing more is planned."""
    return Message("letters.page.nothing")


def page_yours() -> Message:
    """What you do"""
    return Message("letters.page.yours")


def page_weather() -> Message:
    """Days may move with the weather."""
    return Message("letters.page.weather")


def page_address() -> Message:
    """Your lawn's page, as the plan stands"""
    return Message("letters.page.address")


def page_qr() -> Message:
    """The same address, for a camera"""
    return Message("letters.page.qr")


def page_private() -> Message:
    """Whoever has this address can read the page. Tell us if it should end."""
    return Message("letters.page.private")
