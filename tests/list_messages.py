"""Lists every message, note, remedy, label and name that a person reads, from the sources of the core.

`python tests/list_messages.py > tests/data/messages.txt`; a test holds that file current.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
CORE: Final = ROOT / "pycore"

#: A place of a template with its conversion or format, which say nothing to a reader.
FORMAT: Final = re.compile(r"\{(\w+)(?:![rs])?(?::[^{}]*)?\}")

#: Keywords whose values are read by people, wherever they stand.
KEYWORDS: Final = ("message", "remedy", "said", "expected", "got", "label", "help", "description")

#: Functions whose texts are read, without keywords; their names are our own.
CALLS: Final = {"_note", "output_note", "_left_out", "_stop", "_fault", "_wrong", "print", "parts.append"}

#: Tables of words: the names of module constants.
TABLES: Final = {
    "CAUTIONS",
    "COMMANDS",
    "DESCRIPTION",
    "EXAMPLE",
    "EXPECT",
    "FIELD_NAMES",
    "FILL_NAMES",
    "FIRST",
    "ILLUSTRATION",
    "ILLUSTRATIVE_LABEL",
    "SCREEN",
    "SEVERITY_WORDS",
    "_FAULTS",
    "_FILLS",
    "_FINISHES",
    "_KINDS",
    "_KIND_NAMES",
    "_NAMES",
    "_OTHER_NAMES",
    "_REASONS",
    "_REMEDY",
    "_STILL_CUTS",
}

#: Functions that make lines of text for the command line or the client.
SPEAKING: Final = {
    *("_prose", "_verdict", "_table", "_tables", "_fits", "_face_words", "_sheet_words", "_group_lines"),
    *("_shorter", "_shortfall", "_more_pixels", "intent_advice", "stages_of", "piece_facts", "answer_lines"),
    *("load_words", "print_steps", "colour_rows", "coat_steps", "square_steps", "staple_steps", "hang_steps"),
    *("fold_rows", "cut_words", "fold_steps", "size_rows", "weight_rows", "_ratings"),
}


def shown(node: ast.expr) -> Iterator[str]:
    """The texts in an expression, what is worked out shown as `{…}`."""
    match node:
        case ast.Constant(value=str(text)):
            yield text
        case ast.JoinedStr(values=parts):
            yield "".join(
                "{" + ast.unparse(part.value) + "}" if isinstance(part, ast.FormattedValue) else _text(part)
                for part in parts
            )
        case ast.BinOp(left=left, right=right):
            yield from shown(left)
            yield from shown(right)
        case ast.IfExp(body=body, orelse=other):
            yield from shown(body)
            yield from shown(other)
        case ast.Tuple(elts=items) | ast.List(elts=items):
            for item in items:
                yield from shown(item)
        case ast.Dict(values=values):
            for value in values:
                yield from shown(value)
        case ast.Call(func=ast.Name(id="say" | "mark"), args=[template, *_], keywords=given):
            for text in shown(template):
                yield FORMAT.sub(r"{\1}", text)
            for one in given:
                yield from shown(one.value)
        case ast.Call(args=arguments):
            for argument in arguments:
                yield from shown(argument)
        case _:
            return


def _text(part: ast.expr) -> str:
    return str(part.value) if isinstance(part, ast.Constant) else ""


def texts(path: Path) -> Iterator[tuple[int, str, str]]:
    """What people read of one source: line, kind, text."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            for word in node.keywords:
                if word.arg in KEYWORDS:
                    for text in shown(word.value):
                        yield word.value.lineno, word.arg, text
            name = ast.unparse(node.func)
            if name in CALLS:
                for argument in node.args:
                    for text in shown(argument):
                        if " " in text:
                            yield argument.lineno, name.strip("_"), text
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            names = {one.id for one in targets if isinstance(one, ast.Name)}
            if node.value is not None and names & TABLES:
                for text in shown(node.value):
                    yield node.lineno, min(names), text
        elif isinstance(node, ast.FunctionDef) and node.name in SPEAKING:
            yield from spoken(node)


def spoken(function: ast.FunctionDef) -> Iterator[tuple[int, str, str]]:
    """The sentences of a function that makes lines of text; its docstring is none of them."""
    inner: set[int] = set()
    for node in ast.walk(
        ast.Module(body=function.body[bool(ast.get_docstring(function)) :], type_ignores=[])
    ):
        if id(node) in inner:
            continue
        if isinstance(node, ast.JoinedStr):
            inner.update(id(part) for part in ast.walk(node) if part is not node)
        if isinstance(node, ast.JoinedStr | ast.Constant):
            for text in shown(node):
                if " " in text.strip():
                    yield node.lineno, function.name, text


def listing() -> str:
    """Every text, by file, each once."""
    lines = ["Every message that a person reads from the core, by source; made by tests/list_messages.py."]
    for path in sorted(CORE.rglob("*.py")):
        seen: dict[str, str] = {}
        for _, kind, text in sorted(texts(path)):
            plain = " ".join(text.split())
            if any(letter.isalpha() for letter in plain):
                seen.setdefault(plain, kind)
        if seen:
            lines += ["", path.relative_to(ROOT).as_posix()]
            lines += [f"  {kind}: {text}" for text, kind in seen.items()]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    sys.stdout.write(listing())
