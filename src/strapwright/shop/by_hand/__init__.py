"""What is done by hand at the press: pumping, and handling between bends."""
