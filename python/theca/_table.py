"""An assessment as text: one line per check, growers' units first, SI beside them."""
from __future__ import annotations

import sys
import textwrap

# SI units by size, for reading; and units that need no SI beside them.
_READABLE = {"Pa": ((1e6, "MPa"), (1e3, "kPa")), "m": ((1.0, "m"), (1e-3, "mm")), "W": ((1e3, "kW"),),
             "m3/s": ((1.0, "m3/s"), (1e-3, "L/s"), (1e-6, "mL/s")), "m3": ((1.0, "m3"), (1e-3, "L")),
             "s": ((3600.0, "h"),), "N": ((1e3, "kN"),)}
_METRIC = {"umol/m2/s", "cm/s", "mm", "cm", "h", "d", "g/d", "1/h", "1/d", "%", "L", "L/h", "kWh"}


def number(value: float) -> str:
    """Four digits, without exponents where a person would not write them."""
    if value != 0.0 and not 1e-3 <= abs(value) < 1e7:
        return f"{value:.3g}"
    text = f"{value:.4g}"
    return f"{value:.0f}" if "e" in text else text


def _with_unit(value: float, unit: str) -> str:
    return f"{number(value)} {unit}".strip()


def shown(measure) -> str:
    """The value in the unit a grower reads it in."""
    return _with_unit(measure.shown_value, measure.shown_unit)


def si_pair(demand, capacity) -> str:
    """Demand and capacity in SI, in one unit; empty where the growers' unit is metric anyway."""
    unit = demand.si_unit
    if demand.shown_unit == unit or demand.shown_unit in _METRIC:
        return ""
    largest = max(abs(demand.si_value), abs(capacity.si_value))
    sizes = _READABLE.get(unit, ())
    smallest = sizes[-1] if sizes and sizes[-1][0] < 1.0 else (1.0, unit)
    size, symbol = next(((s, u) for s, u in sizes if largest >= s), smallest)
    return f"{number(demand.si_value / size)} / {_with_unit(capacity.si_value / size, symbol)}"


def percent(utilisation: float) -> str:
    if utilisation > 9.99:
        return "> 999 %"
    return f"{100 * utilisation:.1f} %" if 0.985 < utilisation < 1.015 else f"{100 * utilisation:.0f} %"


HEADINGS = ("check", "verdict", "used", "demand", "capacity", "in SI", "where")
_RIGHT = {2, 3, 4}


def rows(checks):
    for c in checks:
        verdict = c.verdict.name.replace("_", " ")
        if c.verdict.name == "outside_validity":
            yield c.name, verdict, "", "", "", "", c.where
        else:
            yield (c.name, verdict, percent(c.utilisation), shown(c.demand), shown(c.capacity),
                   si_pair(c.demand, c.capacity), c.where)


def text(assessment, width: int = 0) -> str:
    """`width` > 0 shortens the last columns so that lines fit."""
    body = [HEADINGS, *rows(assessment.checks)]
    widths = [max(len(r[i]) for r in body) for i in range(len(HEADINGS))]
    lines = []
    for r in body:
        cells = [r[i].rjust(widths[i]) if i in _RIGHT else r[i].ljust(widths[i]) for i in range(len(r))]
        line = "  ".join(cells).rstrip()
        if width and len(line) > width:
            line = line[:width - 3].rstrip() + "..."
        lines.append(line)
    lines.insert(1, "-" * max(map(len, lines)))
    counts: dict[str, int] = {}
    for c in assessment.checks:
        counts[c.verdict.name] = counts.get(c.verdict.name, 0) + 1
    total = ", ".join(f"{n} {v.replace('_', ' ')}" for v, n in counts.items())
    return "\n".join([*lines, "", f"{len(assessment.checks)} checks: {total}"])


def table(assessment, file=None, width: int = 0) -> None:
    """Prints the checks as an aligned table: growers' units, SI beside them."""
    print(text(assessment, width), file=file or sys.stdout)


def cautions_text(assessment, width: int = 100) -> str:
    """Every caution once, with the checks that carry it."""
    carried: dict[str, list[str]] = {}
    for c in assessment.checks:
        if c.caution:
            carried.setdefault(c.caution, []).append(c.name)
    out = []
    for caution, names in carried.items():
        out.append(textwrap.fill(caution, width, initial_indent="! ", subsequent_indent="  ", break_on_hyphens=False))
        out.append(textwrap.fill("(" + "; ".join(names) + ")", width, initial_indent="  ", subsequent_indent="   ",
                                 break_on_hyphens=False))
    return "\n".join(out)


def cures_text(assessment, cures, width: int = 100) -> str:
    """For every failed check the single changes that cure it. `cures` maps a check's name to its list of cures."""
    out = []
    for c in assessment.checks:
        if c.verdict.name != "fails":
            continue
        out.append(f"{c.name}, {percent(c.utilisation)}")
        if not cures[c.name]:
            out.append("    no single change of those known cures it")
        for cure in cures[c.name]:
            anew = [e for e in cure.side_effects if e.after.name == "fails" and e.before.name != "fails"]
            mended = [e for e in cure.side_effects if e.before.name == "fails" and e.after.name in ("holds", "marginal")]
            out.append(f"    {cure.change}: {percent(cure.utilisation_after)}")
            for words, effects in (("then fails", anew), ("cures too", mended)):
                if effects:
                    names = "; ".join(f"{e.check} {percent(e.utilisation_after)}" for e in effects)
                    out.append(textwrap.fill(f"{words}: {names}", width, initial_indent="        ",
                                             subsequent_indent="          ", break_on_hyphens=False))
    return "\n".join(out)
