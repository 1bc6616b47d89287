"""What is done to the part at the bench after the press: sawing to length, closing in a vise."""
