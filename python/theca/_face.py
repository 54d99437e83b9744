"""Builds the unit-checked functions and classes from the table that the binding exports."""
from __future__ import annotations

import copy
import inspect
import sys
import types

import numpy as np

from . import _table, si
from ._kinds import Number, Struct, find, is_number, kind_of, structs
from .units import UnitError, registry, spelled_for_pint

_ROOT_SKIPPED = {"name", "CheckText", "make_check", "outside_validity"}  # for authors of checks, in theca.si


def _indented(text: str) -> str:
    return "\n".join("    " + line if line else "" for line in text.split("\n"))


def _documentation(signature: dict) -> str:
    parts = [signature["summary"]]
    if signature["arguments"]:
        lines = ["Parameters", "----------"]
        for a in signature["arguments"]:
            kind = kind_of(a["kind"])
            default = f", default {_shown_default(a)}" if "default" in a else ""
            lines.append(f"{a['name']} : {kind.words()}{default}")
            if a["doc"]:
                lines.append(_indented(a["doc"]))
        parts.append("\n".join(lines))
    if signature["returns"] != "none":
        words = kind_of(signature["returns"]).words().split(", e.g.")[0]
        lines = ["Returns", "-------", words]
        if signature["returns_doc"]:
            lines.append(_indented(signature["returns_doc"]))
        parts.append("\n".join(lines))
    if signature["broadcasts"]:
        parts.append("Quantities of arrays broadcast; one bad element raises.")
    parts.append(signature["tail"])
    return "\n\n".join(p for p in parts if p)


class _Words:
    """A default or an annotation in a signature, shown as a person would write it."""

    def __init__(self, text: str):
        self.text = text

    def __repr__(self) -> str:
        return self.text


def _shown_default(argument: dict) -> str:
    value = argument["default"]
    kind = kind_of(argument["kind"])
    if kind.scalar and isinstance(value, float):
        shown = kind.from_si(value)
        return f"{shown:.6g~}" if hasattr(shown, "units") else f"{shown:.6g}"
    return str(value) if hasattr(value, "name") else repr(value)


def _signature(signature: dict, method: bool) -> inspect.Signature:
    parameters = [inspect.Parameter("self", inspect.Parameter.POSITIONAL_OR_KEYWORD)] if method else []
    for a in signature["arguments"]:
        parameters.append(inspect.Parameter(
            a["name"], inspect.Parameter.POSITIONAL_OR_KEYWORD,
            default=_Words(_shown_default(a)) if "default" in a else inspect.Parameter.empty,
            annotation=_Words(kind_of(a["kind"]).annotation)))
    returns = None if signature["returns"] == "none" else _Words(kind_of(signature["returns"]).annotation)
    return inspect.Signature(parameters, return_annotation=returns)


class _Form:
    """One signature of a function."""

    def __init__(self, name: str, signature: dict):
        self.name = name
        self.arguments = [(a["name"], a["si_name"], kind_of(a["kind"]), "default" in a) for a in signature["arguments"]]
        self.names = [a[0] for a in self.arguments]
        self.result = kind_of(signature["returns"])

    def bound(self, args: tuple, kwargs: dict) -> dict:
        """Name -> value; TypeError as Python itself would raise it."""
        if len(args) > len(self.names):
            raise TypeError(f"{self.name}() takes {len(self.names)} arguments but {len(args)} were given")
        given = dict(zip(self.names, args))
        for key, value in kwargs.items():
            if key not in self.names:
                raise TypeError(f"{self.name}() has no argument '{key}'; its arguments are {', '.join(self.names)}")
            if key in given:
                raise TypeError(f"{self.name}() got two values for '{key}'")
            given[key] = value
        missing = [n for n, _, _, has_default in self.arguments if n not in given and not has_default]
        if missing:
            raise TypeError(f"{self.name}() needs {', '.join(missing)}")
        return given

    def values(self, args: tuple, kwargs: dict) -> dict:
        given = self.bound(args, kwargs)
        return {si_name: kind.to_si(given[name], name) for name, si_name, kind, _ in self.arguments if name in given}

    def __call__(self, target, args: tuple, kwargs: dict):
        return self.result.from_si(target(**self.values(args, kwargs)))


def _caller(name: str, signatures: list[dict]):
    forms = [_Form(name, s) for s in signatures]
    if len(forms) == 1:
        return forms[0]

    def call(target, args, kwargs):
        refusals, refused_below = [], None
        for form in forms:
            try:
                form.bound(args, kwargs)
            except TypeError as e:
                refusals.append(e)
                continue
            try:
                return form(target, args, kwargs)
            except UnitError as e:
                refusals.append(e)
            except TypeError as e:  # a word that is none of this form's
                refusals.append(e)
                refused_below = form
        if not any(isinstance(e, UnitError) for e in refusals) and refused_below is not None:
            target(*refused_below.values(args, kwargs).values())  # raises, with what every form takes
        raise next((e for e in reversed(refusals) if isinstance(e, UnitError)), refusals[-1])

    return call


def _function(qualified: str, signatures: list[dict], module: str):
    name = qualified.rsplit(".", 1)[-1]
    target = find(si, qualified)
    call = _caller(name, signatures)

    def function(*args, **kwargs):
        return call(target, args, kwargs)

    return _dressed(function, name, qualified, signatures, module, method=False)


def _method(qualified: str, signatures: list[dict], module: str):
    name = qualified.rsplit(".", 1)[-1]
    call = _caller(name, signatures)

    def method(self, *args, **kwargs):
        return call(getattr(self._si, name), args, kwargs)

    return _dressed(method, name, qualified, signatures, module, method=True)


def _dressed(function, name, qualified, signatures, module, method):
    function.__name__ = name
    function.__qualname__ = qualified.removeprefix(module.removeprefix("theca").lstrip(".") + ".")
    function.__module__ = module
    function.__signature__ = _signature(signatures[0], method)
    if len(signatures) == 1:
        function.__doc__ = _documentation(signatures[0])
    else:
        function.__doc__ = "\n\n".join(
            f"{name}{str(_signature(s, False))}\n\n{_indented(_documentation(s))}" for s in signatures)
    return function


class Record:
    """Base of theca's structs: fields are given as keywords, with units, and read back as quantities."""

    __slots__ = ("_si",)
    _fields: dict = {}
    _si_class: type
    _name = ""

    def __init__(self, **fields):
        values = {}
        for name, value in fields.items():
            if name not in self._fields:
                raise TypeError(f"{self._name} has no field '{name}'; its fields are {', '.join(self._fields)}")
            si_name, kind, _ = self._fields[name]
            values[si_name] = kind.to_si(value, name)
        missing = [n for n, (_, _, required) in self._fields.items() if required and n not in fields]
        if missing:
            raise TypeError(f"{self._name} needs {', '.join(missing)}")
        object.__setattr__(self, "_si", self._si_class(**values))

    @classmethod
    def _wrap(cls, si_object):
        made = cls.__new__(cls)
        object.__setattr__(made, "_si", si_object)
        return made

    @property
    def si(self):
        """The same object in `theca.si`, over SI floats."""
        return self._si

    def replace(self, **changes):
        """A copy with some fields changed."""
        made = copy.deepcopy(self)
        for name, value in changes.items():
            if name not in self._fields:
                raise TypeError(f"{self._name} has no field '{name}'; its fields are {', '.join(self._fields)}")
            setattr(made, name, value)
        return made

    def __setattr__(self, name, value):
        if name not in self._fields:
            raise AttributeError(f"{self._name} has no field '{name}'; its fields are {', '.join(self._fields)}")
        object.__setattr__(self, name, value)

    def __eq__(self, other):
        return self._si == other._si if type(other) is type(self) else NotImplemented

    __hash__ = None

    def __copy__(self):
        return self._wrap(copy.copy(self._si))

    def __deepcopy__(self, memo):
        return self._wrap(copy.deepcopy(self._si, memo))

    def __reduce__(self):
        return _rebuilt, (self._qualified, self._si)

    def __repr__(self):
        return f"{self._name}({', '.join(f'{n}={_shown(getattr(self, n))}' for n in self._fields)})"


def _shown(value) -> str:
    if hasattr(value, "units") and hasattr(value, "magnitude"):
        if isinstance(value.magnitude, np.ndarray):
            return f"[{value.magnitude.size} values] {value.units:~}"
        return f"{value:.6g~}"
    if isinstance(value, np.ndarray) and value.size > 6:
        return f"[{value.size} values]"
    if isinstance(value, float):
        return f"{value:.6g}"
    if isinstance(value, tuple) and len(value) > 3:
        return f"({len(value)} of {type(value[0]).__name__})"
    return repr(value)


def _rebuilt(qualified: str, si_object):
    return structs[qualified]._wrap(si_object)


def _property(name: str, si_name: str, kind, doc: str):
    def get(self):
        return kind.from_si(getattr(self._si, si_name))

    def put(self, value):
        setattr(self._si, si_name, kind.to_si(value, name))

    return property(get, put, None, f"{kind.words()}{': ' + doc if doc else ''}")


def _struct(qualified: str, module: str) -> type:
    name = qualified.rsplit(".", 1)[-1]
    return type(name, (Record,), {
        "__slots__": (), "__module__": module, "__qualname__": name, "_qualified": qualified,
        "_name": name, "_si_class": find(si, qualified)})


def _fill_struct(cls: type, entry: dict, methods: dict[str, list[dict]], module: str):
    fields = {f["name"]: (f["si_name"], kind_of(f["kind"]), f["required"]) for f in entry["fields"]}
    cls._fields = fields
    lines = [entry["doc"]] if entry["doc"] else []
    lines += ["", "Fields, given as keywords", "-------------------------"]
    parameters = [inspect.Parameter("self", inspect.Parameter.POSITIONAL_OR_KEYWORD)]
    for f in entry["fields"]:
        kind = kind_of(f["kind"])
        setattr(cls, f["name"], _property(f["name"], f["si_name"], kind, f["doc"]))
        lines.append(f"{f['name']} : {kind.words()}{'' if f['required'] else ', optional'}")
        if f["doc"]:
            lines.append(_indented(f["doc"]))
        parameters.append(inspect.Parameter(
            f["name"], inspect.Parameter.KEYWORD_ONLY, annotation=_Words(kind.annotation),
            default=inspect.Parameter.empty if f["required"] else _Words("...")))
    cls.__doc__ = "\n".join(lines).strip()
    cls.__signature__ = inspect.Signature(parameters[1:])
    for method_name, signatures in methods.items():
        setattr(cls, method_name, _method(f"{cls._qualified}.{method_name}", signatures, module))


def _module_of(qualified: str, modules) -> str:
    head = qualified.split(".", 1)[0]
    return head if head in modules and "." in qualified else ""


def build(root: types.ModuleType) -> dict[str, types.ModuleType]:
    """Makes theca.<module> for every module of the table, and puts what stands in namespace theca into `root`."""
    table = si._table
    modules: dict[str, types.ModuleType] = {"": root}
    for name, doc in table["modules"].items():
        module = types.ModuleType(f"theca.{name}", doc)
        module.__all__ = []
        modules[name] = module
        sys.modules[f"theca.{name}"] = module
        setattr(root, name, module)

    def place(qualified: str, value):
        module = modules[_module_of(qualified, table["modules"])]
        name = qualified.rsplit(".", 1)[-1]
        setattr(module, name, value)
        module.__all__.append(name)

    def module_name(qualified: str) -> str:
        return modules[_module_of(qualified, table["modules"])].__name__

    for qualified in table["enums"]:
        place(qualified, find(si, qualified))
    for qualified in table["structs"]:
        if qualified in _ROOT_SKIPPED:
            continue
        structs[qualified] = _struct(qualified, module_name(qualified))
        place(qualified, structs[qualified])

    methods: dict[str, dict[str, list[dict]]] = {}
    functions: dict[str, list[dict]] = {}
    for qualified, signatures in table["functions"].items():
        if signatures[0]["method"]:
            owner, name = qualified.rsplit(".", 1)
            methods.setdefault(owner, {})[name] = signatures
        else:
            functions[qualified] = signatures
    for qualified, cls in structs.items():
        _fill_struct(cls, table["structs"][qualified], methods.get(qualified, {}), module_name(qualified))
    for qualified, signatures in functions.items():
        if qualified not in _ROOT_SKIPPED:
            place(qualified, _function(qualified, signatures, module_name(qualified)))

    # Constants are made when they are asked for, so that they belong to the registry of that moment.
    for module_key, module in modules.items():
        constants = {q.rsplit(".", 1)[-1]: (find(si, _si_name(q, c)), kind_of(c["kind"]))
                     for q, c in table["constants"].items() if _module_of(q, table["modules"]) == module_key}
        module.__all__ += list(constants)

        def constant(name, constants=constants, module_name=module.__name__):
            if name in constants:
                value, kind = constants[name]
                return kind.from_si(value)
            raise AttributeError(f"module '{module_name}' has no attribute '{name}'")

        module.__getattr__ = constant
        if module is not root:
            module.__dir__ = lambda names=tuple(sorted(module.__all__)): list(names)
    return modules


def _si_name(qualified: str, constant: dict) -> str:
    head, _, _ = qualified.rpartition(".")
    return f"{head}.{constant['si_name']}" if head else constant["si_name"]


# --- what reads better in Python than the bare struct ------------------------------------------------------------------

def enrich() -> None:
    """Quantities behind Measures, and a table behind an Assessment."""
    measure = structs["Measure"]

    def as_quantity(self):
        """The value in the unit a grower reads it in; a plain number for counts and ratios."""
        unit = self.shown_unit
        try:
            return registry().Quantity(self.shown_value, spelled_for_pint(unit)) if unit else self.shown_value
        except Exception:  # a count of something: its unit is a word
            return self.shown_value

    measure.quantity = property(as_quantity)
    measure.__str__ = _table.shown

    if "study.Assessment" in structs:
        assessment = structs["study.Assessment"]
        assessment.table = _table.table
        assessment.__str__ = lambda self: _table.text(self)
