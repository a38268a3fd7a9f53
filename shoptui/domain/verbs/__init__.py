"""What a person can do with pieces of a part: one function a verb, each returning the moves it makes.

`VERBS` lists what is legal from where to where; a new verb is one line there and one function. Undo is the
inverse of the moves, so no verb has an undo of its own.
"""

from shoptui.domain.verbs.door import (
    cancel,
    hold,
    hold_ordered,
    hold_unordered,
    open_,
    order,
    put_away,
    receive,
    receive_unordered,
    release,
    send_out,
    stock,
    take_back,
)
from shoptui.domain.verbs.leaving import (
    count_over,
    count_short,
    dispose,
    hand_over,
    strip,
    to_order,
    transfer,
)
from shoptui.domain.verbs.table import HERE, ON_A_SHELF, VERBS, Verb
from shoptui.domain.verbs.vehicle import (
    as_bought,
    assemble,
    install,
    mock_up,
    remove,
    return_to_stock,
    take_apart,
    take_down,
)

__all__ = [
    "HERE",
    "ON_A_SHELF",
    "VERBS",
    "Verb",
    "as_bought",
    "assemble",
    "cancel",
    "count_over",
    "count_short",
    "dispose",
    "hand_over",
    "hold",
    "hold_ordered",
    "hold_unordered",
    "install",
    "mock_up",
    "open_",
    "order",
    "put_away",
    "receive",
    "receive_unordered",
    "release",
    "remove",
    "return_to_stock",
    "send_out",
    "stock",
    "strip",
    "take_apart",
    "take_back",
    "take_down",
    "to_order",
    "transfer",
]
