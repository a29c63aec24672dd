"""What goes into the sand and into the mould: sand, clays, metals, sieves, and choosing what to buy."""
