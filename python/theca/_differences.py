"""What two designs differ in, as a table."""
from __future__ import annotations

try:
    import tomllib
except ModuleNotFoundError:  # Python 3.9 and 3.10
    import tomli as tomllib  # type: ignore


def _flat(value, key: str, into: dict[str, str]) -> None:
    if isinstance(value, dict):
        for name, inner in value.items():
            _flat(inner, f"{key}.{name}" if key else name, into)
    elif isinstance(value, list) and any(isinstance(v, (dict, list)) for v in value):
        for i, inner in enumerate(value):
            _flat(inner, f"{key}[{i}]", into)
    else:
        into[key] = ", ".join(map(str, value)) if isinstance(value, list) else str(value)


class Differences(list):
    """Rows (key, first, second); a design that lacks a key has None there. Printed, they are an aligned table."""

    def __str__(self):
        if not self:
            return "no differences"
        rows = [("key", "first", "second"), *((k, a or "-", b or "-") for k, a, b in self)]
        widths = [max(len(r[i]) for r in rows) for i in range(3)]
        lines = ["  ".join(c.ljust(w) for c, w in zip(r, widths)).rstrip() for r in rows]
        lines.insert(1, "-" * max(map(len, lines)))
        return "\n".join(lines)


def differences(first, second) -> Differences:
    """Every key in which two designs differ, with both values as a design file writes them.

    Parameters
    ----------
    first, second : study.Design

    Returns
    -------
    list of (key, first, second), in the order of the file
    """
    from . import study

    values = []
    for design in (first, second):
        flat: dict[str, str] = {}
        _flat(tomllib.loads(study.write_design(design)), "", flat)
        values.append(flat)
    one, two = values
    keys = list(dict.fromkeys([*one, *two]))
    return Differences((k, one.get(k), two.get(k)) for k in keys if one.get(k) != two.get(k))
