"""Receiving: what is told of the boxes, of the open one, and of one that goes on elsewhere."""

from datetime import date

from shoptui.domain.records import Bin, Box


async def test_a_box_that_goes_on_elsewhere_says_so_here(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        with trial.shop.transaction("taken over", terminal="office") as tx:
            tx.change(trial.shop.boxes.get(trial.box.id), open_at="office")
        await hands.settle()
        assert "went on at office" in hands.said
        assert "scan a box" in hands.screen_text.splitlines()[0]
        with trial.shop.transaction("something else", terminal="office") as tx:
            tx.add(Bin(0, "C1", "", "rack C"))
        await hands.settle()
        assert [heard.answer.text for heard in hands.app.talk.heard if "went on" in heard.answer.text][
            1:
        ] == []


async def test_a_box_that_is_closed_or_laid_aside_here_goes_on_nowhere(trial):
    with trial.shop.transaction("a second box", terminal="office") as tx:
        second = tx.add(Box(0, "", due=date(2026, 11, 30)))
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(second.code)
        await hands.press("ctrl+x")
        assert not any("went on" in heard.answer.text for heard in hands.app.talk.heard)


async def test_what_is_to_put_away_is_told_in_every_heading(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.hub.tag)
        assert "1 to put away" in hands.screen_text.splitlines()[0]
        await hands.press("ctrl+a")
        assert "1 to put away" in hands.screen_text.splitlines()[0]
        await hands.press("ctrl+x")
        assert "scan a box, 1 to put away" in hands.screen_text.splitlines()[0]
        await hands.scan(trial.bin.tag)
        assert "to put away" not in hands.screen_text.splitlines()[0]


async def test_an_open_box_of_which_nothing_is_known_says_so(trial):
    with trial.shop.transaction("a parcel", terminal="office") as tx:
        parcel = tx.add(Box(0, ""))
    async with trial.screens() as hands:
        await hands.scan(parcel.code)
        assert "Nothing is known of what is in this box. Scan each thing." in hands.screen_text
        assert "No box is expected" not in hands.screen_text


async def test_a_part_spoken_of_is_not_looked_for_among_the_boxes(trial):
    """Ids of parts and boxes are counted each from 1."""
    with trial.shop.transaction("boxes", terminal="office") as tx:
        for _ in range(3):
            tx.add(Box(0, ""))
    async with trial.screens() as hands:
        await hands.press("f3")
        before = hands.app.screen.shown_list().row
        await hands.scan(trial.hub.tag)
        assert "No box is open here" in hands.said
        assert hands.app.screen.shown_list().row == before
