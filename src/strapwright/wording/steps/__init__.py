"""Words for a bend of a plan: its name, where the ram stops, and what it then measures."""
