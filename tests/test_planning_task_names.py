"""The names of tasks as reasons quote them."""

from planning import brief_of, plan_brief

EQUATOR = {"postal_code": None, "latitude": 9.03, "longitude": 38.75, "elevation": "2355 m"}


def test_feedings_of_an_even_year_go_by_their_order() -> None:
    """Where all months are alike no feeding is of spring; elsewhere each has its season."""
    told = {}
    for name, place in {"even": EQUATOR, "seasons": {"postal_code": "92101"}}.items():
        change = {"lawn": {"grass": "kikuyu"}, "place": place, "seeding": {"intent": "none"}}
        text = plan_brief(brief_of(change), options=False).model_dump_json()
        told[name] = ("Feed (spring" in text or "Feed (summer" in text, "“Feed 1”" in text)
    assert told == {"even": (False, True), "seasons": (True, False)}
