from shoptui.jobs.box_list import expected_in
from shoptui.jobs.slip import write_slip

PARCEL = "RR473124829GB"


def test_a_slip_says_what_should_be_in_the_box(made):
    door = made.scans("receiving")
    door.take(PARCEL)
    answer = write_slip(door.at, made.box, {made.rotor.id: 1, made.hub.id: 1})
    assert answer.text.endswith("2 pieces. 2 to come out of it.")
    door.take("9521234543213")
    assert "The box is complete" in door.take(made.hub.tag).text
    assert "All that was expected in it is here" in door.take("done").text


def test_more_than_the_slip_lists_is_shown_and_none_is_no_slip(made):
    door = made.scans("receiving")
    for code in (PARCEL, "9521234543213", "9521234543213"):
        door.take(code)
    assert "1 here that it does not list" in write_slip(door.at, made.box, {made.rotor.id: 1}).text
    assert write_slip(door.at, made.box, {made.rotor.id: 1}).said == "stop"
    assert "has no slip" in write_slip(door.at, made.box, {made.rotor.id: 0}).text
    assert [line.short for line in expected_in(made.shop, made.shop.boxes.get(made.box.id))] == [0, 1]
    door.take("undo")
    assert made.shop.boxes.get(made.box.id).contents


def test_a_slip_of_one_order_does_not_speak_of_the_other(made):
    door = made.scans("receiving")
    door.take(PARCEL)
    write_slip(door.at, made.box, {made.rotor.id: 2})
    for code in ("1043", "yes"):
        door.take(code)
    box = made.shop.boxes.get(made.box.id)
    assert {line.part: line.expected for line in expected_in(made.shop, box)} == {
        made.rotor.id: 2,
        made.clip.id: 10,
        made.hood.id: 1,
    }
    door.take(made.hood.tag)
    assert not any(line.over for line in expected_in(made.shop, box))
