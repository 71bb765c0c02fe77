"""The proved reason where a published span and ours differ.

A reason is an assumption of the table's authors. It counts as proved where our own calculation, with that assumption
in place of ours, gives the published number; a cell that none of them explains is said to be unexplained.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from bolewright.timber.adjustment import size_factors
from bolewright.timber.material import reference_values
from bolewright.timber.published import FIRS, SOUTHERN, Asked, Basis, Cell, Question, question
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.spans import OwnValues, Stock


@dataclass(frozen=True)
class Reason:
    """An assumption of a published table that is not ours: a letter, a sentence, and how it changes a question."""

    letter: str
    says: str
    of: frozenset[Asked]
    bases: frozenset[Basis]
    change: Callable[[Question], Question]


@dataclass(frozen=True)
class Compared:
    """A cell beside our number; ``reasons`` proved, none where both agree; ``explained`` False where none proves it."""

    cell: Cell
    ours: float
    reasons: tuple[Reason, ...]
    explained: bool


def compare(cell: Cell, asked: Question | None = None) -> Compared:
    """A cell beside our number, with the fewest reasons that prove the difference.

    ``asked`` is the user's own question where it is not the table's. Reasons are taken one after the other, those of
    the user's own question first, and each has to change what those before it left.
    """
    mine = asked or question(cell)
    answers: dict[Question, float] = {mine: mine.answer()}
    ours = answers[mine]
    if ours == cell.published:
        return Compared(cell, ours, (), True)
    fitting = [
        *_of_the_user(cell, mine),
        *(r for r in REASONS if cell.asked in r.of and cell.basis in r.bases),
    ]
    for count in range(1, len(fitting) + 1):
        for some in combinations(fitting, count):
            switched = _switched(mine, some)
            if switched is None:
                continue
            if switched not in answers:
                answers[switched] = switched.answer()
            if answers[switched] == cell.published:
                return Compared(cell, ours, some, True)
    return Compared(cell, ours, (), False)


def _switched(asked: Question, reasons: Sequence[Reason]) -> Question | None:
    """The question with every reason taken in turn; None where one of them changes nothing."""
    for reason in reasons:
        after = reason.change(asked)
        if after == asked:
            return None
        asked = after
    return asked


def _of_the_user(cell: Cell, asked: Question) -> list[Reason]:
    """What the user's own question has that the table's has not: other wood, other limits and factors."""
    table = question(cell)

    def wood(q: Question) -> Question:
        return replace(q, stock=table.stock, service=table.service)

    def rules(q: Question) -> Question:
        return replace(table, stock=q.stock, service=q.service)

    every, bases = frozenset(Asked), frozenset(Basis)
    of_group = (
        f"the published row is for the weakest of a group ({cell.group}), in the table's condition: "
        f"{'incised' if table.service.incised else 'not incised'}, wet."
    )
    of_rules = (
        "the published row is under the table's own limits and factors, not those given with this command."
    )
    found = []
    if wood(asked) != asked:
        found.append(Reason("G", of_group, every, bases, wood))
    if rules(asked) != asked:
        found.append(Reason("R", of_rules, every, bases, rules))
    return found


def _nearest(q: Question) -> Question:
    return replace(q, limits=replace(q.limits, share_down=False))


def _tip(q: Question) -> Question:
    return replace(q, limits=replace(q.limits, tip_allowance=3.0))


def _two_plies(q: Question) -> Question:
    return replace(q, C_r=1.10) if q.section.plies == 2 else q


def _half_dead(q: Question) -> Question:
    return replace(q, limits=replace(q.limits, total=None, live_dead_share=0.5))


def _own(q: Question, species: str, F_b: float) -> OwnValues:
    v = reference_values(species, "No.2", q.section)
    return OwnValues(F_b=F_b, F_v=v.F_v, F_c_perp=v.F_c_perp, E=v.E, source="a published table's assumption")


_SECOND_GROUP = Stock("second group of IRC R507.5", "No.2")


def _second_group(q: Question) -> Question:
    """The one F_b, before C_F and C_r, that all bending cells of the second group of beams share."""
    if q.stock != FIRS:
        return q
    # 625 psi after C_i = 0.8; F_v and E of Spruce-Pine-Fir and Northern Species
    own = OwnValues(
        F_b=625 / 0.8 * _C_F(q.section),
        F_v=135.0,
        F_c_perp=335.0,
        E=1_100_000.0,
        source="a published table's assumption",
    )
    return replace(q, stock=(replace(_SECOND_GROUP, own=own),))


def _C_F(section: Section) -> float:
    return size_factors(reference_values("Hem-Fir", "No.2", section))["F_b"]


_C_F_OF_4X = {"4x10": 1.1, "4x12": 1.0}


def _size_factor(q: Question) -> Question:
    C_F = _C_F_OF_4X.get(q.section.name)
    if C_F is None:
        return q
    share = C_F / _C_F(q.section)
    return replace(q, stock=tuple(replace(s, own=_less_bending(q, s, share)) for s in q.stock))


def _less_bending(q: Question, stock: Stock, share: float) -> OwnValues:
    if stock.own is not None:
        return replace(stock.own, F_b=share * stock.own.F_b)
    return _own(
        q, stock.species, share * _C_F(q.section) * reference_values(stock.species, "No.2", q.section).F_b
    )


def _thinner(q: Question) -> Question:
    """A row for 3x or two 2x is that of the 3x, 2 1/2 in. thick."""
    if q.section.plies != 2 or q.stock == SOUTHERN:
        return q
    return replace(q, section=parse_section("3" + q.section.name.split()[-1][1:]))


def _no_wet_factor(q: Question) -> Question:
    """C_M = 1.0 on the bending of Douglas Fir-Larch 2x6, as its F_b C_F C_i would have it."""
    if q.section.name != "2x6" or FIRS[0] not in q.stock:
        return q
    v = reference_values("Douglas Fir-Larch", "No.2", q.section)
    C_F = 1.3
    # the wet values of the other properties are written out, so that only bending loses its C_M
    own = replace(
        _own(q, "Douglas Fir-Larch", v.F_b * C_F),
        F_v=v.F_v * 0.97,
        F_c_perp=v.F_c_perp * 0.67,
        E=v.E * 0.9,
        wet_values=True,
    )
    return replace(q, stock=(replace(FIRS[0], own=own), *FIRS[1:]))


def _no_northern(q: Question) -> Question:
    return replace(q, stock=tuple(s for s in q.stock if s.species != "Northern Species"))


def _longer_and_off_axis(q: Question) -> Question:
    """K_e = 1.2, 1/4 in. off the axis, and C_M = 0.91 on the F_c of Southern Pine timbers."""
    if q.stock != SOUTHERN:
        return q
    v = reference_values("Southern Pine", "No.2", q.section)
    own = replace(_own(q, "Southern Pine", v.F_b), F_c=0.91 * v.F_c, E_min=v.E_min, wet_values=True)
    stock = (replace(SOUTHERN[0], own=own),)
    return replace(q, stock=stock, K_e=1.2, eccentricity=0.25 / min(q.section.b, q.section.d))


def _more_on_posts(q: Question) -> Question:
    return replace(q, dead=10.9)


def _less_3_in(q: Question) -> Question:
    return replace(q, less=3.0)


def _reason(
    letter: str,
    says: str,
    of: Sequence[Asked],
    bases: Sequence[Basis],
    change: Callable[[Question], Question],
) -> Reason:
    return Reason(letter, says, frozenset(of), frozenset(bases), change)


_JOIST, _TIP, _BEAM, _POST = Asked.JOIST_SPAN, Asked.JOIST_OVERHANG, Asked.BEAM_SPAN, Asked.POST_HEIGHT
REASONS = (
    _reason(
        "A",
        "the table takes 3 in. off the overhang that the tip deflection allows.",
        [_TIP],
        [Basis.DCA6],
        _tip,
    ),
    _reason(
        "B",
        "the table rounds a quarter of the span to the nearest inch; the rule says at most a quarter, so ours is "
        "rounded down.",
        [_TIP],
        [Basis.IRC, Basis.DCA6],
        _nearest,
    ),
    _reason(
        "C",
        "the table takes 1.10 on F_b of two plies; NDS 2018 4.3.9 gives C_r to three or more, so ours is 1.0.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _two_plies,
    ),
    _reason(
        "D",
        "the table holds L/360 under L + 0.5D; ours holds it under L alone and L/240 under the total with creep.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _half_dead,
    ),
    _reason(
        "E",
        "every bending cell of the table's second group of beams implies F_b C_i = 625 psi before C_F and C_r, whose "
        "source is not known; that of the weakest species, Hem-Fir No.2 incised, is 680 psi.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _second_group,
    ),
    _reason(
        "F",
        "the table takes C_F = 1.1 for 4x10 and 1.0 for 4x12, those of 2 in. and 3 in. thickness; NDS Supplement Table "
        "4A gives 1.2 and 1.1 to 4 in.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _size_factor,
    ),
    _reason(
        "H",
        "the row is for a 3x or two 2x: the 3x, 2 1/2 in. thick, decides it; ours is of two 2x, 3 in.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _thinner,
    ),
    _reason(
        "I",
        "the table takes C_M = 1.0 on F_b of Douglas Fir-Larch 2x6, though F_b C_F = 1170 psi is over 1150 psi, which "
        "asks for 0.85.",
        [_JOIST, _TIP],
        [Basis.IRC],
        _no_wet_factor,
    ),
    _reason(
        "J",
        "the number is that of redwood and cedar; Northern Species, which stands for the two pines, is not in it.",
        [_JOIST, _TIP],
        [Basis.IRC],
        _no_northern,
    ),
    _reason(
        "K",
        "fitted by us, not proved: every height of the table comes out with K_e = 1.2, a load 1/4 in. off the axis "
        "(NDS 2018 15.4.1) and C_M = 0.91 on F_c, which NDS Supplement Table 4D has in Southern Pine's values "
        "already; the guide names none. Ours is of K_e = 1.0 and the eccentricity named under this table.",
        [_POST],
        [Basis.DCA6],
        _longer_and_off_axis,
    ),
    _reason(
        "M",
        "fitted by us, not proved: every height of the table comes out with 50.9 psf, 0.9 psf more than 40 + 10, as if "
        "beam and post were weighed, too; its source is not known.",
        [_POST],
        [Basis.IRC],
        _more_on_posts,
    ),
    _reason(
        "L",
        "the table's spans are 3 in. less than those of IRC R507.5, which are counted as ours are; the guide does not "
        "say why.",
        [_BEAM],
        [Basis.DCA6],
        _less_3_in,
    ),
)
