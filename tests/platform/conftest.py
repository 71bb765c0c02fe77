"""The folder of this file on the path, so that the tests share the arrangements."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
