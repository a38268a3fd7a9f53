"""Copy a build's list, or some of it, from an earlier build: the lines, never what was done with them."""

from dataclasses import replace

from shoptui.domain.codes import tag
from shoptui.domain.inert import inert
from shoptui.domain.records import Build, KitLine, LearnedCode, Part
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, name, shown
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

NAMED = 3
"""Lines that a sentence names."""

Same = tuple[str, str, tuple[str, ...]]
"""What two lines have in common that are the same: description, number, positions."""


def no_copy(at: At) -> str:
    """Say why no lines at all can be copied to this terminal's list; empty where some can."""
    target = at.build
    if target is None:
        return "No build is chosen at this terminal: choose the one that gets the lines in Set-up (F12)."
    if target.status != "open":
        return f"{inert(target.title)} is finished: its list stays as it is."
    if all(part.build in (None, target.id) for part in at.shop.parts.all()):
        return f"{inert(target.title)} is the only build with a list: there is none to copy from."
    return ""


def copy_list(at: At, source: Build, *, section: str = "", only: tuple[int, ...] = ()) -> Answer:
    """Ask, then copy lines of another build's list to this terminal's build.

    A line that is there already, by description and number, is not doubled; what waits for it or holds it
    points at the one that is there. Originals stay behind, since they belong to that vehicle; so does what is
    true of its pieces alone: when they were opened, until when they are good, whether a sponsor wants them
    seen. Codes that were learned for a line stand for its copy too, and a scan asks or goes by the build.

    Args:
        at: Where it is done; its build gets the lines.
        source: The build whose list it is.
        section: Only lines of this section; empty for all.
        only: Only the lines of these part ids, and what is in their kits; empty for all.

    """
    target = at.build
    if target is None or no_copy(at):
        return stop(no_copy(at))
    if target.id == source.id:
        return stop(f"{inert(target.title)} is this terminal's build itself: choose another.", field="source")
    wanted = _wanted(at.shop, source, section, only)
    there = _there(at.shop, target)
    new = [part for part in wanted if _same_as(part) not in there]
    if not new:
        why = "every one of them is there already" if wanted else "no line of its list is meant by that"
        return stop(f"Nothing to copy from {inert(source.title)}: {why}.", field="source")
    left = len(wanted) - len(new)
    rest = f"; {left} {'is' if left == 1 else 'are'} there already" if left else ""
    listed = ", ".join(name(part) for part in new[:NAMED])
    more = f" and {len(new) - NAMED} more" if len(new) > NAMED else ""
    what = f"{len(new)} line{'s' * (len(new) != 1)} of {inert(source.title)}"
    return Answer(
        Said.QUESTION,
        f"Copy {what} to the list of {inert(target.title)}: {listed}{more}{rest}? Enter copies.",
        question=Question(yes=lambda: _copy(at, source, target, section, only)),
    )


def _copy(at: At, source: Build, target: Build, section: str, only: tuple[int, ...]) -> Answer:
    shop = at.shop
    with at.doing() as tx:
        there = _there(shop, target)
        copies: dict[int, Part] = {}
        new: list[Part] = []
        for part in _wanted(shop, source, section, only):
            found = there.get(_same_as(part))
            if found is None:
                new.append(part)
                found = there[_same_as(part)] = tx.add(_bare(part, target))
            copies[part.id] = found
        dropped = sum(_point(tx, part, copies) for part in new)
        _copy_codes(shop, tx, {part.id: copies[part.id] for part in new})
        what = f"{len(new)} line{'s' * (len(new) != 1)} of {inert(source.title)}"
        tx.say(f"copied {what} to {inert(target.title)}")
    left_out = f"{dropped} mention{'s' * (dropped != 1)} of lines that are not on it left out."
    hint = f" {left_out}" if dropped else ""
    return done(f"Copied {what} to the list of {shown(target.code)}.{hint}", qty=len(new), show="parts")


def _wanted(shop: Shop, source: Build, section: str, only: tuple[int, ...]) -> list[Part]:
    """Return the lines that are meant, the contents of kits with them."""
    parts = [part for part in shop.parts.all() if part.build == source.id and not part.original]
    meant = {
        part.id
        for part in parts
        if (not section or part.section.casefold() == section.casefold()) and (not only or part.id in only)
    }
    meant.update(line.part for part in parts if part.id in meant for line in part.kit)
    return [part for part in parts if part.id in meant]


def _there(shop: Shop, target: Build) -> dict[Same, Part]:
    return {
        _same_as(part): part for part in shop.parts.all() if part.build == target.id and not part.original
    }


def _same_as(part: Part) -> Same:
    return part.description.casefold(), part.number.casefold(), part.positions


def _bare(part: Part, target: Build) -> Part:
    """Return the line as it goes to another list: with a tag of its own, and nothing of its pieces."""
    return replace(
        part,
        id=0,
        code="",
        tag="",
        build=target.id,
        install_after=(),
        replaces=(),
        kit=(),
        sponsor=False,
        read_again="",
        opened_on=None,
        use_by=None,
    )


def _point(tx: Transaction, part: Part, copies: dict[int, Part]) -> int:
    """Let a copy point at copies where its line pointed at lines; return how often there is none."""
    after = tuple(copies[number].id for number in part.install_after if number in copies)
    replaces = tuple(copies[number].id for number in part.replaces if number in copies)
    kit = tuple(KitLine(copies[line.part].id, line.qty) for line in part.kit if line.part in copies)
    joints = tuple(
        replace(joint, clamps=tuple(copies[number].id for number in joint.clamps if number in copies))
        for joint in part.joints
    )
    copy = tx.change(copies[part.id], install_after=after, replaces=replaces, kit=kit, joints=joints)
    return _mentions(part) - _mentions(copy)


def _mentions(part: Part) -> int:
    """Return how often a line names another that is on or comes off, or that its joints hold too."""
    return len(part.install_after) + len(part.replaces) + sum(len(joint.clamps) for joint in part.joints)


def _copy_codes(shop: Shop, tx: Transaction, copies: dict[int, Part]) -> None:
    """Let printed codes stand for the copies too; a tag of ours stands for one thing alone."""
    for learned in list(shop.learned.all()):
        if learned.kind == shop.parts.table and learned.record in copies and not tag(learned.code):
            tx.add(
                LearnedCode(
                    0, learned.code, learned.normal, learned.kind, copies[learned.record].id, learned.qty
                )
            )
