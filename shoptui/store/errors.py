"""What can go wrong with a store, each in a sentence that says what to do."""

from pathlib import Path


class StoreError(ValueError):
    """The store could not do what was asked; the words are for the person in front of it."""


class NoStoreError(StoreError):
    """The folder holds no store."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            f"There is no store in {folder}: a folder with a snapshot and a journal was expected. "
            f"Check the folder's name, or make a store with: shoptui new DIR"
        )


class StoreExistsError(StoreError):
    """A store cannot be made here, because the folder is in use."""


class NoPermissionError(StoreError):
    """The system does not let this user at the files."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path} may not be opened by this user. "
            f"Ask whoever keeps the store to give you the right to read and write its folder."
        )


class NewerStoreError(StoreError):
    """The store was written by a newer version of the program."""

    def __init__(self, found: int, known: int) -> None:
        super().__init__(
            f"This store has format {found}; this program knows formats up to {known}. "
            f"Install the newer version of the program here. Nothing was changed."
        )


class OlderStoreError(StoreError):
    """The store has a format from before this version and cannot be brought up to date now."""

    def __init__(self, found: int, known: int) -> None:
        super().__init__(
            f"This store has format {found} and must be brought to format {known} first. "
            f"Open it once as a user who may write to its folder."
        )


class DamagedError(StoreError):
    """A file of the store is not what was written to it. Nothing is ever cut off or mended silently."""

    def __init__(self, path: Path, offset: int | None, why: str) -> None:
        where = path.name if offset is None else f"{path.name} at byte {offset}"
        super().__init__(
            f"The store is damaged: {where}: {why}. Nothing was changed. "
            f"Copy the whole folder {path.parent} to a safe place, then put back the last good copy of it."
        )


class BusyError(StoreError):
    """Somebody else held the store for too long."""

    def __init__(self, seconds: float) -> None:
        super().__init__(
            f"Another program has been writing to the store for more than {seconds:g} seconds. "
            f"Nothing was changed. Wait a moment and do it again; if it stays so, close the other windows."
        )


class ReadOnlyError(StoreError):
    """The store can be read but takes no changes."""


class WriteFailedError(StoreError):
    """A change could not be brought to the disk and was taken back."""

    def __init__(self, cause: OSError, *, certain: bool = True) -> None:
        why = cause.strerror or str(cause)
        what = "was not made" if certain else "may be there or not: look before you do it again"
        super().__init__(
            f"The change could not be written to the disk ({why}) and {what}. "
            f"The store takes no more changes in this window. "
            f"Make room on the disk or bring it back, then start the program again."
        )


class CompactionError(StoreError):
    """A new snapshot could not be written; the store goes on with its journal."""

    def __init__(self, cause: OSError) -> None:
        super().__init__(
            f"The new snapshot could not be written ({cause.strerror or cause}). Nothing is lost: "
            f"the store goes on with its longer journal. Make room on the disk."
        )


class RemovedError(StoreError):
    """The files were taken away while the store was open."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            f"The files of the store in {folder} were removed or replaced while it was open. "
            f"Close this window and open the store again."
        )


class NetworkShareError(StoreError):
    """The folder lies on a network share."""

    def __init__(self, folder: Path, kind: str) -> None:
        super().__init__(
            f"{folder} lies on a network share ({kind}). Two machines writing there at once can lose what "
            f"was written, because such shares do not keep locks and write order reliably. Keep the store on "
            f"one machine and open more terminals on it. To do it all the same, set SHOPTUI_ALLOW_NETWORK=1."
        )
