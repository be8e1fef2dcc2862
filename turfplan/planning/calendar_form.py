"""In which form a plan is shown in a calendar."""

from turfplan.records.brief import Calendar
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarForm

# What a calendar bears whose owner has said nothing.
OF_NEW_PLANS = CalendarForm(watering="day", eve=True)


def calendar_form(asked: Calendar, previous: Plan | None) -> CalendarForm:
    """The form that was asked for; without a word that of the plan before, else that of new plans.

    Who has subscribed to one form sees another only where somebody asks for it.
    """
    form = previous.calendar if previous is not None else OF_NEW_PLANS
    if asked.watering is not None:
        form = form.model_copy(update={"watering": asked.watering})
    if asked.prepare is not None:
        wished = {"eve": bool(asked.prepare), "week": asked.prepare == "week"}
        form = form.model_copy(update=wished)
    return form
