"""`python -m turfplan` is the same as `turfplan`."""

from turfplan.cli import main

main()
