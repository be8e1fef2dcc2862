"""A business of sixty lawns acted out from the quotes of February to the last mow of November, by
the commands alone: three weeks with rain, and a fifth of the lawns that change on the way.

The work of the office is reckoned by what it reads, types and decides; no file is edited by hand.
"""

import json
import re
import shutil
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import lru_cache
from pathlib import Path
from random import Random
from typing import Any
from unittest.mock import patch

from campaigns.records import Campaign, Figures
from command import run as command
from planning import EXAMPLES
from turfplan.calendar_days import week_of
from turfplan.files.reading import plan as reading

# How long office work takes: words read in a minute, and seconds for a line typed and a decision.
WORDS_A_MINUTE, LINE_S, DECISION_S = 200, 5, 15
# What it may take, in minutes.
PLAIN_WEEK, RAIN_DAY, QUOTE = 30.0, 15.0, 3.0
# One lawn in so many changes on the way.
CHANGED_EVERY = 5
FIRST, QUOTES, LAST = date(2027, 2, 1), date(2027, 2, 8), date(2027, 11, 26)
# Mondays of the weeks in which it rains on the first three working days.
RAIN = (date(2027, 5, 3), date(2027, 8, 30), date(2027, 9, 13))
HEADS = (
    "Number;Customer;Street;Phone;Gate;Office note;Lawn size;lawn.grass;lawn.soil;seeding.intent;"
    "leveling.depth;place.postal_code;season.from;client.barred_weekdays;Crew;Offer"
)
CREWS = """
[[crew]]
name = "south"
people = 3
hours_per_day = 8
weekdays = ["mon", "tue", "wed", "thu", "fri"]
truck = "6 yd3"
"""
# What the business offers beside the plan, once for all lawns.
CHOICES = """
[[choice]]
name = "thin"
changes = "leveling.depth = 0.25 in"

[[choice]]
name = "no seed"
changes = "seeding.intent = none; leveling.depth = 0.25 in"
"""
GRASSES = ("tall_fescue", "tall_fescue", "kentucky_bluegrass", "perennial_ryegrass")
SOILS, DEPTHS = ("loam", "clay loam", "silt loam"), ("0.25 in", "0.5 in", "0.5 in", "")
CODES = ("17601", "17602", "17603")
STREETS = ("Oak Road", "Elm Street", "Ash Lane")
# What befalls the lawns that change, in turn, and how.
FATES = ("late", "pause", "sell", "ban", "half", "callback", "leave")


@dataclass
class Desk:
    """The office of a data folder, and what its work takes, by what it is for."""

    home: Path
    seconds: Counter[str] = field(default_factory=Counter)
    words: Counter[str] = field(default_factory=Counter)
    lines: int = 0
    decisions: int = 0
    pages: dict[str, list[str]] = field(default_factory=dict)

    def asked(self, what: str, *words: str, code: int = 0, decided: int = 0) -> str:
        """A line typed for something, with what it prints, which is read, and what is decided."""
        done = command("clients", *words, cwd=self.home)
        told = done.stdout + done.stderr
        assert done.returncode == code, (words, told[-2000:])
        self.read(what, told)
        self.seconds[what] += LINE_S
        self.lines += 1
        self.decided(what, decided)
        return told

    def read(self, what: str, text: str) -> None:
        """What is read for something."""
        count = len(text.split())
        self.words[what] += count
        self.seconds[what] += round(60 * count / WORDS_A_MINUTE)

    def pages_read(self) -> None:
        """The quotes are read; what stands word for word on each of them is read once."""
        alike = set.intersection(*map(set, self.pages.values()))
        for number, (what, lines) in enumerate(self.pages.items()):
            self.read(what, "\n".join(line for line in lines if not number or line not in alike))

    def decided(self, what: str, times: int) -> None:
        """What is decided for something."""
        self.seconds[what] += DECISION_S * times
        self.decisions += times

    def seen(self, *words: str) -> Any:
        """What the actor looks at to know what to do: nobody's work."""
        done = command("clients", *words, cwd=self.home)
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    def minutes(self, kind: str) -> list[float]:
        """What each thing of a kind took."""
        return [s / 60 for what, s in self.seconds.items() if what.startswith(kind)]


@dataclass
class OfficeSeason:
    """The business as it is acted out: which lawns change how, and which of them are there."""

    desk: Desk
    fates: dict[str, str]
    chance: Random
    names: list[str]
    offers: dict[str, str]
    gone: set[str] = field(default_factory=set)
    undone: Counter[str] = field(default_factory=Counter)

    @property
    def data(self) -> str:
        """The data folder, as it is typed."""
        return "data"

    def of(self, fate: str) -> list[str]:
        """The lawns that a fate has."""
        return [name for name, own in self.fates.items() if own == fate]

    def begins(self) -> None:
        """The client file comes in, is planned, and each client gets a quote and says yes or no."""
        desk = self.desk
        desk.asked("import", "import", "clients.csv", "-o", self.data, "--dry-run")
        desk.asked("import", "import", "clients.csv", "-o", self.data, decided=1)
        self.plan("import", FIRST)
        self.quoted("choices", "three")
        self.quoted("quote", "one", "--alone")
        desk.pages_read()
        taken = [name for name in self.names if self.fates.get(name) != "late"]
        self.go("accept", "quote", "accept", self.data, *taken, day=QUOTES + timedelta(9))
        self.plan("accept", QUOTES + timedelta(10))
        desk.asked("letters", "letter", self.data, "--today", "2027-02-20")
        self.go("letters", "messages", self.data, day=date(2027, 2, 20))

    def quoted(self, kind: str, group: str, *more: str) -> None:
        """The lawns of a group are offered and their quotes printed, by one line; the row of each,
        and its page, are read, and whether it goes out is decided. What is typed, and what is told
        of all of them, counts to the first."""
        words = ("--group", f"Offer={group}", "--print", *more, "--today", QUOTES.isoformat())
        done = command("clients", "quote", "offer", self.data, *words, cwd=self.desk.home)
        assert done.returncode == 0, done.stderr
        told = done.stderr.splitlines() + done.stdout.splitlines()
        names = [name for name in self.names if self.offers[name] == group]
        for name in names:
            self.desk.read(f"{kind} of {name}", "\n".join(t for t in told if name in t.split()))
            self.desk.decided(f"{kind} of {name}", 1)
            (page,) = (self.desk.home / self.data / "lawns" / name).glob("quote-*.html")
            self.desk.pages[f"{kind} of {name}"] = text_of_page(page)
        first = f"{kind} of {names[0]}"
        of_all = [text for text in told if not set(text.split()) & set(names)]
        self.desk.read(first, "\n".join(of_all))
        self.desk.seconds[first] += LINE_S
        self.desk.lines += 1

    def go(self, what: str, *words: str, day: date, decided: int = 0) -> str:
        """A line typed on a day."""
        return self.desk.asked(what, *words, "--today", day.isoformat(), decided=decided)

    def plan(self, what: str, day: date) -> str:
        """All that has news is planned."""
        return self.go(what, "plan", self.data, "--processes", "1", day=day)

    def acted(self) -> None:
        """Week by week from March to November."""
        monday = date(2027, 3, 1)
        while monday <= LAST:
            self.week(monday)
            monday += timedelta(7)

    def week(self, monday: date) -> None:
        """A Monday's office work, the days of the week, and what befalls lawns in it."""
        kind = "rain week" if monday in RAIN else "week"
        what = f"{kind} of {monday}"
        self.befalls(monday)
        self.plan(what, monday)
        self.go(what, "list", self.data, "--week", "this", day=monday)
        overdue = self.desk.seen("list", self.data, "--overdue", "--json", "--today", str(monday))
        jobs = [(lawn["id"], job) for lawn in overdue["lawns"] for job in lawn["jobs"]]
        if jobs:
            self.go(what, "list", self.data, "--overdue", day=monday, decided=1)
            self.settled(what, monday, jobs)
        self.go(what, "list", self.data, "--last-days", day=monday)
        self.go(what, "material", self.data, "--week", "this", "--told", day=monday, decided=1)
        self.go(what, "messages", self.data, day=monday)
        for crew in ("north", "south"):
            line = ("print", "week", self.data, "--on", str(monday), "--group", f"Crew={crew}")
            self.desk.asked(what, *line)
        weeks = self.desk.seen("list", self.data, "--week", str(monday), "--json")
        for day in week_of(monday)[:5]:
            self.day(what, monday, day, weeks)

    def day(self, what: str, monday: date, day: date, weeks: Any) -> None:
        """What became of the jobs of a day, in a line; and on a day of rain all that follows."""
        if monday in RAIN and day - monday < timedelta(3):
            rain = f"rain day {day}"
            self.go(
                rain, "log", self.data, "--on", str(day), "--all", "rained-off", "--yes", day=day
            )
            self.plan(rain, day)
            tomorrow = str(day + timedelta(1))
            self.go(rain, "list", self.data, "--on", tomorrow, day=day)
            self.go(rain, "list", self.data, "--last-days", day=day)
            self.desk.asked(rain, "print", "week", self.data, "--on", tomorrow)
            if day - monday == timedelta(2):
                self.go(rain, "messages", self.data, day=day)
            return
        if monday in RAIN:
            weeks = self.desk.seen("list", self.data, "--week", str(monday), "--json")
        jobs = {
            lawn["id"]: [job for job in lawn["jobs"] if job["start"] <= str(day) <= job["end"]]
            for lawn in weeks["lawns"]
        }
        listed = {name: own for name, own in jobs.items() if own}
        if not listed:
            return
        half = [name for name in self.of("half") if self.is_half(name, listed)]
        said = ("--on", str(day), "--all", "done", "--yes", *(f"--except={name}" for name in half))
        self.go(what, "log", self.data, *said, day=day, decided=len(half))
        for name in half:
            rows = [f"{name},{job['task']},{day},not-done,half" for job in listed[name]]
            self.sheet("changes", day, rows)

    def is_half(self, name: str, listed: dict[str, Any]) -> bool:
        """Whether a lawn is one whose jobs of a day were left half-way, for the first time."""
        if self.undone[name] or not any(job["main"] for job in listed.get(name, [])):
            return False
        self.undone[name] += 1
        return True

    def settled(self, what: str, monday: date, jobs: list[tuple[str, Any]]) -> None:
        """Jobs that are over without a word are written as done on their last day, as a file that
        the crews' sheets were typed into: a line each."""
        rows = [f"{name},{job['task']},{job['end']},done," for name, job in jobs]
        self.desk.seconds[what] += LINE_S * len(rows)
        self.sheet(what, monday, rows)

    def sheet(self, what: str, day: date, rows: list[str]) -> None:
        """A file of entries is logged."""
        file = self.desk.home / f"log-{self.desk.lines}.csv"
        file.write_text("\n".join(("lawn,task,day,kind,note", *rows)) + "\n", encoding="utf-8")
        self.go(what, "log", self.data, file.name, "--yes", day=day)

    def befalls(self, monday: date) -> None:
        """What befalls the lawns that change, each in its week."""
        week, data = (monday - date(2027, 3, 1)).days // 7, self.data
        what = "changes"
        if week == 9 and (late := self.of("late")):
            self.go(what, "quote", "accept", data, *late, "--yes", day=monday, decided=len(late))
        if week == 12 and (paused := self.of("pause")):
            until = str(monday + timedelta(20))
            self.go(what, "pause", data, *paused, "--until", until, day=monday, decided=1)
        if week == 15:
            for name in self.of("sell"):
                owner = ("--name", f"New owner of {name} (invented)")
                self.go(what, "sell", data, name, *owner, day=monday, decided=1)
        if week == 17 and self.of("ban"):
            self.go(what, *("rule", data, "--place", "postal_code=17603"),
                    *("--ban", "2027-07-01..2027-08-20"), day=monday, decided=1)  # fmt: skip
        if week == 20:
            for name in self.of("leave"):
                self.go(what, "leave", data, name, day=monday, decided=1)
                self.gone.add(name)
        if week == 22:
            for name in self.of("callback"):
                on = str(monday + timedelta(2))
                asked = (name, "bare spot at the gate", "--on", on, "--hours", "1")
                self.go(what, "callback", "add", data, *asked, day=monday, decided=1)

    def ends(self) -> dict[str, int]:
        """What stands in the end: each lawn that stayed is over with its year's work, whatever
        befell it, and nothing that was said is lost."""
        found = self.desk.seen("list", self.data, "--overdue", "--json", "--today", str(LAST))
        over = [(lawn["id"], job["task"]) for lawn in found["lawns"] for job in lawn["jobs"]]
        assert len(over) <= len(self.names) // 10, over
        states = Counter[str]()
        for name in self.names:
            folder = self.desk.home / self.data / "lawns" / name
            assert folder.is_dir() == (name not in self.gone), name
            if name in self.gone:
                continue
            plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
            main = [task for task in plan["tasks"] if task["operation"] in ("overseed", "topdress")]
            done = [task for task in main if task.get("closed") == "done"]
            states["seeded or dressed" if done else "without"] += 1
        self.desk.asked("the end", "record", self.data, "-o", "record.csv")
        self.desk.asked("the end", "hours", self.data)
        return dict(states)


def text_of_page(page: Path) -> list[str]:
    """The lines of a page, without how it is set."""
    html = page.read_text(encoding="utf-8")
    body = re.sub(r"(?s)<(style|script|head)\b.*?</\1>", " ", html)
    body = re.sub(r'(?s)<a class="skip".*?</a>', " ", body)
    text = re.sub(r"<[^>]+>", " ", re.sub(r"</(?:p|li|tr|h[1-6])>", "\n", body))
    return [" ".join(line.split()) for line in text.split("\n") if line.strip()]


def rows_of(count: int, chance: Random) -> Iterator[tuple[str, str]]:
    """The ids of invented lawns, each with its row of the client file."""
    for number in range(1, count + 1):
        name, depth = f"l{number:02}", chance.choice(DEPTHS)
        barred = chance.choice(("", "", "", "mon", "fri"))
        cells = (
            *(name, f"Client {number} (invented)", f"{number} {chance.choice(STREETS)}"),
            *(f"555 01{number:02}", f"gate code {4000 + number}", f"note {number}"),
            *(f"{chance.randint(180, 700)} m2", chance.choice(GRASSES), chance.choice(SOILS)),
            *("overseed", depth, chance.choice(CODES), "2027-03-01", barred),
            *(chance.choice(("north", "south")), "one" if number % 3 else "three"),
        )
        yield name, ";".join(cells)


def opened_office(home: Path, count: int, seed: int) -> OfficeSeason:
    """A business with its client file, before anything was done."""
    chance = Random(seed)
    (home / "data").mkdir()
    shutil.copy(EXAMPLES / "business" / "business.toml", home / "data")
    file = home / "data" / "business.toml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("[prices]", f"{CREWS}\n{CHOICES}\n[prices]"), encoding="utf-8")
    rows = dict(rows_of(count, chance))
    (home / "clients.csv").write_text("\n".join((HEADS, *rows.values())) + "\n", encoding="utf-8")
    changed = list(rows)[::CHANGED_EVERY]
    fates = {name: FATES[number % len(FATES)] for number, name in enumerate(changed)}
    offers = {name: row.rpartition(";")[2] for name, row in rows.items()}
    return OfficeSeason(Desk(home), fates, chance, list(rows), offers)


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where office work takes longer than it may, or a season does not come to its end."""
    season = opened_office(folder, count, seed)
    # The office of this process reads each plan once, however many lines it types.
    read_once = lru_cache(maxsize=4 * count)(reading._plan_of.__wrapped__)
    with patch.object(reading, "_plan_of", read_once):
        season.begins()
        season.acted()
        states, desk = season.ends(), season.desk
    weeks, rain = desk.minutes("week of"), desk.minutes("rain day")
    quotes, choices = desk.minutes("quote of"), desk.minutes("choices of")
    figures: Figures = {
        "most_minutes_of_a_plain_week": round(max(weeks), 1),
        "mean_minutes_of_a_plain_week": round(sum(weeks) / len(weeks), 1),
        "most_minutes_of_a_rain_day": round(max(rain), 1),
        "most_minutes_of_a_quote": round(max(quotes, default=0.0), 1),
        "most_minutes_of_three_choices": round(max(choices), 1),
        "minutes_of_the_beginning": round(sum(desk.minutes("import")), 1),
        "minutes_of_changes": round(sum(desk.minutes("changes")), 1),
        "lines_typed": desk.lines,
        "decisions": desk.decisions,
        "words_read": desk.words.total(),
        "changed_lawns": len(season.fates),
        "lawns_done": states.get("seeded or dressed", 0),
    }
    told = "; ".join(f"{name} {value}" for name, value in figures.items())
    assert max(weeks) <= PLAIN_WEEK, f"a plain week takes too long: {told}: {longest(desk)}"
    assert max(rain) <= RAIN_DAY, f"a rain day takes too long: {told}: {longest(desk)}"
    assert max(choices) <= QUOTE, f"three choices take too long: {told}: {longest(desk)}"
    assert max(quotes, default=0.0) <= QUOTE, f"a quote takes too long: {told}: {longest(desk)}"
    return figures


def longest(desk: Desk) -> str:
    """What took longest, with its words."""
    most = desk.seconds.most_common(8)
    return ", ".join(f"{what} {s / 60:.1f} min, {desk.words[what]} words" for what, s in most)


CAMPAIGN = Campaign("office_season", size=60, seed=2027, unit="lawns", run=run)
