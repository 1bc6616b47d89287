"""Words for a reader: the only place that turns findings and their figures into sentences."""
