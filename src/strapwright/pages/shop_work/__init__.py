"""Pages of the work around the press: bars to saw, prices, the week, sums at the bench."""
