"""Receiving: boxes, and what is in them."""
