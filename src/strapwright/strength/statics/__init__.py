"""Free bodies: what the loads ask of a cheek, of a joint and of what keeps the nose upright."""
