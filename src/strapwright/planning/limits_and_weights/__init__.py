"""What a finished part is held to, what it weighs, and what the pump has to do for it."""
