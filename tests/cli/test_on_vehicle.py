"""Parts put on and taken off by a script; what was not done leaves the store as it was, byte by byte."""

import pytest


def test_what_nothing_speaks_against_is_installed_without_a_question(run, sample_shop, states):
    ran = run("install", "BR-01")
    assert (ran.code, ran.out) == (0, "1 Brake disc, front installed at RF. 2 of 2 on.\n")
    assert states("BR-01") == {"installed": 2}
    assert run("install", "BR-03", "--at", "rf", "--json").json["where"] == "RF"
    assert run("undo").out.startswith("Undone: installed 1 Brake caliper")


def test_what_is_not_here_by_the_books_is_asked_about(run, sample_shop, states, unchanged):
    ran = run("install", "SE-07")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("By the books none was ever received or ordered.")
    assert ran.err.endswith("Nothing changed; say yes with --yes.\n")
    assert unchanged()
    assert run("install", "SE-07", "--yes").code == 0
    assert states("SE-07") == {"installed": 1}


def test_what_comes_off_goes_to_the_bin_that_was_said(run, sample_shop, states, unchanged):
    ran = run("remove", "BR-02", "--to", "B1")
    assert (ran.code, ran.out) == (1, "")
    assert "shot 6 (Front brakes) needs it installed." in ran.err
    assert unchanged()
    ran = run("remove", "BR-02", "--to", "b1", "--yes", "--json")
    assert (ran.code, ran.json["state"], ran.json["where"]) == (0, "removed", "B1")
    assert states("BR-02") == {"removed": 1}


def test_which_of_several_is_chosen_by_its_number_or_position(run, sample_shop, unchanged, states):
    asked = run("remove", "CP-02")
    assert (asked.code, asked.out) == (1, "")
    assert asked.err.endswith("Nothing changed; say which with --choose: 1 LR; 2 RR.\n")
    assert run("remove", "CP-02", "--json").json["choices"] == ["LR", "RR"]
    assert run("remove", "CP-02", "--choose", "3").code == 1
    assert run("remove", "CP-02", "--yes").code == 1
    assert unchanged()
    assert "removed from RR" in run("remove", "CP-02", "--choose", "2", "--yes").out
    assert "removed from LR" in run("remove", "CP-02", "--yes").out


def test_a_trial_fit_goes_back_to_its_bin(run, sample_shop, states):
    assert run("mock-up", "BO-05").out == "1 Rear bumper mocked up at rear.\n"
    assert states("BO-05") == {"mocked up": 1}
    assert "back in bin D3" in run("take-down", "BO-05").out
    ran = run("take-down", "BO-05")
    assert (ran.code, ran.err) == (1, "Rear bumper is not mocked up.\n")


def test_a_part_is_built_into_another_and_taken_out_again(run, sample_shop, states, unchanged):
    refused = run("assemble", "BO-05", "--into", "BO-05", "--yes")
    assert (refused.code, refused.err) == (
        1,
        "Rear bumper: A part cannot be built into itself. Nothing changed.\n",
    )
    assert unchanged()
    assert run("assemble", "BO-05", "--into", "BR-03").code == 0
    assert states("BO-05") == {"assembled": 1}
    assert run("take-apart", "BO-05").code == 1
    assert "to B1." in run("take-apart", "BO-05", "--out-of", "BR-03", "--to", "B1", "--yes").out
    assert states("BO-05") == {"received": 1}


@pytest.mark.parametrize(
    ("command", "words"),
    [
        (("install", "BR-01", "--at", "XX"), "has no position XX"),
        (("install", "BR-99"), "Was "),
        (("remove", "BR-01", "--at", "LR"), "is on at LF, not at LR."),
        (("remove", "BR-01", "--qty", "3"), "3 cannot be removed"),
        (("remove", "SE-01"), "is not on the vehicle by the books"),
        (("remove", "BR-02", "--to", "B11"), "There is no bin B11. Was bin B1"),
        (("take-apart", "SE-01"), "is built into nothing."),
        (("assemble", "BO-05", "--into", "nothing"), "No part has the code nothing"),
        (("install", "BR-01", "--who", "nobody"), "has the badge nobody"),
    ],
)
def test_what_cannot_be_is_one_sentence_and_1_and_changes_nothing(
    run, sample_shop, unchanged, command, words
):
    ran = run(*command, "--yes")
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err
    assert ran.err.count("\n") == 1
    assert unchanged()


@pytest.mark.parametrize("wrong", [("--qty", "0"), ("--qty", "1e9"), ("--choose", "0"), ("--choose", "x")])
def test_wrong_usage_is_2(run, sample_shop, unchanged, wrong):
    ran = run("install", "BR-01", *wrong)
    assert (ran.code, ran.out) == (2, "")
    assert unchanged()


def test_a_joint_is_loosened_and_the_part_stays_on(run, sample_shop, states, unchanged):
    asked = run("loosen", "FS-01", "--reason", "to shim")
    assert (asked.code, asked.out) == (1, "")
    assert asked.err.endswith(
        "Nothing changed; say which with --choose: 1 Arm bolts at LF; 2 Arm bolts at RF.\n"
    )
    asked = run("loosen", "FS-01", "--at", "rf")
    assert "why is it loosened?" in asked.err
    refused = run("loosen", "FS-01", "--joint", "wheel nuts")
    assert (refused.code, refused.err) == (
        1,
        "Upper control arm: no joint wheel nuts is tightened, so none can be loosened.\n",
    )
    assert unchanged()
    ran = run("loosen", "FS-01", "--at", "rf", "--joint", "arm bolts", "--reason", "to shim")
    assert ran.out == (
        "Loosened: Arm bolts at RF of Upper control arm. It is open until it is tightened again.\n"
    )
    assert states("FS-01") == {"installed": 2}
    assert "Arm bolts at right front" in " ".join(run("readings", "--open").out.split())
    assert run("undo").out.startswith("Undone: loosened: Arm bolts at RF of Upper control arm, to shim")
    assert run("loosen", "FS-01", "--choose", "1", "--choose", "2", "--json").json["where"] == "LF"
