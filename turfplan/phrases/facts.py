"""Messages of `messages/en/facts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Printed


def our_judgement() -> Message:
    """our own judgement"""
    return Message("facts.our_judgement")


def common_practice() -> Message:
    """common practice"""
    return Message("facts.common_practice")


def institution(*, institution: str) -> Message:
    """{institution}"""
    return Message("facts.institution", (("institution", institution),))


def judged(*, note: Message) -> Message:
    """judgement: {note}"""
    return Message("facts.judged", (("note", note),))


def practised(*, note: Message) -> Message:
    """common practice: {note}"""
    return Message("facts.practised", (("note", note),))


def published(*, institution: str, title: str) -> Message:
    """{institution}: {title}"""
    return Message("facts.published", (("institution", institution), ("title", title)))


def published_at(*, institution: str, title: str, place: Message) -> Message:
    """{institution}: {title}, {place}"""
    return Message(
        "facts.published_at", (("institution", institution), ("title", title), ("place", place))
    )


def with_basis(*, citation: Message, basis: Message) -> Message:
    """{citation} [{basis}]"""
    return Message("facts.with_basis", (("citation", citation), ("basis", basis)))


def explained(*, citation: Message, note: Message) -> Message:
    """{citation}: {note}"""
    return Message("facts.explained", (("citation", citation), ("note", note)))


def judges_schedule() -> Message:
    """taste of scheduling"""
    return Message("facts.judges.schedule")


def judges_agronomy() -> Message:
    """agronomy"""
    return Message("facts.judges.agronomy")


def basis_secondary() -> Message:
    """secondary"""
    return Message("facts.basis.secondary")


def basis_derived() -> Message:
    """derived"""
    return Message("facts.basis.derived")


def basis_computed() -> Message:
    """computed"""
    return Message("facts.basis.computed")


def basis_memory() -> Message:
    """memory"""
    return Message("facts.basis.memory")


def basis_judgement() -> Message:
    """judgement"""
    return Message("facts.basis.judgement")


def basis_common_practice() -> Message:
    """common practice"""
    return Message("facts.basis.common_practice")


def value(*, value: Printed) -> Message:
    """{value}"""
    return Message("facts.value", (("value", value),))


def span(*, low: Printed, high: Printed) -> Message:
    """{low} to {high}"""
    return Message("facts.span", (("low", low), ("high", high)))


def value_in_span(*, value: Printed, low: Printed, high: Printed) -> Message:
    """{value} ({low} to {high})"""
    return Message("facts.value_in_span", (("value", value), ("low", low), ("high", high)))


def cited(*, name: Message, value: Message, citation: Message) -> Message:
    """{name:capital}: {value}. {citation}"""
    return Message("facts.cited", (("name", name), ("value", value), ("citation", citation)))


def line(*, name: Message, value: Message, citation: Message) -> Message:
    """{name}: {value} ({citation})"""
    return Message("facts.line", (("name", name), ("value", value), ("citation", citation)))
