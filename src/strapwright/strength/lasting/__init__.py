"""How long a tooling lasts: what many bends do to it that one does not."""
