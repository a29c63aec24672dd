"""How a riser feeds the shrinkage of a casting: its modulus, its size, and how far it reaches."""
