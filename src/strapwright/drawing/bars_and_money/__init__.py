"""Pictures of the work around the press: bars to saw, the week, what pays."""
