"""The lift: install and remove."""
