"""Charts of a figure over what varies in a study."""
