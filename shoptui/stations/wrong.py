"""What went wrong, in a sentence for the person in front of it."""

from tempfile import NamedTemporaryFile
from traceback import format_exception

from shoptui.domain.inert import inert

LONGEST = 200
"""Cells of a file's name that are shown."""

_REMEDIES: tuple[tuple[type[OSError], str], ...] = (
    (FileNotFoundError, "is not there any more. Look whether its folder was moved or its disk taken away"),
    (PermissionError, "may not be opened by this user. Ask whoever keeps the store for the right to it"),
    (TimeoutError, "did not answer in time. Look whether its disk is still connected"),
)


def in_words(error: Exception) -> str:
    """Return what was wrong and what to do; a traceback or an error's number helps nobody here.

    >>> in_words(FileNotFoundError(2, "No such file or directory", "snapshot-3.json"))[:48]
    'The file snapshot-3.json is not there any more. '
    >>> in_words(ValueError("A number was expected."))
    'A number was expected.'
    """
    if isinstance(error, OSError):
        return _system_words(error)
    if isinstance(error, ValueError):
        return str(error)
    fault = f"{type(error).__name__}: {inert(str(error))}"
    return f"A fault of the program ({fault}). Look whether it was done before you go on."


def _system_words(error: OSError) -> str:
    file = f"The file {inert(str(error.filename), LONGEST)}" if error.filename else "A file of the store"
    for kind, words in _REMEDIES:
        if isinstance(error, kind):
            return f"{file} {words}, then do it again."
    reason = inert(error.strerror or "the system refused it", LONGEST).lower()
    return (
        f"{file} could not be read or written: {reason}. Look at the disk: is it there, has it room? "
        "Then do it again."
    )


def details_of(error: BaseException | None) -> str:
    """Write down where a fault of the program came from; return the name of the file."""
    with NamedTemporaryFile("w", prefix="shoptui-", suffix=".txt", delete=False, encoding="utf-8") as file:
        if error is not None:
            file.writelines(format_exception(error))
    return file.name
