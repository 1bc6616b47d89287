"""What stands about the bar, stated or assumed, and how the part gets in and off between it."""
