"""A package's folder as one transaction: locked, written whole in a folder beside it, then swapped in.

Beside ``build`` stand for a moment ``.build.bolewright-lock``, ``.build.bolewright-new`` (being written) and
``.build.bolewright-old`` (the package before, set aside while the new one takes its name). A run that is cut off leaves
either the old package or the new one whole; the next run puts an old one back that was set aside, and clears the rest.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from bolewright.documents.content import PackageError
from bolewright.documents.locking import Busy, locked
from bolewright.documents.manifest import (
    MANIFEST,
    Listed,
    NotOurs,
    Sorted,
    manifest_of,
    sort_files,
)
from bolewright.signs import hidden_sign, plain

KEPT = "Kept: "  # before what the command says of files that stayed as the user left them


class FolderError(PackageError):
    """A folder that the package can't be written into; one sentence."""


@dataclass(frozen=True)
class Written:
    """What was written: each file by the name it was meant to have, and what of the user's stayed."""

    paths: Mapping[str, Path]
    changed: tuple[str, ...] = ()
    own: int = 0

    @property
    def said(self) -> tuple[str, ...]:
        """In sentences, what stayed as the user left it."""
        lines = []
        for name in self.changed:
            new = self.paths.get(name)
            beside = f"the new one is {new.name}" if new else "a new package has none"
            lines.append(f"{name} is not as the program wrote it and stays as it is; {beside}.")
        if self.own:
            lines.append(f"{self.own} of your own files in the folder stay as they are.")
        return tuple(lines)


class PackageFolder:
    """A folder taken for one package; made by :func:`package_folder`."""

    def __init__(self, shown: Path, place: Path) -> None:
        self.shown, self.place = shown, place
        self.new, self.old = _beside(place, "new"), _beside(place, "old")

    def write(self, files: Mapping[str, bytes]) -> Written:
        """Put ``files`` (names with ``/`` lie in folders) into the folder: all of them or, with a FolderError, none.

        What an earlier package left there goes, as it was listed and has the bytes written then. What is the user's
        stays: under a name of the new package, the new one is written beside it as ``NAME.new``.
        """
        try:
            found = self._sorted(files)
            self._refuse_blocked(files, found)
            self.new.mkdir()
            if self.place.exists():
                shutil.copystat(self.place, self.new)
            self._carry(found)
            names = {name: _free(name, found.kept) for name in files}
            stored = {names[name]: data for name, data in files.items()}
            stored[MANIFEST] = manifest_of(stored)
            for name, data in stored.items():
                _write(self.new / name, data)
            self._swap()
        except OSError as error:
            raise _unwritable(self.shown, error) from error
        finally:
            shutil.rmtree(self.new, ignore_errors=True)  # there is none after the swap
        return Written({name: self.shown / names[name] for name in files}, found.changed, found.own)

    def _sorted(self, files: Mapping[str, bytes]) -> Sorted:
        """What in the folder is the user's; FolderError where that can't be told."""
        try:
            return sort_files(self.place, files)
        except NotOurs as error:
            raise FolderError(
                f"{self.shown / MANIFEST} is no list of a package's files, so they can't be told from your own "
                f"({error}): move it away, or give another folder"
            ) from error

    def _refuse_blocked(self, files: Mapping[str, bytes], found: Sorted) -> None:
        """FolderError where a folder of the user's has a file's name, or the other way round."""
        for name in files:
            if name in found.folders:
                raise FolderError(
                    f"{self.shown / name} is a folder, a file of that name is to be written there"
                )
            above = next((p.as_posix() for p in Path(name).parents if p.as_posix() in found.kept), "")
            if above:
                raise FolderError(
                    f"{self.shown / above} is a file, a folder of that name is to be made there"
                )

    def _carry(self, found: Sorted) -> None:
        """The user's folders and files under the same names in the new folder."""
        for name in found.folders:
            (self.new / name).mkdir(parents=True, exist_ok=True)
        for name in found.kept:
            target = self.new / name
            target.parent.mkdir(parents=True, exist_ok=True)
            try:
                os.link(self.place / name, target, follow_symlinks=False)
            except OSError:  # a drive without links
                shutil.copy2(self.place / name, target, follow_symlinks=False)
        for name in found.folders:
            shutil.copystat(self.place / name, self.new / name)

    def _swap(self) -> None:
        """The new folder takes the name; the old one stands aside until then."""
        _sync(self.new)
        if self.place.exists():
            self.place.rename(self.old)
        try:
            self.new.rename(self.place)
        except BaseException:
            if self.old.exists() and not self.place.exists():
                self.old.rename(self.place)
            raise
        _sync(self.place.parent)
        shutil.rmtree(self.old, ignore_errors=True)  # what is left of it, the next run clears

    def recover(self) -> None:
        """Put back what a run that was cut off had set aside, and clear what it left."""
        if self.old.exists() and not self.place.exists():
            self.old.rename(self.place)
        elif (
            self.old.exists() and self.new.exists()
        ):  # cut off in the swap, and somebody made the folder anew
            _merge(self.old, self.place)
        for litter in (self.old, self.new):
            if litter.is_dir() and not litter.is_symlink():
                shutil.rmtree(litter)


@contextmanager
def package_folder(out_dir: Path, apart_from: Sequence[Path] = ()) -> Iterator[PackageFolder]:
    """Take a folder for one package, locked until the block ends; nothing stays of it when nothing is written.

    ``apart_from`` are files that must not lie in it. Raises :class:`FolderError` for a folder that can't be written,
    that another run is writing, or that is not the package's own to swap.
    """
    place = _own_place(out_dir, apart_from)
    made = [folder for folder in place.parents if not folder.exists()]
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with locked(_beside(place, "lock")):
            folder = PackageFolder(out_dir, place)
            folder.recover()
            folder._sorted({})  # said at once, not after a minute's work
            yield folder
    except Busy:
        raise FolderError(f"another package is being written into {out_dir}: wait until it is done") from None
    except OSError as error:
        raise _unwritable(out_dir, error) from error
    finally:
        for folder_made in made:
            with suppress(OSError):
                folder_made.rmdir()  # stays where anything is in it


def _own_place(out_dir: Path, apart_from: Sequence[Path]) -> Path:
    """Where a package's folder really is; FolderError for one that is not its own."""
    if sign := hidden_sign(str(out_dir)):
        raise FolderError(
            f"{plain(str(out_dir))} holds a sign that can't be printed, number {ord(sign)}: give it another name"
        )
    try:
        place = out_dir.resolve()
        there = next(folder for folder in (place, *place.parents) if folder.exists())
        if not there.is_dir():
            raise FolderError(
                f"the folder {out_dir} can't be written: {there} is a file, so give another folder"
            )
        if place.exists() and not os.access(place, os.W_OK):
            raise FolderError(f"the folder {out_dir} can't be written: Permission denied")
        at_work = Path.cwd().resolve()
        if place == at_work or place in at_work.parents or os.path.ismount(place):
            raise FolderError(
                f"{out_dir} is no folder of the package's own: it is swapped as a whole, so give one in it, "
                f"such as {out_dir / 'build'}"
            )
        for path in apart_from:
            if place in path.resolve().parents:
                raise FolderError(
                    f"{out_dir} holds {path.name}, and a package has a folder of its own: give another, "
                    f"such as {out_dir / 'build'}"
                )
    except (OSError, RuntimeError) as error:  # a loop of links
        raise _unwritable(out_dir, error) from error
    return place


def _unwritable(shown: Path, error: OSError | RuntimeError) -> FolderError:
    why = getattr(error, "strerror", None) or error
    return FolderError(f"the folder {shown} can't be written: {why}")


def _beside(place: Path, what: str) -> Path:
    return place.with_name(f".{place.name}.bolewright-{what}")


def _free(name: str, kept: Listed) -> str:
    """A name that no file of the user's has: itself, NAME.new, NAME.new-2 and so on."""
    tries = [name, f"{name}.new", *(f"{name}.new-{n}" for n in range(2, len(kept) + 3))]
    return next(each for each in tries if each not in kept)


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _sync(folder: Path) -> None:
    """The names in a folder on the disk, where the system lets a folder be opened."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _merge(source: Path, target: Path) -> None:
    """Move what a folder has and another has not."""
    for path in sorted(source.rglob("*")):
        there = target / path.relative_to(source)
        if path.is_dir() and not path.is_symlink():
            there.mkdir(parents=True, exist_ok=True)
        elif not there.exists() and not there.is_symlink():
            path.rename(there)
