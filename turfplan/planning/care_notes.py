"""What a plan of care alone says of the lawn beside its tasks, and what it does not speak of."""

from turfplan.book.words import book_message
from turfplan.message import Message, listed
from turfplan.phrases import care_alone as phrases
from turfplan.phrases import plan_cautions as of_work
from turfplan.records.plan_task import Role
from turfplan.work.lawn import ResolvedLawn

# What is done to a lawn that is filled, sown or planted, and in care alone never.
_WORK: tuple[Role, ...] = ("spreading", "sowing", "dormant", "planting", "relaying", "mending")


def spoken_of(setting: ResolvedLawn, operation: str) -> bool:
    """Whether the windows of an operation concern this lawn: those of work not where it is cared
    for alone, and nothing wakes under a winter cover that is not sown."""
    if operation == "spring_transition" and setting.sowing.intent != "winter_overseed":
        return False
    return not (setting.care_alone and setting.book.operations[operation].plays(*_WORK))


def causes_of_thin_grass(setting: ResolvedLawn) -> list[Message]:
    """What is said in care alone of causes that were told: nothing waits there for a look."""
    site, book = setting.brief.site, setting.book
    left = [cause for cause in dict.fromkeys(site.thin_cause) if cause not in site.cleared]
    if not setting.care_alone or not left:
        return []
    names = listed((book_message(book, f"causes.{cause}.name") for cause in left), "and")
    return [phrases.causes(causes=names)]


def told_of_thick_thatch(setting: ResolvedLawn) -> Message:
    """What is said of thatch that is too thick to be combed out at one time."""
    if setting.on_open_ground:
        return of_work.thatch_to_strip()
    return phrases.thick() if setting.care_alone else of_work.thatch_to_come_down()
