import pytest

from shoptui.cli.main import main


@pytest.fixture
def said(capsys):
    """Run a command and return its code and what it said."""

    def said(*arguments):
        code = main(list(arguments))
        got = capsys.readouterr()
        return code, got.out, got.err

    return said


def test_a_bolt_s_torque_as_json(run):
    found = run("torque", "M10x1.25 10.9", "--json").json
    assert found["designation"] == "M10 x 1.25 - 10.9"
    assert found["preload_n"]["likely"] == pytest.approx(0.75 * 830 * 61.2, rel=0.001)
    assert found["torque_nm"]["likely"] == pytest.approx(0.2 * 0.75 * 830 * 61.2 / 100, rel=0.001)
    for name in ("preload_n", "torque_nm", "torque_lbf_ft"):
        assert found[name]["low"] < found[name]["likely"] < found[name]["high"]
        assert found["torque_nm"][(level := "high")] == pytest.approx(
            found["torque_lbf_ft"][level] * 1.3558179, rel=0.001
        )
    assert found["method"].startswith("short form")
    assert found["assumptions"][0] == "dry threads"
    assert "maker's sheet" in found["caution"]


@pytest.mark.parametrize(
    ("options", "assumed", "method"),
    [
        (["--oiled"], "oiled threads", "short form"),
        (["--nut-factor", "0,16"], "nut factor 0.16 as given", "short form"),
        (["--friction", "0.12,0.14"], "frictions as given", "long form"),
        (["--friction", "0,12 0,14", "--utilisation", "0.9"], "frictions as given", "90 % of yield"),
        (["--proof", ".5"], "dry threads", "50 % of the proof load"),
    ],
)
def test_what_rubs_and_what_is_aimed_at(run, options, assumed, method):
    found = run("torque", "M12 8.8", *options, "--json").json
    assert found["assumptions"][0] == assumed
    assert method in found["method"]


def test_a_bolt_s_torque_as_text_fits_the_terminal(said):
    code, out, err = said("torque", "1 1/4-7 UNC x 3 1/2 grade 8", "--utilisation", "0.9")
    assert (code, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 80
    for piece in (
        "preload",
        "short form",
        "long form",
        "lbf ft",
        "Assumed:",
        "Caution: Generic, not a specification",
    ):
        assert piece in out


def test_a_torque_in_another_unit(said):
    assert said("convert", "90", "lbf ft", "N m") == (
        0,
        "90 lbf ft = 122 N m\n  more exactly 122.0236153 N m\n",
        "",
    )
    assert said("convert", "12,5", "Nm", "kgf\u00b7m")[1].startswith("12.5 N m = 1.27 kgf m\n")
    assert said("convert", "1.250,5", "mN m", "N m")[1].startswith("1250.5 mN m = 1.2505 N m\n")
    assert said("convert", "11", "daN m", "N m")[1].startswith("11 daN m = 110 N m\n")
    assert said("convert", "40 Nm", "n-m", "N m") == (0, "40 N m = 40 N m\n", "")


def flat(text):
    return " ".join(text.split())


def test_thread_and_loads_stand_beside_the_torque(run, said):
    """ISO 898-1 has 50 800 N and 63 600 N for M10 x 1.25 of class 10.9."""
    found = run("torque", "M10x1.25 10.9", "--json").json
    assert list(found)[-6:] == [
        *("pitch_mm", "pitch_diameter_mm", "minor_diameter_mm", "stress_area_mm2"),
        *("proof_load_n", "ultimate_load_n"),
    ]
    assert found["proof_load_n"] == pytest.approx(50_800, rel=0.01)
    assert found["ultimate_load_n"] == pytest.approx(63_600, rel=0.01)
    assert (found["pitch_diameter_mm"], found["minor_diameter_mm"]) == (9.188, 8.647)
    out = flat(said("torque", "M10x1.25 10.9")[1])
    assert "minor diameter 8.647 mm, stress area 61.2 mm2. Loads: proof 50.8 kN, ultimate 63.6 kN." in out
    long, short = (run("torque", f"3/8-16 x {inches} grade 2", "--json").json for inches in (7, 2))
    assert long["proof_load_n"] < short["proof_load_n"], "as the torque has it"


def test_how_far_a_bolt_engages(run, said):
    found = run(
        "torque", "M10x1.25x40 10.9", "--grip", "22", "--into", "aluminum", "--hole", "14", "--json"
    ).json
    assert found["bolt_length_mm"] is None
    held = found["engagement"]
    assert (held["engaged_mm"], held["turns"], held["least_mm"], held["careful_mm"]) == (14, 11.2, 15, 20)
    assert held["measures"] == "grip 22, into aluminium, hole 14"
    assert [words.split(":")[0] for words in held["findings"]] == ["bottoms out", "short"]
    out = flat(said("torque", "M10x1.25x40 10.9", "--grip", "22", "--spacer", "5", "--washers", "1 2,5")[1])
    assert (
        "Engagement (grip 22, spacer 5, 1 washer 2.5): 10.5 mm of thread engage in steel (nobody wrote" in out
    )
    assert "a spacer of 5 mm leaves 10.5 of 15.5 mm of thread, 8.4 of 12.4 turns" in out
    assert "Engagement is a rule of thumb, the maker's sheet goes first." in out
    assert "! short: 8 mm of thread engage" in flat(said("torque", "M10x30 8.8", "--grip", "22")[1])


@pytest.mark.parametrize(
    ("options", "length"),
    [
        (["--grip", "22"], 35),  # 22 + 8.4 + 2.5 = 32.9
        (["--grip", "22", "--washers", "2"], 40),  # 36.9
        (["--grip", "22", "--into", "nut 12"], 40),  # 36.5
        (["--grip", "22", "--into", "aluminium"], 45),  # 22 + 20
        (["--grip", "22", "--into", "aluminium", "--hole", "19.5"], 40),  # 37 to 40.25: a pitch is left
        (["--grip", "7/8 in", "--spacer", "5"], 40),
    ],
)
def test_the_length_made_that_fits(run, said, options, length):
    found = run("torque", "M10x1.25 10.9", *options, "--json").json
    assert (found["bolt_length_mm"], found["engagement"]["findings"]) == (length, [])
    code, out, err = said("torque", "M10x1.25 10.9", *options)
    assert f"Length: {length} mm is the shortest made that does." in out
    assert (code, err, max(map(len, out.splitlines())) <= 80) == (0, "", True)


def test_a_rare_size_is_said(said):
    assert "M11 as a third choice" in " ".join(said("torque", "M11 8.8")[1].split())
    assert "third choice" not in said("torque", "M10 8.8")[1]
    assert "M10 x 9 mm - 8.8" in said("torque", "M10 x 9 mm 8.8")[1], "a short screw is said with its unit"


def test_what_a_wrench_is_set_to(run, said):
    arguments = ("wrench", "--setting", "100", "--unit", "N m", "--length", "400", "--extension", "60")
    found = run(*arguments, "--json").json
    assert found["set_to"] == pytest.approx(86.9565, abs=0.0001)
    assert found["unit"] == "N m"
    assert "another angle" in found["caution"]
    assert "flexes" in found["caution"]
    assert run(*arguments, "--angle", "90", "--json").json["set_to"] == 100
    assert said(*arguments)[1].startswith("Set 87.0 N m for 100 N m at the fastener.\n")
    for length, extension in (("400mm", "6 cm"), ("40 cm", "60 mm"), ("20 in", "3in")):
        assert said(*arguments[:6], length, "--extension", extension)[1].startswith("Set 87.0 N m for 100")


WRENCH = ("wrench", "--setting", "100", "--unit", "N m", "--length", "400", "--extension", "60")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("torque", "M10 11.9"), 'M10 11.9: where "11.9" stands'),
        (("torque", "M10 grade 8"), "a class such as 10.9 was expected"),
        (("torque", "M10x9 8.8"), "A pitch above 0 that is listed for M10: 1.5, 1.25, 1, 0.75, or one"),
        (("torque", "M10x3 8.8"), "a quarter of the diameter was expected; 3 came"),
        (("torque", "M10"), "How strong M10 is was not said"),
        (("torque", "#10-32 grade 8"), "the maker's sheet is needed"),
        (("torque", "M10 8.8", "--friction", "1.2,0.1"), "above 0 and up to 1"),
        (("torque", "M10 8.8", "--friction", "0.1"), "Two frictions"),
        (("torque", "M10 8.8", "--nut-factor", "0"), "A nut factor above 0"),
        (("torque", "M10 8.8", "--nut-factor", "-0.2"), "A nut factor above 0"),
        (("torque", "M10 8.8", "--proof", "75"), "A fraction of proof above 0 and up to 1"),
        (("torque", "M10 8.8", "--proof", "0.7", "--utilisation", "0.9"), "exclude each other"),
        (("torque", "M10 8.8", "--oiled", "--nut-factor", "0.2"), "exclude each other"),
        (("torque", "M10 \x1b[31m"), "stands"),
        (("torque", "M10x40 8.8", "--hole", "20"), "--grip was expected too"),
        (("torque", "M10x40 8.8", "--grip", "0"), "Grip above 0 and up to 1000 mm was expected; 0 came"),
        (("torque", "M10x40 8.8", "--grip", "-5"), "Grip above 0"),
        (("torque", "M10x40 8.8", "--grip", "wide"), "torque: --grip: a length such as 22, 22 mm or 7/8in"),
        (("torque", "M10x40 8.8", "--grip", "wide"), "was expected; wide came."),
        (("torque", "M10x40 8.8", "--grip", "22", "--into", "cheese"), "--into: one of steel, cast iron"),
        (("torque", "M10x40 8.8", "--grip", "22", "--hole", ""), "--hole: a length such as 22"),
        (("torque", "M10x40 8.8", "--grip", "22", "--spacer", "5x"), "--spacer: a length such as 22"),
        (
            ("torque", "M10x40 8.8", "--grip", "22", "--washers", "some"),
            "--washers: how many, a whole number",
        ),
        (("torque", "M10x40 8.8", "--grip", "22", "--washers", "1.5"), "was expected; 1.5 came."),
        (("torque", "M10x40 8.8", "--grip", "22", "--washers", "2 thick"), "expected; 2 thick came."),
        (("torque", "M10x40 8.8", "--grip", "22", "--washers", "99"), "0 to 20 washers"),
        (("torque", "M10 8.8", "--grip", "400"), "Bolts up to 200 mm are listed"),
        (("torque", "3/8-16 grade 8", "--grip", "22"), "Nuts of M5 to M20 are listed"),
        (("torque", "3/8-16 grade 8", "--grip", "22", "--into", "steel"), "give its length"),
        (("convert", "0", "N m", "lbf ft"), "A torque above 0"),
        (("convert", "-5", "N m", "lbf ft"), "A torque above 0"),
        (("convert", "1,000", "N m", "lbf ft"), "could be 1000 or 1.0"),
        (("convert", "90 lbf ft", "N m", "lbf in"), "90 lbf ft came: about 122 N m"),
        (("convert", "90", "furlong", "N m"), "A unit of torque was expected"),
        ((*WRENCH[:2], "100 lbf ft", *WRENCH[3:]), "A setting in N m was expected"),
        ((*WRENCH[:6], "0", *WRENCH[7:]), "A length of the wrench above 0"),
        ((*WRENCH[:8], "60mm"), "A unit behind both lengths, or behind neither, was expected; 400 and 60mm"),
        ((*WRENCH[:6], "4 furlongs", *WRENCH[7:]), "such as 400, 400 mm, 40 cm or 16 in was expected"),
        ((*WRENCH[:8], "400"), "shorter than the wrench"),
        ((*WRENCH[:8], "0"), "A length of the extension above 0"),
        ((*WRENCH, "--angle", "361"), "An angle from 0 to 360"),
    ],
)
def test_bad_input_is_one_sentence_that_says_what_was_expected(said, arguments, words):
    code, out, err = said(*arguments)
    assert (code, out) == (2, "")
    assert words in err
    assert err.count("\n") == 1
    assert err.startswith("shoptui ")
    assert "\x1b" not in err
