"""Scans by line: answers, exit codes, and bytes that are no text."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from shoptui.domain.inert import inert

BOX = b"X-TEN22J\n"
ROOT = Path(__file__).parents[2]


def test_lines_are_answer_kind_text(run, sample_shop):
    ran = run("scan", "--station", "receiving", scans=BOX)
    assert ran.code == 0
    answer, kind, text = ran.out.rstrip("\n").split("\t")
    assert (answer, kind) == ("done", "box")
    assert text.startswith("Box X-TEN22J open.")


def test_json_lines_carry_what_was_promised(run, sample_shop):
    ran = run("scan", "--station", "receiving", "--json", scans=BOX + b"en-01\n")
    lines = [json.loads(line) for line in ran.out.splitlines()]
    keys = ["answer", "kind", "code", "text", "part", "qty", "state", "where"]
    assert [list(line) for line in lines] == [keys, keys]
    assert (lines[1]["answer"], lines[1]["part"], lines[1]["qty"], lines[1]["state"]) == (
        "done",
        "EN-01",
        1,
        "received",
    )


def test_a_received_thing_is_seen_by_the_reports_and_undone(run, sample_shop):
    run("scan", "--station", "receiving", scans=BOX + b"EN-01\n")
    (part,) = [part for part in run("parts", "--format", "json").json if part["code"] == "EN-01"]
    assert (part["states"]["received"], part["states"]["ordered"]) == (1, 0)
    ran = run("undo")
    assert (ran.code, ran.out.startswith("Undone: received 1 Thermostat")) == (0, True)
    (part,) = [part for part in run("parts", "--format", "json").json if part["code"] == "EN-01"]
    assert (part["states"]["received"], part["states"]["ordered"]) == (0, 1)


def test_any_stop_or_unknown_is_1_and_the_others_stand(run, sample_shop):
    ran = run("scan", "--station", "receiving", scans=BOX + b"no such thing\nEN-01\n")
    assert ran.code == 1
    assert [line.split("\t")[0] for line in ran.out.splitlines()] == ["done", "unknown", "done"]


def test_the_last_line_needs_no_end_and_crlf_is_one(run, sample_shop):
    ran = run("scan", "--station", "receiving", scans=b"X-TEN22J\r\nEN-01")
    assert [line.split("\t")[0] for line in ran.out.splitlines()] == ["done", "done"]


def test_nothing_but_the_line_end_is_cut(run, sample_shop):
    ran = run("scan", "--station", "receiving", "--json", scans=b"  a  b \n")
    assert json.loads(ran.out)["code"] == "  a  b "


def test_bytes_that_are_no_utf_8_are_a_stop_in_words(run, sample_shop):
    ran = run("scan", "--station", "receiving", scans=b"AB\xff\nX-TEN22J\n")
    first, second = (line.split("\t") for line in ran.out.splitlines())
    assert first[0] == "stop"
    assert "byte 0xff came at place 3" in first[2]
    assert second[0] == "done"
    assert ran.code == 1


@pytest.mark.parametrize(
    "scan",
    [
        b"x" * 10_000,
        b"\x00\x01\x02",
        b"\x1b[31m\x1b]0;title\x07",
        "\u202eabc\u2066".encode(),
        b"[bold red]x[/]",
        b"\t\t",
    ],
)
def test_odd_codes_are_one_inert_line(run, sample_shop, scan):
    ran = run("scan", "--station", "receiving", scans=scan + b"\n")
    assert ran.out.count("\n") == 1
    assert ran.out.count("\t") == 2
    assert inert(ran.out.replace("\t", " ").rstrip("\n"), 100_000) == ran.out.replace("\t", " ").rstrip("\n")


def test_no_scan_at_all_is_no_failure(run, sample_shop):
    ran = run("scan", "--station", "racks", scans=b"")
    assert (ran.code, ran.out) == (0, "")


@pytest.mark.parametrize(("option", "words"), [("--build", "no build nope"), ("--who", "has the badge nope")])
def test_an_unknown_build_or_badge_is_refused(run, sample_shop, option, words):
    ran = run("scan", "--station", "lift", option, "nope", scans=b"x\n")
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err


def test_a_question_left_open_changes_nothing(run, sample_shop):
    before = run("parts", "--format", "csv").out
    ran = run("scan", "--station", "receiving", scans=b"EN-01\n")
    assert ran.out.split("\t")[0] in ("question", "stop")
    assert run("parts", "--format", "csv").out == before


def test_of_two_who_receive_the_last_one_at_the_same_moment_one_is_asked(run, sample_shop):
    run("scan", "--station", "receiving", scans=BOX)
    command = [sys.executable, "-m", "shoptui", "--store", str(sample_shop), "--terminal", "door"]
    both = [
        subprocess.Popen(
            [*command, "scan", "--station", "receiving", "--json"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=Path(__file__).parents[2],
        )
        for _ in range(2)
    ]
    for each in both:
        each.stdin.write("EN-01\n")
        each.stdin.flush()
    answers = [json.loads(each.communicate(timeout=30)[0]) for each in both]
    assert sorted(answer["answer"] for answer in answers) == ["done", "question"]
    (part,) = [part for part in run("parts", "--format", "json").json if part["code"] == "EN-01"]
    assert (part["states"]["received"], part["states"]["held"], part["states"]["ordered"]) == (1, 0, 0)


def scan_process(store, scans, *, terminal="door", **how):
    command = [sys.executable, "-m", "shoptui", "--store", str(store), "--terminal", terminal, "scan"]
    environ = {**os.environ, "PYTHONIOENCODING": "ascii:strict"}
    return subprocess.run(
        [*command, "--station", "receiving", *how.pop("more", ())],
        input=scans,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=environ,
        check=False,
        **how,
    )


def test_a_terminal_that_is_not_utf_8_gets_question_marks_and_every_answer(sample_shop):
    scans = "“é”\nX-TEN22J\n".encode()
    done = scan_process(sample_shop, scans, stdout=subprocess.PIPE)
    first, second = done.stdout.decode("ascii").splitlines()
    assert "?" in first
    assert second.startswith("done\tbox")
    data = scan_process(sample_shop, scans, stdout=subprocess.PIPE, more=("--json",)).stdout
    assert json.loads(data.splitlines()[0])["code"] == "“é”"


def test_a_mark_at_the_start_is_no_part_of_the_first_code(run, sample_shop):
    ran = run("scan", "--station", "receiving", scans=b"\xef\xbb\xbfX-TEN22J\n\xef\xbb\xbfEN-01\n")
    assert [line.split("\t")[0] for line in ran.out.splitlines()] == ["done", "unknown"]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_an_answer_that_cannot_be_written_says_what_stands(run, sample_shop):
    with Path("/dev/full").open("wb") as full:
        done = scan_process(sample_shop, BOX + b"EN-01\n", stdout=full)
    told = done.stderr.decode("ascii", "replace")
    assert done.returncode == 1
    assert told.startswith("The answer to X-TEN22J could not be written (no space left on device): Box X-TEN")
    assert told.endswith("What it did stands; what came after it was not taken.\n")
    (part,) = [part for part in run("parts", "--format", "json").json if part["code"] == "EN-01"]
    assert part["states"]["received"] == 0


@pytest.mark.skipif(sys.platform == "win32", reason="closes streams as a Unix shell does")
@pytest.mark.parametrize(
    ("command", "code", "words"),
    [
        ("scan --station receiving <&-", 1, "Standard input is closed"),
        ("scan --station receiving >&- </dev/null", 1, "Standard output is closed"),
        ("parts >&-", 1, "Standard output is closed"),
        ("parts <&-", 0, ""),
        ("undo 2>&-", 1, ""),
        ("--help >&-", 1, "Standard output is closed"),
        ("<&-", 1, ""),
    ],
)
def test_a_closed_stream_is_a_sentence(sample_shop, command, code, words):
    line = f'exec "{sys.executable}" -m shoptui --store "{sample_shop}" --terminal nobody {command}'
    done = subprocess.run(["sh", "-c", line], capture_output=True, text=True, cwd=ROOT, check=False)
    assert done.returncode == code
    assert done.stderr.count("\n") <= 1
    assert done.stderr.startswith(words)
    assert "Traceback" not in done.stdout + done.stderr


def test_labels_are_printed_by_the_word_and_the_next_lines_say_how_they_came_out(
    run, sample_shop, tmp_path, monkeypatch
):
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    ran = run("scan", "--station", "receiving", scans=BOX + b"EN-01\nKPRNT2Y\nyes\nyes\nyes\nprint\n")
    said = [line.split("\t") for line in ran.out.splitlines()]
    assert [answer for answer, *_ in said[2:]] == ["question", "question", "question", "done", "done"]
    assert "1 part, 1 box lack their labels" in said[2][2]
    assert said[-1][2] == "Nothing of this box lacks its label."
    assert {path.name for path in tmp_path.glob("*.pdf")} == {"labels-part.pdf", "labels-box.pdf"}
