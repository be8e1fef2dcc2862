"""Working-day pages of lawns that are no examples, as pictures, with the answers that plan.json
holds, so that readers can be asked with the pictures alone.

    PYTHONPATH=tests python tests/week_pages.py FOLDER [--lawns 20] [--pages 40] [--grey]

FOLDER lies outside the repository. It gets `NN.png`, one page each, and `answers.json`: for each
page the six answers (what, how deep, how many barrows, how far apart, go or wait, by when), None
where the page has none. The pictures name no answer.
"""

import argparse
import json
import re
import subprocess
import tempfile
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from printed import english
from random_lawns import random_plan
from turfplan.export.pdf import to_pdf
from turfplan.export.sheets.checklist import checklist_html
from turfplan.export.sheets.look import monday_of
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.records.plan import Plan

# So many pages of one lawn are asked about.
OF_ONE_LAWN = 2
LEAD = ("spreading", "sowing", "planting")
DOTS_PER_INCH = 110


def working_days(record: dict[str, Any]) -> list[dict[str, Any]]:
    """The jobs of a plan by which a day is known: of each kind the first, spreading before all."""
    found = [
        task
        for role in LEAD
        for task in record["tasks"]
        if role in task["roles"] and task["closed"] is None and task["series"] is None
    ]
    days: dict[str, dict[str, Any]] = {}
    for task in found:
        days.setdefault(task["start"], task)
    return list(days.values())[:OF_ONE_LAWN]


def answers(record: dict[str, Any], task: dict[str, Any]) -> dict[str, Any]:
    """The six answers as plan.json holds them, in the reader's units."""
    us = record["lawn"]["units"] == "us"

    def amount(item: str) -> Any:
        for found in task["amounts"]:
            if found["item"] == item:
                key = "_us" if us else ""
                return [round(found[f"value{key}"], 3), found[f"unit{key}"]]
        return None

    slack, last = task.get("slack"), task["window"]["end"]
    # A job whose own words name the last safe day has that one.
    safe = any("last safe day" in text for text in [*task["cautions"], task["fallback"] or ""])
    alone = slack and slack["end"] > task["start"] and not safe
    kept = alone and (not task["fallback_day"] or task["fallback_day"] <= slack["end"])
    return {
        "what": task["title"],
        "how deep": amount("depth"),
        "how many barrows": amount("barrow loads"),
        "how far apart": apart(record, task),
        "go or wait": {"go": task["go"], "wait for": task["fallback_day"]},
        "by when": min(slack["end"], last) if kept else last,
    }


def apart(record: dict[str, Any], task: dict[str, Any]) -> float | None:
    """How far apart heaps lie, in mm, as plan.json keeps it beside the step that says it."""
    for step in task["how"]:
        for value in walked(record["said"].get(step, {})):
            if value.get("key") == "barrows.heaps":
                found: float = value["values"]["apart"]["value"]
                return round(found, 1)
    return None


def walked(value: Any) -> Iterator[dict[str, Any]]:
    """Every table inside a value of plan.json."""
    if isinstance(value, dict):
        yield value
        for inner in value.values():
            yield from walked(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from walked(inner)


def picture(plan: Plan, task: dict[str, Any], path: Path, *, grey: bool) -> bool:
    """The page of a week on which a job stands; false where no page holds the whole of it."""
    html = checklist_html(plan, english(plan), monday_of(date.fromisoformat(task["start"])))
    title = " ".join(task["title"].split()[:3])
    with tempfile.TemporaryDirectory() as folder:
        pdf = Path(folder) / "week.pdf"
        pdf.write_bytes(to_pdf(html, plan))
        text = subprocess.run(
            ["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, text=True
        ).stdout
        pages = text.split("\f")
        heading = re.compile(rf"(?m)^\W*\d+\s+{re.escape(title)}")
        number = next((n for n, t in enumerate(pages, 1) if heading.search(t) and "GO" in t), 0)
        if number:
            tone = ["-gray"] if grey else []
            command = ["pdftoppm", "-r", str(DOTS_PER_INCH), "-f", str(number), "-l", str(number)]
            subprocess.run(
                [*command, *tone, "-singlefile", "-png", str(pdf), str(path.with_suffix(""))],
                check=True,
            )
    return number > 0


def main() -> None:
    """Write the pictures and their answers."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--lawns", type=int, default=20)
    parser.add_argument("--pages", type=int, default=40)
    parser.add_argument("--grey", action="store_true")
    asked = parser.parse_args()
    asked.folder.mkdir(parents=True, exist_ok=True)
    told: dict[str, Any] = {}
    number = lawns = 0
    while lawns < asked.lawns and len(told) < asked.pages:
        plan, number = random_plan(number), number + 1
        if plan is None:
            continue
        record, lawns = json.loads(plan_to_json(plan)), lawns + 1
        for task in working_days(record):
            name = f"{len(told) + 1:02}.png"
            if picture(plan, task, asked.folder / name, grey=asked.grey):
                told[name] = answers(record, task)
    text = json.dumps(told, indent=1, ensure_ascii=False)
    (asked.folder / "answers.json").write_text(text + "\n", encoding="utf-8")
    print(f"{len(told)} pages of {lawns} lawns in {asked.folder}")


if __name__ == "__main__":
    main()
