"""A plan as text that an agronomist can read and compare: the choice, the tasks by date, the order,
what was rejected.
"""

from pathlib import Path

from printed import amount_text
from turfplan.records.plan import Plan


def golden_text(plan: Plan) -> str:
    """The lines of the golden file of a plan."""
    units = plan.lawn.units
    lines = [
        f"campaign  {plan.campaign}: {plan.campaign_name}",
        *(f"why       {line}" for line in plan.campaign_reason),
    ]
    if plan.conflict is not None:
        lines += [f"conflict  {line}" for line in plan.conflict.reasons]
        lines += [f"option    {o.title} ({o.change}): {o.reason}" for o in plan.options]
    for task in sorted((t for t in plan.tasks if t.series is None), key=lambda t: (t.start, t.id)):
        until = f"..{task.end:%m-%d}" if task.end != task.start else ""
        window = f"[{task.window.start:%Y-%m-%d} {task.window.end:%Y-%m-%d}]"
        amounts = "; ".join(f"{a.item} {amount_text(a, units)}" for a in task.amounts)
        lines.append(
            f"{task.start:%a %Y-%m-%d}{until:7} {task.id:22} {task.title}  {window}"
            + (f"  {amounts}" if amounts else "")
        )
    for task in sorted(
        (t for t in plan.tasks if t.series is not None), key=lambda t: (t.start, t.id)
    ):
        assert task.series is not None
        days = ",".join(task.series.weekdays) or "daily"
        lines.append(
            f"{task.start:%Y-%m-%d}..{task.end:%m-%d} {task.series.start_time:%H:%M} "
            f"{task.series.minutes:3} min {days:8} {task.id}"
        )
    for line in plan.order:
        lines.append(
            f"order     {line.item}: {line.text}; order by {line.order_by}, "
            f"deliver by {line.deliver_by}"
        )
    lines += [f"rejected  {r.campaign}: {r.reason}" for r in plan.rejected]
    lines += [f"assumed   {line}" for line in plan.assumptions]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    from planning import NAMES, example

    folder = Path(__file__).parent / "golden"
    for name in NAMES:
        (folder / f"{name}.txt").write_text(golden_text(example(name)), encoding="utf-8")
        print(name)
