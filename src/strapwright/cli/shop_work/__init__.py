"""Commands of the work around the press: sawing, pricing, the week."""
