"""What keeps the shoulders where they are, other than cheeks on a floor."""
