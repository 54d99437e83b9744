"""Rimless, or with a rim brace: how thick must the glass be?"""
from __future__ import annotations

import copy

import theca
import theca.studies._run
from theca.plot import BLUE, GREY, ORANGE, _drawn, _figure, _titles

THICKNESSES = (8.0, 10.0, 12.0, 15.0, 19.0)  # mm, nominal, as float glass is sold (EN 572)
LEAST = {8.0: 7.7, 10.0: 9.7, 12.0: 11.7, 15.0: 14.5, 19.0: 18.0}  # mm, least of the nominal, EN 572-2


def used(design, kind: str, thickness: float, braced: bool) -> float:
    """The most that stress or bowing of the long wall use of their limits."""
    other = copy.copy(design)
    tank = other.tanks.kinds[kind]
    quantity = theca.registry().Quantity
    tank.glass_nominal = tank.glass_base = quantity(thickness, "mm")
    tank.glass_design = quantity(LEAST[thickness], "mm")
    tank.joint_bite = min(tank.joint_bite, tank.glass_nominal)
    if braced:
        tank.rim_brace.thickness, tank.rim_brace.design_thickness = tank.glass_nominal, tank.glass_design
    else:
        tank.rim_brace = None
    checks = {c.name: c for c in theca.study.structure_checks(other)}
    long_wall = [checks[f"structure: tank {kind} long wall {what}"] for what in ("stress", "deflection")]
    if any(c.verdict.name == "outside_validity" for c in long_wall):
        return float("nan")
    return max(c.utilisation for c in long_wall)


@_drawn
def answer(design):
    kind = next(name for name, tank in design.tanks.kinds.items() if tank.rim_brace is not None)
    figure = _figure(7.6, 4.2)
    ax = figure.subplots()
    least = {}
    for braced, colour, line, words in ((False, ORANGE, "--", "rimless"), (True, BLUE, "-", "rim brace as stated")):
        values = [100.0 * used(design, kind, t, braced) for t in THICKNESSES]
        ax.plot(THICKNESSES, values, line, color=colour, marker="o", label=words)
        least[words] = next((t for t, v in zip(THICKNESSES, values) if v <= 100.0), None)
    ax.axhline(100.0, color=GREY, linewidth=1.0)
    ax.set_yscale("log")
    ax.set_yticks([10, 20, 50, 100, 200, 500], ["10 %", "20 %", "50 %", "100 %", "200 %", "500 %"])
    ax.set_xticks(THICKNESSES)
    ax.set_xlabel("nominal thickness of the glass, mm")
    ax.set_ylabel("used of the limit")
    ax.grid(True)
    ax.legend()
    _titles(ax, f"Long wall of tank {kind}: stress or bowing, whichever uses more",
            "points that are missing bow too far for the theory")
    said = {words: f"{t:g} mm" if t else "more than 19 mm" for words, t in least.items()}
    return figure, (f"Tank {kind} meets the criteria for stress and bowing of its long wall from {said['rimless']} glass on if it "
                    f"is rimless, and from {said['rim brace as stated']} on with its rim brace. Joints are judged apart: a thicker "
                    "wall does not make the bead stronger.")


def main(argv=None) -> int:
    return theca.studies._run.run("rim_or_thickness", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
