"""What parts cost in this shop: its rates, the sums of a job, and the papers that say them."""
