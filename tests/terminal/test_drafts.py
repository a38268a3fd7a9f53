"""What is half typed in a form survives the program's death, and is offered again when it opens."""

from pseudo_terminal import Program

from shoptui.stations.draft import KEEP_EVERY

F8, CTRL_E, CTRL_G = "\x1b[19~", "\x05", "\x07"


def shows(program, words):
    program.until(lambda: words in program.words)


def test_half_typed_words_survive_a_kill(played, begin):
    program = begin(Program.shop, played.folder)
    program.send(F8)
    shows(program, "Parts:")
    program.send(CTRL_E)
    shows(program, "What it is")
    program.send(" by hand")
    shows(program, " by hand")
    program.pause(2 * KEEP_EVERY)
    program.kill()
    again = begin(Program.shop, played.folder)
    shows(again, "A form was left half typed: Change ")
    again.pause(KEEP_EVERY)
    again.send("\r")
    shows(again, "What was typed here before is back.")
    again.send(CTRL_G)
    shows(again, "Changed what it is of ")
    played.shop.refresh()
    assert [part for part in played.shop.parts.all() if part.description.endswith(" by hand")]
    assert played.shop.terminal("t").draft == ()
