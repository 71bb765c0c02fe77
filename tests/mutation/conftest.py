"""The folder above on the path: the modules here are imported as ``mutation.something``."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

collect_ignore = [
    "recording.py",
    "running.py",
    "__main__.py",
]  # a plugin that changes functools.cache, and a command
