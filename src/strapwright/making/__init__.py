"""Tooling as something to make: plates and shafts, holes, cutters, settings, machining steps."""
