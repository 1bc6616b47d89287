"""The file of a study: one job, planned again with other values of some of its keys."""
