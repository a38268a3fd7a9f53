"""What a field's hint says can be read to its end at 80 columns; forms that could only refuse stay shut."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import OutsideWork
from shoptui.jobs.record_forms import FORMS
from shoptui.stations.filming.forms import day_form
from shoptui.stations.form import Form
from shoptui.stations.parts.forms import add_form, order_form, send_out_form
from shoptui.stations.records.record_form import new_form

ROOM = 54
"""Cells of a field beside its label, at 80 columns."""


def all_fields(fields):
    for field in fields:
        yield field
        if field.lines is not None:
            yield from all_fields(field.lines.fields)


@pytest.fixture
def forms(trial):
    """Every form."""
    with trial.shop.transaction("work", terminal="office") as tx:
        hub = tx.change(trial.hub, outside_work=(OutsideWork("painted", 10),))

    def forms(at):
        return (
            order_form(at, hub),
            send_out_form(at, hub),
            add_form(at),
            day_form(at, None),
            *(new_form(at, kind) for kind in FORMS),
        )

    return forms


async def test_every_hint_has_room_at_80_columns(trial, forms):
    async with trial.screens() as hands:
        shown = forms(hands.app.scanning.at)
        long = [each.hint for form in shown for each in all_fields(form._fields) if len(each.hint) > ROOM]
        assert long == []
        hands.app.push_screen(shown[1])
        await hands.settle()
        assert hands.app.screen.query_one("#field-due").size.width == ROOM
        assert "30 Nov or +5; empty: in 10 working days" in hands.screen_text


async def test_nothing_here_opens_no_form_to_send_out(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hub")
        await hands.press("ctrl+t")
        assert hands.said.startswith("stop: Hub: Never received: it is ordered from")
        assert hands.said.endswith("There is nothing to send out.")
        assert not isinstance(hands.app.screen, Form)
        with trial.shop.transaction("received", terminal="door") as tx:
            tx.enter(verbs.receive_unordered(trial.hub.id, 1, supplier="unknown"))
        await hands.press("ctrl+t")
        assert isinstance(hands.app.screen, Form)


async def test_no_other_list_opens_no_form_to_copy(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+y")
        assert hands.said == "stop: Wagon is the only build with a list: there is none to copy from."
        assert not isinstance(hands.app.screen, Form)
