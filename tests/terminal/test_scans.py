"""Scans at the speed of scanners, into whatever has the focus: none lost, none leaked, none false.

A scan has arrived when the store says so: as a receipt at Receiving; in a form on Parts, where a part's code
only shows a card, as the person of a badge.
"""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import product

import pytest
from played_shop import NOT_ORDERED, Counts, PlayedShop, compared
from pseudo_terminal import Program

GAPS_MS = (0, 1, 5, 20)
STATES = ("plain", "form field", "page's field", "question", "page", "hand typing")
F1, F3, F8 = "\x1bOP", "\x1bOR", "\x1b[19~"
CTRL_O, CTRL_P, CTRL_U, ESCAPE = "\x0f", "\x10", "\x15", "\x1b"
ARRIVES_WITHIN = 5.0
LOST_AFTER = 1.5
"""Seconds to wait for a scan without prefix, which may be lost."""
LETTERS = "zxq"
"""No name that a field could complete begins with one."""


class Cell:
    """One state of the screen, one speed, with the prefix or without: scans played, and what came of them."""

    def __init__(self, program: Program, played: PlayedShop, state: str, gap_ms: float, rng) -> None:
        self.program = program
        self.played = played
        self.state = state
        self.gap_ms = gap_ms
        self.rng = rng
        self.by_hand = ""
        """What a person typed and nobody may take away."""
        self.spoilt = False
        """Whether a scan was left where a person types."""

    def play(self, rounds: int, first: int, *, prefix: bool) -> Counts:
        """Play so many scans, the codes by turns: the same one twice at once would be asked about."""
        badge = self.state == "form field"
        checked = self.played.badges if badge else self.played.codes
        # Behind or inside what a person typed, a number without a check of its own is typing.
        alone = self.state in ("plain", "question")
        codes = list(checked | (self.played.numbers if not badge and (prefix or alone) else {}))
        total = Counts()
        with self.in_state():
            for number in range(first, first + rounds):
                self.get_ready()
                code = codes[number % len(codes)]
                total += (self.badge if badge else self.receipt)(code, prefix=prefix)
        return total

    @contextmanager
    def in_state(self) -> Iterator[None]:
        program = self.program
        program.send(F3)
        program.until(lambda: "Receiving: box" in program.text)
        match self.state:
            case "form field":
                program.send(F8)
                program.until(lambda: "Parts:" in program.text)
                self.open_form()
            case "page":
                program.send(F1)
                program.until(lambda: "goes back" in program.text)
            case "page's field":
                # What is said while a page lies in front appears over it: high enough, not over its field.
                program.resize(80, 100)
                program.send(CTRL_P)
                program.until(lambda: "Search for" in program.text)
        yield
        match self.state:
            case "form field":
                self.leave_form()
            case "page":
                program.send(ESCAPE)
                program.until(lambda: "goes back" not in program.text)
            case "page's field":
                program.send(ESCAPE)
                program.until(lambda: "Search for" not in program.text)
                program.resize(80, 24)
        self.by_hand = ""

    def open_form(self) -> None:
        self.program.send(CTRL_O)
        self.program.until(lambda: "Order number" in self.program.text)

    def leave_form(self) -> None:
        self.program.send(ESCAPE)
        self.program.until(lambda: "Leave the form?" in self.program.words)
        self.program.send("\r")
        self.program.until(lambda: "Order number" not in self.program.text)

    def get_ready(self) -> None:
        program = self.program
        if self.state == "question":
            program.play(NOT_ORDERED, 0)
            program.until(lambda: "is on no open order" in program.words)
        if self.state in ("form field", "hand typing", "page's field"):
            if self.state == "form field" and self.spoilt:
                # The machine stood still in the middle of the scan: its end may have gone to the next field.
                self.leave_form()
                self.open_form()
                self.by_hand, self.spoilt = "", False
            elif self.state == "hand typing" or self.spoilt or len(self.by_hand) > 12:
                program.send(CTRL_U)
                program.until(lambda: not self.stands())
                self.by_hand, self.spoilt = "", False
            letters = "".join(self.rng.choices(LETTERS, k=2 if self.state == "hand typing" else 1))
            program.type(letters[:-1], self.rng)
            self.by_hand += letters
            program.send(letters[-1])
            program.pause(self.rng.uniform(0.0, 0.250))

    def stands(self) -> str:
        """What stands where a person types."""
        match self.state:
            case "form field":
                row = next(row for row in self.program.lines if row.startswith("  Supplier"))
                words = row.removeprefix("  Supplier").strip()
                return "" if words.startswith("a few letters") else words
            case "page's field":
                rows = self.program.lines
                edge = next((place for place, row in enumerate(rows) if row.startswith("▔")), len(rows))
                field = next((row for row in rows[edge:] if row.startswith("  >")), "")
                words = field.strip().removeprefix(">").strip()
                return "" if words.startswith("Search for") else words
            case _:
                return self.program.line

    def receipt(self, code: str, *, prefix: bool) -> Counts:
        part = (self.played.codes | self.played.numbers)[code]
        before = self.played.last_transaction()
        self.program.play(code, self.gap_ms, prefix=prefix)
        self.wait(lambda: self.played.received_since(before), ARRIVES_WITHIN if prefix else LOST_AFTER)
        leaked = self.leaked(ARRIVES_WITHIN if prefix else LOST_AFTER)
        lost, false = compared([part], self.played.received_since(before), self.played.done_since(before))
        return Counts(1, lost, leaked, false)

    def badge(self, code: str, *, prefix: bool) -> Counts:
        person = self.played.badges[code]
        before, who = self.played.last_transaction(), self.played.person_at()
        self.program.play(code, self.gap_ms, prefix=prefix)
        self.wait(lambda: self.played.person_at() == person, ARRIVES_WITHIN if prefix else LOST_AFTER)
        leaked = self.leaked(ARRIVES_WITHIN if prefix else LOST_AFTER)
        now = self.played.person_at()
        gone = "Order number" not in self.program.text
        false = (now not in (who, person)) + self.played.done_since(before) + gone
        return Counts(1, now != person, leaked, false)

    def leaked(self, seconds: float) -> int:
        self.spoilt = not self.wait(lambda: self.stands() == self.by_hand, seconds)
        return int(self.spoilt)

    def wait(self, condition, seconds: float) -> bool:
        deadline = time.perf_counter() + seconds
        while not condition():
            if time.perf_counter() > deadline:
                return False
            self.program.take_in(0.01)
        return True


@pytest.mark.parametrize("state", STATES)
def test_scans_arrive(program, played, state, rng, long, request):
    played_so_far = 0
    totals = {True: Counts(), False: Counts()}
    for prefix, gap_ms in product(totals, GAPS_MS):
        rounds = 25 if long else 2 if state in ("plain", "question", "page") else 1
        counts = Cell(program, played, state, gap_ms, rng).play(rounds, played_so_far, prefix=prefix)
        played_so_far += rounds
        totals[prefix] += counts
        if long:
            words = f"{state}, {'F9' if prefix else 'no prefix'}, {gap_ms} ms"
            report(request, f"{words:40} {counts.scans:5} {counts.lost:5} {counts.leaked:7} {counts.false:6}")
    assert totals[True] == Counts(totals[True].scans)
    assert totals[False].false == 0


def report(request, row: str) -> None:
    """Print a row of the table past the capture of output."""
    with request.config.pluginmanager.getplugin("capturemanager").global_and_fixture_disabled():
        print(f"\n{row}", end="", flush=True)  # noqa: T201 - the table is what --long is for
