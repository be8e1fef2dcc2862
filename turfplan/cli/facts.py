"""`turfplan facts`: the numbers in force."""

import json

import typer

from turfplan.cli.speech import say, words_of_user


def facts(
    name: str | None = typer.Argument(
        None, metavar="NAME", help="A fact or the start of its name, such as species.zoysia."
    ),
    region: str | None = typer.Option(None, "--region", help="With the overlay of this region."),
    brief_schema: bool = typer.Option(
        False, "--brief-schema", help="Print the JSON schema of the brief."
    ),
    as_json: bool = typer.Option(False, "--json", help="Print one JSON object."),
) -> None:
    """The numbers in force with their sources, and how many of them are judgement.

    Example: turfplan facts species.tall_fescue
    """
    if brief_schema:
        from turfplan.records.brief import Brief

        print(json.dumps(Brief.model_json_schema(by_alias=True), indent=2, ensure_ascii=False))
        return
    from turfplan.app.book_facts import book_facts
    from turfplan.phrases import screen

    rows = book_facts(name, region)
    if as_json:
        print(
            json.dumps(
                {
                    "schema": 1,
                    "facts": [row.as_dict() for row in rows],
                    "judgements": sum(r.judgement for r in rows),
                },
                ensure_ascii=False,
            )
        )
        return
    width = max(len(row.name) for row in rows)
    for row in rows:
        print(f"{row.name:{width}}  {row.printed:18} {row.source}")
    judged = sum(row.judgement for row in rows)
    say(words_of_user(), screen.facts_count(n=len(rows), judged=judged))
