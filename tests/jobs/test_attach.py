from dataclasses import replace

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Reading, What
from shoptui.jobs import attach as module
from shoptui.jobs.attach import attach, file_words, files_of
from shoptui.jobs.check import check
from shoptui.jobs.edit import edit, written
from shoptui.jobs.joint_tally import TO_READ
from shoptui.jobs.joints import joints_of
from shoptui.jobs.undo import undo
from shoptui.store.attachments import place_in


@pytest.fixture
def photo(tmp_path):
    path = tmp_path / "the dent.jpg"
    path.write_bytes(b"a photo")
    return path


def test_a_file_is_kept_with_what_it_belongs_to(made, photo):
    at = made.at("office")
    for record in (made.rotor, made.box, made.order):
        assert attach(at, record, f"'{photo}'", note="as it came").said == "done"
    assert attach(at, made.rotor, str(photo)).said == "stop", "it is there already"
    (file,) = files_of(at, made.rotor)
    assert file_words(file) == "the dent.jpg, 7 bytes, as it came"
    assert check(made.shop) == ()
    made.scans("parts", "office").take("undo")
    assert files_of(at, made.order) == ()
    assert check(made.shop) == ()


def test_bytes_that_are_gone_are_a_problem(made, photo):
    attach(made.at("office"), made.rotor, str(photo))
    next(path for path in (made.folder / "files").rglob("*") if path.is_file()).unlink()
    (problem,) = check(made.shop)
    assert "its bytes are not in the folder" in problem.what


@pytest.mark.parametrize(
    "path", ["", "  ", "/gone.jpg", "/", "~nobody-here/x", "file:///gone", "'/a\x1b[31m"]
)
def test_what_cannot_be_kept_changes_nothing(made, path):
    before = made.bytes()
    answer = attach(made.at("office"), made.rotor, path)
    assert answer.said == "stop"
    assert answer.text.isprintable()
    assert made.bytes() == before


def test_a_big_one_is_work_that_is_begun(made, photo, monkeypatch):
    monkeypatch.setattr(module, "BIG", 3)
    begun = attach(made.at("office"), made.rotor, str(photo))
    assert begun.text == "Copying the dent.jpg ..."
    assert files_of(made.at("office"), made.rotor) == ()
    assert begun.work.at_once().said == "done"
    assert len(files_of(made.at("office"), made.rotor)) == 1


# A newer edition of a joint's sheet


@pytest.fixture
def sheet(made, tmp_path):
    """The rotor's bolts are tightened by a sheet that is kept with it."""
    path = tmp_path / "sheet.txt"
    path.write_text("40 N m")
    attach(made.at("office"), made.rotor, str(path))
    (file,) = files_of(made.at("office"), made.rotor)
    bolts = Joint("Bolts", 2, value="40 N m", sheet=file.id)
    with made.shop.transaction("a joint", terminal="office") as tx:
        tx.change(made.rotor, joints=(bolts, Joint("Bled", 0), replace(bolts, name="Screws")))
        tx.enter(verbs.stock(made.rotor.id, 1, to=made.a3.id))
        tx.enter(verbs.install(made.shop.book, made.rotor.id, 1, position="LF"))
        for joint in ("Bolts", "Screws"):
            said = made.shop.parts.get(made.rotor.id).joints[0].sheet_says
            row = Reading(0, What.TIGHTENED, made.rotor.id, joint, "LF", 2, "40", "N m", sheet_says=said)
            tx.state(row)
    assert stands(made) == ["", "not signed", ""]
    path.write_text("45 N m")
    return path


def stands(made):
    return [each.standing.why for each in joints_of(made.shop, made.shop.parts.get(made.rotor.id))]


def sheets(made):
    return [joint.sheet for joint in made.shop.parts.get(made.rotor.id).joints]


def kept(made):
    return [file.name for file in files_of(made.at("office"), made.rotor)]


def test_a_newer_edition_opens_the_joints_that_were_tightened_by_the_older_one(made, sheet):
    before = made.bytes()
    asked = attach(made.at("office"), made.rotor, str(sheet))
    assert asked.said == "question"
    assert "the sheet of Bolts and 1 more has this name" in asked.text
    assert {name: data for name, data in made.bytes().items() if name in before} == before
    done = asked.question.choices[0].take()
    assert done.text.endswith("2 joints are to be read again in it before they are tightened.")
    assert stands(made) == [TO_READ, "not signed", TO_READ]
    older, newer = files_of(made.at("office"), made.rotor)
    assert (older.name, newer.name, sheets(made)) == ("sheet.txt", "sheet.txt", [newer.id, None, newer.id])
    assert place_in(made.folder, older.sha256).read_text() == "40 N m"
    undo(made.at("office"))
    assert (kept(made), sheets(made), stands(made)) == (
        ["sheet.txt"],
        [older.id, None, older.id],
        ["", "not signed", ""],
    )


def test_another_sheet_of_its_name_is_kept_beside_it_under_a_name_of_its_own(made, sheet):
    before = sheets(made)
    attach(made.at("office"), made.rotor, str(sheet)).question.choices[1].take()
    assert (kept(made), sheets(made)) == (["sheet.txt", "sheet (2).txt"], before)
    assert stands(made) == ["", "not signed", ""]
    sheet.write_text("50 N m")
    attach(made.at("office"), made.rotor, str(sheet)).question.choices[1].take()
    assert kept(made)[-1] == "sheet (3).txt"


def test_the_older_edition_can_be_taken_again(made, sheet):
    at, before = made.at("office"), sheets(made)
    attach(at, made.rotor, str(sheet)).question.choices[0].take()
    assert attach(at, made.rotor, str(sheet)).said == "stop"
    sheet.write_text("40 N m")
    attach(at, made.rotor, str(sheet)).question.choices[0].take()
    assert (sheets(made), stands(made)) == (before, ["", "not signed", ""])
    assert kept(made) == ["sheet.txt", "sheet.txt"]


def test_a_file_of_its_name_kept_with_something_else_is_none_of_its_business(made, sheet):
    assert attach(made.at("office"), made.hub, str(sheet)).said == "done"
    assert stands(made) == ["", "not signed", ""]


def test_joints_of_other_parts_that_go_by_the_same_file_are_read_again_too(made, sheet, tmp_path):
    joint = made.shop.parts.get(made.rotor.id).joints[0]
    with made.shop.transaction("the hub goes by it", terminal="office") as tx:
        tx.change(made.hub, joints=(replace(joint, name="Hub bolts"),))
    asked = attach(made.at("office"), made.hub, str(sheet))
    assert "the sheet of Hub bolts and 2 more has this name" in asked.text
    asked.question.choices[0].take()
    (newer,) = files_of(made.at("office"), made.hub)
    assert sheets(made) == [newer.id, None, newer.id]
    assert made.shop.parts.get(made.hub.id).joints[0].sheet == newer.id


def test_changing_another_joint_leaves_each_with_its_own_file_of_that_name(made, sheet):
    before = sheets(made)
    attach(made.at("office"), made.hub, str(sheet))
    with made.shop.transaction("as older programs did", terminal="office") as tx:
        (file,) = files_of(made.at("office"), made.hub)
        tx.add(replace(file, id=0, record=made.rotor.id))
    part = made.shop.parts.get(made.rotor.id)
    typed = written(made.shop, part)
    more = {**typed, "joints": typed["joints"].replace("Bled", "Bled, no leaks")}
    assert edit(made.at("office"), part, more, before=typed).said == "done"
    assert sheets(made) == before
    assert "was kept once more, as another file" in "; ".join(each.what for each in check(made.shop))


def test_bytes_of_a_sheet_that_are_others_are_a_problem(made, sheet):
    (file,) = files_of(made.at("office"), made.rotor)
    assert not [each for each in check(made.shop) if "is not the file any more" in each.what]
    place_in(made.folder, file.sha256).write_text("45 N m")
    told = [each.what for each in check(made.shop) if "is not the file any more" in each.what]
    assert told == [
        f"sheet.txt, the sheet of joint {name}, is not the file any more that was kept"
        for name in ("Bolts", "Screws")
    ]


def test_a_sheet_that_was_taken_off_the_list_is_a_problem(made, sheet):
    with made.shop.transaction("off", terminal="office") as tx:
        tx.change(files_of(made.at("office"), made.rotor)[0], withdrawn=True)
    told = [each.what for each in check(made.shop)]
    assert "the sheet of joint Bolts is not among the files that are kept" in told
