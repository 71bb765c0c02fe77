"""The generator's folder on the path, and the one above it for the tests' own model (``outside``)."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1]))
