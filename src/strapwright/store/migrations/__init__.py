"""Steps from each schema of the store to the next; run at opening."""
