"""A joint whose sheet has a newer edition is not done before somebody has read that, by name."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Part, Wrench
from shoptui.jobs.attach import attach, files_of
from shoptui.jobs.edit import edit, written
from shoptui.jobs.joint_tally import CHANGED, TO_READ
from shoptui.jobs.joint_words import source_words
from shoptui.jobs.joints import joints_of
from shoptui.jobs.story import story
from shoptui.jobs.torque_record import as_values, record_of
from shoptui.jobs.undo import undo


@pytest.fixture
def shop(made, tmp_path):
    """A crossmember that is on; its bolts and a check stand in a sheet that is kept with it."""
    made.path = tmp_path / "sheet.txt"
    made.path.write_text("85 N m")
    with made.shop.transaction("a crossmember", terminal="office") as tx:
        tx.add(Wrench(0, "T1", "", "click", low=20, high=200, unit="N m", checked=date(2026, 9, 1)))
        made.member = tx.add(Part(0, "FR", "", made.build.id, "Crossmember"))
        tx.enter(verbs.stock(made.member.id, 1, to=made.a3.id))
    attach(made.at("office"), made.member, str(made.path))
    (file,) = files_of(made.at("office"), made.member)
    own = {"sheet": file.id, "page": "1", "read_by": "the fabricator"}
    bolts = Joint("Bolts", 4, "M12 8.8", value="85 N m", **own)
    with made.shop.transaction("joints", terminal="office") as tx:
        tx.change(
            made.member, joints=(bolts, Joint("Looked over", 0, **own), Joint("Clips", 2, value="9 N m"))
        )
        tx.enter(verbs.install(made.shop.book, made.member.id, 1, position=""))
    return made


@pytest.fixture
def lift(shop):
    lift = shop.scans("lift")
    lift.take("T1")
    return lift


def newer(shop, text="95 N m", days=2):
    shop.clock.advance(days=days)
    shop.path.write_text(text)
    attach(shop.at("office"), shop.part(), str(shop.path)).question.choices[0].take()


def joint(shop, name="Bolts"):
    return next(each for each in shop.shop.parts.get(shop.member.id).joints if each.name == name)


def stands(shop):
    return [each.standing.why for each in joints_of(shop.shop, shop.shop.parts.get(shop.member.id))]


def readings(shop):
    return [row.value for row in shop.shop.readings.of_part(shop.member.id)]


@pytest.fixture(autouse=True)
def _part(shop):
    shop.part = lambda: shop.shop.parts.get(shop.member.id)


def test_one_enter_no_longer_signs_the_older_value(shop, lift):
    lift.take("lead")
    lift.take("FR")
    lift.yes()
    assert stands(shop) == ["", "not signed", "0 of 2 tightened"]
    newer(shop)
    assert stands(shop) == [TO_READ, TO_READ, "0 of 2 tightened"]
    lift.drop()
    lift.card.put_down()
    lift.take("lead")
    asked = lift.take("FR")
    assert (asked.joint, asked.said) == ("Bolts", "question")
    assert "85 N m (about 62.7 lbf ft) is from the older edition (kept Wed 25 Nov 2026)" in asked.text
    assert "Read the new one, sheet.txt, page 1. Enter: the same, the lead; or type" in asked.text
    asked = lift.yes()
    assert readings(shop) == ["85"]
    assert asked.text.startswith("Bolts: the newer edition says the same, read by the lead. Bolts: 4 x M12")
    assert (joint(shop).read_by, joint(shop).read_in, stands(shop)[0]) == ("the lead", None, CHANGED)
    lift.yes()
    assert stands(shop)[0] == ""


def test_a_typed_value_is_read_as_the_form_reads_it_and_undo_takes_all_of_it_back(shop, lift):
    newer(shop)
    before = joint(shop)
    lift.take("lead")
    lift.take("FR")
    asked = lift.typed("95+-5 Nm page 3")
    assert (
        "the newer edition says 95 +/- 5 N m (about 66.4 to 73.8 lbf ft) now, page 3, read by the lead"
        in asked.text
    )
    now = joint(shop)
    assert (now.value, now.page, now.read_by, now.read_in) == ("95 +/- 5 N m", "3", "the lead", None)
    assert not readings(shop)
    undo(shop.at("lift"))
    assert (joint(shop), stands(shop)[0]) == (before, TO_READ)


@pytest.mark.parametrize(
    ("typed", "value", "page"),
    [
        ("95", "95 N m", "1"),
        ("70 ft-lb", "70 lbf ft", "1"),
        ("page 7", "85 N m", "7"),
        ("85", "85 N m", "1"),
        ("40 N m + 90 deg", "40 N m + 90 deg", "1"),
        ("90-100 N m", "90 to 100 N m", "1"),
    ],
)
def test_what_can_be_typed(shop, lift, typed, value, page):
    newer(shop)
    lift.take("lead")
    lift.take("FR")
    lift.typed(typed)
    assert (joint(shop).value, joint(shop).page, joint(shop).read_by) == (value, page, "the lead")


@pytest.mark.parametrize(
    ("typed", "told"),
    [("0 N m", "above 0"), ("9000 N m", "up to 5000 N m"), ("95 bananas", "unit"), ("1,250", "could be")],
)
def test_what_cannot_be_meant_asks_again_and_changes_nothing(shop, lift, typed, told):
    newer(shop)
    before = shop.bytes()
    lift.take("lead")
    lift.take("FR")
    asked = lift.typed(typed)
    assert told in asked.text
    assert "is from the older edition" in asked.text
    assert (asked.joint, joint(shop).read_by) == ("Bolts", "")
    assert shop.bytes().keys() == before.keys()


def test_a_value_far_off_is_asked_about_as_in_the_form(shop, lift):
    newer(shop)
    lift.take("lead")
    lift.take("FR")
    asked = lift.typed("950 N m")
    assert "takes M12 - 8.8 past its proof load" in asked.text
    assert "is from the older edition" in lift.no().text
    lift.typed("950 N m")
    lift.yes()
    assert joint(shop).value == "950 N m"


def test_in_another_unit_than_the_shops_the_unit_is_typed(shop, lift):
    newer(shop)
    with shop.shop.transaction("pounds", terminal="office") as tx:
        tx.change_settings(units="lbf ft")
    lift.take("lead")
    lift.take("FR")
    assert "Its unit too: 95 lbf ft or 95 N m?" in lift.typed("95").text
    lift.typed("95 N m")
    assert joint(shop).value == "95 N m"


def test_without_a_badge_it_is_asked_who_read_it(shop, lift):
    newer(shop)
    lift.take("FR")
    asked = lift.yes()
    assert asked.text == "Bolts: who read it in the new edition? Scan your badge, or type your name."
    assert "is from the older edition" in lift.no().text
    lift.yes()
    assert lift.typed("85").said == "question"
    assert joint(shop).read_in is not None
    lift.take("lead")
    assert joint(shop).read_by == "the lead"


@pytest.mark.parametrize(("typed", "who"), [("The  Helper", "The Helper"), ("THE LEAD", "the lead")])
def test_a_name_can_be_typed(shop, lift, typed, who):
    newer(shop)
    lift.take("FR")
    lift.typed("95 N m")
    lift.typed(typed)
    assert (joint(shop).value, joint(shop).read_by) == ("95 N m", who)


def test_a_check_that_is_signed_is_read_again_too(shop, lift):
    newer(shop)
    lift.take("lead")
    lift.take("FR")
    labels = [choice.label for choice in lift.question.question.choices]
    asked = lift.typed(str(labels.index("first: Looked over") + 1))
    assert "Looked over: what is written down is from the older edition" in asked.text
    assert "type" not in asked.text
    assert "a check that is signed has no value" in lift.typed("95 N m").text
    asked = lift.yes()
    assert "1 and Enter signs it all the same, the lead." in asked.text  # the bolts are open


def test_tools_scanned_meanwhile_are_taken_and_codes_are_codes(shop, lift):
    newer(shop)
    lift.take("FR")
    assert "is from the older edition" in lift.take("T1").text
    assert "the lead is at this terminal now. Bolts: 85 N m" in lift.take("lead").text
    lift.take("9521234543213")
    assert joint(shop).value == "85 N m"


def test_what_was_changed_meanwhile_is_asked_again(shop, lift):
    newer(shop)
    lift.take("lead")
    lift.take("FR")
    newer(shop, "100 N m", days=0)
    asked = lift.yes()
    assert asked.text.startswith("This joint was changed meanwhile; nothing was written down. Bolts: 85 N m")
    assert (
        "(kept Wed 25 Nov 2026)" in asked.text
    )  # the edition that the value was read in, not the one between


def test_a_card_that_asked_before_the_edition_came_writes_nothing_down(shop, lift):
    lift.take("lead")
    lift.take("FR")
    newer(shop, days=0)
    assert "changed or done meanwhile" in lift.yes().text
    assert not readings(shop)


def save(shop, **change):
    part = shop.part()
    typed = written(shop.shop, part)
    text = typed["joints"]
    for old, new in change.values():
        text = text.replace(old, new)
    return edit(shop.at("office"), part, {**typed, "joints": text}, before=typed)


def test_in_the_parts_form_whoever_stands_as_reader_has_read_it(shop):
    newer(shop)
    save(shop, value=("85 N m", "90 N m"))
    assert (joint(shop).value, stands(shop)[0]) == ("90 N m", TO_READ)
    save(shop, name=('"Bolts"', '"Bolts, crossmember"'))
    assert stands(shop)[0] == TO_READ
    save(shop, read=('"value": "90 N m"', '"value": "95 N m", "read_by": "the lead"'))
    assert (joint(shop, "Bolts, crossmember").value, stands(shop)[:2]) == (
        "95 N m",
        ["0 of 4 tightened", TO_READ],
    )


def test_the_record_names_the_edition_and_who_read_it(shop, lift):
    def source():
        return as_values(shop.shop, record_of(shop.shop, shop.build))[0]["source"]

    assert source() == "file sheet.txt, kept Wed 25 Nov 2026, page 1, read by the fabricator"
    newer(shop)
    assert source() == (
        "file sheet.txt, kept Fri 27 Nov 2026, page 1, "
        "not read there yet: this is from its older edition, kept Wed 25 Nov 2026"
    )
    lift.take("lead")
    lift.take("FR")
    lift.typed("95 N m")
    assert source() == "file sheet.txt, kept Fri 27 Nov 2026, page 1, read by the lead"


def test_the_parts_history_names_who_read_it(shop, lift):
    newer(shop)
    lift.take("lead")
    lift.take("FR")
    lift.yes()
    told = " ".join(story(shop.shop, shop.part()))
    assert "to Bolts, 4 x M12 8.8, 85 N m, page 1, read by the lead;" in told


def test_a_sheet_that_is_only_named_and_a_joint_without_one_ask_nothing(shop, lift):
    newer(shop)
    assert source_words(shop.shop, Joint("Nuts", 5, source="Sheet, edition 2")) == "Sheet, edition 2"
    lift.take("lead")
    lift.take("FR")
    labels = [choice.label for choice in lift.question.question.choices]
    assert "set to 9 N m" in lift.typed(str(labels.index("first: Clips") + 1)).text
