"""Words of bars to saw, of hours and money."""
