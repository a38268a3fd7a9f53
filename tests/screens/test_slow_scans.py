"""A scan that takes its time, by the clock of the keys."""

import asyncio

PREFIX = "\x1b[20~"


def send(hands, data):
    for message in hands.keys(data):
        hands.app.post_message(message)


async def test_a_scan_that_pauses_goes_on(trial):
    async with trial.screens() as hands:
        send(hands, PREFIX + trial.box.code[:4])
        await asyncio.sleep(1.0)
        assert "incomplete" not in hands.said
        assert hands.app.reading
        send(hands, trial.box.code[4:] + "\r")
        await hands.settle()
        assert "open" in hands.said
        assert hands.app.current_mode == "receiving"


async def test_a_scan_that_stands_still_is_given_up_with_words(trial):
    async with trial.screens() as hands:
        send(hands, PREFIX + trial.box.code[:4])
        await asyncio.sleep(2.5)
        assert hands.said == "stop: The scan is incomplete; nothing changed. Scan it again."
        assert not hands.app.reading
