"""What is drilled before a thread is tapped."""
