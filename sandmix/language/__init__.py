"""The language of the library: errors, units, amounts, sources, and the kinds of word."""
