"""The command `shoptui`: what was typed is done, and what goes wrong is said in a sentence."""

import os
import sys
import tempfile
import traceback
from contextlib import suppress
from pathlib import Path

from shoptui.cli.usage import UsageError, command, parse

FAILED, MISUSED, INTERRUPTED = 1, 2, 130
"""Exit codes: the job could not be done; wrong usage; stopped by Ctrl+C."""


def main(argv: list[str] | None = None) -> int:
    """Run the command and return its exit code: 0, 1 if the job could not be done, 2 for wrong usage.

    No traceback ever reaches a person: what nobody foresaw is said in a sentence, and its details are
    written to a file.
    """
    _fill_closed_streams()
    try:
        code = _run(argv)
        _flush()
    except BaseException as error:  # noqa: BLE001 - the last resort: nobody is to read a traceback
        code = _told(error)
    _let_go_of_output()
    return code


def _fill_closed_streams() -> None:
    """Open nothing under the numbers of closed streams: the store's own files must never get them."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest number that is free
    if sys.stderr is None:
        sys.stderr = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115 - until the process ends


def _run(argv: list[str] | None) -> int:
    if sys.stdout is None:
        return _say("Standard output is closed, so no result can be told; nothing was done.", FAILED)
    arguments = parse(argv)
    return _version() if arguments.version else command(arguments)(arguments)


def _told(error: BaseException) -> int:  # noqa: PLR0911 - one way out for each kind of trouble
    """Say what went wrong, and return the exit code."""
    match error:
        case UsageError():
            return _say(str(error), MISUSED)
        case SystemExit():  # --help prints and leaves
            return _left(error)
        case KeyboardInterrupt():
            return _say(str(error), INTERRUPTED) if str(error) else INTERRUPTED
        case BrokenPipeError():
            return FAILED
        case ValueError() if type(error).__module__.startswith("shoptui."):
            # What speaks to a person is a ValueError of our own; others are nobody's words.
            return _say(str(error), FAILED)
        case OSError():
            return _say(_system_words(error), FAILED)
    return _unforeseen(error)


def _left(error: SystemExit) -> int:
    try:
        _flush()
    except BrokenPipeError:
        return FAILED
    except OSError as trouble:
        return _say(_system_words(trouble), FAILED)
    return error.code if isinstance(error.code, int) else FAILED


def _flush() -> None:
    if sys.stdout is not None:
        sys.stdout.flush()


def _say(sentence: str, code: int) -> int:
    try:
        sys.stderr.write(f"{sentence}\n")
        sys.stderr.flush()
    except (OSError, UnicodeError):
        return code
    return code


def _version() -> int:
    from importlib.metadata import version  # noqa: PLC0415 - costs time that other commands need not spend

    sys.stdout.write(f"shoptui {version('shoptui')}\n")
    return 0


def _let_go_of_output() -> None:
    """Whoever read the output may have gone, as `head` does: the interpreter must not complain at its end."""
    try:
        _flush()
    except (OSError, ValueError):
        with suppress(OSError, ValueError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _system_words(error: OSError) -> str:
    from shoptui.domain.inert import inert  # noqa: PLC0415 - only when something went wrong

    what = error.strerror or "the system refused it"
    name = f" ({inert(str(error.filename), 200)})" if error.filename else ""
    return f"It could not be done: {what[0].lower()}{what[1:]}{name}."


def _unforeseen(error: BaseException) -> int:
    details = "".join(traceback.format_exception(error))
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", errors="backslashreplace", prefix="shoptui-", suffix=".txt", delete=False
        ) as file:
            file.write(details)
        where = f"The details are in {file.name}: give that file to whoever looks after the program."
    except OSError:
        where = "The details could not be written to a file."
    kind = type(error).__name__
    return _say(
        f"The program met something unforeseen ({kind}); what it said was done is kept. {where}", FAILED
    )
