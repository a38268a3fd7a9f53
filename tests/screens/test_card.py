"""The card beside a list: its lines are folded to the room that there is."""

from shoptui.stations.card import Card, Fact

VALUE = "115 N m, 84.8 lbf ft"
SHORT = (Fact("value", VALUE),)
LONG = tuple(Fact("place", f"in bin {number}") for number in range(60))


async def test_a_line_is_folded_the_same_after_a_card_that_scrolled(trial):
    async with trial.screens(120, 40) as hands:
        await hands.press("f8")
        card = hands.app.screen.query_one(Card)
        card.show("Hub", SHORT)
        await hands.settle()
        assert VALUE in hands.screen_text
        card.show("Bins", LONG)
        await hands.settle()
        assert card.show_vertical_scrollbar
        card.show("Hub", SHORT)
        await hands.settle()
        assert VALUE in hands.screen_text
