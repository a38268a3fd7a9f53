"""The form of Receiving: what the packing slip says."""

from collections.abc import Mapping

from shoptui.domain.cells import whole
from shoptui.domain.records import Box
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.slip import write_slip
from shoptui.stations.field import Field
from shoptui.stations.form import Form


def slip_form(at: At, box: Box) -> Form:
    """Return the form that asks how many of each line of a box its packing slip lists."""
    lines = [line for line in expected_in(at.shop, box) if not line.is_kit]

    def save(values: Mapping[str, str]) -> Answer:
        counts = {line.part: whole(values[f"part-{line.part}"].strip() or "0") for line in lines}
        return write_slip(at, box, counts)

    return Form(
        f"Packing slip of box {shown(box.code)}",
        tuple(
            Field(
                f"part-{line.part}",
                name(at.shop.parts.get(line.part))[:20],
                f"on the paper, of {name(at.shop.parts.get(line.part))}",
                value=str(line.expected),
                one_value=True,
                check=whole,
            )
            for line in lines
        ),
        save,
        about="How many of each the paper lists; 0 for what it does not. All 0: there is no slip.",
    )
