"""The hardware station: which bolts, how many are left, what the parts not installed still need."""
