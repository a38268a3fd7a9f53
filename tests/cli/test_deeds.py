"""Deeds for scripts: done, asked or refused; what was not done leaves the store as it was, byte by byte."""

import pytest


def test_an_order_is_placed_and_undone(run, sample_shop, states):
    ran = run("order", "SE-07", "--from", "brake-counter", "--due", "2026-11-20", "--price", "129.90")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == "Ordered from Brake counter (example): 1 Dashboard panel. Due Fri 20 Nov.\n"
    assert states("SE-07") == {"ordered": 1}
    assert run("undo").code == 0
    assert states("SE-07") == {"to order": 1}


def test_json_has_the_facts_that_a_scan_has_and_the_choices(run, sample_shop):
    words = ("order", "se07", "--from", "Brake counter (example)", "--number", "W-9", "--qty", "2")
    assert run(*words).err.startswith("Dashboard panel: 1 is to order, not 2. Enter: order 2 all the same.")
    ran = run(*words, "--json", "--yes")
    assert list(ran.json) == ["answer", "kind", "code", "text", "part", "qty", "state", "where", "choices"]
    told = {name: ran.json[name] for name in ("answer", "kind", "code", "part", "qty", "state")}
    assert told == {
        "answer": "done",
        "kind": "part",
        "code": "se07",
        "part": "SE-07",
        "qty": 2,
        "state": "ordered",
    }


def test_a_supplier_whom_nobody_knows_is_asked_about(run, sample_shop, states, unchanged):
    ran = run("order", "SE-07", "--from", "brakes")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("No supplier is called brakes. Was Brake counter (example) (brake-counter) or ")
    assert ran.err.endswith("Is it a new one? Nothing changed; say yes with --yes.\n")
    assert unchanged()
    assert run("order", "SE-07", "--from", "Dash maker", "--yes").code == 0
    assert states("SE-07") == {"ordered": 1}


def test_what_is_out_comes_back_as_it_is_said(run, sample_shop, states):
    assert "painted: 1 Hood" in run("take-back", "BO-01").out
    assert run("send-out", "BO-01", "--to", "paint-booth", "--work", "polished", "--yes").code == 0
    assert states("BO-01") == {"sent out": 1}
    assert "as it went: 1 Hood" in run("take-back", "BO-01", "--as-it-went").out
    assert states("BO-01") == {"received": 1}


def test_which_job_is_asked_where_it_is_out_on_several(run, sample_shop, unchanged):
    ran = run("take-back", "BO-01", "--job", "nonsense")
    assert (ran.code, ran.err) == (1, "Hood is not out on nonsense but on PB-7. Nothing changed.\n")
    ran = run("take-back", "SE-01")
    assert (ran.code, ran.err) == (1, "None of Bench seat frame is out. Nothing changed.\n")
    assert unchanged()


def test_what_a_shot_still_needs_is_asked_about(run, sample_shop, states, unchanged):
    asked = run("dispose", "BO-04", "--reason", "scrapped", "--json")
    assert (asked.code, asked.json["answer"], asked.err) == (1, "question", "")
    assert asked.json["choices"] == ["to order again", "no longer needed"]
    asked = run("dispose", "BO-04", "--reason", "scrapped", "--choose", "1")
    assert (asked.code, asked.out) == (1, "")
    assert "shot 4 (Bumper before it goes to paint) needs it before outside work" in asked.err
    assert unchanged()
    assert run("dispose", "BO-04", "--reason", "scrapped", "--yes").code == 0
    assert states("BO-04") == {"gone": 1, "to order": 1}


@pytest.mark.parametrize("said", [("--no-longer-needed",), ("--choose", "2")])
def test_what_is_no_longer_needed_is_not_to_be_ordered(run, sample_shop, states, said):
    assert run("dispose", "BO-04", "--reason", "sold", "--yes", *said).code == 0
    assert states("BO-04") == {"gone": 1}


def test_pieces_are_given_to_another_build(run, sample_shop, states, tmp_path):
    (tmp_path / "van.toml").write_text('[[builds]]\ncode = "van"\ntitle = "Van"\n')
    assert run("import", "shop", str(tmp_path / "van.toml")).code == 0
    asked = run("transfer", "BO-05", "--to", "van", "--json")
    assert (asked.code, asked.json["answer"]) == (1, "question")
    assert run("transfer", "BO-05", "--to", "van", "--yes").code == 0
    assert states("BO-05") == {"gone": 1, "to order": 1}
    (line,) = run("parts", "--build", "van", "--format", "json").json
    assert (line["description"], line["states"]["received"]) == ("Rear bumper", 1)
    assert run("undo").code == 0
    assert states("BO-05") == {"received": 1}


def test_pieces_are_given_to_the_stock(run, sample_shop, states):
    assert run("transfer", "BO-05", "--to", "stock", "--no-longer-needed").code == 0
    assert states("BO-05") == {"gone": 1}
    assert "1 received" in run("where", "rear", "bumper").out


ORDER, OUT = ("order", "SE-07", "--from", "brake-counter"), ("send-out", "BO-03", "--to", "paint-booth")


@pytest.mark.parametrize(
    ("command", "words"),
    [
        ((*ORDER, "--due", "2026-11-03"), "is in the past"),
        ((*OUT, "--due", "2026-11-03"), "is in the past"),
        ((*ORDER, "--price", "x"), "An amount such as"),
        ((*ORDER, "--price", "GBP 3"), "An amount in EUR was expected; GBP 3 came."),
        ((*ORDER, "--build", "nope"), "There is no build nope. Builds: longbed"),
        ((*ORDER, "--who", "nope"), "has the badge nope"),
        (("order", "SE-70", "--from", "x"), "Was Dashboard panel (SE-07) or"),
        (("order", "\x1b[31m", "--from", "x"), "No part has the code"),
        (("order", "", "--from", "x"), "No part has the code"),
        (("order", "SE-07", "--from", " "), "A supplier was expected"),
        (("send-out", "BO-03", "--to", ""), "An outside shop was expected"),
        ((*OUT, "--qty", "9"), "9 cannot be"),
        (("take-back", "BO-01", "--qty", "2"), "2 cannot be"),
        (("dispose", "BO-04", "--reason", "tired"), "One of returned, sold, scrapped"),
        (("dispose", "BO-04", "--reason", "lost", "--qty", "100000"), "100000 cannot be"),
        (("transfer", "BO-05", "--to", "nope"), "There is no build nope. Builds: longbed"),
        (("transfer", "BO-05", "--to", "longbed"), "is on the list of longbed already."),
        (("transfer", "BO-05", "--to", ""), "There is no build"),
        (("transfer", "SE-07", "--to", "stock"), "cannot be"),
        (("transfer", "BO-05", "--to", "coupe"), "is finished and gets nothing any more."),
    ],
)
def test_what_cannot_be_is_one_sentence_and_1_and_changes_nothing(
    run, sample_shop, unchanged, command, words
):
    ran = run(*command, "--yes")
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err
    assert "\x1b" not in ran.err
    assert ran.err.count("\n") == 1
    assert unchanged()


@pytest.mark.parametrize("qty", ["0", "-1", "1000000000", "two", "1.5", ""])
def test_a_quantity_that_is_none_is_wrong_usage(run, sample_shop, unchanged, qty):
    ran = run(*ORDER, "--qty", qty)
    assert (ran.code, ran.out) == (2, "")
    assert "argument --qty: " in ran.err
    assert ran.err.count("\n") == 1
    assert unchanged()


@pytest.mark.parametrize(
    "day", ["2026-02-29", "2026-11-31", "31.02.2026", "03.04.2026", "tomorrow", "", "1026-11-05"]
)
def test_a_day_that_is_none_is_wrong_usage(run, sample_shop, unchanged, day):
    ran = run(*ORDER, "--due", day)
    assert (ran.code, ran.out) == (2, "")
    assert "argument --due: " in ran.err
    assert unchanged()


def test_a_code_that_parts_share_is_refused_with_their_codes(run, sample_shop, unchanged):
    ran = run("order", "9521009000019", "--from", "brake-counter")
    assert (ran.code, ran.out) == (1, "")
    assert "is more than one part: " in ran.err
    assert ran.err.endswith("Give the code of one.\n")
    assert unchanged()


def test_a_shot_is_filmed_once_it_was_asked_about_and_not_after_all(run, sample_shop, unchanged):
    asked = run("filmed", "day-1", "4")
    assert (asked.code, asked.out) == (1, "")
    assert (
        "Mon 9 Nov is still to come. By the books missing: 1 Front wing, left, needed before outside work"
        in asked.err
    )
    assert unchanged()
    ran = run("filmed", "day-1", "4", "--yes", "--json")
    assert (ran.code, ran.json["answer"], ran.json["kind"]) == (0, "done", "filming day")
    assert run("filmed", "DAY-1", "4", "--yes").err.endswith("is marked filmed already.\n")
    # nothing is kept for that shot any more
    assert run("dispose", "BO-04", "--reason", "sold", "--no-longer-needed").code == 0
    assert run("filmed", "day-1", "4", "--not").out.startswith("Not filmed after all: shot 4 (")


@pytest.mark.parametrize(
    ("command", "words"),
    [
        (("filmed", "day-9"), "There is no filming day day-9. Filming days: day-1"),
        (("filmed", "day-1", "99"), "there is no shot 99."),
        (("filmed", "day-1", "0"), "there is no shot 0."),
        (("filmed", "day-1", "--not"), "Which shot is not filmed after all?"),
        (("filmed", "day-1", "4", "--not"), "is not marked filmed."),
    ],
)
def test_a_shot_that_is_none_is_refused(run, sample_shop, unchanged, command, words):
    ran = run(*command, "--yes")
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err
    assert unchanged()
