"""The heap book: its events, the heap that they add up to, and the file that keeps them."""
