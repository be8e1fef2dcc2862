"""The program: `turfplan`, which `python -m turfplan` is too."""

import gc

# A run makes many records and few circles of them: looking for circles at every 700 records, as
# Python does unasked, and once more at the end, costs a fifth of a plan.
RECORDS_BETWEEN_SWEEPS = 500_000


def main() -> None:
    """Run the command that was typed and end with its exit code."""
    gc.set_threshold(RECORDS_BETWEEN_SWEEPS)
    # Imported under the longer interval: importing is most of a short run.
    from turfplan.cli import main as run

    try:
        run()
    finally:
        # What is left goes with the process.
        gc.freeze()


if __name__ == "__main__":
    main()
