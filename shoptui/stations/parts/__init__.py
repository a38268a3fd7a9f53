"""The parts of a build."""
