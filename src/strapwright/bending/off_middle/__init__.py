"""A nose that stands off the middle of the opening: two legs that are not alike."""
