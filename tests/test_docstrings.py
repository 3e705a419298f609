"""Every public function of the core says what it takes, gives and raises."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Documented:
    """A public function or method with arguments, and the sections of its docstring.

    Attributes
    ----------
    name : str
        The file and the qualified name.
    node : ast.FunctionDef or ast.AsyncFunctionDef
    sections : dict
        The lines of each section, by its title.
    """

    name: str
    node: Function
    sections: dict[str, list[str]]

    def entries(self, section: str) -> set[str]:
        """The names that a section lists before their types."""
        heads = [line for line in self.sections.get(section, []) if line and not line.startswith(" ")]
        return {name.strip().lstrip("*") for line in heads for name in line.partition(" : ")[0].split(",")}


def arguments(node: Function) -> list[str]:
    """The names of a function's arguments, without `self` and `cls`."""
    given = node.args
    rest = [one for one in (given.vararg, given.kwarg) if one is not None]
    names = [one.arg for one in (*given.posonlyargs, *given.args, *given.kwonlyargs, *rest)]
    return [name for name in names if name not in ("self", "cls")]


def sections_of(docstring: str) -> dict[str, list[str]]:
    """The sections of a numpy-style docstring, the underlines left out."""
    sections: dict[str, list[str]] = {}
    current: list[str] = []
    lines = docstring.splitlines()
    for line, following in zip(lines, [*lines[1:], ""], strict=True):
        if line.strip() and set(line.strip()) == {"-"}:
            continue
        if following.strip() and set(following.strip()) == {"-"}:
            current = sections.setdefault(line.strip(), [])
        else:
            current.append(line)
    return sections


def documented(tree: ast.Module, file: str) -> Iterator[Documented]:
    """The public functions with arguments of a module, methods of public classes included."""
    for node in tree.body:
        inside = node.body if isinstance(node, ast.ClassDef) and not node.name.startswith("_") else [node]
        for one in inside:
            if isinstance(one, Function) and not one.name.startswith("_") and arguments(one):
                name = one.name if one is node else f"{getattr(node, 'name', '')}.{one.name}"
                yield Documented(f"{file}: {name}", one, sections_of(ast.get_docstring(one) or ""))


def core() -> list[Documented]:
    """All of the core's."""
    files = sorted((ROOT / "pycore").rglob("*.py"))
    return [
        one
        for file in files
        for one in documented(ast.parse(file.read_bytes()), file.relative_to(ROOT).as_posix())
    ]


def returns_nothing(node: Function) -> bool:
    """Whether the annotation says that nothing comes back."""
    return isinstance(node.returns, ast.Constant) and node.returns.value is None


def own_statements(node: Function) -> Iterator[ast.AST]:
    """All nodes of a function's body but those of functions and classes inside it."""
    waiting: list[ast.AST] = list(node.body)
    while waiting:
        one = waiting.pop()
        if not isinstance(one, Function | ast.ClassDef | ast.Lambda):
            yield one
            waiting.extend(ast.iter_child_nodes(one))


def raised(node: Function) -> set[str]:
    """The names of what a function raises by its own statements: classes, or functions that make errors."""
    found = set()
    for one in own_statements(node):
        if isinstance(one, ast.Raise) and one.exc is not None:
            made = one.exc.func if isinstance(one.exc, ast.Call) else one.exc
            found.add(made.id if isinstance(made, ast.Name) else getattr(made, "attr", "an error"))
    return found


def error_classes() -> set[str]:
    """The names of the core's errors."""
    tree = ast.parse((ROOT / "pycore" / "errors.py").read_bytes())
    return {node.name for node in tree.body if isinstance(node, ast.ClassDef)}


def faults(functions: list[Documented]) -> list[str]:
    """One line for each section or name that a docstring lacks."""
    errors = error_classes()
    found = []
    for one in functions:
        missing = [name for name in arguments(one.node) if name not in one.entries("Parameters")]
        if missing:
            found.append(f"{one.name}: Parameters lacks {', '.join(missing)}")
        if not returns_nothing(one.node) and not {"Returns", "Yields"} & one.sections.keys():
            found.append(f"{one.name}: neither Returns nor Yields")
        by_statement = raised(one.node)
        unnamed = (by_statement & errors) - one.entries("Raises")
        if unnamed:
            found.append(f"{one.name}: Raises lacks {', '.join(sorted(unnamed))}")
        elif by_statement and "Raises" not in one.sections:
            found.append(f"{one.name}: raises {', '.join(sorted(by_statement))}, and has no Raises")
    return found


def test_public_functions_say_what_they_take_give_and_raise() -> None:
    functions = core()
    # derived: the tasks, which people call first, are among them.
    assert {"pycore/tasks/layout.py: lay_out", "pycore/fold/rigid.py: Rigid.apply"} <= {
        one.name for one in functions
    }
    assert faults(functions) == []


@pytest.mark.parametrize(
    ("source", "says"),
    [
        (
            'def f(a, b) -> None:\n    """F.\n\n    Parameters\n    ----------\n    a : int\n    """',
            "lacks b",
        ),
        ('def f(a) -> int:\n    """F.\n\n    Parameters\n    ----------\n    a : int\n    """', "neither"),
        (
            'def f(a) -> None:\n    """F.\n\n    Parameters\n    ----------\n    a : int\n    """\n'
            '    raise FieldError(field="a")',
            "Raises lacks FieldError",
        ),
        (
            'def f(a) -> None:\n    """F.\n\n    Parameters\n    ----------\n    a : int\n    """\n'
            "    raise _wrong(a)",
            "raises _wrong, and has no Raises",
        ),
        ('class C:\n    def f(self, a) -> None:\n        """F."""', "Parameters lacks a"),
    ],
)
def test_what_is_missing_is_named(source: str, says: str) -> None:
    (fault,) = faults(list(documented(ast.parse(source), "f.py")))
    assert says in fault


def test_a_whole_docstring_passes() -> None:
    source = (
        'def f(a, *b, c) -> int:\n    """F.\n\n    Parameters\n    ----------\n    a, *b, c : int\n\n'
        "    Returns\n    -------\n    int\n\n    Raises\n    ------\n    FieldError, ProfileError\n"
        '        Always.\n    """\n    raise FieldError(field="a")'
    )
    assert faults(list(documented(ast.parse(source), "f.py"))) == []
