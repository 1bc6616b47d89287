"""The shop log as pages and commands use it: readings kept, and jobs planned with them."""
