"""A short look at a candidate: joists, beams and posts under gravity alone, which a full set of checks only adds to."""

from __future__ import annotations

from bolewright.changes.change import Data
from bolewright.platform.checks.footings import footing_checks
from bolewright.platform.checks.members import bending_checks, deflection_checks, look_of, shear_checks
from bolewright.platform.checks.posts import post_checks
from bolewright.platform.file.reading import find_faults
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.limit_states.state import MAKER, RATED
from bolewright.platform.loads.load_path import find_load_path
from bolewright.sizing.look import Name, name_of
from bolewright.status import Status


def fails_under_gravity(data: Data, *, footings: bool = False) -> frozenset[Name]:
    """Checks that fail before anything lateral is looked at; with the footings' own where asked.

    Empty says nothing; what fails here fails in the full set of checks too. Raises LayoutError.
    """
    project, _ = find_faults(data)
    if project is None:
        raise LayoutError("the file can't be read")
    path = find_load_path(find_layout(project))
    joists, beams = (
        [look_of(path, member) for member in members] for members in (path.layout.joists, path.layout.beams)
    )
    checks: list[Check] = [*post_checks(path), *(footing_checks(path) if footings else ())]
    for looks in (joists, beams):
        checks += bending_checks(looks, sagging=True)
        checks += bending_checks(looks, sagging=False)
        checks += shear_checks(looks)
        checks += deflection_checks(looks)
    fields = {m.mark: m.field or "" for m in path.layout.joists}
    fails = (c for c in checks if c.status is Status.FAILS)
    return frozenset(name_of(c, fields) for c in fails if c.clause not in (RATED, MAKER))
