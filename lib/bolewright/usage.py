"""Words for a command line that makes no sense: one sentence each, in place of argparse's own."""

from __future__ import annotations

import argparse
import difflib
import re
import sys
from collections.abc import Callable, Iterable
from typing import NoReturn

from bolewright.signs import plain, sentence

_NEAR = 0.6
_NEAR_OPTION = 0.75  # without the dashes, which all options share


class Parser(argparse.ArgumentParser):
    """A parser that refuses in one plain sentence and exits 2."""

    def error(self, message: str) -> NoReturn:
        """Say what is wrong, and where help is; exit 2."""
        help_is = f"{self.prog} --help shows how it is used."
        print(f"{self.prog}: {plain(_in_words(message, self))}. {help_is}", file=sys.stderr)
        sys.exit(2)


def _in_words(message: str, parser: argparse.ArgumentParser) -> str:
    for pattern, words in _WORDS:
        if match := re.fullmatch(pattern, message, re.DOTALL):
            return words(match, parser)
    return message.rstrip(".")


def _required(match: re.Match[str], parser: argparse.ArgumentParser) -> str:
    if match[1] == "COMMAND":
        return f"a command is wanted: {_or(_commands(parser))}"
    return f"{match[1]} is wanted and not given"


def _no_choice(match: re.Match[str], parser: argparse.ArgumentParser) -> str:
    name, given = match[1].split("/")[-1], match[2]
    choices = re.findall(r"[^\s,']+", match[3])
    if name == "COMMAND":
        return (
            f"there is no command {given!r}; {_nearest(given, choices)}the commands are {', '.join(choices)}"
        )
    return f"{name} is {given!r}, but {_or(choices)} is wanted"


def _unknown(match: re.Match[str], parser: argparse.ArgumentParser) -> str:
    first = match[1].split()[0]
    if not first.startswith("-"):
        return f"{first!r} is one argument too many; a path with spaces stands in quotes"
    option = first.partition("=")[0]
    known = [name.lstrip("-") for name in _options(parser)]
    near = difflib.get_close_matches(option.lstrip("-"), known, n=1, cutoff=_NEAR_OPTION)
    return f"there is no option {option}{f'; the nearest is --{near[0]}' if near else ''}"


def _nearest(given: str, known: Iterable[str]) -> str:
    near = difflib.get_close_matches(given, list(known), n=1, cutoff=_NEAR)
    return f"the nearest is {near[0]}; " if near else ""


def _or(words: Iterable[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} or {last}" if first else last


def _subparsers(parser: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    return {
        name: sub
        for action in parser._actions
        if isinstance(action, argparse._SubParsersAction)
        for name, sub in action.choices.items()
    }


def _commands(parser: argparse.ArgumentParser) -> list[str]:
    return list(_subparsers(parser))


def _options(parser: argparse.ArgumentParser) -> list[str]:
    parsers = (parser, *_subparsers(parser).values())
    return [option for each in parsers for action in each._actions for option in action.option_strings]


Words = Callable[[re.Match[str], argparse.ArgumentParser], str]
_WORDS: tuple[tuple[str, Words], ...] = (
    (r"the following arguments are required: (.+)", _required),
    (r"argument (\S+): invalid choice: '?(.*?)'? \(choose from (.*)\)", _no_choice),
    (r"unrecognized arguments: (.+)", _unknown),
    (r"argument (\S+): expected one argument", lambda m, p: f"{m[1]} wants a value after it"),
    (r"argument (\S+): invalid float value: (.+)", lambda m, p: f"{m[1]} is {m[2]}, but a number is wanted"),
    (
        r"argument (\S+): ignored explicit argument (.+)",
        lambda m, p: f"{m[1]} takes no value, such as {m[2]}",
    ),
    (r"argument (\S+): ('.* is wanted)", lambda m, p: f"{m[1]}: {m[2]}"),
    (
        r"ambiguous option: (\S+) could match (.+)",
        lambda m, p: f"{m[1]} may mean {_or(m[2].split(', '))}: write it out",
    ),
)


def refuse(*sentences: str) -> int:
    """Say what can't be done, a sentence each, apart from the results; the exit status for it."""
    for words in sentences:
        print(sentence(words), file=sys.stderr)
    return 2
