"""The racks: where things are."""
