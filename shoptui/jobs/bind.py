"""Teaching codes: a code learned for a part, a blank tag stuck on a thing."""

from collections.abc import Callable
from dataclasses import replace

from shoptui.domain.codes import normal
from shoptui.domain.inert import inert
from shoptui.domain.records import Bin, LabelRun, LearnedCode, Part
from shoptui.domain.tags import Kind, Tag
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.parcels import unknown_parcel
from shoptui.jobs.receive import receive

Find = Callable[[str], Part | None]
"""Returns the part that a scan or typed line names without doubt."""


def learn(at: At, code: str, part: Part, qty: int = 1) -> Answer:
    """Let a code stand for a part, and so many pieces of it, from now on."""
    with at.doing(f"learned code {shown(code)} for {name(part)}") as transaction:
        transaction.add(LearnedCode(0, code, normal(code), "parts", part.id, qty))
    return done(f"{shown(code)} now stands for {name(part)}.", part=part.code, qty=qty, subject=part.id)


def row_of_box(at: At, text: str) -> Part | None:
    """Return the part on a row of the open box, counted from 1: only where its rows are what one sees."""
    if at.station != "receiving" or at.box is None or not (text.isascii() and text.isdigit()):
        return None
    lines = expected_in(at.shop, at.box)
    number = int(text)
    return at.shop.parts.get(lines[number - 1].part) if 1 <= number <= len(lines) else None


def ask_what(at: At, code: str, text: str) -> Answer:
    """Say that a code is not known, and learn it if the next scan or row number says what it is.

    Only a row's number, or the part's own tag or short name, says so: whoever lays the unknown thing aside
    and scans the next one must not teach a wrong code. At Receiving with a box open the thing is received
    as well, since it is in somebody's hand. The same code again is no answer: what was misread once is
    misread twice.
    """

    def answer(reply: str) -> Answer | None:
        part = row_of_box(at, reply) or at.shop.parts.by_code(reply)
        if part is None:
            return None
        if at.station != "receiving" or at.box is None:
            return learn(at, code, part)
        words = f"learned code {shown(code)} for {name(part)}"
        with at.doing(words) as transaction:
            learned = learn(at, code, part)
            got = receive(at, part)
            if got.said is Said.DONE:
                transaction.say(f"{words}, and received 1")
        return replace(got, text=f"{learned.text} {got.text}")

    return Answer(Said.UNKNOWN, text, question=Question(accepts=answer))


def bind_blank(at: At, tag: Tag, find: Find) -> Answer:
    """Take a tag of ours that stands for nothing yet: what it is stuck on is asked, and it is bound."""
    if tag.kind in (Kind.PART, Kind.HARDWARE):
        return _bind_part(at, tag, find)
    if tag.kind is Kind.BAG:
        return Answer(
            Said.QUESTION,
            f"{tag.shown} is a blank bag tag. Type what is in it and Enter; Enter alone: no words.",
            question=Question(
                yes=lambda: new_bin(at, str(tag), "bag"),
                words=lambda text: new_bin(at, str(tag), "bag", about=text) if _is_name(text) else None,
            ),
        )
    if tag.kind is Kind.BIN:
        return Answer(
            Said.QUESTION,
            f"{tag.shown} is a blank bin tag. Type the bin's name and Enter; Enter alone: named by its tag.",
            question=Question(
                yes=lambda: new_bin(at, str(tag), "rack bin"),
                accepts=lambda text: new_bin(at, str(tag), "rack bin", text) if _is_name(text) else None,
            ),
        )
    if tag.kind is Kind.BOX and at.station == "receiving":
        return unknown_parcel(at, "", f"tag {tag.shown}", tag=str(tag))
    if tag.kind is Kind.BOX:
        return stop(f"{tag.shown} is a blank box tag: scan it at Receiving (F3), where the box came.")
    return stop(
        f"{tag.shown} is a {tag.kind.words} tag that stands for nothing here. Give it to something in a "
        "list that is imported, as its tag."
    )


def _is_name(text: str) -> bool:
    return 0 < len(text.strip()) <= 40 and not text.isdigit() and text.isprintable()  # noqa: PLR2004


def _bind_part(at: At, tag: Tag, find: Find) -> Answer:
    last = last_without_code(at)
    if last is not None:
        return learn(at, str(tag), last)

    def answer(reply: str) -> Answer | None:
        part = row_of_box(at, reply) or find(reply)
        return None if part is None else learn(at, str(tag), part)

    or_row = ", or type its row's number" if at.station == "receiving" and at.box is not None else ""
    return Answer(
        Said.QUESTION,
        f"{tag.shown} is a blank tag. What is it stuck on? Scan the part's code{or_row}.",
        question=Question(accepts=answer),
    )


def last_without_code(at: At) -> Part | None:
    """Return the last thing received here since the last bin, if nothing but its line names it.

    A blank tag scanned right after it can only be meant for it: no key is needed.
    """
    things = list(at.since_last_bin())
    if at.station != "receiving" or not things:
        return None
    part = at.shop.parts.get(things[-1][0])
    return part if not _has_printed_code(at, part) else None


def _has_printed_code(at: At, part: Part) -> bool:
    """Whether some code is known that a maker printed; blank tags of ours do not count, ten can be alike."""
    return any(
        code.kind == "parts" and code.record == part.id and code.normal[:1] != Kind.PART
        for code in at.shop.learned.all()
    )


def new_bin(at: At, tag: str, kind: str, name: str = "", *, about: str = "") -> Answer:
    """Make a bin or bag from a blank tag, with its short name, and what is said of it."""
    code = name.strip()
    if code and at.shop.codes.knows(code):
        return stop(f"Something is called {shown(code)} already. Scan the tag again and give another name.")
    with at.doing(f"made {kind} {code or shown(tag)}") as transaction:
        made = transaction.add(Bin(0, code or tag, tag, about.strip(), kind))
        transaction.add(LabelRun.of_bound_tag("bag" if kind == "bag" else "bin", "bins", made.id))
    words = f": {inert(made.words)}" if made.words else ""
    return done(f"New {kind} {shown(made.code)}{words}.", where=shown(made.code), subject=made.id)
