"""Writes the type stubs of theca and theca.si from the table that the extension exports.

    PYTHONPATH=<where theca is> make_stubs.py <package directory>
"""
from __future__ import annotations

import pathlib
import re
import sys

from theca import si
from theca._face import _ROOT_SKIPPED, _module_of
from theca._kinds import kind_of

TABLE = si._table
HEAD = "# Written by python/tools/make_stubs.py from the unit table; not to be edited.\n"
IMPORTS = """import enum
from collections.abc import Callable, Mapping, Sequence
from os import PathLike
from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray
"""


class Module:
    """One stub file: `name` is empty for the root; `thin` for theca.si."""

    def __init__(self, name: str, thin: bool):
        self.name, self.thin = name, thin
        self.root = "theca.si" if thin else "theca"
        self.lines: list[str] = []

    def belongs(self, qualified: str) -> bool:
        return _module_of(qualified, TABLE["modules"]) == self.name

    # --- annotations ---

    def reference(self, qualified: str) -> str:
        module = _module_of(qualified, TABLE["modules"])
        name = qualified.rsplit(".", 1)[-1]
        if module == self.name:
            return name
        return f"_{module}.{name}" if module else f"_root.{name}"

    def resolved(self, annotation: str) -> str:
        known = sorted([*TABLE["structs"], *TABLE["enums"]], key=len, reverse=True)
        pattern = r"(?<![\w.])(" + "|".join(re.escape(k) for k in known) + r")(?![\w.])"
        return re.sub(pattern, lambda m: self.reference(m.group(1)), annotation).replace("PathLike", "str | PathLike[str]")

    def annotation(self, kind: str, array: bool = False) -> str:
        if not self.thin:
            return self.resolved(kind_of(kind).annotation)
        k = kind_of(kind)
        if k.scalar:
            return "ArrayLike" if array else "float"
        return self.resolved(self.thin_annotation(kind))

    def thin_annotation(self, kind: str) -> str:
        k = kind_of(kind)
        if k.scalar:
            return "float"
        if kind.startswith("list of "):
            inner = self.thin_annotation(kind[8:])
            return "ArrayLike" if inner == "float" else f"Sequence[{inner}]"
        if kind.startswith("optional "):
            return self.thin_annotation(kind[9:]) + " | None"
        text = k.annotation.replace("Quantity", "float")
        return " | ".join(dict.fromkeys(text.split(" | ")))

    def result(self, kind: str, array: bool = False) -> str:
        if kind == "none":
            return "None"
        if array:
            return {"bool": "NDArray[np.bool_]", "int": "NDArray[np.int_]"}.get(
                kind, "NDArray[np.float64]" if kind_of(kind).scalar else "NDArray[Any]")
        text = self.annotation(kind)
        if text.startswith("Sequence["):
            text = "tuple[" + text[9:-1] + ", ...]"
        return text.replace("ArrayLike", "NDArray[np.float64]")

    # --- pieces ---

    def parameters(self, signature: dict, array: bool) -> str:
        out = ["self"] if signature["method"] else []
        for a in signature["arguments"]:
            name = a["si_name"] if self.thin else a["name"]
            text = self.annotation(a["kind"], array and self.thin)
            out.append(f"{name}: {text}" + (" = ..." if "default" in a else ""))
        return ", ".join(out)

    def function(self, name: str, signatures: list[dict], indent: str = ""):
        forms = []
        for s in signatures:
            forms.append((self.parameters(s, False), self.result(s["returns"])))
            if s["broadcasts"] and self.thin:  # a Quantity does not tell whether it holds an array
                forms.append((self.parameters(s, True), self.result(s["returns"], True)))
        forms = list(dict.fromkeys(forms))
        for parameters, returns in forms:
            if len(forms) > 1:
                # A float is array-like too: the overlap is wanted, the first form that fits counts.
                self.lines.append(f"{indent}@overload  # type: ignore")
            self.lines.append(f"{indent}def {name}({parameters}) -> {returns}: ...")

    def struct(self, qualified: str):
        entry = TABLE["structs"][qualified]
        name = qualified.rsplit(".", 1)[-1]
        base = "" if self.thin else "(_Record)"
        self.lines.append(f"class {name}{base}:")
        fields = [(f["si_name"] if self.thin else f["name"], f["kind"], f["required"]) for f in entry["fields"]]
        given = "".join(f", {n}: {self.annotation(k)}{'' if r else ' = ...'}" for n, k, r in fields)
        self.lines.append(f"    def __init__(self{', *' if given else ''}{given}) -> None: ...")
        changes = "".join(f", {n}: {self.annotation(k)} = ..." for n, k, _ in fields)
        self.lines.append(f"    def replace(self{', *' if changes else ''}{changes}) -> {name}: ...")
        for n, k, _ in fields:
            read, write = self.result(k), self.annotation(k)
            self.lines.append(f"    @property\n    def {n}(self) -> {read}: ...")
            self.lines.append(f"    @{n}.setter\n    def {n}(self, value: {write}) -> None: ...")
        if not self.thin:
            self.lines.append(f"    @property\n    def si(self) -> _si.{qualified}: ...")
        for key, signatures in TABLE["functions"].items():
            if signatures[0]["method"] and key.rsplit(".", 1)[0] == qualified:
                self.function(key.rsplit(".", 1)[-1], signatures, "    ")
        if not self.thin and qualified == "Measure":
            self.lines.append("    @property\n    def quantity(self) -> Quantity | float: ...")
        if not self.thin and qualified == "study.Assessment":
            self.lines.append("    def table(self, file: Any = ..., width: int = ...) -> None: ...")

    def write(self) -> str:
        skipped = set() if self.thin else _ROOT_SKIPPED
        for qualified, entry in TABLE["enums"].items():
            if not self.belongs(qualified):
                continue
            name = qualified.rsplit(".", 1)[-1]
            if self.thin:
                self.lines.append(f"class {name}(enum.Enum):")
                self.lines += [f"    {member} = ..." for member in entry["members"]]
            else:
                source = f"theca.si.{self.name}" if self.name else "theca.si"
                self.lines.append(f"from {source} import {name} as {name}")
        for qualified, entry in TABLE["constants"].items():
            if self.belongs(qualified):
                name = entry["si_name"] if self.thin else qualified.rsplit(".", 1)[-1]
                self.lines.append(f"{name}: {self.annotation(entry['kind'])}")
        for qualified in TABLE["structs"]:
            if self.belongs(qualified) and qualified not in skipped:
                self.struct(qualified)
        for qualified, signatures in TABLE["functions"].items():
            if self.belongs(qualified) and not signatures[0]["method"] and qualified not in skipped:
                self.function(qualified.rsplit(".", 1)[-1], signatures)
        body = "\n".join(self.lines)
        head = HEAD + IMPORTS
        if not self.thin:
            head += "from pint import Quantity\n"
            if self.name and "_Record" in body:
                head += "from theca import Record as _Record\n"
        for module in TABLE["modules"]:
            if f"_{module}." in body:
                head += f"from {self.root} import {module} as _{module}\n"
        if "_root." in body:
            head += f"import {self.root} as _root\n"
        if "_si." in body:
            head += "from theca import si as _si\n"
        return head + "\n" + body + "\n"


ERRORS = """class Error(Exception): ...
class InvalidInput(Error, ValueError):
    argument: str
    value: str
    accepted: str
class OutOfValidity(Error, ValueError):
    correlation: str
    limit: str
class NotConverged(Error, RuntimeError):
    residual: float
    iterations: int
class ParseError(Error, ValueError):
    line: int
    column: int
    expected: str
"""


def root_stub() -> str:
    text = Module("", False).write().replace("(_Record)", "(Record)")
    extra = ["from theca.si import Error as Error, InvalidInput as InvalidInput, NotConverged as NotConverged, "
             "OutOfValidity as OutOfValidity, ParseError as ParseError",
             "from theca.units import UnitError as UnitError, quantity as quantity, registry as registry",
             "from . import plot as plot, si as si, units as units"]
    extra += [f"from . import {m} as {m}" for m in TABLE["modules"]]
    if "study.assess" in TABLE["functions"]:
        extra.append("from theca.study import assess as assess")
    if "study.read_design" in TABLE["functions"]:
        extra.append("from theca.study import read_design as read_design")
    record = ("class Record:\n    def __copy__(self) -> Any: ...\n    def __deepcopy__(self, memo: Any) -> Any: ...\n")
    return text + "\n".join(extra) + "\n" + record


def stubs() -> dict[str, str]:
    """File name in the package -> text."""
    out = {"__init__.pyi": root_stub()}
    thin = Module("", True).write() + ERRORS
    thin += "".join(f"from . import {m} as {m}\n" for m in TABLE["modules"])
    thin += "_table: dict[str, dict[str, Any]]\n_units: dict[str, Any]\n"
    out["si/__init__.pyi"] = thin
    for name in TABLE["modules"]:
        out[f"{name}.pyi"] = Module(name, False).write()
        out[f"si/{name}.pyi"] = Module(name, True).write()
    return out


def main() -> int:
    package = pathlib.Path(sys.argv[1])
    for name, text in stubs().items():
        path = package / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.read_text() != text:
            path.write_text(text)
    return 0


if __name__ == "__main__":
    sys.exit(main())
