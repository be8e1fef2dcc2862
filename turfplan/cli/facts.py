"""`turfplan facts`: the numbers in force."""

import json

import typer


def facts(
    name: str | None = typer.Argument(
        None, metavar="NAME", help="A fact or the start of its name, such as species.zoysia."
    ),
    region: str | None = typer.Option(None, "--region", help="With the overlay of this region."),
    brief_schema: bool = typer.Option(False, "--brief-schema", help="Print the JSON schema of the brief."),
    as_json: bool = typer.Option(False, "--json", help="Print one JSON object."),
) -> None:
    """The numbers in force with their sources, and how many of them are judgement.

    Example: turfplan facts species.tall_fescue
    """
    if brief_schema:
        from turfplan.brief import Brief

        print(json.dumps(Brief.model_json_schema(by_alias=True), indent=2, ensure_ascii=False))
        return
    from turfplan.agronomy import facts_table
    from turfplan.errors import Problem, TurfplanError, nearest
    from turfplan.readers.book import load_book

    book = load_book(region)
    rows = facts_table(book, name or "")
    if not rows:
        near = nearest(name or "", book.facts)
        raise TurfplanError(
            Problem("NAME", "no fact of that name", repr(name), None, near and f"did you mean {near!r}?")
        )
    if as_json:
        print(
            json.dumps(
                {"schema": 1, "facts": [row.as_dict() for row in rows], "judgements": sum(r.judgement for r in rows)},
                ensure_ascii=False,
            )
        )
        return
    width = max(len(row.name) for row in rows)
    for row in rows:
        print(f"{row.name:{width}}  {row.printed:18} {row.source}")
    judged = sum(row.judgement for row in rows)
    print(f"{len(rows)} facts, {judged} of them judgement")
