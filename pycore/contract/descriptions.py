"""The descriptions of the models' fields, read from the source text for the schemas.

A start needs no descriptions, and reading them back took a tenth of a second for each file of models. So the
models are made without, and whoever writes a schema asks for them here.
"""

from __future__ import annotations

import ast
import inspect
import sys
from functools import lru_cache
from typing import Any

from pydantic import BaseModel


def field_descriptions(model: type[BaseModel]) -> dict[str, str]:
    """The text that stands under each field of a model, its bases' fields included.

    Parameters
    ----------
    model : type of model

    Returns
    -------
    dict
        By the field's name; fields without a text are left out.

    Examples
    --------
    >>> from pycore.contract.job import Colour
    >>> field_descriptions(Colour)["clip_threshold_de"]
    'From which difference (CIEDE2000) on a colour counts as outside the gamut.'
    """
    found: dict[str, str] = {}
    for base in reversed(model.__mro__):
        if base.__module__.startswith("pycore."):
            found |= _module_descriptions(base.__module__).get(base.__name__, {})
    return {name: text for name, text in found.items() if name in model.model_fields}


def describe_fields(schema: dict[str, Any], models: dict[str, type[BaseModel]]) -> None:
    """Put the descriptions of fields into a schema, in place.

    Parameters
    ----------
    schema : dict
        JSON Schema whose `$defs`, and which itself, are titled by the models' names.
    models : dict
        By those names.
    """
    for node in (schema, *schema.get("$defs", {}).values()):
        model = models.get(node.get("title", ""))
        if model is None:
            continue
        for name, text in field_descriptions(model).items():
            node["properties"][name].setdefault("description", text)


def models_by_name(base: type[BaseModel] = BaseModel) -> dict[str, type[BaseModel]]:
    """Find every model of the core that has been imported.

    Parameters
    ----------
    base : type of model
        Whose subclasses to look at.

    Returns
    -------
    dict
        By their names.
    """
    found: dict[str, type[BaseModel]] = {}
    for model in base.__subclasses__():
        if model.__module__.startswith("pycore."):
            found[model.__name__] = model
        found |= models_by_name(model)
    return found


@lru_cache(maxsize=64)
def _module_descriptions(module: str) -> dict[str, dict[str, str]]:
    """For each class of a module, the texts that stand as strings under its fields."""
    tree = ast.parse(inspect.getsource(sys.modules[module]))
    return {node.name: _class_descriptions(node) for node in tree.body if isinstance(node, ast.ClassDef)}


def _class_descriptions(node: ast.ClassDef) -> dict[str, str]:
    found = {}
    for field, under in zip(node.body, node.body[1:], strict=False):
        match field, under:
            case (
                ast.AnnAssign(target=ast.Name(id=name)),
                ast.Expr(value=ast.Constant(value=str(text))),
            ):
                found[name] = inspect.cleandoc(text)
    return found
