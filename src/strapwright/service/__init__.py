"""Use cases of the command line; files, the clock and processes live here."""
