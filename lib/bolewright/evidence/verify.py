"""Checks a package again from its PDF alone: what still stands, what moved and why, what was altered in its text."""

from __future__ import annotations

import difflib
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bolewright import __version__
from bolewright.documents.content import PackageError, Paper, SheetError
from bolewright.documents.package import PDF_NAME
from bolewright.errata import errata
from bolewright.evidence.between import Moved, checks
from bolewright.evidence.source import Evidence, open_evidence
from bolewright.sheets.lengths import Tape
from bolewright.sheets.package import make_package

_FINGERPRINT = re.compile(r"Fingerprint (?:of project file and program )?([0-9a-f]{16})")
_NAME = re.compile(r"[\w-][\w .-]{0,80}\.toml")
_SHOWN = 12  # words round what was altered, pages and checks that are told of one by one


@dataclass(frozen=True)
class Verified:
    """What was found of a package. ``altered`` are sentences; ``moved`` checks that come out otherwise now."""

    package: Evidence
    altered: tuple[str, ...]
    compared: str
    moved: tuple[Moved, ...]
    why: tuple[str, ...]

    @property
    def stands(self) -> bool:
        """Whether nothing was altered and every check comes out as printed."""
        return not self.altered and not self.moved


def verify(package: Evidence) -> Verified:
    """Check a package. Raises ProjectError or LayoutError where this version can't use its project file."""
    assert package.pdf is not None
    altered = _by_fingerprint(package)
    compared = "Its text was not compared word for word: "
    if package.printed is None:
        altered.append("No results.json is attached: what it printed can't be compared.")
    if package.about is None:
        compared += "it does not say how it was made."
    elif package.version != __version__:
        compared += f"version {package.version} made it, and this is {__version__}. Rows of its checks were looked for."
        altered += _rows_missing(package)
    elif package.about.get("own_sheets"):
        compared += "it was made with a user's own copies of the sheets. Rows of its checks were looked for."
        altered += _rows_missing(package)
    else:
        again = _made_again(package)
        if again.pdf == package.pdf:
            compared = "Made again from what is attached, it is the same to the byte."
        else:
            found = _words_changed(package.pages, again.pages)
            altered += found
            compared = (
                "Made again from what is attached, its words are other ones."
                if found
                else "Made again from what is attached, its words are the same; its bytes are not (other fonts' or "
                "typesetter's version, signatures, remarks)."
            )
    moved = tuple(checks(package.printed, package.computed)) if package.printed else ()
    return Verified(package, tuple(altered), compared, moved, tuple(_why(package, moved)))


def _by_fingerprint(package: Evidence) -> list[str]:
    found = []
    if package.printed and package.printed["input"] != package.fingerprint:
        found.append(
            f"The project file attached has the fingerprint {package.fingerprint}, the results attached are of "
            f"{package.printed['input']}: one of the two was changed."
        )
    other: dict[str, list[int]] = {}
    for number, words in enumerate(package.pages, start=1):
        printed = _FINGERPRINT.search(words)
        told = printed[1] if printed else "none"
        if told != package.fingerprint:
            other.setdefault(told, []).append(number)
    for told, pages in other.items():
        if len(pages) == len(package.pages) or told != "none":
            found.append(
                f"{_pages(pages)} {'print' if len(pages) > 1 else 'prints'} the fingerprint {told}, the project file "
                f"attached has {package.fingerprint}."
            )
        else:
            found.append(
                f"{_pages(pages)} {'have' if len(pages) > 1 else 'has'} no fingerprint: put in from elsewhere."
            )
    return found


def _pages(pages: list[int]) -> str:
    shown = ", ".join(str(page) for page in pages[:_SHOWN]) + (" ..." if len(pages) > _SHOWN else "")
    return f"Page{'s' * (len(pages) > 1)} {shown}"


def _made_again(package: Evidence) -> Evidence:
    about: dict[str, Any] = package.about or {}
    name = str(about.get("file", ""))
    paper = next((p for p in Paper if p.name.lower() == about.get("paper")), Paper.LETTER)
    tape = next((t for t in Tape if t.value == about.get("tape")), Tape.FEET)
    with tempfile.TemporaryDirectory(prefix="bolewright-") as folder:
        path = Path(folder) / (name if _NAME.fullmatch(name) else "project.toml")
        path.write_text(package.text, encoding="utf-8", newline="\n")
        try:
            out, before = Path(folder) / "out", str(about.get("supersedes", ""))
            make_package(path, out, paper=paper, tape=tape, full=about.get("full") is True, supersedes=before)
        except (PackageError, SheetError):
            return Evidence(package.name, package.text)
        return open_evidence(Path(folder) / "out" / PDF_NAME)


def _words_changed(given: tuple[str, ...], wanted: tuple[str, ...]) -> list[str]:
    """Where the words of pages differ from what they ought to be."""
    found = []
    if len(given) != len(wanted):
        found.append(f"It has {len(given)} pages; made again it has {len(wanted)}.")
    for number, (one, other) in enumerate(zip(given, wanted, strict=False), start=1):
        if one == other:
            continue
        a, b = one.split(), other.split()
        for tag, i, j, k, m in difflib.SequenceMatcher(None, b, a, autojunk=False).get_opcodes():
            if tag != "equal":
                was, now = " ".join(b[i:j][:_SHOWN]), " ".join(a[k:m][:_SHOWN])
                before = " ".join(b[max(0, i - 4) : i])
                found.append(
                    f'Page {number}: "{was}" was printed after "{before}", and "{now}" stands there.'
                )
                break
    return found


def _rows_missing(package: Evidence) -> list[str]:
    """Checks whose row is not found in the text: part, limit state and ratio in one line of words."""
    if package.printed is None:
        return []
    text = " ".join(package.pages).replace("\u200b", "")
    missing = [
        f"{c['part']}, {c['limit_state']}"
        for c in package.printed["checks"]
        if f"{c['part']} {c['limit_state']}" not in text
    ]
    if not missing:
        return []
    return [f"{len(missing)} checks of results.json are not found in its text, the first: {missing[0]}."]


def _why(package: Evidence, moved: tuple[Moved, ...]) -> list[str]:
    if not moved:
        return []
    if package.version == __version__:
        return [
            "The same version gives other results from the project file attached: what is attached was changed."
        ]
    touching = [e for e in errata() if e.touches(package.version)]
    rows = [f"Erratum {e.number} ({e.severity}): {e.says}" for e in touching]
    return [
        f"The project file is the same; the program changed from {package.version} to {__version__}.",
        *rows,
    ]


def lines(found: Verified) -> list[str]:
    """What was found, for the command line."""
    package = found.package
    count = len((package.printed or package.computed)["checks"])
    said = [
        f"{package.name}: {len(package.pages)} pages, made by version {package.version}, project file "
        f"{package.fingerprint}.",
        found.compared,
        *(f"ALTERED: {sentence}" for sentence in found.altered),
    ]
    if package.printed is not None:
        still = count - sum(1 for m in found.moved if m.before)
        said.append(f"{still} of {count} checks come out as printed with version {__version__}.")
    said += [
        f"MOVED: {m.part}, {m.limit_state}: {m.before or 'was not there'} -> {m.after or 'is not made any more'}"
        for m in found.moved[: 4 * _SHOWN]
    ]
    if len(found.moved) > 4 * _SHOWN:
        said.append(f"and {len(found.moved) - 4 * _SHOWN} more that moved.")
    said += found.why
    said.append("That says what was printed and calculated, not that anybody approved it.")
    return said
