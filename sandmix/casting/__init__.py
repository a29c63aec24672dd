"""The casting: what a person wants to cast, what is on hand for it, and what was done for it so far."""
