"""The file of the rates of the shop."""
