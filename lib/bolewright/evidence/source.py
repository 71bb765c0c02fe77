"""A project file or a package, opened for comparison: its text, its data, its results."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium

from bolewright import __version__
from bolewright.documents.content import ATTACHED_PROJECT
from bolewright.documents.package import PDF_NAME
from bolewright.platform.file.reading import ProjectError, parse_project, parse_toml, read_text, unnamable
from bolewright.platform.results.results import Results, fingerprint, to_json
from bolewright.setting_out.complete import complete_results
from bolewright.sheets.about import ABOUT_NAME
from bolewright.sheets.package import RESULTS_NAME

_MOST_BYTES = 200_000_000
_MOST_ATTACHED = 20_000_000


class EvidenceError(ValueError):
    """Something that can't be opened as a project file or a package; one sentence."""


@dataclass(frozen=True)
class Evidence:
    """A project and what was found for it.

    ``text`` is the project file's; ``printed`` the results that travelled with a package, None for a plain file;
    ``about`` what the package says of its making; ``pdf`` its bytes.
    """

    name: str
    text: str
    printed: dict[str, Any] | None = None
    about: dict[str, Any] | None = None
    pdf: bytes | None = None

    @property
    def fingerprint(self) -> str:
        """Fingerprint of the project file's text."""
        return fingerprint(self.text)

    @property
    def version(self) -> str:
        """The version that made it; this one's for a plain file."""
        return str(self.printed["version"]) if self.printed else __version__

    @cached_property
    def data(self) -> dict[str, Any]:
        """The project file's data."""
        return parse_toml(self.text, self.name)

    @cached_property
    def results(self) -> Results:
        """Results of this version's checks."""
        return complete_results(parse_project(self.text, self.name))

    @cached_property
    def computed(self) -> dict[str, Any]:
        """Results of this version's checks, as they are written."""
        found: dict[str, Any] = json.loads(to_json(self.results, self.text))
        return found

    @property
    def told(self) -> dict[str, Any]:
        """The results that it tells: those printed with a package, those computed for a plain file."""
        return self.printed if self.printed is not None else self.computed

    @cached_property
    def pages(self) -> tuple[str, ...]:
        """Words of each page of the PDF, in order, spaces alike."""
        if self.pdf is None:
            return ()
        document = pdfium.PdfDocument(self.pdf)
        found = tuple(" ".join(page.get_textpage().get_text_range().split()) for page in document)
        document.close()
        return found


def open_evidence(path: Path) -> Evidence:
    """A project file (.toml), a package's folder or its PDF.

    Raises EvidenceError or ProjectError, each with a sentence, for anything else.
    """
    if words := unnamable(path):
        raise EvidenceError(words)
    if path.is_dir():
        if not (path / PDF_NAME).is_file():
            raise EvidenceError(
                f"{path} holds no {PDF_NAME}: give a package's folder, its PDF or a project file."
            )
        path = path / PDF_NAME
    if path.suffix.lower() != ".pdf":
        return Evidence(path.name, read_text(path))
    return _of_pdf(path)


def _of_pdf(path: Path) -> Evidence:
    try:
        if path.stat().st_size > _MOST_BYTES:
            raise EvidenceError(f"{path.name} is larger than 200 MB, which no package is.")
        data = path.read_bytes()
    except FileNotFoundError:
        raise EvidenceError(f"There is no file {path}.") from None
    except OSError as error:
        raise EvidenceError(f"{path} can't be read: {error.strerror}.") from None
    files = attached(data, path.name)
    if ATTACHED_PROJECT not in files:
        raise EvidenceError(
            f"{path.name} has no {ATTACHED_PROJECT} attached: it is no package of this program, or was printed anew."
        )
    try:
        text = files[ATTACHED_PROJECT].decode("utf-8")
        printed = _json(files.get(RESULTS_NAME))
        about = _json(files.get(ABOUT_NAME))
        if printed is not None:
            _readable(printed)
    except (ValueError, KeyError, TypeError, RecursionError):
        raise EvidenceError(
            f"What is attached to {path.name} can't be read: it was changed or cut off."
        ) from None
    return Evidence(path.name, text, printed, about, data)


def attached(pdf: bytes, name: str) -> dict[str, bytes]:
    """Files that travel in a PDF, by name. Raises EvidenceError for what is no PDF."""
    try:
        document = pdfium.PdfDocument(pdf)
    except pdfium.PdfiumError:
        raise EvidenceError(f"{name} is no PDF that can be read.") from None
    try:
        found = [document.get_attachment(i) for i in range(document.count_attachments())]
        files = {file.get_name(): bytes(file.get_data()) for file in found}
    except pdfium.PdfiumError:
        raise EvidenceError(f"What is attached to {name} can't be read: it was changed or cut off.") from None
    finally:
        document.close()
    if any(len(data) > _MOST_ATTACHED for data in files.values()):
        raise EvidenceError(f"What is attached to {name} is larger than 20 MB, which no package's is.")
    return files


def _json(data: bytes | None) -> dict[str, Any] | None:
    if data is None:
        return None
    found = json.loads(data)
    if not isinstance(found, dict):
        raise ValueError("no object")
    return found


def _readable(results: dict[str, Any]) -> None:
    """KeyError, TypeError or ValueError where results lack what is read of them."""
    if not re.fullmatch(r"\d{1,4}(?:\.\d{1,4}){0,3}[\w.+-]{0,20}", results["version"]):
        raise ValueError("no version")
    for check in results["checks"]:
        for key in ("part", "limit_state", "status", "sentence"):
            if not isinstance(check[key], str):
                raise TypeError(key)
        if not isinstance(check["ratio"], int | float | None):
            raise TypeError("ratio")
    if not isinstance(results["input"], str) or not isinstance(results["marks"], list):
        raise TypeError("input")


__all__ = ["Evidence", "EvidenceError", "ProjectError", "attached", "open_evidence"]
