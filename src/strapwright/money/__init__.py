"""Time and money: hours of a job, price, payback of a tooling, and what a week holds."""
