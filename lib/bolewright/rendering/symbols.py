"""Symbols of the formulas as LaTeX: ``F_c_p`` prints F'_c, ``F_b_star`` F*_b, ``alpha_c`` a Greek alpha."""

from __future__ import annotations

import re
from functools import cache

_GREEK = {
    "alpha": r"\alpha",
    "beta": r"\beta",
    "gamma": r"\gamma",
    "delta": r"\delta",
    "epsilon": r"\varepsilon",
    "zeta": r"\zeta",
    "eta": r"\eta",
    "theta": r"\theta",
    "kappa": r"\kappa",
    "lam": r"\lambda",
    "lamb": r"\lambda",
    "mu": r"\mu",
    "nu": r"\nu",
    "xi": r"\xi",
    "pi": r"\pi",
    "rho": r"\rho",
    "sigma": r"\sigma",
    "tau": r"\tau",
    "phi": r"\phi",
    "chi": r"\chi",
    "psi": r"\psi",
    "omega": r"\omega",
    "Gamma": r"\Gamma",
    "Delta": r"\Delta",
    "Theta": r"\Theta",
    "Lamb": r"\Lambda",
    "Sigma": r"\Sigma",
    "Phi": r"\Phi",
    "Psi": r"\Psi",
    "Omega": r"\Omega",
}
_SIGNS = {
    "perp": r"\perp",
    "par": r"\parallel",
    "parallel": r"\parallel",
    "I": r"\text{I}",  # yield mode I, upright like II to IV
}
_STARS = {"star": "*", "dstar": "**"}
_BASE = re.compile(r"([A-Za-z])(\d+)")
_FACTORED = re.compile(r"phi([A-Za-z])")


@cache
def symbol_latex(name: str) -> str:
    r"""LaTeX of a symbol's name.

    Words after an underscore are subscripts: one letter in italics, more upright, ``perp`` and ``par`` as
    signs; ``star`` is an asterisk; Greek names are Greek letters; ``phiM_n`` is a strength with its factor. A
    last ``prime``, or ``p`` behind a capital (an adjusted value), is a prime: but ``l_p`` has a subscript.

    >>> print(symbol_latex("F_c_perp_p"), symbol_latex("E_min_p"), symbol_latex("F_b_star"), symbol_latex("l_p"))
    F'_{c\perp} E'_{\text{min}} F_{b}^{*} l_{p}
    """
    base, *words = name.split("_")
    prime = ""
    if words and (words[-1] == "prime" or (words[-1] == "p" and base[0].isupper())):
        prime = "'"
        words.pop()
    star = "".join(f"^{{{_STARS[word]}}}" for word in words if word in _STARS)
    subscripts = [word for word in words if word and word not in _STARS]
    if match := _BASE.fullmatch(base):
        base, number = match.groups()
        subscripts.insert(0, number)
    subscript = ""
    for word in subscripts:
        piece = _SIGNS.get(word) or _letters(word)
        subscript += r"\," if subscript and not piece.startswith((r"\perp", r"\parallel")) else ""
        subscript += piece
    factor = ""
    if match := _FACTORED.fullmatch(base):
        factor, base = r"\phi ", match[1]
    return f"{factor}{_letters(base)}{prime}{f'_{{{subscript}}}' if subscript else ''}{star}"


def _letters(word: str) -> str:
    if word in _GREEK:
        return _GREEK[word]
    return word if len(word) == 1 or word.isdigit() else rf"\text{{{word}}}"
