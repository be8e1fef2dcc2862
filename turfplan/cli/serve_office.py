"""Which office page `turfplan serve` serves, and what it says of it."""

from pathlib import Path

from turfplan.cli.speech import say, words_of_user


def office_of(index: Path, folders: list[Path]) -> Path | None:
    """The data folder of a business, whose office page is served; it goes with its own index."""
    from turfplan.files.data_folder import BUSINESS, INDEX
    from turfplan.phrases import office as phrases

    for folder in (*folders, index.parent):
        if (folder / BUSINESS).is_file():
            if index.absolute() == (folder / INDEX).absolute():
                return folder
            say(words_of_user(), phrases.other_index(), aside=True)
            return None
    return None


def greet_office(office: Path, public: str) -> None:
    """Say where the office page is, and what lets somebody in where nobody may sign in yet."""
    from turfplan.app.operators import operators_of
    from turfplan.phrases import office as phrases

    words = words_of_user()
    say(words, phrases.office_at(address=f"{public}/office"), aside=True)
    if not operators_of(office):
        command = f"turfplan clients operators add {office} NAME"
        say(words, phrases.no_operators(command=command), aside=True)
