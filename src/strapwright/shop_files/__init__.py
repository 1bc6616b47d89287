"""Job and shop files: text to checked values, and values back to text."""
