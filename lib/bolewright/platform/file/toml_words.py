"""What is wrong with a text that is no TOML, in words a builder can act on."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from bolewright.platform.file.fault_words import header
from bolewright.units import shown

_AT = re.compile(
    r"(?P<what>.*) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)", re.DOTALL
)
_SWITCH = {"yes": "true", "true": "true", "on": "true", "no": "false", "false": "false", "off": "false"}
_CURLY = re.compile("[“”„‟«»‘’]")
_TRIPLE = re.compile(r"\"{3}|'{3}")
_CLOSING = re.compile(r"[\s\])},]*[\])}][\s\])},]*")
_TEXTS = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'[^']*'|#.*")
_HEADER = re.compile(r"\s*(\[+(?P<name>[^\]]*)\]+)")


class TomlFault(NamedTuple):
    """Where the text stops being TOML, and why; ``line`` None when the place is not known."""

    line: int | None
    message: str


def toml_fault(text: str, error: ValueError) -> TomlFault:
    """The fault that tomllib found, in plain words."""
    match = _AT.fullmatch(str(error))
    if match is None:
        return TomlFault(None, "it holds a number or a date that can't be read")
    lines = text.splitlines() or [""]
    if match["line"] is None and (opened := [n for n, line in enumerate(lines, 1) if _TRIPLE.search(line)]):
        given = shown(lines[opened[-1] - 1].strip())
        return TomlFault(
            opened[-1], f"{given} has three quotes that nothing closes: write one quote at each end"
        )
    number = int(match["line"]) if match["line"] else len(lines)
    line = lines[min(number, len(lines)) - 1]
    what = match["what"]
    if "twice" in what or "overwrite" in what or "mutate" in what or "redefine" in what:
        return _twice(lines, number, what)
    start = _open_list(lines, number)
    if start and not _CLOSING.fullmatch(line):
        return _in_list(lines, start, number)
    return TomlFault(number, _of_line(line, what))


def _twice(lines: list[str], number: int, what: str) -> TomlFault:
    """A table or key that the file has already; the reader stands at the end of the line, or after it."""
    line = lines[number - 1]
    while number > 1 and not line.strip():
        number -= 1
        line = lines[number - 1]
    if match := _HEADER.match(line):
        return TomlFault(number, _header_twice(match, lines[: number - 1]))
    key = line.partition("=")[0].strip()
    return TomlFault(number, f"the key {shown(key[:40])} is given already in this table: keep one of the two")


def _header_twice(match: re.Match[str], above: list[str]) -> str:
    """What to write where a header does not go with one above it."""
    given, name = match[1], match["name"].strip()
    first = next(
        (n for n, line in enumerate(above, 1) if (m := _HEADER.match(line)) and m["name"].strip() == name),
        None,
    )
    where = f"in line {first} already" if first else "in the file already"
    wanted = header(name.partition(".")[0])
    if wanted.startswith("[["):
        return f"{given} stands {where}: write {wanted}, in double brackets, each time"
    return f"{given} stands {where}: put all its keys under one header"


def _open_list(lines: list[str], number: int) -> int:
    """Line on which the list begins that is open where a line begins, or that begins on it; 0 for none."""
    start = depth = 0
    for at, line in enumerate(lines[:number], start=1):
        bare = _TEXTS.sub("", line)
        if not depth:
            start, bare = at, bare.partition("=")[2]
        if at == number and (depth or bare.lstrip().startswith("[")):
            return start
        depth = max(0, depth + bare.count("[") - bare.count("]"))
    return 0


def _in_list(lines: list[str], start: int, number: int) -> TomlFault:
    """A list that is not closed, or lacks a comma or quotes; the reader stands where it wanted one of them."""
    key = lines[start - 1].partition("=")[0].strip()
    return TomlFault(
        number,
        f"the list {shown(key[:40])} of line {start} wants its texts in quotes, a comma between them, "
        "and ] after the last",
    )


def _of_line(line: str, what: str) -> str:
    key, equals, value = line.partition("=")
    key, value = key.strip(), _without_comment(value)
    given = shown(_without_comment(line))
    if match := re.match(r"\s*\[([\w-]+) +([\w-]+)\]", line):
        return f"{given} has a space in its name: write [{match[1]}.{match[2]}]"
    if _CLOSING.fullmatch(line):
        return f"{given} closes more than was opened: delete it"
    if (match := _HEADER.match(line)) and not match["name"].isascii():
        plain = unicodedata.normalize("NFKD", match["name"]).encode("ascii", "ignore").decode()
        offer = match[1].replace(match["name"], plain)
        return f"{given} has a letter beyond a to z in its name: write one without, such as {offer}"
    if re.match(r"\s*\[", line) and not equals:
        return f"{given} is no header of a table: write [name] or [[name]], closed by as many brackets"
    if "backslash" in what.lower() or "Unescaped" in what or "escape" in what.lower():
        return f"{given} has a backslash: write / in its place"
    if _CURLY.search(line) and ("=" in line):
        return (
            f"{given} has curly quotes: write straight ones, such as {key} = {_quoted(_CURLY.sub('', value))}"
        )
    if control := re.search(r"[\x00-\x08\x0b-\x1f\x7f]", line):
        return f"{given} holds a sign that no such file may have, number {ord(control[0])}: delete it"
    if not equals:
        return _no_equals(line, given)
    if re.match(r"//|--|;|/\*|%|REM ", key):
        return f"{given} is a remark, or none: write # before a remark"
    if not re.fullmatch(r"[\w.-]+|\"[^\"]*\"|'[^']*'", key):
        return f"{given} has the key {shown(key)}: write a key as one word, such as {_one_word(key)}"
    if not value:
        return f"{given} has no value: write one after the = sign"
    if value[0] == "=":
        return f"{given} has two = signs: write one"
    return _of_value(key, value, given)


def _no_equals(line: str, given: str) -> str:
    if match := re.match(r"\s*([\w-]+)\s*:\s*(.+)", line):
        return f"{given} has a colon: write {match[1]} = {_quoted(_without_comment(match[2]))}"
    return f"{given} is neither a header nor a key with its value: write key = value, or # before a remark"


def _of_value(key: str, value: str, given: str) -> str:
    if key == "date":
        return f"{given} is no date: write year, month and day such as date = 2026-11-25"
    if value.lower() in _SWITCH:
        return f"{given} has {shown(value)}: write {key} = {_SWITCH[value.lower()]}"
    if re.fullmatch(r"[\d:.T-]*\d{1,4}-\d{1,2}-\d{1,4}[\d:.TZ-]*|\d+/\d+/\d+|\d+\.\d+\.\d+", value):
        return f"{given} has no date of the calendar: write year, month and day such as {key} = 2026-11-25"
    if value[0] in "\"'" and value.count(value[0]) == 1:
        return f"{given} lacks the quote that closes it: write {key} = {_quoted(value[1:])}"
    if match := re.match(r"(\"[^\"]*\"|'[^']*')\s*([^\"']+)$", value):
        return (
            f"{given} has {shown(match[2])} after its text: write {key} = {match[1]}, and # before a remark"
        )
    if value[0] in "\"'" and not re.search(r"[0-9]\s?[\"']", value[1:-1]):
        return f"{given} has quotes within quotes: write one text, with no quotes inside it"
    if value[0] in "\"'":
        return (
            f"{given} has quotes within quotes: write feet and inches with ft and in, "
            f"such as {key} = {_quoted(value)}"
        )
    if re.fullmatch(r"[+-]?[\d_.,]+", value):
        return f"{given} has a number that can't be read: write it in plain digits with a point, such as 12.5"
    return f"{given} lacks quotes: write {key} = {_quoted(value)}"


def _quoted(value: str) -> str:
    """A value as text in quotes, its inch marks written as ``in``."""
    bare = value.strip()
    if re.fullmatch(r"[-+]?[0-9.]+|true|false|\[.*\]", bare):
        return bare
    if len(bare) > 1 and bare[0] in "\"'" and bare[-1] == bare[0]:
        bare = bare[1:-1]
    if re.search(r"[0-9]\s*['′]\s*[0-9]", bare):  # feet and inches
        bare = bare.rstrip('"″ ') + " in"
    text = re.sub(r"\s*\"", " in", bare)
    return f'"{text}"' if len(text) <= 60 else f'"{text[:40]}..."'


def _one_word(key: str) -> str:
    return re.sub(r"[^\w]+", "_", key.strip("\"' ")).strip("_") or "frost_depth"


def _without_comment(value: str) -> str:
    return re.sub(r"\s+#.*$", "", value).strip()
