"""What the readings in a heap book teach: what they say, and what that makes of each figure."""
