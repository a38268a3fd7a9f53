"""Showing a kept file with the system's own viewer: a sheet beside the work."""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.domain.records import Attachment
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At
from shoptui.store.attachments import place_in

_SHOWN = re.compile(r"application/pdf|image/(?!svg)[\w.+-]+|text/plain|text/csv|text/markdown")
"""Kinds that a viewer shows and does not run."""


def show_file(at: At, file: Attachment) -> Answer:
    """Show a file as a copy under its own name, so that nobody writes into the shop's folder.

    What could run as a program is not opened; where there is no viewer, the copy's place is said.
    """
    called = inert(file.name, 60)
    if not _SHOWN.fullmatch(file.kind):
        return stop(f"{called} is no PDF, picture or text: it is not opened.")
    source = place_in(at.shop.database.folder, file.sha256)
    try:
        copy = Path(tempfile.mkdtemp(prefix="sheet-")) / _plain(file.name)
        shutil.copyfile(source, copy)
        copy.chmod(0o400)
    except OSError as error:
        why = (error.strerror or "the system refused it").lower()
        return stop(f"{called} could not be copied out of the shop's folder: {why}.")
    viewer = _viewer()
    if viewer is None:
        return done(f"There is no viewer at this terminal; a copy of {called} lies at {copy}.")
    try:
        subprocess.Popen(  # noqa: S603 - the system's viewer, and a path that was made here
            [viewer, str(copy)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError:
        return done(f"The viewer did not start; a copy of {called} lies at {copy}.")
    return done(f"{called} is opened with this machine's viewer.")


def _plain(name: str) -> str:
    """Return a name that is one on every system and no option of a program.

    >>> _plain("torque sheet (2).pdf"), _plain("-rf"), _plain("../x.txt")
    ('torque_sheet_2_.pdf', 'sheet_-rf', 'sheet_.._x.txt')
    """
    plain = re.sub(r"[^A-Za-z0-9._-]+", "_", name)[-60:]
    return plain if plain[:1].isalnum() else f"sheet_{plain}"


def _viewer() -> str | None:
    """Return the program that opens files on this desktop, None where there is none, as over ssh."""
    if sys.platform == "darwin":
        return shutil.which("open")
    if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return None
    return shutil.which("xdg-open")
