"""The store's tables against TinyDB itself: the same calls, the same answers.

TinyDB keeps its tables as JSON here, as on a file: its own MemoryStorage shares lists between documents and
keeps half of a change that failed.
"""

import json
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from tinydb import TinyDB, where
from tinydb.operations import delete, increment
from tinydb.storages import Storage
from tinydb.table import Document

from shoptui.store.database import Database

NUMBERS = st.integers(0, 3)
DOCUMENTS = st.fixed_dictionaries(
    {"n": NUMBERS},
    optional={"words": st.text(max_size=4), "deep": st.lists(st.dictionaries(st.text(), NUMBERS))},
)
IDS = st.lists(st.integers(1, 6), max_size=3)


class JsonInMemory(Storage):
    text = "{}"

    def read(self):
        return json.loads(self.text)

    def write(self, data):
        self.text = json.dumps(data)


def bump(document):
    document["n"] += 1
    document.setdefault("deep", []).append({"x": 1})


UPDATES = st.sampled_from([bump, increment("n"), delete("n"), {"n": 2, "words": "é\x00"}, {}])
QUERIES = st.one_of(
    NUMBERS.map(lambda n: where("n") == n),
    NUMBERS.map(lambda n: where("n") > n),
    st.just(where("words").exists()),
    st.just(where("deep").any(where("x") == 1)),
)


class Parity(RuleBasedStateMachine):
    """The same calls to both; ids agree as long as TinyDB does not give one again."""

    def __init__(self):
        super().__init__()
        self.place = tempfile.TemporaryDirectory()
        self.ours = Database.create(Path(self.place.name) / "shop")
        self.theirs = TinyDB(storage=JsonInMemory)

    def teardown(self):
        self.ours.close()
        self.place.cleanup()

    def both(self, call):
        answers = []
        for database in (self.theirs, self.ours.tinydb):
            try:
                answers.append(call(database.table("parts")))
            except Exception as error:  # noqa: BLE001 - whatever TinyDB raises
                answers.append(type(error))
        assert answers[0] == answers[1]
        return answers[0]

    @rule(document=DOCUMENTS)
    def insert(self, document):
        self.both(lambda table: table.insert(document))

    @rule(documents=st.lists(DOCUMENTS, max_size=3))
    def insert_multiple(self, documents):
        self.both(lambda table: table.insert_multiple(documents))

    @rule(document=DOCUMENTS, number=st.integers(1, 8))
    def insert_under_an_id(self, document, number):
        highest = self.ours._memory.highest.get("parts", 0)
        if number in self.ours.documents("parts") or number == highest + 1:
            self.both(lambda table: table.insert(Document(document, doc_id=number)))
            # TinyDB forgets the highest id when one is chosen; ours keeps it.
            self.theirs.table("parts")._next_id = self.ours._memory.highest.get("parts", 0) + 1

    @rule(fields=UPDATES, query=QUERIES)
    def update(self, fields, query):
        # Some of these fail at a document without the field, after others were changed already.
        self.both(lambda table: table.update(fields, query))

    @rule(fields=st.sampled_from([{"n": 3}, {"words": "x"}]), numbers=IDS)
    def update_ids(self, fields, numbers):
        self.both(lambda table: table.update(fields, doc_ids=numbers))

    @rule(query=QUERIES, other=QUERIES)
    def update_multiple(self, query, other):
        self.both(lambda table: table.update_multiple([({"n": 1}, query), ({"words": "y"}, other)]))

    @rule(document=DOCUMENTS, query=QUERIES)
    def upsert(self, document, query):
        self.both(lambda table: table.upsert(document, query))

    @rule(query=QUERIES)
    def remove(self, query):
        self.both(lambda table: table.remove(query))

    @rule(numbers=IDS)
    def remove_ids(self, numbers):
        self.both(lambda table: table.remove(doc_ids=list(dict.fromkeys(numbers))))

    @rule()
    def truncate(self):
        self.both(lambda table: table.truncate())
        self.theirs.table("parts")._next_id = self.ours._memory.highest.get("parts", 0) + 1

    @rule(query=QUERIES, number=st.integers(1, 6), numbers=IDS)
    def read(self, query, number, numbers):
        for call in (
            lambda table: table.search(query),
            lambda table: table.get(query),
            lambda table: table.count(query),
            lambda table: table.contains(query),
            lambda table: table.contains(doc_id=number),
            lambda table: table.get(doc_id=number),
            lambda table: table.get(doc_ids=numbers),
            lambda table: [each.doc_id for each in table.search(query)],
            lambda table: table.get(),
        ):
            self.both(call)

    @precondition(lambda self: self.ours.position.offset)
    @rule(compact=st.booleans())
    def open_again(self, compact):
        if compact:
            self.ours.compact()
        self.ours.close()
        self.ours = Database(self.ours.folder)

    @invariant()
    def same(self):
        theirs = {each.doc_id: dict(each) for each in self.theirs.table("parts")}
        assert {each.doc_id: dict(each) for each in self.ours.tinydb.table("parts")} == theirs
        assert len(self.ours.tinydb.table("parts")) == len(theirs)


TestParity = Parity.TestCase
TestParity.settings = settings(
    max_examples=60, stateful_step_count=25, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
