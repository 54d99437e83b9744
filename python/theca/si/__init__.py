"""The thin layer: every calculation over SI floats and numpy arrays of them, units in the argument names.

    from theca import si
    si.seawater.density(temperature_K=298.15, salinity_g_per_kg=35.0)

Arrays broadcast. Temperatures are absolute, in kelvin; salinities are counted in g/kg (absolute) or on the practical
scale; relative humidity is a ratio from 0 to 1. Nothing here checks units: `theca` itself does.

`_table` holds what the C++ types say about every function, struct, enum and constant; `_units` is the short form:
function -> (unit of the result, units of the arguments), struct -> {field: unit}.
"""
import sys as _sys

from .. import _theca

_table = _theca._table

for _name in dir(_theca):
    if not _name.startswith("_"):
        globals()[_name] = getattr(_theca, _name)
for _name in _table["modules"]:
    _sys.modules[f"theca.si.{_name}"] = getattr(_theca, _name)

_units = {}
for _name, _signatures in _table["functions"].items():
    _forms = [(s["returns"], tuple(a["kind"] for a in s["arguments"])) for s in _signatures]
    _units[_name] = _forms[0] if len(_forms) == 1 else _forms
for _name, _struct in _table["structs"].items():
    _units[_name] = {f["name"]: f["kind"] for f in _struct["fields"]}
del _name, _signatures, _forms, _struct
