"""What fixes a member that does not hold: another size, a shorter span, another bolt."""
