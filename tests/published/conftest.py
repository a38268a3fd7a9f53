import sys
from pathlib import Path

# the decoder that is not the program's
sys.path.insert(0, str(Path(__file__).parents[1] / "labels"))
