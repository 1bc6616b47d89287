"""The members of a tooling as its drawings have them, and what cannot be laid out."""
