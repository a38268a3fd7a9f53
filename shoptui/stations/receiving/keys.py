"""The keys of Receiving."""

from textual.binding import Binding

from shoptui.stations.keys import HERE_KEYS, here, quiet

AMISS = {
    "damaged": "The last thing came damaged",
    "wrong": "The last thing is not what was ordered",
    "over": "One more of the last thing came than was ordered",
    "substitute": "Something came instead of what was ordered",
    "short": "The rest of the box did not come",
}
"""What is said of things from a box, each as its command tag and as a choice."""

KEYS: tuple[Binding, ...] = (
    here(
        "ctrl+g",
        "amiss",
        "Amiss",
        "What is amiss: damaged, wrong, over, something else instead, the rest did not come",
        "receiving.amiss",
    ),
    here(
        "ctrl+d",
        "said('damaged')",
        "Damaged",
        "The last thing scanned is damaged: it is held",
        "receiving.damaged",
    ),
    *(
        quiet(key, f"said('{word}')", label, AMISS[word], f"receiving.{word}", HERE_KEYS)
        for key, word, label in (
            ("ctrl+n", "wrong", "Wrong"),
            ("ctrl+o", "over", "Over"),
            ("ctrl+y", "substitute", "Substitute"),
            ("ctrl+t", "short", "Short"),
        )
    ),
    here("ctrl+l", "slip", "Slip", "Type what the packing slip says is in the box", "receiving.slip"),
    quiet(
        "ctrl+f",
        "file",
        "Photo, file",
        "Keep a photo or a file with the row",
        "receiving.file",
        HERE_KEYS,
    ),
    here("ctrl+x", "close_box", "Close box", "Close the box, say what is to come", "receiving.close"),
    here(
        "ctrl+k",
        "print",
        "Labels",
        "Print the labels that the open box, its parts and their bins lack",
        "receiving.print",
    ),
    here("ctrl+a", "all_boxes", "Boxes", "The list of boxes; the open one stays open", "receiving.boxes"),
)
