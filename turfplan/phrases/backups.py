"""Messages of `messages/en/backups.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def exists() -> Message:
    """exists already"""
    return Message("backups.exists")


def another_name() -> Message:
    """choose another name"""
    return Message("backups.another_name")


def bad_path() -> Message:
    """is a path that an archive may not hold"""
    return Message("backups.bad_path")


def rename() -> Message:
    """give the file, or its folder, a name of plain letters"""
    return Message("backups.rename")


def too_large() -> Message:
    """is larger than it may be, or than it says"""
    return Message("backups.too_large")


def no_archive() -> Message:
    """is no whole copy made by `turfplan backup`"""
    return Message("backups.no_archive")


def no_list() -> Message:
    """has no list of what it holds"""
    return Message("backups.no_list")


def list_damaged() -> Message:
    """has a damaged list of what it holds"""
    return Message("backups.list_damaged")


def newer() -> Message:
    """was made by a newer turfplan"""
    return Message("backups.newer")


def upgrade() -> Message:
    """upgrade turfplan; nothing was restored"""
    return Message("backups.upgrade")


def twice() -> Message:
    """is in it twice"""
    return Message("backups.twice")


def file_and_folder() -> Message:
    """is a file and a folder at once"""
    return Message("backups.file_and_folder")


def missing() -> Message:
    """is listed and not there"""
    return Message("backups.missing")


def unlisted() -> Message:
    """is there and not listed"""
    return Message("backups.unlisted")


def no_file() -> Message:
    """is a link, a folder or encrypted, not a plain file"""
    return Message("backups.no_file")


def false_name() -> Message:
    """is the plan of another lawn than the list says"""
    return Message("backups.false_name")


def sum_differs() -> Message:
    """is damaged: its checksum differs"""
    return Message("backups.sum_differs")


def nothing_restored() -> Message:
    """nothing was restored; take another copy"""
    return Message("backups.nothing_restored")


def nothing_here() -> Message:
    """holds no lawn: no brief, no plan, and no index that knows one"""
    return Message("backups.nothing_here")


def name_lawns() -> Message:
    """name a data folder, a brief or a lawn's folder after the archive's name"""
    return Message("backups.name_lawns")


def no_table() -> Message:
    """is no copy of an index that this turfplan can read"""
    return Message("backups.no_table")


def bad_row(*, what: str) -> Message:
    """holds a row in {what} that no index has"""
    return Message("backups.bad_row", (("what", what),))


def differs() -> Message:
    """is there already, and differs"""
    return Message("backups.differs")


def to_or_force() -> Message:
    """restore into another folder with --to, or write over it with --force, which keeps what was
    there beside it
    """
    return Message("backups.to_or_force")


def leads_out() -> Message:
    """leads out of the folder to restore into"""
    return Message("backups.leads_out")


def not_rendered(*, fault: Message) -> Message:
    """Calendar and sheets are not made yet, they come with the next plan: {fault}."""
    return Message("backups.not_rendered", (("fault", fault),))


def unread_brief(*, brief: str) -> Message:
    """{brief} cannot be read as a brief: it is copied, but not the files that it may name."""
    return Message("backups.unread_brief", (("brief", brief),))


def named_missing(*, brief: str, file: str) -> Message:
    """{brief} names {file}, which is not there and so not copied."""
    return Message("backups.named_missing", (("brief", brief), ("file", file)))


def copied_damaged(*, fault: Message) -> Message:
    """Copied as it is: {fault}."""
    return Message("backups.copied_damaged", (("fault", fault),))


def outside(*, name: str, path: str) -> Message:
    """A brief names {name} by its place on the machine of the copy; it is brought as {path}."""
    return Message("backups.outside", (("name", name), ("path", path)))


def kept(*, file: str, kept: str) -> Message:
    """What was in {file} is kept as {kept}."""
    return Message("backups.kept", (("file", file), ("kept", kept)))
