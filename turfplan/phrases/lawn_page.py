"""Messages of `messages/en/lawn_page.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def title(*, lawn: str) -> Message:
    """{lawn}: the lawn"""
    return Message("lawn_page.title", (("lawn", lawn),))


def tab() -> Message:
    """The lawn"""
    return Message("lawn_page.tab")


def head() -> Message:
    """The lawn itself"""
    return Message("lawn_page.head")


def brief() -> Message:
    """All that is known of it"""
    return Message("lawn_page.brief")


def brief_say() -> Message:
    """Everything that can be said of this lawn stands in this text. Change it here, or get it,
    change it and send it back.
    """
    return Message("lawn_page.brief_say")


def text() -> Message:
    """The text"""
    return Message("lawn_page.text")


def save() -> Message:
    """Save, and plan with it"""
    return Message("lawn_page.save")


def get_text() -> Message:
    """Get the text as a file"""
    return Message("lawn_page.get_text")


def send_text() -> Message:
    """Or choose the file that you changed"""
    return Message("lawn_page.send_text")


def saved() -> Message:
    """It is saved, and the season planned with it."""
    return Message("lawn_page.saved")


def not_saved() -> Message:
    """Nothing was saved"""
    return Message("lawn_page.not_saved")


def too_long() -> Message:
    """This text is too long for the page. Change it in its file."""
    return Message("lawn_page.too_long")


def no_text() -> Message:
    """The text of this lawn cannot be read."""
    return Message("lawn_page.no_text")


def not_utf8() -> Message:
    """This file is no text in UTF-8."""
    return Message("lawn_page.not_utf8")


def id_stays() -> Message:
    """The identity of a lawn stays as it is."""
    return Message("lawn_page.id_stays")


def only_below() -> Message:
    """A file that is named here must lie in this lawn's folder or below it, and be an ordinary
    file.
    """
    return Message("lawn_page.only_below")


def have_brief() -> Message:
    """I have its text"""
    return Message("lawn_page.have_brief")


def have_brief_say() -> Message:
    """One text can say all that the questions ask, and everything else. It may name no other files
    here.
    """
    return Message("lawn_page.have_brief_say")


def choose_file() -> Message:
    """Or choose its file"""
    return Message("lawn_page.choose_file")


def everything() -> Message:
    """Take everything"""
    return Message("lawn_page.everything")


def everything_say() -> Message:
    """All of this lawn in one file: what you told of it, what was done, the plan and its addresses.
    `turfplan restore` opens it, here or on another computer.
    """
    return Message("lawn_page.everything_say")


def get_everything() -> Message:
    """Get the file"""
    return Message("lawn_page.get_everything")


def delete() -> Message:
    """Delete this lawn"""
    return Message("lawn_page.delete")


def delete_say() -> Message:
    """Its pages and addresses stop working at once, and its files are deleted. What was printed,
    copies of files, calendars that were added once and what lies on a web host cannot be reached
    from here.
    """
    return Message("lawn_page.delete_say")


def delete_keeps(*, folder: str) -> Message:
    """Its pages and addresses stop working at once. Its files lie in {folder} and stay there, for
    they were not made by this page. What was printed, copies of files, calendars that were added
    once and what lies on a web host cannot be reached from here.
    """
    return Message("lawn_page.delete_keeps", (("folder", folder),))


def delete_sure() -> Message:
    """Delete this lawn for good"""
    return Message("lawn_page.delete_sure")


def delete_first() -> Message:
    """Tick the box first. Nothing was deleted."""
    return Message("lawn_page.delete_first")


def deleted(*, lawn: str) -> Message:
    """{lawn} is deleted."""
    return Message("lawn_page.deleted", (("lawn", lawn),))


def another() -> Message:
    """Another lawn"""
    return Message("lawn_page.another")
