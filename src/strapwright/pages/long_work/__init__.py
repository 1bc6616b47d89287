"""Work that takes a while: made once, beside the pages, and only while somebody waits for it."""
