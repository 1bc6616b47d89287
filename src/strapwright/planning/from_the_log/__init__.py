"""A job by what the log of the shop taught of its lot, its press and its tooling."""
