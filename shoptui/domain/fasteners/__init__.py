"""Threads, strengths, torque and what belongs to it: pure computation, each value with its source."""
