"""From signs and readings to a ranking of causes, and the test to do next."""
