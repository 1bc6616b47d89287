"""Many jobs planned at once: a folder of them, or a study; on this machine or on several."""
