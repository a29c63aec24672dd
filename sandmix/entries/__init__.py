"""The forms of the entries of a heap book: what each asks, so that its words are checked and get an uncertainty as in any job."""
