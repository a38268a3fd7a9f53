"""The form of a bin."""

from collections.abc import Mapping

from shoptui.domain.records import Bin
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At, shown
from shoptui.jobs.bins import KINDS, change_bin, make_bin
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames


def bin_form(at: At, old: Bin | None) -> Form:
    """Return the form that makes a bin, or that renames one or says where it stands now."""

    def save(values: Mapping[str, str]) -> Answer:
        code, words, kind, room = (values[name].strip() for name in ("code", "words", "kind", "room"))
        if old is None:
            return make_bin(at, code, words=words, kind=kind, room=room)
        return change_bin(at, at.shop.bins.get(old.id), code, words=words, kind=kind, room=room)

    rooms = sorted({each.room for each in at.shop.bins.all() if each.room})
    now = old or Bin(0, "", "")
    return Form(
        f"Bin {shown(now.code)}" if old else "A new bin, drawer or bag",
        (
            Field("code", "Name", "as people say it: B-04; empty: its tag", value=now.code),
            Field("kind", "Kind", ", ".join(KINDS), value=now.kind, names=KnownNames(KINDS), closed=True),
            Field("words", "Where it stands", "such as rack B, shelf 4; may be empty", value=now.words),
            Field("room", "Room", "may be empty", value=now.room, known=tuple(rooms)),
        ),
        save,
        about=f"Tag {shown(now.tag)}. What is in it goes with it." if old else "It gets a tag of its own.",
        draft=f"bins {now.id or 'new'}",
    )
