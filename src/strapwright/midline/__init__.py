"""The bar as a mid-line: bends laid into it, the bar on the tooling, points along it."""
