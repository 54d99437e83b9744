"""An assessment as text: one line per check, growers' units first, SI beside them."""
from __future__ import annotations

import sys
import textwrap


def _number(value: float) -> str:
    if value == int(value) and abs(value) < 1e6:
        return f"{value:.0f}"
    return f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"


def measure_texts(measure) -> tuple[str, str]:
    """Grower's unit and SI; the second is empty when they are the same."""
    shown = f"{_number(measure.shown_value)} {measure.shown_unit}".strip()
    si = "" if measure.shown_unit == measure.si_unit else f"{measure.si_value:.3g} {measure.si_unit}"
    return shown, si


def percent(utilisation: float) -> str:
    return "over 999 %" if utilisation > 9.99 else f"{100 * utilisation:.0f} %"


def rows(checks):
    for c in checks:
        known = c.verdict.name != "outside_validity"
        demand, demand_si = measure_texts(c.demand) if known else ("", "")
        capacity, capacity_si = measure_texts(c.capacity) if known else ("", "")
        yield (c.name, c.verdict.name.replace("_", " "), percent(c.utilisation) if known else "", demand, capacity,
               " / ".join(t for t in (demand_si, capacity_si) if t), c.where)


HEADINGS = ("check", "verdict", "used", "demand", "capacity", "SI", "where")


def text(assessment, width: int = 0) -> str:
    """`width` > 0 shortens the last column so that lines fit."""
    body = [HEADINGS, *rows(assessment.checks)]
    widths = [max(len(r[i]) for r in body) for i in range(len(HEADINGS))]
    right = {2, 3, 4}
    lines = []
    for r in body:
        cells = [r[i].rjust(widths[i]) if i in right else r[i].ljust(widths[i]) for i in range(len(r))]
        line = "  ".join(cells).rstrip()
        if width and len(line) > width:
            line = line[:width - 3].rstrip() + "..."
        lines.append(line)
    lines.insert(1, "-" * max(map(len, lines)))
    counts = {}
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
        out.append(textwrap.fill(caution, width, initial_indent="! ", subsequent_indent="  "))
        out.append(textwrap.fill("for " + ", ".join(names), width, initial_indent="  ", subsequent_indent="  "))
    return "\n".join(out)
