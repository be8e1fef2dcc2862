"""Messages of `messages/en/task_names.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def numbered(*, name: Message, number: int) -> Message:
    """{name} {number}"""
    return Message("task_names.numbered", (("name", name), ("number", number)))


def marked(*, name: Message, mark: Message) -> Message:
    """{name} ({mark})"""
    return Message("task_names.marked", (("name", name), ("mark", mark)))


def repeated(*, mark: Message, number: int) -> Message:
    """{mark}{number}"""
    return Message("task_names.repeated", (("mark", mark), ("number", number)))


def in_session(*, mark: Message, number: int) -> Message:
    """{mark}.{number}"""
    return Message("task_names.in_session", (("mark", mark), ("number", number)))


def spring() -> Message:
    """spring"""
    return Message("task_names.spring")


def summer() -> Message:
    """summer"""
    return Message("task_names.summer")


def autumn() -> Message:
    """autumn"""
    return Message("task_names.autumn")


def winter() -> Message:
    """winter"""
    return Message("task_names.winter")


def late() -> Message:
    """late"""
    return Message("task_names.late")


def planted() -> Message:
    """planted"""
    return Message("task_names.planted")


def seedlings() -> Message:
    """seedlings"""
    return Message("task_names.seedlings")


def rye() -> Message:
    """ryegrass"""
    return Message("task_names.rye")


def fresh() -> Message:
    """fresh"""
    return Message("task_names.fresh")


def colour() -> Message:
    """color"""
    return Message("task_names.colour")


def germination() -> Message:
    """germination"""
    return Message("task_names.germination")


def lifting() -> Message:
    """lifting"""
    return Message("task_names.lifting")


def relaid() -> Message:
    """relaid turf"""
    return Message("task_names.relaid")


def leaf_tips() -> Message:
    """leaf tips"""
    return Message("task_names.leaf_tips")
