"""The tests of the sand: how each is done, what it gives, and what several give together."""
