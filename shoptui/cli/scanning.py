"""Scans from standard input, one a line, taken as the screens take them."""

import argparse
import sys
from collections.abc import Iterator

from shoptui.cli.answering import scanned
from shoptui.cli.named import person_of
from shoptui.cli.opening import CannotDoError, build_of, opened, terminal_name
from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Said, Work, stop
from shoptui.jobs.scan import Scanning
from shoptui.store.errors import StoreError

_WENT_WRONG = (Said.STOP, Said.UNKNOWN)
_MARK = b"\xef\xbb\xbf"
"""UTF-8 mark, with which some editors begin a file; no label begins with it."""


def scan(arguments: argparse.Namespace) -> int:
    """Take each line as a scan and answer it at once; 1 if any was stopped or unknown, the others stand."""
    name = terminal_name(arguments)
    if sys.stdin is None:
        raise CannotDoError("Standard input is closed; scans were expected from it, one a line.")
    wrong = False
    with opened(arguments) as shop:
        build_of(shop, arguments.build)
        person_of(shop, arguments.who)
        scanning = Scanning(shop, name, station=arguments.station, build=arguments.build, who=arguments.who)
        for line in lines_in():
            answer = _take(scanning, line)
            wrong = wrong or answer.said in _WENT_WRONG
            scanned(answer, json=arguments.json)
    return 1 if wrong else 0


def lines_in() -> Iterator[bytes]:
    """Yield the lines of standard input without their ends; else nothing is cut: a code can hold a blank."""
    mark = _MARK
    while line := sys.stdin.buffer.readline():
        yield line.removeprefix(mark).removesuffix(b"\n").removesuffix(b"\r")
        mark = b""


def _take(scanning: Scanning, line: bytes) -> Answer:
    try:
        text = line.decode("utf-8")
    except UnicodeDecodeError as error:
        scanning.drop()
        words = (
            f"UTF-8 was expected; byte {line[error.start]:#04x} came at place {error.start + 1}. "
            f"Nothing changed: set the scanner to UTF-8 or plain letters and scan again."
        )
        return stop(words, kind="unknown", code=inert(line.decode("utf-8", "replace")))
    try:
        return _worked(scanning, scanning.line(text))
    except StoreError as error:
        scanning.drop()
        return stop(str(error), kind="store", code=inert(text))


def _worked(scanning: Scanning, answer: Answer) -> Answer:
    """Do at once what the screens do beside everything else; the next line answers what it asks then."""
    if not isinstance(answer.work, Work):
        return answer
    true = answer.work.at_once().of(answer.kind, answer.code)
    if true.question is not None:
        scanning.asked(true)
    return true
