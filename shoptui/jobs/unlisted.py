"""An original part that no list has came off: one scan or one line of words lists it, and takes it off."""

from collections.abc import Callable

from shoptui.domain import verbs
from shoptui.domain.cautions import cautions
from shoptui.domain.codes import normal
from shoptui.domain.inert import inert
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.recognise import Reading
from shoptui.domain.records import LearnedCode, Part
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.remove import BECOMES, goes_to, removal_bin
from shoptui.store.command_tags import command_named

LONGEST = 200
"""Most letters of a description."""


def ask_unlisted(at: At, words: str) -> Answer:
    """Ask whether an original part that no list has came off; yes writes it down as bought and removed.

    A position is a yes that says from where; a bin or bag first says where to.
    """
    if at.build is None:
        return stop(
            f"No part is called “{words}”, and this terminal works on no build. Scan the vehicle first."
        )
    return Answer(
        Said.QUESTION,
        f"No part is called “{words}”. Did an original part come off? Enter, or scan its position: it is "
        f"listed as removed to {goes_to(at)}.",
        show="lift",
        question=Question(
            yes=lambda: remove_unlisted(at, words),
            accepts=lambda text: _from_or_into(
                at,
                text,
                lambda position: remove_unlisted(at, words, position=position),
                lambda: ask_unlisted(at, words),
            ),
        ),
    )


def _from_or_into(
    at: At, text: str, off: Callable[[str], Answer], ask: Callable[[], Answer]
) -> Answer | None:
    """Take a position, off which it came, or a bin, which is asked about again; None for anything else."""
    command = command_named(text)
    if command is not None:
        return off(command.word) if command.position else None
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    at.shop.remember(at.terminal, bin=into.id)
    return ask()


def ask_unlisted_code(at: At, reading: Reading, text: str, position: str = "") -> Answer:
    """Ask what came off, where its code or the blank tag on it is known to nobody; the code is learned.

    Its position and its words may come in either order.
    """
    if at.build is None:
        return stop("This terminal works on no build. Scan the vehicle first.")
    own = str(reading.tag) if reading.tag is not None and reading.tag.kind is Kind.PART else ""
    code = "" if own else text

    def named(reply: str) -> Answer | None:
        words = " ".join(reply.split())
        said = _from_or_into(
            at,
            words,
            lambda there: ask_unlisted_code(at, reading, text, there),
            lambda: ask_unlisted_code(at, reading, text, position),
        )
        if said is not None or command_named(words) is not None:
            return said
        if not words or not words.isprintable() or len(words) > LONGEST or at.shop.codes.knows(words):
            return None
        return remove_unlisted(at, words, tag=own, code=code, position=position)

    return Answer(
        Said.QUESTION,
        f"Nobody knows {shown(text)}. What came off{_from(position)}? Type it in words, and it is listed "
        f"with this code{'' if position else '; its position first says from where'}. Enter: just as it is.",
        show="lift",
        question=Question(
            yes=lambda: remove_unlisted(at, f"part {shown(text)}", tag=own, code=code, position=position),
            accepts=named,
        ),
    )


def _from(position: str) -> str:
    return f" from {position}" if position else ""


def _original(part: Part) -> str:
    words = name(part)
    return words if words.casefold().startswith("original") else f"Original {words}"


def remove_unlisted(at: At, words: str, *, tag: str = "", code: str = "", position: str = "") -> Answer:
    """List an original part, as bought with the vehicle, and take it off: one transaction.

    Args:
        at: Where it is done.
        words: What it is.
        tag: The blank tag of ours that was stuck on it.
        code: The code printed on it, which is learned.
        position: Where it was.

    """
    build = at.build
    if build is None:
        return stop("This terminal works on no build. Scan the vehicle first.")
    into = removal_bin(at)
    with at.doing(f"removed original {words}{_from(position)} to {goes_to(at)}") as transaction:
        there = (position,) if position else ()
        part = transaction.add(Part(0, "", tag, build.id, words, positions=there, original=True))
        if code:
            transaction.add(LearnedCode(0, code, normal(code), "parts", part.id))
        transaction.enter(verbs.as_bought(part.id, 1, position=position))
        transaction.enter(
            verbs.remove(at.shop.book, part.id, 1, position=position, to=into.id if into else UNSORTED)
        )
    told = (
        f"{inert(_original(part))} listed and removed{_from(position)} to {goes_to(at)}.",
        *cautions("", words)[:1],
        BECOMES,
    )
    return done(
        " ".join(told),
        part=part.code,
        qty=1,
        state=State.REMOVED.value,
        where=goes_to(at),
        show="lift",
        subject=part.id,
    )
