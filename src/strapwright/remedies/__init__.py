"""What would make a refused part: one change or two, each figure checked by a plan."""
