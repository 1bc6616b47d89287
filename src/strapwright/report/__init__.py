"""A plan, a check or a making as text for a terminal and as plain data."""
