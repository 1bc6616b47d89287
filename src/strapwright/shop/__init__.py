"""What the shop says, as frozen values: part, bar, press, tooling, rack, tool crib, job."""
