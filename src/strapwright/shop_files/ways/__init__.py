"""Read other ways of making a bend: on other tooling, or finished at the bench."""
