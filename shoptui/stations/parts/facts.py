"""One part's card: what it is, where its pieces are, and everything that ever happened to it."""

from collections.abc import Iterator

from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.attach import file_words, files_of
from shoptui.jobs.edit import sense_of
from shoptui.jobs.kit import kit_words
from shoptui.jobs.part_fields import PART
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.place_words import piece_words
from shoptui.jobs.story import story
from shoptui.stations.card import LONGEST, Fact
from shoptui.stations.lift.joints import part_joints
from shoptui.stations.marks import Tone

STATE_TONES = {
    State.INSTALLED: Tone.GOOD,
    State.RECEIVED: Tone.GOOD,
    State.HELD: Tone.BAD,
    State.SENT_OUT: Tone.WARN,
    State.ORDERED: Tone.WARN,
    State.REMOVED: Tone.WARN,
    State.GONE: Tone.QUIET,
}


def part_facts(at: At, part: Part) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of a part's card."""
    shop = at.shop
    to_order = still_to_order(shop, part)
    known = (
        Fact("build", _other_build(at, part), Tone.WARN),
        Fact("code", shown(part.code)),
        Fact("tag", shown(part.tag) if part.tag != part.code else ""),
        Fact("maker", part.maker),
        Fact("number", ", ".join((part.number, *part.other_numbers)) if part.number else ""),
        Fact("section", part.section),
        Fact("needed", f"{part.needed}, to order {to_order}", Tone.WARN if to_order else Tone.PLAIN),
        Fact("positions", ", ".join(part.positions)),
        Fact("original", "was on the vehicle when it came" if part.original else ""),
        Fact("outside work", ", ".join(work.work for work in part.outside_work)),
        Fact("after", ", ".join(name(shop.parts.get(number)) for number in part.install_after)),
        Fact("replaces", ", ".join(name(shop.parts.get(number)) for number in part.replaces)),
        *_also(at, part),
        Fact("notes", part.notes),
        *(Fact("file", file_words(file)) for file in files_of(at, part)),
    )
    facts = [fact for fact in known if fact.text]
    return name(part), (*facts, *part_joints(at, part), Fact(), *pieces_and_story(at, part))


def pieces_and_story(at: At, part: Part) -> tuple[Fact, ...]:
    """Return where the pieces of a part are, and what ever happened to it."""
    shop = at.shop
    places = [(place, qty) for place, qty in shop.book.places(part.id) if place.state is not State.NOT_OURS]
    facts = [Fact("Where it is")]
    facts.extend(
        Fact("", piece_words(shop, place, qty), STATE_TONES.get(place.state, Tone.PLAIN))
        for place, qty in places
    )
    if not places:
        facts.append(Fact("", kit_words(shop, part) if part.kit else "Nowhere yet: not ordered."))
    facts.extend((Fact(), Fact("What happened")))
    facts.extend(Fact("", sentence) for sentence in reversed(story(shop, part)))
    return tuple(facts)


def _also(at: At, part: Part) -> Iterator[Fact]:
    """Yield what the form asks beside these, where it is not as it is for most parts."""
    sense = sense_of(at.shop, part)
    for asked in PART.fields:
        tone = Tone.WARN if asked.name == "read_again" else Tone.PLAIN
        if asked.name in _ALSO and (text := asked.write(sense, getattr(part, asked.name))) not in _USUAL:
            yield Fact(asked.label.lower(), asked.shown(text, LONGEST), tone)


_ALSO = ("sold_as", "hours", "price", "sponsor", "kit", "hardware", "opened_on", "use_by", "read_again")
_USUAL = ("", "each", "no")


def _other_build(at: At, part: Part) -> str:
    """Return whose a part is, where it is not of the build that this terminal works on."""
    if at.build is None or part.build == at.build.id:
        return ""
    return "the shop's own stock" if part.build is None else shown(at.shop.builds.get(part.build).code)
