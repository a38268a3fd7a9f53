"""Each scenario is played on the small shop of the jobs' tests."""

from tests.jobs.conftest import clock, made

__all__ = ["clock", "made"]
