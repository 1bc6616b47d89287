"""Parts with rows of hits and stacked bars: every hit and every bar held against the tooling."""
