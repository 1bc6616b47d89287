"""The fields of the forms: one for each key, with label, examples and what is typed in it."""
