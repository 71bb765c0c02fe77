"""Symbols inside running text: ``F'_b`` in a title or a table shows as F'b with b set low, not as typed.

One pattern finds them, for HTML here and for the typesetter of the PDF, which gets the pattern as data.
"""

from __future__ import annotations

import re
from html import escape

_GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "delta": "δ",
    "epsilon": "ε",
    "eta": "η",
    "theta": "θ",
    "kappa": "κ",
    "lam": "λ",
    "mu": "μ",
    "nu": "ν",
    "pi": "π",
    "rho": "ρ",
    "sigma": "σ",
    "tau": "τ",
    "phi": "φ",
    "psi": "ψ",
    "omega": "ω",
    "Delta": "Δ",
    "Sigma": "Σ",
    "Omega": "Ω",
}
_SIGNS = {"perp": "⊥", "par": "∥"}
_STARS = {"star": "*", "dstar": "**"}
_BASE = rf"(?:[A-Za-z]|I{{1,3}}|IV|EA|[α-ωΑ-Ω]|φ[A-Z]|{'|'.join(_GREEK)})"
SYMBOL = rf"\b{_BASE}'?_[A-Za-z0-9⊥∥α-ωΑ-Ω]+(?:,[a-z0-9⊥∥]+)*\*{{0,2}}"
"""Finds a symbol with a subscript in text; the typesetter's regular expressions read it too."""

_SYMBOL = re.compile(SYMBOL)
_PARTS = re.compile(r"(?P<base>[^_']+)(?P<prime>'?)_(?P<low>[^*]+)(?P<star>\**)")


def plain(name: str) -> str:
    """Name of a symbol in code as it stands in text: ``delta_E`` is δ_E, ``F_c_perp_p`` is F'_c,⊥.

    >>> plain("F_c_perp_p"), plain("F_b_star"), plain("l_p"), plain("delta_E"), plain("phiM_n"), plain("S")
    ("F'_c,⊥", 'F_b*', 'l_p', 'δ_E', 'φM_n', 'S')
    """
    base, *words = name.split("_")
    prime = ""
    if words and (words[-1] == "prime" or (words[-1] == "p" and base[:1].isupper())):
        prime = "'"
        words.pop()
    star = "".join(_STARS[word] for word in words if word in _STARS)
    low = [_SIGNS.get(word, _GREEK.get(word, word)) for word in words if word and word not in _STARS]
    if base.startswith("phi") and len(base) == 4:
        base = f"φ{base[3]}"
    elif re.fullmatch(r"[A-Za-z]\d+", base):
        base, low = base[0], [base[1:], *low]
    return f"{_GREEK.get(base, base)}{prime}{'_' if low else ''}{','.join(low)}{star}"


def html_words(text: str) -> str:
    """Text as HTML, its symbols with their subscripts set low.

    >>> html_words("Slenderness R_B of F'_b & C_fu")
    "Slenderness <i>R</i><sub>B</sub> of <i>F</i>'<sub>b</sub> &amp; <i>C</i><sub>fu</sub>"
    """
    pieces = []
    at = 0
    for match in _SYMBOL.finditer(text):
        pieces += [escape(text[at : match.start()], quote=False), _html(match[0])]
        at = match.end()
    return "".join([*pieces, escape(text[at:], quote=False)])


def html_symbols(names: str) -> str:
    """Symbols with commas between them as HTML, one letter alone in italics too.

    >>> html_symbols("u_x, y"), html_symbols("ratio")
    ('<i>u</i><sub>x</sub>, <i>y</i>', 'ratio')
    """
    return ", ".join(
        f"<i>{escape(name[0])}</i>{escape(name[1:], quote=False)}"
        if len(name.rstrip("'*")) == 1
        else html_words(name)
        for name in names.split(", ")
    )


def _html(symbol: str) -> str:
    parts = _PARTS.fullmatch(symbol)
    if parts is None:
        return escape(symbol, quote=False)
    base, low = (_shown(parts[name]) for name in ("base", "low"))
    star = f"<sup>{parts['star']}</sup>" if parts["star"] else ""
    return f"<i>{base}</i>{parts['prime']}<sub>{low}</sub>{star}"


def _shown(word: str) -> str:
    return ",".join(_SIGNS.get(part, _GREEK.get(part, part)) for part in word.split(","))


def shown(text: str) -> str:
    """Text with Greek names inside its symbols as letters; what the typesetter gets.

    >>> shown("K_theta over F'_c,perp and delta_E")
    "K_θ over F'_c,⊥ and δ_E"
    """

    def letters(match: re.Match[str]) -> str:
        parts = _PARTS.fullmatch(match[0])
        if parts is None:
            return match[0]
        return f"{_shown(parts['base'])}{parts['prime']}_{_shown(parts['low'])}{parts['star']}"

    return _SYMBOL.sub(letters, text)
