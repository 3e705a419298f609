"""Templates with named places, and their cases: a small part of ICU MessageFormat.

`{width_mm:.1f}` is a value with Python's format; `{count, plural, one {a sheet} other {{count} sheets}}` and
`{loaded, select, roll {the roll} other {the sheet}}` choose by a value. Doubled braces are braces.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final, NamedTuple, TypeAlias


class Value(NamedTuple):
    """A place for a value."""

    name: str
    conversion: str
    format: str


class Cases(NamedTuple):
    """A choice among texts by a value."""

    name: str
    kind: str
    texts: Mapping[str, tuple[Node, ...]]


Node: TypeAlias = "str | Value | Cases"

_VALUE: Final = re.compile(r"\{(\w+)(?:!([rs]))?(?::([^{}]*))?\}")
_CASES: Final = re.compile(r"\{(\w+), (plural|select),")
_CASE: Final = re.compile(r"\s*([^\s{}]+) \{")
_PLAIN: Final = re.compile(r"[^{}]+|\{\{|\}\}")


@functools.lru_cache(maxsize=4096)
def parsed(template: str) -> tuple[Node, ...]:
    """Take a template apart.

    Parameters
    ----------
    template : str

    Returns
    -------
    tuple of str, Value or Cases

    Raises
    ------
    ValueError
        A brace stands where none is meant.

    Examples
    --------
    >>> parsed("{width_mm:.1f} mm")
    (Value(name='width_mm', conversion='', format='.1f'), ' mm')
    """
    nodes, end = _nodes(template, 0)
    if end != len(template):
        raise ValueError(f"a brace too many at {end} of {template!r}")
    return nodes


def _nodes(text: str, at: int, *, inside: bool = False) -> tuple[tuple[Node, ...], int]:
    nodes: list[Node] = []
    while at < len(text):
        # In a case the first closing brace is its end; two of them end the choice too.
        if text[at] == "}" and (inside or not text.startswith("}}", at)):
            break
        if found := _VALUE.match(text, at):
            name, conversion, spec = found.groups()
            nodes.append(Value(name, conversion or "", spec or ""))
        elif found := _CASES.match(text, at):
            cases, at = _cases(text, found.end())
            nodes.append(Cases(found[1], found[2], cases))
            continue
        elif found := _PLAIN.match(text, at):
            nodes.append(found[0][0] if found[0] in ("{{", "}}") else found[0])
        else:
            break
        at = found.end()
    return tuple(nodes), at


def _cases(text: str, at: int) -> tuple[dict[str, tuple[Node, ...]], int]:
    cases: dict[str, tuple[Node, ...]] = {}
    while found := _CASE.match(text, at):
        inner, at = _nodes(text, found.end(), inside=True)
        if not text.startswith("}", at):
            raise ValueError(f"a case without its end in {text!r}")
        cases[found[1]] = inner
        at += 1
        # The brace that ends the last case and the one that ends the choice are two single ones.
        if text.startswith("}", at):
            if "other" not in cases:
                raise ValueError(f"a choice without “other” in {text!r}")
            return cases, at + 1
    raise ValueError(f"a choice without its end in {text!r}")


def fill(
    nodes: tuple[Node, ...], values: Mapping[str, object], shown: Callable[[object, str, str], str]
) -> str:
    """Put values into a template.

    Parameters
    ----------
    nodes : tuple
        From `parsed`.
    values : mapping
        Each value by its place's name.
    shown : function
        Makes a value's text, from the value, its conversion and its format.

    Returns
    -------
    str

    Examples
    --------
    >>> sheets = parsed("{count, plural, one {a sheet} other {{count} sheets}}")
    >>> [fill(sheets, {"count": count}, lambda value, *_: str(value)) for count in (1, 2)]
    ['a sheet', '2 sheets']
    """
    return "".join(_filled(nodes, values, shown))


def _filled(
    nodes: tuple[Node, ...], values: Mapping[str, object], shown: Callable[[object, str, str], str]
) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, str):
            yield node
        elif isinstance(node, Value):
            yield shown(values[node.name], node.conversion, node.format)
        else:
            value = values[node.name]
            case = ("one" if value == 1 else "other") if node.kind == "plural" else case_of(value)
            yield from _filled(node.texts.get(case, node.texts["other"]), values, shown)


def case_of(value: object) -> str:
    """The case that a value chooses.

    Parameters
    ----------
    value : object

    Returns
    -------
    str
        Its English text, and `yes` or `no` for a truth.

    Examples
    --------
    >>> case_of("roll"), case_of(True)
    ('roll', 'yes')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(getattr(value, "key", value))


def names(nodes: tuple[Node, ...]) -> set[str]:
    """The names of a template's places.

    Parameters
    ----------
    nodes : tuple
        From `parsed`.

    Returns
    -------
    set of str

    Examples
    --------
    >>> sorted(names(parsed("{a} of {b, select, x {{c}} other {}}")))
    ['a', 'b', 'c']
    """
    found: set[str] = set()
    for node in nodes:
        if isinstance(node, Value):
            found.add(node.name)
        elif isinstance(node, Cases):
            found.add(node.name)
            for inner in node.texts.values():
                found |= names(inner)
    return found
