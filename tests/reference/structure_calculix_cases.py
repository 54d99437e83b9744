"""The plate assemblies that theca's structure module is compared on, and their solution with CalculiX.

    structure_calculix_cases.py run NAME... [--sizes 0.05 0.025]    solves and prints one case, JSON
    structure_calculix_cases.py store [NAME...]                            solves on all meshes, writes calculix/*.json

Every geometry is that of the mid-surfaces. Half or quarter models: x = 0 is the middle of the long wall, y = 0 the
middle of the end wall. z points up from the base. Deflections are positive away from the water.
"""

import argparse
import json
import pathlib
import sys

import numpy as np
from scipy.interpolate import CubicSpline

from structure_calculix_model import Assembly, Sheet, spaced

DIRECTORY = pathlib.Path(__file__).parent / "calculix"
E, NU, T = 70e9, 0.22, 0.01191
RHO_G = 1023 * 9.80665
LENGTH, WIDTH, HEIGHT, WATER = 2.414, 0.738, 0.394, 0.3556
STRIP, CROSS = 0.064, 0.152
FOAM = 2.0e7  # Pa/m


def water(depth):
    return lambda x, y, z: RHO_G * max(0.0, depth - z)


def on(axis, value):
    return lambda *p: abs(p[axis] - value) < 1e-7


def line(axis_a, a, axis_b, b):
    return lambda *p: abs(p[axis_a] - a) < 1e-7 and abs(p[axis_b] - b) < 1e-7


def scan(result, sheet, sign=1):
    u, v, w = max(((a, b, sign * c) for a, b, c in result.deflections(sheet)), key=lambda r: abs(r[2]))
    return {"max_deflection": w, "max_deflection_u": u, "max_deflection_v": v}


def profile(result, sheet, v, sign=1):
    """Deflection along the line v = constant at eighths of half the length from the middle (u = 0)."""
    nodes = sorted((a, sign * w) for a, b, w in result.deflections(sheet) if abs(b - v) < 1e-7)
    u, w = np.array(nodes).T
    return {f"{k}/8": float(CubicSpline(u, w)(u[-1] * k / 8)) for k in range(9)}


def stresses(prefix, stress, half, height, distance):
    """Peak at least `distance` from the held edges, and components in the middle of the wall (both faces)."""
    s, u, v, face = stress.peak((0, half - distance), (distance, height - distance))
    out = {f"{prefix}_peak_stress": s, f"{prefix}_peak_u": u, f"{prefix}_peak_v": v, f"{prefix}_peak_face": face}
    for side in (-1, 1):
        xx, zz, _ = stress.at(0.0, height / 2, side)
        out[f"{prefix}_middle_stress_x_face{side:+d}"] = xx
        out[f"{prefix}_middle_stress_z_face{side:+d}"] = zz
    return out


def panel(size, shear, clamped, half=1.2, height=0.39, thickness=0.012):
    m = Assembly(shear)
    s = m.add(Sheet("wall", (0, 0, 0), (1, 0, 0), (0, 0, 1), spaced([0, half], size), spaced([0, height], size),
                    thickness, E, NU))
    m.hold(s, on(2, 0), [1, 2], 0 if clamped else None)
    m.hold(s, on(0, half), [1], 2 if clamped else None)
    m.symmetry(0)
    m.press(s, water(height), -1)
    r = m.solve()
    stress = r.stress(s)
    out = scan(r, s, -1)
    out.update({f"top_deflection_{k}": w for k, w in profile(r, s, height, -1).items()})
    out.update(stresses("wall", stress, half, height, 2 * thickness))
    out["top_middle_stress_x"] = stress.at(0.0, height, -1)[0]
    out["bottom_reaction"] = 2 * float(r.reaction(s, on(2, 0))[1])
    out["sides_reaction"] = 2 * float(r.reaction(s, lambda x, y, z: on(0, half)(x, y, z) and z > 1e-7)[1])
    return r, out


def folded(size, shear, tied):
    """Wall hinged at bottom and sides (all translations held), strip along its top with ends held, inner edge free."""
    half, n = LENGTH / 2, max(2, int(np.ceil(STRIP / size)))

    def at_tie(x, y, z):
        return on(1, -STRIP)(x, y, z) and x < CROSS / 2 + 1e-7

    m = Assembly(shear)
    u = spaced([0, CROSS / 2, half], size)
    wall = m.add(Sheet("wall", (0, 0, 0), (1, 0, 0), (0, 0, 1), u, spaced([0, WATER, HEIGHT], size), T, E, NU))
    strip = m.add(Sheet("strip", (0, -STRIP, HEIGHT), (1, 0, 0), (0, 1, 0), u, spaced([0, STRIP], STRIP / n), T, E, NU))
    m.join([wall, strip], line(1, 0, 2, HEIGHT), axis=0)
    m.hold(wall, lambda x, y, z: on(2, 0)(x, y, z) or on(0, half)(x, y, z), [0, 1, 2])
    m.hold(strip, on(0, half), [0, 1, 2])
    if tied:
        m.hold(strip, at_tie, [1])
    m.symmetry(0)
    m.press(wall, water(WATER), -1)
    r = m.solve()
    out = scan(r, wall, -1)
    out.update({f"top_deflection_{k}": w for k, w in profile(r, wall, HEIGHT, -1).items()})
    out.update(stresses("wall", r.stress(wall), half, HEIGHT, 2 * T))
    brace = r.stress(strip)
    for name, x in (("middle", 0.0), ("quarter", half / 2), ("end", half - 2 * T)):
        out[f"strip_force_{name}"], out[f"strip_moment_{name}"] = brace.section(0, x)
    # Membrane stress along the free inner edge and along the fold.
    for name, x in (("middle", 0.0), ("quarter", half / 2)):
        out[f"strip_inner_edge_membrane_{name}"] = brace.at(x, 0.0, 0)[0]
        out[f"strip_fold_membrane_{name}"] = brace.at(x, STRIP, 0)[0]
    out["bottom_reaction"] = 2 * float(r.reaction(wall, on(2, 0))[1])
    out["sides_reaction"] = 2 * float(r.reaction(wall, lambda x, y, z: on(0, half)(x, y, z) and z > 1e-7)[1])
    out["strip_ends_reaction"] = 2 * float(r.reaction(strip, lambda x, y, z: on(0, half)(x, y, z) and y < -1e-7)[1])
    if tied:
        out["tie_force"] = 2 * float(r.reaction(strip, at_tie)[1])
    return r, out


def tank(size, shear, monolithic, ring=False, cross=False, support="plane", walls_monolithic=None):
    """A quarter of a tank. `monolithic`: wall to wall and wall to base; ring to walls is always monolithic.

    The strips of the ring and the cross brace are one sheet at the height of the wall tops, bonded to the inside faces
    of the walls; STRIP is their width from there.
    """
    a, b = LENGTH / 2, WIDTH / 2
    walls_monolithic = monolithic if walls_monolithic is None else walls_monolithic
    # Strips lie between the inside faces of the walls.
    ax, by = (a - T / 2, b - T / 2) if ring else (a, b)
    x = spaced([0, CROSS / 2, ax - STRIP, ax] + [a] * ring, size)
    y = spaced([0, by - STRIP, by] + [b] * ring, size)
    z = spaced([0, WATER, HEIGHT], size)
    m = Assembly(shear)
    base = m.add(Sheet("base", (0, 0, 0), (1, 0, 0), (0, 1, 0), x, y, T, E, NU))
    long = m.add(Sheet("long", (0, b, 0), (1, 0, 0), (0, 0, 1), x, z, T, E, NU))
    end = m.add(Sheet("end", (a, 0, 0), (0, 1, 0), (0, 0, 1), y, z, T, E, NU))
    axis = (lambda k: k) if monolithic else (lambda k: None)
    m.join([base, long], line(1, b, 2, 0), axis(0))
    m.join([base, end], line(0, a, 2, 0), axis(1))
    m.join([long, end], line(0, a, 1, b), 2 if walls_monolithic else None)
    if ring:
        m.join([long], line(1, b, 2, HEIGHT), 0)
        m.join([end], line(0, a, 2, HEIGHT), 1)
        top = m.add(Sheet("ring", (0, 0, HEIGHT), (1, 0, 0), (0, 1, 0), x[:-1], y[:-1], T, E, NU,
                          lambda u, v: u > ax - STRIP or v > by - STRIP or (cross and u < CROSS / 2)))
        m.hang(top, long, 2, on(1, by), 0)  # the long wall's normal points inward, the end wall's outward
        m.hang(top, end, 0, on(0, ax), 1)
    m.press(long, water(WATER), -1)
    m.press(end, water(WATER), 1)
    if support == "plane":
        # The base cannot bend; as a thin plate its edges cannot turn either.
        m.hold_face(base, 2)
        if monolithic:
            m.hold(base, on(1, b), [2], 0)
            m.hold(base, on(0, a), [2], 1)
    else:
        m.press(base, water(WATER), -1)
        if support == "perimeter":
            m.hold(base, lambda x, y, z: on(0, a)(x, y, z) or on(1, b)(x, y, z), [2])
        else:
            m.bed(base, FOAM, 2)
    m.symmetry(0)
    m.symmetry(1)
    r = m.solve()
    out = {}
    for name, sheet, half, sign in (("long", long, a, -1), ("end", end, b, 1)):
        out.update({f"{name}_{k}": w for k, w in scan(r, sheet, sign).items()})
        out.update({f"{name}_top_deflection_{k}": w for k, w in profile(r, sheet, HEIGHT, sign).items()})
        out.update(stresses(name, r.stress(sheet), half, HEIGHT, 2 * T))
        out[f"{name}_top_middle_stress_x"] = r.stress(sheet).at(0.0, HEIGHT, sign)[0]
        # What the wall hands to the base and the other wall, outward, whole wall.
        out[f"{name}_bottom_reaction"] = 2 * float(r.reaction(sheet, on(2, 0))[1 if name == "long" else 0])
    if ring:
        # Straight legs only, so that nothing is carried across the inner corner; it is singular, so the section half a
        # strip width before it is given too.
        strip = r.stress(top, (CROSS / 2 if cross else 0.0, ax - STRIP), (by - STRIP, by))
        places = {"corner": ax - STRIP, "before_corner": ax - 1.5 * STRIP, "quarter": a / 2}
        places.update({"cross": CROSS / 2} if cross else {"middle": 0.0})
        for name, u in places.items():
            out[f"ring_long_force_{name}"], out[f"ring_long_moment_{name}"] = strip.section(0, u)
        strip = r.stress(top, (ax - STRIP, ax), (0.0, by - STRIP))
        for name, v in {"corner": by - STRIP, "before_corner": by - 1.5 * STRIP, "middle": 0.0}.items():
            out[f"ring_end_force_{name}"], out[f"ring_end_moment_{name}"] = strip.section(1, v)
        if cross:
            # Half of its width is modelled.
            out["cross_brace_force"] = 2 * r.stress(top, (0.0, CROSS / 2), (0.0, by - STRIP)).section(1, 0.0)[0]
    if support != "plane":
        out["base_middle_deflection"] = -float(r.at(base, 0.0, 0.0)[2])
        out["base_corner_deflection"] = -float(r.at(base, a, b)[2])
        xx, yy, _ = r.stress(base).at(0.0, 0.0, -1)
        out["base_middle_stress_x_below"], out["base_middle_stress_y_below"] = xx, yy
    return r, out


ACRYLIC = {"width": 0.6, "height": 0.4, "thickness": 0.006, "young": 3.0e9, "poisson": 0.37}


def acrylic(size, shear, held, pressure):
    """Simply supported on four sides under uniform pressure, large deflection; edges held in plane or sliding."""
    c = ACRYLIC
    a, b = c["width"] / 2, c["height"] / 2
    m = Assembly(shear)
    s = m.add(Sheet("pane", (0, 0, 0), (1, 0, 0), (0, 1, 0), spaced([0, a], size), spaced([0, b], size), c["thickness"],
                    c["young"], c["poisson"]))
    m.hold(s, lambda x, y, z: on(0, a)(x, y, z) or on(1, b)(x, y, z), [0, 1, 2] if held else [2])
    m.symmetry(0)
    m.symmetry(1)
    m.press(s, lambda *_: pressure, 1)
    r = m.solve(nonlinear=True)
    stress = r.stress(s)
    out = scan(r, s)
    d = 2 * c["thickness"]
    p, u, v, face = stress.peak((0, a - d), (0, b - d))
    out.update({"peak_stress": p, "peak_u": u, "peak_v": v, "peak_face": face})
    for face in (-1, 0, 1):
        out[f"middle_stress_x_face{face:+d}"], out[f"middle_stress_y_face{face:+d}"], _ = stress.at(0.0, 0.0, face)
    return r, out


CASES = {
    "panel_hinged": lambda h, s: panel(h, s, False),
    "panel_clamped": lambda h, s: panel(h, s, True),
    "wall_with_strip": lambda h, s: folded(h, s, False),
    "wall_with_strip_tied": lambda h, s: folded(h, s, True),
    "tank_monolithic": lambda h, s: tank(h, s, True),
    "tank_hinged": lambda h, s: tank(h, s, False),
    "tank_ring_monolithic": lambda h, s: tank(h, s, True, ring=True),
    "tank_ring_hinged": lambda h, s: tank(h, s, False, ring=True),
    "tank_cross_brace_monolithic": lambda h, s: tank(h, s, True, ring=True, cross=True),
    "tank_cross_brace_hinged": lambda h, s: tank(h, s, False, ring=True, cross=True),
    "tank_foam": lambda h, s: tank(h, s, True, support="foam"),
    "tank_perimeter": lambda h, s: tank(h, s, True, support="perimeter"),
    "acrylic_held": lambda h, s: acrylic(h, s, True, 25e3),
    "acrylic_sliding": lambda h, s: acrylic(h, s, False, 8e3),
}
SIZES = (0.05, 0.025, 0.0125)
TANK_SIZES = (0.05, 0.025, 0.05 / 3)
# "solid": the isotropic solid, one element through the thickness. "thin": shear across the sheet made stiff, the limit
# that Kirchhoff's plate theory describes; its edge reactions are too rough to use and are left out.
THEORIES = {"solid": 1.0, "thin": 1e4}


def solve(name, theory, size):
    result, values = CASES[name](size, THEORIES[theory])
    if theory == "thin":
        values = {k: v for k, v in values.items() if not k.endswith("_reaction")}
    return {"size": size, "elements": sum(len(s.elements) for s in result.model.sheets),
            "seconds": round(result.seconds, 3), "values": {k: float(f"{v:.7g}") for k, v in values.items()}}


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("action", choices=["run", "store"])
    parser.add_argument("names", nargs="*")
    parser.add_argument("--sizes", nargs="*", type=float)
    options = parser.parse_args()
    for name in options.names or CASES:
        case = {"case": name}
        sizes = options.sizes or (TANK_SIZES if name.startswith("tank") else SIZES)
        for theory in THEORIES:
            if theory == "thin" and name.startswith("acrylic"):
                continue  # 0.4 m x 6 mm is thin as it is, and the stiffened shear spoils the Newton steps
            case[theory] = [solve(name, theory, size) for size in sizes]
            print(name, theory, [m["seconds"] for m in case[theory]], file=sys.stderr, flush=True)
        text = json.dumps(case, indent=1) + "\n"
        if options.action == "store":
            (DIRECTORY / f"{name}.json").write_text(text)
        else:
            sys.stdout.write(text)


if __name__ == "__main__":
    main()
