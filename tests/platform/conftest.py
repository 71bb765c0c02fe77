"""This folder and the one above on the path: arrangements, and ``outside.something`` from the tests beside."""

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parents[1])]
