"""Who may reach the pages over the shop's network."""
