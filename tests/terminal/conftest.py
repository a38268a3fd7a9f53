import random
import shutil
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from played_shop import PlayedShop, make_played_shop
from pseudo_terminal import Program


def now() -> datetime:
    return datetime.now(UTC)


@pytest.fixture(scope="session")
def ready_made(tmp_path_factory):
    """The invented shop with things that can be scanned a thousand times."""
    folder = tmp_path_factory.mktemp("played") / "shop"
    make_played_shop(folder, now)
    return folder


@pytest.fixture
def played(ready_made, tmp_path):
    """A copy of that shop, open beside the program that is played."""
    shutil.copytree(ready_made, tmp_path / "shop")
    played = PlayedShop.open(tmp_path / "shop", now)
    yield played
    played.shop.close()


@pytest.fixture
def program(played):
    """The program on that shop, its box open at Receiving."""
    program = Program.shop(played.folder)
    program.play(played.box, 0)
    program.until(lambda: "open." in program.words and "Receiving: box" in program.text)
    yield program
    program.close()


@pytest.fixture
def begin():
    """Start programs that are ended with the test."""
    begun = []

    def start(make, *arguments, **options):
        begun.append(make(*arguments, **options))
        return begun[-1]

    yield start
    for program in begun:
        program.close()


@pytest.fixture
def rng():
    return random.Random(1974)
