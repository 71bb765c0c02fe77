"""Links from the workbook to files beside it, as the server that shows it gives them out."""

from __future__ import annotations

import os
from html import escape
from pathlib import Path
from urllib.parse import quote

ROOT = "BOLEWRIGHT_ROOT"
FILES = "BOLEWRIGHT_FILES"


def link_to(path: Path, words: str) -> str:
    """HTML link to a file; its path in plain words where the server does not give it out."""
    address = address_of(path)
    if address is None:
        return f"{escape(words)}: {escape(str(path))}"
    return f'<a href="{escape(address)}" target="_blank" rel="noopener">{escape(words)}</a>'


def address_of(path: Path) -> str | None:
    """Address of a file under the server's folder: of the local page, or of JupyterLab, also on a hub."""
    root = Path(os.environ.get(ROOT) or os.environ.get("JUPYTER_SERVER_ROOT") or Path.home())
    try:
        inside = path.resolve().relative_to(root.expanduser().resolve())
    except ValueError:
        return None
    base = os.environ.get("JUPYTERHUB_SERVICE_PREFIX") or "/"
    return f"{base}{os.environ.get(FILES, 'files')}/{quote(inside.as_posix())}"
