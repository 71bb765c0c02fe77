"""Bolewright: calculation sheets for raised timber platforms on tree bolts and posts.

    from bolewright import Q, check, open_project, package          # a project file
    from bolewright import timber, fasteners, tree, ground, mechanics    # the engineering functions by subject

``Q("7' 2 1/2\\"")`` and ``Q("40 psf")`` are quantities (pint's) that every formula takes, and so do fasteners, own
values, span tables and beams; several at once are one array with its unit, ``numpy.array([5.5, 7.25]) * Q("1 in")``.
``open_part("beam")`` is the sheet of one part; ``@formula("its source")`` makes a formula of one's own, its values
typed as in ``bolewright.units``.
"""

import os
from typing import TYPE_CHECKING, Any

# The matrices of a platform are small: several BLAS threads only wait for each other, six times slower on a
# busy machine. A value the user has set stands.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

__version__ = "0.6.0"

if TYPE_CHECKING:
    from bolewright import fasteners, ground, mechanics, timber, tree
    from bolewright.api import Checked, CheckRecord, OpenProject, Q, check, open_project, package
    from bolewright.documents.content import PackageError
    from bolewright.formulas import DimensionError, formula
    from bolewright.part_sheets.notebook import open_part
    from bolewright.platform.file.reading import ProjectError
    from bolewright.platform.layout.layout import LayoutError
    from bolewright.platform.results.results_schema import results_schema
    from bolewright.units import ReadError

__all__ = [
    "CheckRecord",
    "Checked",
    "DimensionError",
    "LayoutError",
    "OpenProject",
    "PackageError",
    "ProjectError",
    "Q",
    "ReadError",
    "check",
    "fasteners",
    "formula",
    "ground",
    "mechanics",
    "open_part",
    "open_project",
    "package",
    "results_schema",
    "timber",
    "tree",
]

_SUBJECTS = {"fasteners", "ground", "mechanics", "timber", "tree"}
_ELSEWHERE = {
    "DimensionError": "bolewright.formulas",
    "LayoutError": "bolewright.platform.layout.layout",
    "PackageError": "bolewright.documents.content",
    "ProjectError": "bolewright.platform.file.reading",
    "ReadError": "bolewright.units",
    "formula": "bolewright.formulas",
    "open_part": "bolewright.part_sheets.notebook",
    "results_schema": "bolewright.platform.results.results_schema",
}


def __getattr__(name: str) -> Any:
    """What is asked for is imported then: the command line starts without loading all of it."""
    from importlib import import_module

    if name in _SUBJECTS:
        return import_module(f"bolewright.{name}")
    if name in __all__:
        return getattr(import_module(_ELSEWHERE.get(name, "bolewright.api")), name)
    for subject in sorted(_SUBJECTS) if not name.startswith("_") else ():
        room = import_module(f"bolewright.{subject}")
        if name in room.__all__:  # an engineering function is found without its subject, too
            return getattr(room, name)
    raise AttributeError(f"module 'bolewright' has no attribute {name!r}")


def __dir__() -> list[str]:
    return [*__all__, "__version__"]


def load_ipython_extension(shell: Any) -> None:
    """What ``%load_ext bolewright`` does in a notebook: the cell magic ``%%worked``."""
    from bolewright.worked.magic import register

    register(shell)
