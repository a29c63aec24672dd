"""The ways in: the description, the JSON door and the command line."""
