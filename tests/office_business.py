"""An invented business whose office page is asked in this process, with its own clock."""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from planned_business import DAY, HEADS, MARKS, plan_again, planned_business
from turfplan.app.operators import OperatorTerms, add_operator
from turfplan.files import index as store
from turfplan.files.data_folder import INDEX, planned_lawns
from turfplan.files.index import ServedLawn
from turfplan.serve import owners
from turfplan.serve.app import create_app
from turfplan.serve.visit import ServerSettings

OFFICE, CREW = ("Ana", "seven green barrows go"), ("Bo", "rake the long meadow")
SOUTH = {
    "street": "9 Hidden Row",
    "telephone": "555 0999",
    "access": "gate code 9911",
    "note": "sold the house",
}
__all__ = ["DAY", "HEADS", "MARKS", "OfficeHome", "two_crews"]


def two_crews(home: Path) -> Path:
    """A data folder with `ash` of the crew north, `elm` of the crew south, whose marks differ."""
    data = planned_business(home)
    client = data / "lawns" / "elm" / "client.toml"
    text = client.read_text(encoding="utf-8")
    for name, mark in MARKS.items():
        assert mark in text
        text = text.replace(mark, SOUTH[name])
    client.write_text(text.replace('"north"', '"south"'), encoding="utf-8")
    plan_again(data, DAY)
    add_operator(data, OFFICE[0], OperatorTerms(), OFFICE[1], DAY)
    add_operator(data, CREW[0], OperatorTerms("north", date(2027, 10, 31)), CREW[1], DAY)
    return data


@dataclass
class OfficeHome:
    """The office of a data folder, and the moment that it is there."""

    data: Path
    day: date = DAY
    hour: int = 15
    planned: list[int] = field(default_factory=list)
    port: int = 0

    @property
    def base(self) -> str:
        """The address of the server."""
        return f"http://127.0.0.1:{self.port}"

    def now(self) -> datetime:
        """The moment that it is at the server."""
        return datetime(self.day.year, self.day.month, self.day.day, self.hour, tzinfo=UTC)

    def replan(self, lawn: ServedLawn) -> tuple[str, ...]:
        """Plans a lawn again as of the day that it is there."""
        from turfplan.app.plan_lawn import replan_lawn

        self.planned.append(lawn.id)
        assert lawn.brief is not None
        replan_lawn(lawn.brief, lawn.folder, tell=lambda _: None, today=self.day)
        return ()

    def settings(self, **more: Any) -> ServerSettings:
        """How it is served."""
        with store.opened(self.data / INDEX) as connection:
            for folder in planned_lawns(self.data):
                store.add_lawn(connection, folder, folder / "brief.toml")
        given: dict[str, Any] = {
            "index": self.data / INDEX,
            "hosts": ("127.0.0.1", "testserver"),
            "per_minute": 100_000,
            "replan": self.replan,
            "clock": self.now,
            "office": self.data,
        }
        return ServerSettings(**(given | more))

    def client(self, base: str = "http://testserver", **more: Any) -> TestClient:
        """A browser that nobody has signed in with, of a server of its own."""
        app = create_app(self.settings(**more))
        return TestClient(app, base_url=base, follow_redirects=False)

    def signed_in(self, who: tuple[str, str], **more: Any) -> TestClient:
        """A browser in which somebody has signed in."""
        client = self.client(**more)
        answer = sign_in(client, who)
        assert answer.status_code == 303, answer.text
        return client

    def owner(self) -> TestClient:
        """The owner's browser."""
        client = self.client()
        with store.opened(self.data / INDEX) as connection:
            once = owners.invite(connection, self.now())
        client.post(f"/own/{once}", data={"label": "x"})
        return client

    def number(self, name: str) -> int:
        """The number by which a lawn is served."""
        with store.opened(self.data / INDEX) as connection:
            return next(one.id for one in store.lawns(connection) if one.folder.name == name)


def sign_in(client: TestClient, who: tuple[str, str], **more: str) -> Any:
    """Sends the form for signing in."""
    return client.post("/sign-in", data={"name": who[0], "password": who[1], **more})
