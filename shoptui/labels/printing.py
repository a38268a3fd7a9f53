"""Printing through the operating system's queue, and what it answers, in words."""

import os
import shutil
import subprocess
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.labels.errors import PrintingError

SECONDS = 30
"""A queue that has not answered by then has lost its printer."""

_LONGEST = 300


def can_print() -> bool:
    """Return whether the system has print queues at all."""
    return shutil.which("lp") is not None


def queues() -> tuple[str, ...]:
    """Return the names of the queues; none where the system has no queues."""
    if shutil.which("lpstat") is None:
        return ()
    try:
        done = _run("lpstat", "-e")
    except (OSError, subprocess.TimeoutExpired):
        return ()
    return tuple(inert(line.strip()) for line in done.stdout.splitlines() if line.strip())


def send(path: Path, queue: str = "") -> str:
    """Hand a file to a queue and return what to tell a person.

    Args:
        path: The file, complete.
        queue: Name, empty for the system's usual one.

    Raises:
        PrintingError: The queue refused it, or there is none; says where the file lies.

    """
    lies = f"The file lies at {inert(str(path), _LONGEST)}"
    by_hand = f"{lies}; open it and print it at its actual size, not fitted to the page."
    if not can_print():
        raise PrintingError(f"This computer has no print queue that the program could use. {by_hand}")
    named = ("-d", queue) if queue else ()
    try:
        done = _run("lp", *named, "-o", "print-scaling=none", "--", str(path))
    except subprocess.TimeoutExpired:
        raise PrintingError(f"The print queue did not answer within {SECONDS} seconds. {lies}.") from None
    except OSError as error:
        raise PrintingError(f"The print queue could not be called: {error.strerror}. {by_hand}") from None
    if done.returncode:
        said = _said(done.stderr or done.stdout) or "it gave no reason"
        known = queues()
        there = f"Queues there are: {', '.join(known)}. " if known else "No queue is set up. "
        raise PrintingError(f"The print queue refused the labels: {said}. {there}{by_hand}")
    return (
        f"Sent to {inert(queue) if queue else 'the usual queue'}: {_said(done.stdout) or inert(path.name)}."
    )


def _run(*command: str) -> subprocess.CompletedProcess[str]:
    # Its words are shown to a person and never read, so any language would do; one is easier to ask about.
    return subprocess.run(  # noqa: S603 - no shell, the file's name stands behind --
        command,
        capture_output=True,
        text=True,
        errors="replace",
        timeout=SECONDS,
        stdin=subprocess.DEVNULL,
        env={**os.environ, "LC_ALL": "C.UTF-8"},
        check=False,
    )


def _said(text: str) -> str:
    line = " ".join(text.split()).removeprefix("lp: ").rstrip(".")
    return inert(line, _LONGEST)
