"""One module per phase of the work: which tasks there are, when each may be done, in which order,
and why.
"""
