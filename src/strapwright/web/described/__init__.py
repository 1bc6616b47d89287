"""What the pages take and answer, described for other programs."""
