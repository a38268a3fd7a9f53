"""Today: what needs somebody now."""
