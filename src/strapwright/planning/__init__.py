"""Planning: the only place that composes bending, blank, order and stopping into one answer.

Its values are read by papers, pages and the log; to load them loads no solver.
"""
