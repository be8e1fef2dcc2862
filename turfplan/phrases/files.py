"""Messages of `messages/en/files.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message


def no_id_column() -> Message:
    """has no column `id`"""
    return Message("files.no_id_column")


def id_columns() -> Message:
    """id, lawn.area, lawn.grass, place.postal_code, …"""
    return Message("files.id_columns")


def not_client_id() -> Message:
    """is not a client id"""
    return Message("files.not_client_id")


def client_id() -> Message:
    """1 to 40 of a-z, 0-9 and -"""
    return Message("files.client_id")


def surplus_cells() -> Message:
    """has more cells than columns"""
    return Message("files.surplus_cells")


def leads_out() -> Message:
    """leads out of the folder that it starts from"""
    return Message("files.leads_out")


def bring_below(*, folder: str) -> Message:
    """bring the file into {folder}, and name it from there"""
    return Message("files.bring_below", (("folder", folder),))


def both_changed() -> Message:
    """was changed by hand, and its row in the clients file has changed too"""
    return Message("files.both_changed")


def settle_row(*, brief: str) -> Message:
    """take what was changed by hand into the row, then take {brief} away: the lawn keeps its
    identity; or give the row back what it said
    """
    return Message("files.settle_row", (("brief", brief),))


def value_and_table() -> Message:
    """is a column of its own, and other columns begin with it"""
    return Message("files.value_and_table")


def no_brief() -> Message:
    """holds no brief"""
    return Message("files.no_brief")


def file_not_folder() -> Message:
    """is a file, not a folder"""
    return Message("files.file_not_folder")


def choose_folder() -> Message:
    """choose a folder with -o"""
    return Message("files.choose_folder")


def plan_anew() -> Message:
    """move it away and plan anew; identities start afresh then"""
    return Message("files.plan_anew")


def newer() -> Message:
    """was written by a newer turfplan"""
    return Message("files.newer")


def upgrade() -> Message:
    """upgrade turfplan, or choose another folder with -o; the file was left as it is"""
    return Message("files.upgrade")


def other_schema() -> Message:
    """is not one this version reads"""
    return Message("files.other_schema")


def other_turfplan() -> Message:
    """install the turfplan that wrote it"""
    return Message("files.other_turfplan")


def not_postal_code() -> Message:
    """is not a US postal code"""
    return Message("files.not_postal_code")


def postal_unknown() -> Message:
    """is not known"""
    return Message("files.postal_unknown")


def postal_hint() -> Message:
    """five digits, for example 17601; or give latitude and longitude"""
    return Message("files.postal_hint")


def folder_unwritable(*, reason: Message) -> Message:
    """cannot be written to ({reason})"""
    return Message("files.folder_unwritable", (("reason", reason),))


def outputs_unwritten(*, reason: Message) -> Message:
    """the outputs could not be written ({reason})"""
    return Message("files.outputs_unwritten", (("reason", reason),))


def run_again() -> Message:
    """run the command again to complete them"""
    return Message("files.run_again")


def previous_stand() -> Message:
    """the previous ones still stand"""
    return Message("files.previous_stand")


def folder_in_place() -> Message:
    """is a folder where a file is to be written"""
    return Message("files.folder_in_place")


def move_away() -> Message:
    """move it away"""
    return Message("files.move_away")


def another_lawn() -> Message:
    """holds the plan of another lawn"""
    return Message("files.another_lawn")


def no_plan_yet() -> Message:
    """holds no plan yet"""
    return Message("files.no_plan_yet")


def no_plan() -> Message:
    """holds no plan"""
    return Message("files.no_plan")


def no_fact() -> Message:
    """no fact of that name"""
    return Message("files.no_fact")


def unknown_grass() -> Message:
    """unknown grass"""
    return Message("files.unknown_grass")


def week_of(*, sheet: str) -> Message:
    """says nothing about {sheet}"""
    return Message("files.week_of", (("sheet", sheet),))


def week_only() -> Message:
    """with week only"""
    return Message("files.week_only")


def not_a_day() -> Message:
    """is not a day"""
    return Message("files.not_a_day")


def such_a_day() -> Message:
    """a date such as 2027-08-14, or this"""
    return Message("files.such_a_day")


def no_accuracy(*, faults: Listed) -> Message:
    """The points are not counted: {faults}."""
    return Message("files.no_accuracy", (("faults", faults),))


def no_catalog() -> Message:
    """there is no catalog of it"""
    return Message("files.no_catalog")


def not_the_plans() -> Message:
    """is another lawn than the plan's"""
    return Message("files.not_the_plans")


def kept_damaged() -> Message:
    """is damaged: it cannot be read as the record that turfplan keeps there"""
    return Message("files.kept_damaged")


def kept_from_backup() -> Message:
    """bring it back from a backup; nothing was changed"""
    return Message("files.kept_from_backup")
