"""The kernel that runs the calc sheets: this Python by its own command, closed against the user's own set-up.

Neither the kernel that the user's Jupyter calls ``python3``, nor a start-up file, nor a setting of IPython has a part
in it: the same sheets give the same outputs for every user. Run as a module it is that kernel.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from typing import Any

from jupyter_client.kernelspec import KernelSpec
from jupyter_client.manager import AsyncKernelManager

_NOT_HANDED_ON = (
    "PYTHONSTARTUP",
    "PYTHONINSPECT",
    "IPYTHONDIR",
    "IPYTHON_SUPPRESS_CONFIG_ERRORS",
    "JUPYTER_CONFIG_DIR",
)


class SealedKernel(AsyncKernelManager):
    """Starts this Python as the kernel, whatever kernels are installed.

    ``-P`` keeps a file of the user's folder, such as ``random.py``, from standing in for a library's while it starts.
    """

    @property
    def kernel_spec(self) -> KernelSpec:
        """Command of the kernel."""
        command = [sys.executable, "-P", "-m", "bolewright.documents.kernel", "-f", "{connection_file}"]
        return KernelSpec(argv=command, display_name="Python 3", language="python")


def sealed_environment() -> dict[str, str]:
    """The environment of the kernel: the user's, without what changes how Python or IPython start."""
    return {name: value for name, value in os.environ.items() if name not in _NOT_HANDED_ON}


def _run() -> None:
    """Be the kernel: an empty folder for IPython, which is gone once it has started, and no settings."""
    folder = tempfile.mkdtemp(prefix="bolewright-ipython-")
    os.environ["IPYTHONDIR"] = folder
    from ipykernel.kernelapp import IPKernelApp

    class Sealed(IPKernelApp):
        def load_config_file(self, *given: Any, **named: Any) -> None:
            """No settings from anywhere."""

        def _run_startup_files(self) -> None:
            """No start-up files from anywhere."""

    try:
        kernel: Any = Sealed.instance()
        kernel.initialize(sys.argv[1:])
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    kernel.start()


if __name__ == "__main__":
    _run()
