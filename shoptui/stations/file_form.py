"""The form that keeps a photo or another file with a part, a box or an order."""

from collections.abc import Mapping

from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At
from shoptui.jobs.attach import Owner, attach, file_words, files_of, owner_words
from shoptui.stations.field import Field
from shoptui.stations.form import Form


def file_form(at: At, record: Owner) -> Form:
    """Return the form that keeps a photo or another file with a record."""
    kept = files_of(at, record)

    def save(values: Mapping[str, str]) -> Answer:
        return attach(at, record, values["path"], note=" ".join(values["note"].split()))

    return Form(
        f"Photo or file: {owner_words(record)}",
        (
            Field("path", "File", "where it is, such as ~/photos/dent.jpg; may be dragged here"),
            Field("note", "Note", "what it shows; may be empty"),
        ),
        save,
        about=f"Kept already: {'; '.join(map(file_words, kept))}."
        if kept
        else "It is copied into the shop's folder.",
    )
