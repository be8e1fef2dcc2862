"""Messages of `messages/en/tools.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def no_zone_name() -> Message:
    """is not the name of a zone"""
    return Message("tools.no_zone_name")


def no_zone_data() -> Message:
    """is not in the zone data"""
    return Message("tools.no_zone_data")


def such_a_zone() -> Message:
    """for example Europe/London"""
    return Message("tools.such_a_zone")


def pdf_needs() -> Message:
    """a PDF needs WeasyPrint and the Pango libraries"""
    return Message("tools.pdf_needs")


def pdf_install(*, pip: str, apt: str) -> Message:
    """{pip}, and on Debian: {apt}; the HTML prints from any browser"""
    return Message("tools.pdf_install", (("pip", pip), ("apt", apt)))


def no_templates() -> Message:
    """the page templates are missing"""
    return Message("tools.no_templates")


def neither_holds(*, first: str, second: str, file: str) -> Message:
    """neither {first} nor {second} holds {file}"""
    return Message("tools.neither_holds", (("first", first), ("second", second), ("file", file)))


def install_whole() -> Message:
    """install turfplan again, or run it from a complete checkout"""
    return Message("tools.install_whole")
