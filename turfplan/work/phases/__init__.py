"""One module a phase: which tasks there are, in which order, and why."""
