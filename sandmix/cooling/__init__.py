"""How a casting cools in damp sand, and what its heat does to clay and water."""
