"""What the service keeps for the shop's network."""
