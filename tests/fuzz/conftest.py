"""The folder of this file on the path, so that the tests and the command share the generator."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
