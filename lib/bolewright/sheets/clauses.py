"""Clauses of a sheet put under the documents they stand in, each document named in full once in a package."""

from __future__ import annotations

import re
from collections.abc import Iterable

DOCUMENTS: dict[str, str] = {
    "NDS 2018": "National Design Specification for Wood Construction, 2018 edition, American Wood Council",
    "NDS Supplement": "Supplement to it: Design Values for Wood Construction, 2018 edition, American Wood Council",
    "AWC TR12": "Technical Report 12, General Dowel Equations for Calculating Lateral Connection Values, "
    "American Wood Council",
    "AWC DCA 6": "Prescriptive Residential Wood Deck Construction Guide, DCA 6, American Wood Council",
    "ASCE 7-16": "Minimum Design Loads and Associated Criteria for Buildings and Other Structures, 2016 edition, "
    "American Society of Civil Engineers",
    "IBC 2021": "International Building Code, 2021 edition, International Code Council",
    "IRC 2021": "International Residential Code, 2021 edition, International Code Council",
    "ACI 318-19": "Building Code Requirements for Structural Concrete, 2019 edition, American Concrete Institute",
    "AISC 360-16": "Specification for Structural Steel Buildings, 2016 edition, American Institute of Steel "
    "Construction",
    "ASTM D245": "Practice for Establishing Structural Grades and Related Allowable Properties for Visually "
    "Graded Lumber, ASTM International",
    "ASTM D2555": "Practice for Establishing Clear Wood Strength Values, ASTM International",
    "ANSI A300": "Tree Care Operations, Standard Practices, American National Standards Institute",
    "Hetényi": "M. Hetényi, Beams on Elastic Foundation, 1946",
}
MECHANICS = "Statics, geometry and elastic theory"
_KINDS = (
    ("Common practice", ("common practice",)),
    ("Judgement, engineer to confirm", ("judgement",)),
    ("Rated loads from the maker's sheet, entered by the user", ("maker", "rated load")),
)
_ASIDE = re.compile(r"\s*\((?!K_|k_|S_)[^()]*(?:\([^()]*\)[^()]*)*\)")
_NEXT = re.compile(rf"[,;]\s(?=(?:equals )?(?:{'|'.join(map(re.escape, DOCUMENTS))})\b)|;\s")


def grouped(clauses: Iterable[str]) -> dict[str, list[str]]:
    """Places by document in the order of :data:`DOCUMENTS`, then practice, judgement, rated loads and mechanics.

    >>> grouped(["NDS 2018, 3.3.2.1", "NDS 2018, Table 4.3.1", "Statics (sum of three loads)", "NDS 2018, 3.3"])
    {'NDS 2018': ['3.3', '3.3.2.1', 'Table 4.3.1'], 'Statics, geometry and elastic theory': []}
    """
    found: dict[str, set[str]] = {}
    for clause in clauses:
        text = clause.replace("ASTM D2555, D245", "ASTM D2555; ASTM D245")
        for piece in _NEXT.split(_ASIDE.sub("", text) if text.startswith(tuple(DOCUMENTS)) else text):
            name, place = _placed(piece.removeprefix("equals ").strip())
            if name:
                found.setdefault(name, set()).update({place} - {""})
    order = [*DOCUMENTS, *(name for name, _ in _KINDS), MECHANICS]
    return {name: sorted(found[name], key=_natural) for name in order if name in found}


def _placed(piece: str) -> tuple[str, str]:
    document = next((name for name in DOCUMENTS if piece.startswith(name)), None)
    if document:
        place = piece[len(document) :].lstrip(" ,")
        return document, _ASIDE.sub("", place)
    kind = next((name for name, starts in _KINDS if piece.lower().startswith(starts)), None)
    if kind is None:
        return (MECHANICS, "") if piece else ("", "")
    said = re.search(r"\((.*)\)$|: (.*)$", piece)
    return kind, next((words for words in said.groups() if words), "") if said else ""


def _natural(place: str) -> list[tuple[int, int, str]]:
    return [
        (0, int(part), "") if part.isdigit() else (1, 0, part)
        for part in re.findall(r"\d+|[^\d\s.,-]+", place)
    ]


def clause_lines(clauses: Iterable[str]) -> tuple[str, ...]:
    """One line a document with its clauses; documents are named in full on the sheet of symbols."""
    return tuple(
        f"{name}: {'; '.join(places)}" if places else name for name, places in grouped(clauses).items()
    )


def documents_of(clauses: Iterable[str]) -> list[tuple[str, str]]:
    """Short and full name of every document that the clauses name."""
    return [(name, DOCUMENTS[name]) for name in grouped(clauses) if name in DOCUMENTS]
