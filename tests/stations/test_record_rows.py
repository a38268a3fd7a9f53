"""Lists of records say how each stands."""

from shoptui.domain import verbs
from shoptui.domain.records import KitLine, Order, OrderLine, Part
from shoptui.jobs.order import promises
from shoptui.stations.records.rows import record_rows
from tests.jobs.conftest import clock, made

__all__ = ["clock", "made"]


def test_an_order_of_a_kit_is_not_all_here_before_its_contents_are(made):
    shop = made.shop
    with shop.transaction("kit", terminal="office") as tx:
        inside = (KitLine(made.clip.id, 4), KitLine(made.hood.id))
        kit = tx.add(Part(0, "", "", made.build.id, "Front kit", sold_as="kit", kit=inside))
        lines = (OrderLine(kit.id, 1), OrderLine(made.hub.id, 1))
        order = tx.add(Order(0, "Q-100", "purchase", made.supplier.id, "Q-100", lines=lines))
        for line in lines:
            tx.enter(promises(shop, shop.parts.get(line.part), line.qty, order))

    def stands():
        return next(row.cells[1] for row in record_rows(shop, Order) if row.cells[0] == "Q-100")

    assert stands() == "6 to come"
    with shop.transaction("received", terminal="office") as tx:
        tx.enter(verbs.receive(shop.book, made.hub.id, 1, order=order.id))
        tx.enter(verbs.receive(shop.book, made.clip.id, 4, order=order.id))
    assert stands() == "1 to come"
    with shop.transaction("received", terminal="office") as tx:
        tx.enter(verbs.receive(shop.book, made.hood.id, 1, order=order.id))
    assert stands() == "all is here"
