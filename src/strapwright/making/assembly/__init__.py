"""The tooling put together: where each piece is, what fastens it, and the list of parts."""
