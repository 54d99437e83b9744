"""Units: the pint registry of the application, with the units of this trade defined on it.

theca takes and gives quantities of `pint.get_application_registry()`, so that they mix with those of the host program.
Units that pint lacks are added to it (dKH, gph, psf, psu, ...); none that it has is changed. Two of pint's own differ
from those that theca's design files use: pint's month is a twelfth of 365.25 days (files: 30.4 days) and its year is
365.25 days (files: 365).
"""
from __future__ import annotations

import re
import weakref

import pint

from .si import InvalidInput

# Name -> definition, for what pint does not know.
_DEFINITIONS = {
    "percent": "percent = 0.01",
    "psu": "practical_salinity = [practical_salinity] = psu",
    "USD": "US_dollar = [currency] = USD",
    "meq": "milliequivalent = 1e-3 mole = meq",  # of charge
    # 10 mg CaO per litre, 2 equivalents per mole, M(CaO) = 56.0774 g/mol (IUPAC)
    "dKH": "degree_carbonate_hardness = 20 / 56.0774 * mole / meter ** 3 = dKH",
    "gph": "gallon_per_hour = gallon / hour = gph",
    "gpm": "gallon_per_minute = gallon / minute = gpm",
    "psf": "pound_force_per_square_foot = force_pound / foot ** 2 = psf",
    "ftH2O": "foot_of_water = 2989.067 * pascal = ftH2O",  # conventional, NIST SP 811 B.8
    "US_pint": "US_liquid_pint = gallon / 8 = US_pint",
}

_prepared: "weakref.WeakSet[pint.UnitRegistry]" = weakref.WeakSet()


class UnitError(InvalidInput):
    """A bare number where a quantity is asked for, or a quantity of the wrong kind.

    Attributes: argument, value, accepted (all text).
    """

    def __init__(self, argument: str, accepted: str, value: str):
        super().__init__(f"{argument}: expected {accepted}, got {value}")
        self.argument, self.accepted, self.value = argument, accepted, value

    def __reduce__(self):
        return UnitError, (self.argument, self.accepted, self.value)


def registry() -> pint.UnitRegistry:
    """The application registry, with theca's units on it."""
    application = pint.get_application_registry()
    actual = application.get()
    if actual not in _prepared:
        for name, definition in _DEFINITIONS.items():
            try:
                actual.parse_units(name)
            except pint.UndefinedUnitError:
                actual.define(definition)
        _prepared.add(actual)
    return actual


def spelled_for_pint(symbol: str) -> str:
    """theca's and the design files' spelling of a unit in pint's: "W/m2/K" is "W/m**2/K"."""
    text = re.sub(r"([A-Za-z])(\d)", r"\1**\2", symbol.strip())
    return {"%": "percent"}.get(text, text).replace("ft**H**2O", "ftH2O").replace("ftH**2O", "ftH2O")


def quantity(text: str):
    """A quantity out of text with theca's unit symbols: "14 in", "0.48 Btu/h/ft2/degF", "250 umol/m2/s", "78 degF"."""
    m = re.fullmatch(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*", text)
    if not m:
        raise UnitError("quantity", "a number with a unit such as 0.3 m", repr(text))
    try:
        return registry().Quantity(float(m.group(1)), spelled_for_pint(m.group(2)) if m.group(2) else "")
    except pint.UndefinedUnitError as e:
        raise UnitError("quantity", "a known unit", repr(text)) from e
