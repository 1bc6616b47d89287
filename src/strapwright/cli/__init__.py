"""The command line: thin, one module a command."""
