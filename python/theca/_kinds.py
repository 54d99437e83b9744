"""What the kinds of the binding's unit table mean for pint: how each value is checked, converted, and handed back."""
from __future__ import annotations

import numbers
import os
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from . import si
from .units import UnitError, registry, spelled_for_pint

# Coherent SI symbol -> what it measures, and an example for messages.
WORDS = {
    "m": ("a length", "0.3 m"), "m2": ("an area", "2 m**2"), "m3": ("a volume", "500 L"),
    "m4": ("a second moment of area", "1e-6 m**4"), "rad": ("an angle", "30 deg"), "sr": ("a solid angle", "1 sr"),
    "s": ("a time", "10 h"), "1/s": ("a rate", "0.35 1/h"), "m/s": ("a speed", "0.1 m/s"),
    "m/s2": ("an acceleration", "9.81 m/s**2"), "m3/s": ("a volume flow", "2000 gph"), "kg": ("a mass", "60 lb"),
    "kg/s": ("a mass flow", "1 kg/s"), "kg/m2/s": ("a mass flux", "0.1 g/m**2/s"),
    "kg/m": ("a mass per length", "1 kg/m"), "kg/m2": ("a mass per area", "1 kg/m**2"),
    "kg/m3": ("a density", "1025 kg/m**3"), "N": ("a force", "100 lbf"), "N/m": ("a force per length", "500 N/m"),
    "N/rad": ("a rotational stiffness per length", "1000 N/rad"), "Pa": ("a pressure", "0.14 MPa"),
    "N m2": ("a bending or torsional stiffness", "1000 N*m**2"), "N/m3": ("a foundation modulus", "20 MPa/m"),
    "J": ("an energy", "1 kWh"), "W": ("a power", "84 W"), "J/kg": ("a specific energy", "2400 kJ/kg"),
    "Pa s": ("a dynamic viscosity", "1 mPa*s"), "m2/s": ("a kinematic viscosity", "0.93e-6 m**2/s"),
    "W/m2": ("a heat flux", "100 W/m**2"), "W/m2/K": ("a heat transfer coefficient", "8.3 W/m**2/K"),
    "W/m/K": ("a thermal conductivity", "1 W/m/K"), "W/K": ("a thermal conductance", "18 W/K"),
    "m2 K/W": ("a thermal resistance per area", "0.12 m**2*K/W"), "J/K": ("a heat capacity", "4 MJ/K"),
    "J/kg/K": ("a specific heat capacity", "4 kJ/kg/K"), "1/K": ("a thermal expansion", "9e-6 1/K"),
    "1/m": ("an attenuation", "0.15 1/m"), "V": ("a voltage", "120 V"), "A": ("a current", "20 A"),
    "ohm": ("an electrical resistance", "0.2 ohm"), "ohm/m": ("a resistance per length", "6.5 ohm/km"),
    "A s": ("an electric charge", "100 Ah"),
    "cd": ("a luminous intensity", "1200 cd"), "lm": ("a luminous flux", "5400 lm"),
    "lm/W": ("a luminous efficacy", "180 lm/W"),
    "mol/s/lm": ("a photon flux per luminous flux", "0.018 umol/s/lm"),
    "mol": ("an amount", "1 mol"), "mol/s": ("a photon flux", "190 umol/s"),
    "mol/m2/s": ("a photon flux density", "250 umol/m**2/s"), "mol/s/sr": ("a photon intensity", "94 umol/s/sr"),
    "mol/m2": ("a photon dose", "9 mol/m**2"), "mol/J": ("a photon efficacy", "2.3 umol/J"),
    "mol/m3": ("a concentration", "8 dKH"), "kg/mol": ("a molar mass", "84 g/mol"), "USD": ("an amount of money", "14 USD"),
    "USD/J": ("a price of energy", "0.15 USD/kWh"), "USD/s": ("money per time", "20 USD/h"),
    "USD/m2/s": ("a rent", "11 USD/ft**2/year"), "USD/m3": ("a price per volume", "0.45 USD/gallon"),
    "K": ("a temperature difference", "5 K or 9 delta_degF"),
}


def spoken(name: str) -> str:
    return name.strip("_").replace("_", " ")


def is_number(value) -> bool:
    return isinstance(value, (numbers.Number, np.number)) or (isinstance(value, np.ndarray) and value.dtype.kind in "fiu")


def described(value) -> str:
    if is_number(value) and not isinstance(value, np.ndarray):
        return f"the bare number {value}"
    if isinstance(value, (list, tuple, np.ndarray)) and not has_units(value):
        return "bare numbers"
    if has_units(value):
        return f"{value} ({dimension_words(value.units)})" if np.ndim(value.magnitude) == 0 else f"an array in {value.units}"
    return f"{value!r}" if isinstance(value, str) else type(value).__name__


def has_units(value) -> bool:
    return hasattr(value, "magnitude") and hasattr(value, "units") and hasattr(value, "dimensionality")


def _remembered(ureg, key, make):
    """What was found out about a unit, kept on its registry: units of two registries must not even be compared."""
    known = ureg.__dict__.setdefault("_theca_known", {})
    if key not in known:
        known[key] = make()
    return known[key]


def unit(ureg, text: str):
    return _remembered(ureg, text, lambda: ureg.Unit(text))


def _root_angle(units) -> float:
    """Exponent of the radian, which pint's dimensions leave out."""
    ureg = units._REGISTRY

    def find_out():
        root = ureg.get_root_units(ureg.Unit(units._units), check_nonmult=False)[1]
        return dict(root._units).get("radian", 0)

    return _remembered(ureg, ("angle", units._units), find_out)


def dimension_words(units) -> str:
    for symbol, (words, _) in WORDS.items():
        target = unit(units._REGISTRY, spelled_for_pint(symbol))
        if units.dimensionality == target.dimensionality and _root_angle(units) == _root_angle(target):
            return words.split(" ", 1)[1] if symbol != "K" else "temperature"
    return "dimensionless" if units.dimensionless else str(units.dimensionality)


def as_quantity(value):
    """Lists of quantities become one quantity of an array."""
    if isinstance(value, (list, tuple)) and value and all(has_units(v) for v in value):
        ureg = registry()
        units = value[0].units
        return ureg.Quantity(np.array([v.m_as(units) for v in value], dtype=float), units)
    return value


def given(value, text: str):
    """A quantity of the application registry."""
    ureg = registry()
    return ureg.Quantity(value, unit(ureg, text))


class Kind:
    """One kind of value: `to_si` checks and converts on the way in, `from_si` on the way out."""

    annotation = "object"
    scalar = False

    def words(self) -> str:
        raise NotImplementedError

    def to_si(self, value, label: str):
        raise NotImplementedError

    def from_si(self, value):
        return value


class Number(Kind):
    annotation = "float"
    scalar = True

    def words(self):
        return "number"

    def to_si(self, value, label):
        value = as_quantity(value)
        if not has_units(value):
            return value
        if not value.units.dimensionless or _root_angle(value.units) != 0:
            raise UnitError(spoken(label), "a plain number", described(value))
        return value.m_as("")


class Dimensional(Kind):
    annotation = "Quantity"
    scalar = True

    def __init__(self, symbol: str):
        self.symbol = symbol
        self.article, self.example = WORDS.get(symbol, (f"a quantity in {symbol}", f"1 {spelled_for_pint(symbol)}"))
        self.unit_text = spelled_for_pint(symbol)
        self.shown_text = "delta_degree_Celsius" if symbol == "K" else self.unit_text

    def words(self):
        return self.article.split(" ", 1)[1] + f", e.g. {self.example}"

    def refuse(self, value, label):
        raise UnitError(spoken(label), f"{self.article} such as {self.example}", described(value))

    def to_si(self, value, label):
        value = as_quantity(value)
        if not has_units(value):
            self.refuse(value, label)
        return value.magnitude * _remembered(value._REGISTRY, (self.unit_text, value._units),
                                             lambda: self.factor(value, label))

    def factor(self, value, label) -> float:
        ureg = value._REGISTRY
        target = unit(ureg, self.unit_text)
        if value.units.dimensionality != target.dimensionality or _root_angle(value.units) != _root_angle(target):
            self.refuse(value, label)
        if not value._is_multiplicative:  # degC or degF where a difference is asked for
            raise UnitError(spoken(label), f"{self.article} such as {self.example}", f"the temperature {value}")
        return ureg.convert(1.0, value.units, target)

    def from_si(self, value):
        return given(value, self.shown_text)


class Temperature(Kind):
    annotation = "Quantity"
    scalar = True

    # NIST SP 811 (2008), B.8, exact. Faster than by way of pint's offset units.
    _SCALES = {"kelvin": lambda t: t, "degree_Celsius": lambda t: t + 273.15,
               "degree_Fahrenheit": lambda t: (t + 459.67) / 1.8}

    def words(self):
        return "temperature, e.g. 78 degF"

    def to_si(self, value, label):
        value = as_quantity(value)
        if has_units(value):
            for name, scale in self._SCALES.items():
                if value._units == {name: 1}:
                    return scale(value.magnitude)
        if not has_units(value) or dict(value.dimensionality) != {"[temperature]": 1}:
            raise UnitError(spoken(label), "a temperature such as Quantity(78, 'degF')", described(value))
        if "delta_" in str(value.units):
            raise UnitError(spoken(label), "a temperature such as Quantity(78, 'degF')", f"the difference {value}")
        return value.m_as("kelvin")

    def from_si(self, value):
        return given(value, "kelvin")


class PracticalSalinity(Dimensional):
    def __init__(self):
        super().__init__("psu")
        self.article, self.example = "a practical salinity", "35 psu"


class AbsoluteSalinity(Kind):
    annotation = "Quantity"
    scalar = True

    def words(self):
        return "absolute salinity, e.g. 35.2 g/kg"

    def to_si(self, value, label):
        value = as_quantity(value)
        if not has_units(value) or not value.dimensionless or not dict(value.units._units) or _root_angle(value.units) != 0:
            raise UnitError(spoken(label), "an absolute salinity such as 35.2 g/kg", described(value))
        return value.m_as("g/kg")

    def from_si(self, value):
        return given(value, "g/kg")


class RelativeHumidity(Kind):
    annotation = "Quantity"
    scalar = True

    def words(self):
        return "relative humidity, e.g. 50 percent"

    def to_si(self, value, label):
        value = as_quantity(value)
        if not has_units(value) or not value.dimensionless or _root_angle(value.units) != 0:
            raise UnitError(spoken(label), "a relative humidity such as 50 percent", described(value))
        return value.m_as("")

    def from_si(self, value):
        return given(value * 100.0, "percent")


class Plain(Kind):
    """Passed on as it is; the binding itself refuses what does not fit."""

    def __init__(self, annotation: str):
        self.annotation = annotation

    def words(self):
        return self.annotation

    def to_si(self, value, label):
        if has_units(value):
            raise UnitError(spoken(label), f"a value of type {self.annotation}", described(value))
        return os.fspath(value) if self.annotation == "PathLike" else value


class EnumKind(Kind):
    def __init__(self, name: str):
        self.name, self.annotation = name, name

    def words(self):
        members = list(find(si, self.name).__members__)
        return f"{self.name}: one of " + ", ".join(members)

    def to_si(self, value, label):
        return value


class Struct(Kind):
    def __init__(self, name: str):
        self.name, self.annotation = name, name

    def words(self):
        return self.name

    def to_si(self, value, label):
        inner = getattr(value, "_si", None)
        if type(value) is not structs[self.name] or inner is None:
            raise UnitError(spoken(label), f"a theca.{self.name}", described(value))
        return inner

    def from_si(self, value):
        if isinstance(value, np.ndarray):
            out = np.empty(value.shape, dtype=object)
            for i, v in np.ndenumerate(value):
                out[i] = structs[self.name]._wrap(v)
            return out
        return structs[self.name]._wrap(value)


class ListOf(Kind):
    def __init__(self, inner: Kind):
        self.inner = inner
        self.annotation = inner.annotation if inner.annotation == "Quantity" else f"Sequence[{inner.annotation}]"
        if inner.annotation == "float":
            self.annotation = "ArrayLike"

    def words(self):
        return f"list of {self.inner.words()}"

    def to_si(self, value, label):
        if self.inner.scalar:
            if isinstance(value, (list, tuple)) and not value:
                return []
            return np.atleast_1d(self.inner.to_si(value, label))
        if isinstance(value, (str, bytes)) or not hasattr(value, "__iter__"):
            raise UnitError(spoken(label), f"a list of {self.inner.annotation}", described(value))
        return [self.inner.to_si(v, label) for v in value]

    def from_si(self, value):
        return self.inner.from_si(value) if self.inner.scalar else tuple(self.inner.from_si(v) for v in value)


class Optional(Kind):
    def __init__(self, inner: Kind):
        self.inner, self.annotation = inner, f"{inner.annotation} | None"

    def words(self):
        return f"{self.inner.words()}, or None"

    def to_si(self, value, label):
        return None if value is None else self.inner.to_si(value, label)

    def from_si(self, value):
        return None if value is None else self.inner.from_si(value)


class Pair(Kind):
    def __init__(self, first: Kind, second: Kind):
        self.both = first, second
        self.annotation = f"tuple[{first.annotation}, {second.annotation}]"

    def words(self):
        return f"pair of {self.both[0].words()} and {self.both[1].words()}"

    def to_si(self, value, label):
        if len(value) != 2:
            raise UnitError(spoken(label), "two values", f"{len(value)}")
        return tuple(k.to_si(v, label) for k, v in zip(self.both, value))

    def from_si(self, value):
        return tuple(k.from_si(v) for k, v in zip(self.both, value))


class MapOf(Kind):
    def __init__(self, key: Kind, value: Kind):
        self.key, self.value = key, value
        self.annotation = f"Mapping[{key.annotation}, {value.annotation}]"

    def words(self):
        return f"map from {self.key.words()} to {self.value.words()}"

    def to_si(self, value, label):
        return {self.key.to_si(k, label): self.value.to_si(v, f"{label} {k}") for k, v in value.items()}

    def from_si(self, value):
        return MappingProxyType({self.key.from_si(k): self.value.from_si(v) for k, v in value.items()})


class Either(Kind):
    def __init__(self, kinds: list[Kind]):
        self.kinds = kinds
        self.annotation = " | ".join(dict.fromkeys(k.annotation for k in kinds))

    def words(self):
        return " or ".join(k.words() for k in self.kinds)

    def to_si(self, value, label):
        for kind in self.kinds:
            try:
                return kind.to_si(value, label)
            except UnitError:
                continue
        raise UnitError(spoken(label), self.words(), described(value))

    def from_si(self, value):
        for kind in self.kinds:
            if isinstance(kind, Struct) and isinstance(value, find(si, kind.name)):
                return kind.from_si(value)
        return value


class FunctionOf(Kind):
    annotation = "Callable"

    def __init__(self, arguments: list[Kind], result: Kind):
        self.arguments, self.result = arguments, result

    def words(self):
        return f"function of ({'; '.join(a.words() for a in self.arguments)}) giving {self.result.words()}"

    def to_si(self, value, label):
        if not callable(value):
            raise UnitError(spoken(label), "a function", described(value))
        return lambda *a: self.result.to_si(value(*(k.from_si(x) for k, x in zip(self.arguments, a))), label)

    def from_si(self, value):
        return lambda *a: self.result.from_si(value(*(k.to_si(x, "argument") for k, x in zip(self.arguments, a))))


structs: dict[str, type] = {}  # filled by the face: "structure.Panel" -> class


def find(root, qualified: str):
    for part in qualified.split("."):
        root = getattr(root, part)
    return root


def split(text: str) -> list[str]:
    """At "; " outside brackets."""
    parts, depth, start, i = [], 0, 0, 0
    while i < len(text):
        depth += text[i] == "("
        depth -= text[i] == ")"
        if depth == 0 and text.startswith("; ", i):
            parts.append(text[start:i])
            start = i + 2
        i += 1
    return [p for p in parts + [text[start:]] if p]


_FIXED = {"number": Number(), "temperature": Temperature(), "practical salinity": PracticalSalinity(),
          "absolute salinity": AbsoluteSalinity(), "relative humidity": RelativeHumidity(), "bool": Plain("bool"),
          "int": Plain("int"), "str": Plain("str"), "path": Plain("PathLike"), "none": Plain("None")}
_FIXED["absolute pressure"] = Dimensional("Pa")
_FIXED["absolute pressure"].article, _FIXED["absolute pressure"].example = "an absolute pressure", "101.3 kPa"


@lru_cache(maxsize=None)
def kind_of(text: str) -> Kind:
    if text in _FIXED:
        return _FIXED[text]
    if text.startswith("list of "):
        return ListOf(kind_of(text[8:]))
    if text.startswith("optional "):
        return Optional(kind_of(text[9:]))
    if text.startswith("map of "):
        return MapOf(kind_of("str"), kind_of(text[7:]))
    if text.startswith("map from "):
        key, value = text[9:].split(" to ", 1)
        return MapOf(kind_of(key), kind_of(value))
    if text.startswith("pair ("):
        return Pair(*map(kind_of, split(text[6:-1])))
    if text.startswith("either ("):
        return Either([kind_of(t) for t in split(text[8:-1])])
    if text.startswith("function of ("):
        arguments, result = text[13:].rsplit(") giving ", 1)
        return FunctionOf([kind_of(t) for t in split(arguments)], kind_of(result))
    if text in si._table["structs"]:
        return Struct(text)
    if text in si._table["enums"]:
        return EnumKind(text)
    return Dimensional(text)
