"""The real program behind a real pseudo-terminal: bytes in as a scanner and a hand send them, a screen out.

One thread only: whoever waits or writes also takes in what the program draws, and notes when it came. The
screen is worked out when somebody asks for it, so measuring costs nothing while a scan is under way.
"""

import fcntl
import os
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

import pyte

PREFIX = "\x1b[20~"
"""F9, which a scanner sends before a code."""

PATIENCE = 20.0
"""Seconds after which what was waited for is taken as not coming."""

_LEAD = (
    "import fcntl, os, sys, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0); "
    "command = [sys.executable, *sys.argv[2:]]; "
    "os.execve(sys.executable, command, dict(each.split('=', 1) for each in sys.argv[1].split(chr(31))))"
)
"""Makes the pseudo-terminal the program's own, so that a change of its size reaches it, and becomes it.

The variables are handed over as a text, since an interpreter in a poor locale changes its own.
"""


class _Screen(pyte.Screen):
    """A screen that takes no private sequence for a common one: `ESC [ > 1 u` is not `ESC [ 1 u`."""

    def report_device_status(self, *_: object, **__: object) -> None:
        """Answer nothing: the terminal that is played has no say."""


class Program:
    """One process in a pseudo-terminal of its own.

    Args:
        arguments: What follows `python`.
        width: Columns.
        height: Rows.
        env: Variables beside those that every terminal has; None takes one away.

    """

    def __init__(
        self,
        *arguments: str | Path,
        width: int = 80,
        height: int = 24,
        env: dict[str, str | None] | None = None,
    ) -> None:
        inner, outer = os.openpty()
        self._master = inner
        self.drawn: list[tuple[float, bytes]] = []
        """Moment and bytes of all that came."""
        self._fed = 0
        self._screen = _Screen(width, height)
        self._stream = pyte.ByteStream(self._screen)
        self._size(width, height)
        os.set_blocking(inner, False)
        variables = [f"{name}={value}" for name, value in _environment(env or {}).items()]
        self.started = time.perf_counter()
        self.process = subprocess.Popen(
            [sys.executable, "-c", _LEAD, chr(31).join(variables), *map(str, arguments)],
            stdin=outer,
            stdout=outer,
            stderr=outer,
            start_new_session=True,
        )
        os.close(outer)

    @classmethod
    def shop(cls, store: Path, *more: str, terminal: str = "t", **options) -> "Program":
        """Open the screens on a store and wait for them."""
        program = cls("-m", "shoptui", "--store", store, "--terminal", terminal, *more, **options)
        program.until(lambda: "Scan, or type" in program.text)
        return program

    def _size(self, width: int, height: int) -> None:
        fcntl.ioctl(self._master, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))

    def resize(self, width: int, height: int) -> None:
        """Make the window another size; the program gets the signal."""
        self.text  # noqa: B018 - what was drawn for the size before is read at that size
        self._screen.resize(height, width)
        self._size(width, height)

    # Out

    def take_in(self, seconds: float = 0.0) -> bool:
        """Take in what the program draws until there is something, or for so long; say if there was."""
        came = False
        deadline = time.perf_counter() + seconds
        while True:
            left = max(0.0, deadline - time.perf_counter())
            if not select.select([self._master], [], [], 0.0 if came else left)[0]:
                return came
            try:
                data = os.read(self._master, 65536)
            except OSError:  # the program has ended and closed the other side
                data = b""
            if not data:
                time.sleep(min(left, 0.01))
                return came
            self.drawn.append((time.perf_counter(), data))
            came = True

    @property
    def lines(self) -> list[str]:
        """What stands on the screen, row by row."""
        self.take_in()
        for _, data in self.drawn[self._fed :]:
            self._stream.feed(data.replace(b"\x1b[>1u", b"").replace(b"\x1b[<u", b""))
        self._fed = len(self.drawn)
        return self._screen.display

    @property
    def text(self) -> str:
        """What stands on the screen."""
        return "\n".join(self.lines)

    @property
    def cells(self) -> list[list[pyte.screens.Char]]:
        """The same cell by cell, with colours."""
        self.text  # noqa: B018 - reads what came
        return [[row[x] for x in range(self._screen.columns)] for row in self._screen.buffer.values()]

    @property
    def words(self) -> str:
        """The same with its blanks and ends of rows made one."""
        return " ".join(self.text.split())

    @property
    def line(self) -> str:
        """What stands in the line at the foot, without its mark; empty while it shows its hint."""
        row = next((row for row in reversed(self.lines) if row.startswith("> ")), "> ")[2:].rstrip()
        return "" if row.lstrip().startswith("Scan, or type") else row

    def until(self, condition, seconds: float = PATIENCE):
        """Wait until a condition holds and return what it returned; fail with the screen if it never does."""
        deadline = time.perf_counter() + seconds
        while not (found := condition()):
            if time.perf_counter() > deadline:
                code = self.process.poll()
                message = f"waited {seconds} s in vain; exit code {code}; the screen:\n{self.text}"
                raise AssertionError(message)
            self.take_in(0.02)
        return found

    # In

    def send(self, data: str | bytes) -> None:
        """Write as fast as the terminal takes it."""
        rest = data.encode() if isinstance(data, str) else data
        while rest:
            readable, writable, _ = select.select([self._master], [self._master], [], PATIENCE)
            if readable:
                self.take_in()
            if writable:
                rest = rest[os.write(self._master, rest) :]

    def play(self, text: str, gap_ms: float, *, prefix: bool = True, end: str = "\r") -> None:
        """Send a scan: a prefix key in one piece, then character by character, then its end."""
        if not gap_ms:
            self.send((PREFIX if prefix else "") + text + end)
            return
        for key in ([PREFIX] if prefix else []) + [*text, *([end] if end else [])]:
            self.send(key)
            self.pause(gap_ms / 1000)

    def pause(self, seconds: float) -> None:
        """Let time go by as between two keys, taking in what is drawn."""
        deadline = time.perf_counter() + seconds
        while (left := deadline - time.perf_counter()) > 0:
            self.take_in(left)

    def type(self, text: str, rng) -> None:
        """Type as a hand does: 80 to 250 ms from key to key."""
        for letter in text:
            self.send(letter)
            self.pause(rng.uniform(0.080, 0.250))

    # The end

    def kill(self) -> None:
        """End it with signal 9."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def ended(self) -> int:
        """Wait for the end; return the exit code."""
        return self.until(lambda: self.process.poll() is not None and (self.process.returncode,))[0]

    def close(self) -> None:
        """Let go of it; it is killed if it still runs."""
        if self._master < 0:
            return
        if self.process.poll() is None:
            self.kill()
        os.close(self._master)
        self._master = -1


def _environment(changes: dict[str, str | None]) -> dict[str, str]:
    kept = {
        name: os.environ[name]
        for name in ("PATH", "HOME", "PYTHONPATH", "PYTHONSAFEPATH", "TMPDIR")
        if name in os.environ
    }
    # Whoever runs the tests may have keys of their own.
    usual = {
        "TERM": "xterm-256color",
        "LANG": "C.UTF-8",
        "COLORTERM": "truecolor",
        "SHOPTUI_KEYS": os.devnull,
    }
    wanted = {**kept, **usual, **changes}
    return {name: value for name, value in wanted.items() if value is not None}
