"""Bolewright: calculation sheets for raised timber platforms on tree bolts and posts."""

import os

# The matrices of a platform are small: several BLAS threads only wait for each other, six times slower on a
# busy machine. A value the user has set stands.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

__version__ = "0.1.0"
