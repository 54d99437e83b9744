"""Unit-checked calculations for people who plan and run coral grow-out farms.

    import theca
    u = theca.units.registry()
    theca.seawater.density(u.Quantity(78, "degF"), 35.2 * u("g/kg"))

Functions and structs take and give pint quantities of the application registry and refuse bare numbers where a unit is
needed. The same over plain SI floats is in `theca.si`. `theca.read_design` reads a whole farm from a file,
`theca.assess` answers its checks, `theca.sweep` asks "what if" a thousand times, `theca.plot` draws,
`theca.report` writes all of it on one page.
"""
import sys as _sys

from . import si, units
from ._face import Record, build as _build, enrich as _enrich
from ._theca import Error, InvalidInput, NotConverged, OutOfValidity, ParseError
from ._version import version as __version__
from .units import UnitError, quantity, registry

__all__ = ["Error", "InvalidInput", "NotConverged", "OutOfValidity", "ParseError", "Record", "UnitError", "assess",
           "changed", "differences", "plot", "quantity", "read_design", "registry", "report", "si", "spread", "sweep", "units"]
_build(_sys.modules[__name__])
_enrich()
_constants = __getattr__  # noqa: F821  (set by the face)

if "study.assess" in si._table["functions"]:
    assess = study.assess  # noqa: F821
if "study.read_design" in si._table["functions"]:
    read_design = study.read_design  # noqa: F821


def __getattr__(name):
    if name in ("differences", "report"):
        import importlib

        return getattr(importlib.import_module(f"theca._{name}"), name)
    if name in ("Sweep", "changed", "spread", "sweep"):
        import importlib

        return getattr(importlib.import_module("theca._sweep"), name)
    if name == "plot":  # matplotlib is loaded only when something is drawn
        import importlib

        return importlib.import_module("theca.plot")
    return _constants(name)
