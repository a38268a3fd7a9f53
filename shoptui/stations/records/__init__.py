"""Records: one list for each kind, and the form of each."""
