"""Thin plate assemblies for CalculiX: flat rectangular sheets meshed with C3D20R, one element through the thickness.

The fibre through the thickness stays straight at every joint and support, so that the joints are those of folded plate
theory exactly: the mean displacement of all sheets at a joint is equal; the rotation about the joint line is equal too
where the joint is monolithic and free where it is hinged. Sheets meet at their mid-surfaces. SI units throughout.
"""

import collections
import os
import re
import subprocess
import tempfile
import time

import numpy as np
from scipy.interpolate import RectBivariateSpline

CCX = "/usr/bin/ccx"
GAUSS = 1 / np.sqrt(3)
# Corner and midside nodes of the 8-node face, in the order of CalculiX.
FACE = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]


def spaced(stops, size):
    """Grid lines through every stop with cells of at most `size`."""
    lines = [stops[0]]
    for a, b in zip(stops, stops[1:]):
        n = max(1, int(np.ceil((b - a) / size - 1e-9)))
        lines += [a + (b - a) * k / n for k in range(1, n + 1)]
    return lines


def shape8(x, y):
    """Shape functions of the 8-node serendipity square, order FACE."""
    value = []
    for i, j in FACE:
        a, b = i - 1, j - 1
        if a and b:
            value.append((1 + a * x) * (1 + b * y) * (a * x + b * y - 1) / 4)
        elif a == 0:
            value.append((1 - x * x) * (1 + b * y) / 2)
        else:
            value.append((1 - y * y) * (1 + a * x) / 2)
    return np.array(value)


class Sheet:
    """A flat sheet in the plane through `origin` along `u` and `v` (unit axes); `holds(u, v)` says where it is."""

    def __init__(self, name, origin, u, v, u_lines, v_lines, thickness, young, poisson, holds=None):
        self.name, self.origin = name, np.array(origin, float)
        self.u, self.v = np.array(u, int), np.array(v, int)
        self.n = np.cross(self.u, self.v)
        self.u_lines, self.v_lines = np.array(u_lines, float), np.array(v_lines, float)
        self.t, self.young, self.poisson = thickness, young, poisson
        self.holds = holds
        self.node, self.elements = {}, {}

    @staticmethod
    def _at(lines, i):
        return lines[i // 2] if i % 2 == 0 else (lines[i // 2] + lines[i // 2 + 1]) / 2

    def uv(self, i, j):
        return self._at(self.u_lines, i), self._at(self.v_lines, j)

    def place(self, i, j):
        a, b = self.uv(i, j)
        return self.origin + a * self.u + b * self.v


def key(p):
    return tuple(int(round(c * 1e7)) for c in p)


class Assembly:
    def __init__(self, transverse_shear=1.0):
        self.transverse_shear = transverse_shear
        self.sheets, self.count, self.xyz = [], 0, {}
        self.joint = {}  # place -> (node of mean displacement, node of rotations)
        self.axes = collections.defaultdict(set)  # (sheet, i, j) -> axes of rotation tied there
        self.tied = collections.OrderedDict()  # (sheet, i, j) that belong to a joint or a support
        self.fixed, self.loads, self.springs = {}, collections.defaultdict(float), collections.defaultdict(float)
        self.planes, self.hung = [], []

    def _new(self, p):
        self.count += 1
        self.xyz[self.count] = p
        return self.count

    def add(self, sheet):
        self.sheets.append(sheet)
        element = max([e for s in self.sheets for e in s.elements], default=0)
        for a in range(len(sheet.u_lines) - 1):
            for b in range(len(sheet.v_lines) - 1):
                centre = sheet.uv(2 * a + 1, 2 * b + 1)
                if sheet.holds and not sheet.holds(*centre):
                    continue
                element += 1
                ids = []
                for layer in (0, 2):
                    ids.append([self._layer(sheet, 2 * a + i, 2 * b + j, layer) for i, j in FACE])
                middle = [self._layer(sheet, 2 * a + i, 2 * b + j, 1) for i, j in FACE[:4]]
                sheet.elements[element] = (a, b, ids[0][:4] + ids[1][:4] + ids[0][4:] + ids[1][4:] + middle)
        return sheet

    def _layer(self, sheet, i, j, layer):
        if (i, j, layer) not in sheet.node:
            sheet.node[i, j, layer] = self._new(sheet.place(i, j) + (layer - 1) * sheet.t / 2 * sheet.n)
        return sheet.node[i, j, layer]

    def _nodes(self, sheet, where):
        return [(i, j) for (i, j, layer) in sheet.node if layer == 0 and where(*sheet.place(i, j))]

    def _joint(self, sheet, i, j):
        p = key(sheet.place(i, j))
        if p not in self.joint:
            self.joint[p] = (self._new(sheet.place(i, j)), self._new(sheet.place(i, j)))
        self.tied[sheet, i, j] = self.joint[p]
        return self.joint[p]

    def join(self, sheets, where, axis=None):
        """All `sheets` move together at the places `where(x, y, z)`; with `axis` (0, 1, 2) they also turn together."""
        for sheet in sheets:
            for i, j in self._nodes(sheet, where):
                self._joint(sheet, i, j)
                if axis is not None:
                    self.axes[sheet, i, j].add(axis)

    def hang(self, sheet, carrier, face, where, axis):
        """Bonds the edge of `sheet` to one face (0: -normal, 2: +normal) of the edge of `carrier`, which is tied.

        Both have nodes at the same places along `axis`, about which they turn together; `where` is on the sheet.
        """
        along = {round(float(carrier.place(i, j)[axis]), 7): (i, j) for (s, i, j) in self.tied if s is carrier
                 and abs(carrier.place(i, j)[2] - sheet.origin[2]) < 1e-7}
        for i, j in self._nodes(sheet, where):
            translation, rotation = self._joint(sheet, i, j)
            self.axes[sheet, i, j].add(axis)
            behind = along[round(float(sheet.place(i, j)[axis]), 7)]
            self.hung.append((translation, rotation, carrier, *behind, face, axis))

    def hold(self, sheet, where, directions, axis=None):
        """Holds the mean displacement in `directions`; with `axis` also the rotation about it."""
        for i, j in self._nodes(sheet, where):
            translation, rotation = self._joint(sheet, i, j)
            for k in directions:
                self.fixed[translation, k] = 0.0
            if axis is not None:
                self.axes[sheet, i, j].add(axis)
                self.fixed[rotation, axis] = 0.0

    def hold_face(self, sheet, direction):
        """Holds one face of a sheet everywhere in the direction of its normal (a rigid plane, also against lifting)."""
        for i, j in self._nodes(sheet, lambda *_: True):
            if (sheet, i, j) in self.tied:
                self.fixed[self.tied[sheet, i, j][0], direction] = 0.0
            else:
                self.fixed[sheet.node[i, j, 0], direction] = 0.0

    def symmetry(self, direction, at=0.0):
        self.planes.append((direction, at))

    def press(self, sheet, pressure, sign=1):
        """Pressure(x, y, z) in the direction sign x normal, as consistent nodal forces of the 8-node face."""
        axis = int(np.argmax(np.abs(sheet.n)))
        face = 0 if sign > 0 else 2
        points, weights = np.polynomial.legendre.leggauss(3)
        for a, b, _ in sheet.elements.values():
            du, dv = np.diff(sheet.u_lines)[a], np.diff(sheet.v_lines)[b]
            force = np.zeros(8)
            for x, wx in zip(points, weights):
                for y, wy in zip(points, weights):
                    p = (sheet.origin + (sheet.u_lines[a] + (1 + x) / 2 * du) * sheet.u
                         + (sheet.v_lines[b] + (1 + y) / 2 * dv) * sheet.v)
                    force += pressure(*p) * wx * wy * du * dv / 4 * shape8(x, y)
            for (i, j), f in zip(FACE, force):
                place = (sheet, 2 * a + i, 2 * b + j)
                node = self.tied[place][0] if place in self.tied else sheet.node[place[1], place[2], face]
                self.loads[node, axis] += f * sign * sheet.n[axis]

    def bed(self, sheet, stiffness, direction):
        """Winkler springs (Pa/m) under a sheet, lumped with the positive weights 1/36 and 8/36 of the 8-node face."""
        for a, b, _ in sheet.elements.values():
            area = np.diff(sheet.u_lines)[a] * np.diff(sheet.v_lines)[b]
            for number, (i, j) in enumerate(FACE):
                place = (sheet, 2 * a + i, 2 * b + j)
                node = self.tied[place][0] if place in self.tied else sheet.node[place[1], place[2], 0]
                self.springs[node, direction] += stiffness * area * (1 if number < 4 else 8) / 36

    # --- the input file ----------------------------------------------------------------------------------------------
    def _turning(self, sheet, i, j):
        """{direction: (axis, lever)} of the displacements that a rotation tied at this edge gives the outer faces."""
        turning = {}
        for axis in self.axes[sheet, i, j]:
            across = np.cross(np.eye(3, dtype=int)[axis], sheet.n)
            k = int(np.argmax(np.abs(across)))
            turning[k] = (axis, across[k] * sheet.t / 2)
        return turning

    def _aliases(self):
        """Joints of hung sheets in terms of the unknowns of their carrier."""
        alias = {}
        for translation, rotation, carrier, i, j, face, axis in self.hung:
            middle, turn = self.tied[carrier, i, j]
            alias[rotation, axis] = [(turn, axis, 1)]
            turning = self._turning(carrier, i, j)
            for k in range(3):
                if (translation, k) in alias:
                    continue  # a corner, bonded to two carriers: to the first
                if k in turning:
                    alias[translation, k] = [(middle, k, 1), (turn, turning[k][0], (face - 1) * turning[k][1])]
                elif face == 0:
                    alias[translation, k] = [(carrier.node[i, j, 0], k, 1)]
                else:
                    alias[translation, k] = [(middle, k, 2), (carrier.node[i, j, 0], k, -1)]
        return alias

    def _equations(self, alias):
        def expanded(terms):
            out = terms[:1]
            for node, k, c in terms[1:]:
                out += [(n, m, c * d) for n, m, d in alias.get((node, k), [(node, k, 1)])]
            return out

        for (sheet, i, j), (translation, rotation) in self.tied.items():
            bottom, top = sheet.node[i, j, 0], sheet.node[i, j, 2]
            turning = self._turning(sheet, i, j)
            for k in range(3):
                if k in turning:
                    axis, arm = turning[k]
                    yield expanded([(top, k, 1), (translation, k, -1), (rotation, axis, -arm)])
                    yield expanded([(bottom, k, 1), (translation, k, -1), (rotation, axis, arm)])
                else:
                    yield expanded([(top, k, 1), (bottom, k, 1), (translation, k, -2)])
                if (i, j, 1) in sheet.node:
                    yield expanded([(sheet.node[i, j, 1], k, 1), (translation, k, -1)])

    def _material(self, number, sheet):
        """Isotropic; or, as thin plate theory has it, with a shear stiffness across the sheet raised by a factor."""
        e, nu, g = sheet.young, sheet.poisson, sheet.young / 2 / (1 + sheet.poisson)
        normal = int(np.argmax(np.abs(sheet.n)))
        shear = [g * (self.transverse_shear if normal in pair else 1) for pair in ((0, 1), (0, 2), (1, 2))]
        return [f"*MATERIAL, NAME=M{number}", "*ELASTIC, TYPE=ENGINEERING CONSTANTS",
                f"{e:.10g},{e:.10g},{e:.10g},{nu:.10g},{nu:.10g},{nu:.10g},{shear[0]:.10g},{shear[1]:.10g}",
                f"{shear[2]:.10g}"]

    def write(self, path, nonlinear=False):
        for direction, at in self.planes:
            for sheet in self.sheets:
                for i, j, layer in sheet.node:
                    if abs(sheet.place(i, j)[direction] - at) > 1e-7:
                        continue
                    if (sheet, i, j) in self.tied:
                        self.fixed[self.tied[sheet, i, j][0], direction] = 0.0
                        if layer == 0:
                            self.fixed[sheet.node[i, j, 0], direction] = 0.0
                    else:
                        self.fixed[sheet.node[i, j, layer], direction] = 0.0
        out = ["*NODE, NSET=ALL"]
        out += [f"{n},{p[0]:.12g},{p[1]:.12g},{p[2]:.12g}" for n, p in self.xyz.items()]
        for number, sheet in enumerate(self.sheets):
            out.append(f"*ELEMENT, TYPE=C3D20R, ELSET=E{number}")
            for e, (_, _, ids) in sheet.elements.items():
                out.append(f"{e}," + ",".join(map(str, ids[:10])) + ",")
                out.append(",".join(map(str, ids[10:])))
            out += self._material(number, sheet) + [f"*SOLID SECTION, ELSET=E{number}, MATERIAL=M{number}"]
        last = max(e for s in self.sheets for e in s.elements)
        for number, ((node, k), stiffness) in enumerate(self.springs.items()):
            out += [f"*ELEMENT, TYPE=SPRING1, ELSET=K{number}", f"{last + 1 + number},{node}",
                    f"*SPRING, ELSET=K{number}", f"{k + 1}", f"{stiffness:.10g}"]
        out.append("*EQUATION")
        alias = self._aliases()
        for terms in self._equations(alias):
            out += [f"{len(terms)}", ",".join(f"{n},{k + 1},{c:.12g}" for n, k, c in terms)]
        out.append("*BOUNDARY")
        out += [f"{n},{k + 1},{k + 1},{value:.12g}" for (n, k), value in self.fixed.items() if (n, k) not in alias]
        out.append("*STEP, NLGEOM, INC=200" if nonlinear else "*STEP")
        out += ["*STATIC", "0.1,1.,1e-5,0.25" if nonlinear else ""]
        out.append("*CLOAD")
        out += [f"{n},{k + 1},{f:.12g}" for (n, k), f in self.loads.items() if f]
        out.append("*NODE PRINT, NSET=ALL, FREQUENCY=1000")
        out.append("U,RF")
        for number in range(len(self.sheets)):
            out += [f"*EL PRINT, ELSET=E{number}, FREQUENCY=1000", "S"]
        out.append("*END STEP")
        with open(path, "w") as file:
            file.write("\n".join(line for line in out if line) + "\n")

    def solve(self, nonlinear=False, directory=None):
        with tempfile.TemporaryDirectory(dir=directory) as work:
            self.write(os.path.join(work, "case.inp"), nonlinear)
            started = time.perf_counter()
            run = subprocess.run([CCX, "case"], cwd=work, capture_output=True, text=True,
                                 env={**os.environ, "OMP_NUM_THREADS": "1"})
            seconds = time.perf_counter() - started
            if run.returncode or "ERROR" in run.stdout:
                raise RuntimeError("ccx failed:\n" + run.stdout[-3000:] + run.stderr[-1000:])
            return Result(self, os.path.join(work, "case.dat"), seconds)


class Result:
    def __init__(self, model, path, seconds):
        self.model, self.seconds = model, seconds
        blocks = collections.defaultdict(list)
        kind = None
        with open(path) as file:
            for line in file:
                if re.match(r" (displacements|forces|stresses)", line):
                    kind = line.split()[0]
                elif line.strip():
                    blocks[kind].append(line.split())
        self.u = {int(r[0]): np.array(r[1:4], float) for r in blocks["displacements"]}
        self.force = {int(r[0]): np.array(r[1:4], float) for r in blocks["forces"]}
        self.s = collections.defaultdict(lambda: np.zeros((8, 6)))
        for r in blocks["stresses"]:
            self.s[int(r[0])][int(r[1]) - 1] = [float(c) for c in r[2:8]]

    def mean(self, sheet, i, j):
        """Displacement of the mid-surface."""
        return (self.u[sheet.node[i, j, 0]] + self.u[sheet.node[i, j, 2]]) / 2

    def deflections(self, sheet):
        """[(u, v, displacement along the normal)] at every node of the mid-surface."""
        return [(*sheet.uv(i, j), float(self.mean(sheet, i, j) @ sheet.n)) for i, j, k in sheet.node if k == 0]

    def at(self, sheet, u, v):
        """Displacement at a grid node."""
        for i, j, k in sheet.node:
            if k == 0 and np.allclose(sheet.uv(i, j), (u, v), atol=1e-7):
                return self.mean(sheet, i, j)
        raise KeyError((sheet.name, u, v))

    def stress(self, sheet, u_range=None, v_range=None):
        """Surface stress over a whole rectangle of a sheet, see Stress."""
        return Stress(self, sheet, u_range or sheet.u_lines[[0, -1]], v_range or sheet.v_lines[[0, -1]])

    def reaction(self, sheet, where):
        """Force of the sheet on what holds it or is joined to it at the places `where(x, y, z)`."""
        total = np.zeros(3)
        for i, j, layer in sheet.node:
            if where(*sheet.place(i, j)):
                total -= self.force[sheet.node[i, j, layer]]
                if layer == 0 and (sheet, i, j) in self.model.tied:
                    node = self.model.tied[sheet, i, j][0]
                    total += [self.model.loads.get((node, k), 0.0) for k in range(3)]
        return total


class Stress:
    """Stress on both faces of a rectangle of a sheet, interpolated (cubic) between the 2 x 2 reduced points.

    Those points are where the stress of this element is most accurate. It is carried to the faces along the straight
    line through the two points over the thickness, which is exact for membrane stress plus bending.
    """

    def __init__(self, result, sheet, u_range, v_range):
        self.sheet, self.u_range, self.v_range = sheet, u_range, v_range
        ku, kv = int(np.argmax(np.abs(sheet.u))), int(np.argmax(np.abs(sheet.v)))
        shear = {frozenset((0, 1)): 3, frozenset((0, 2)): 4, frozenset((1, 2)): 5}[frozenset((ku, kv))]
        sign = int(sheet.u[ku] * sheet.v[kv])
        columns = self._cells(sheet.u_lines, u_range)
        rows = self._cells(sheet.v_lines, v_range)
        values = np.full((6, 2 * len(columns), 2 * len(rows)), np.nan)
        for e, (a, b, _) in sheet.elements.items():
            if a not in columns or b not in rows:
                continue
            s = result.s[e][:, [ku, kv, shear]] * [1, 1, sign]
            middle, slope = (s[:4] + s[4:]) / 2, (s[4:] - s[:4]) / 2 / GAUSS
            for q in range(4):
                i, j = 2 * columns.index(a) + q % 2, 2 * rows.index(b) + q // 2
                values[:3, i, j], values[3:, i, j] = middle[q], slope[q]
        self.u, self.wu = self._points(sheet.u_lines, columns)
        self.v, self.wv = self._points(sheet.v_lines, rows)
        self.values = values
        degree = (min(3, len(self.u) - 1), min(3, len(self.v) - 1))
        self.splines = [RectBivariateSpline(self.u, self.v, f, kx=degree[0], ky=degree[1]) for f in values]

    @staticmethod
    def _cells(lines, limits):
        return [k for k in range(len(lines) - 1) if lines[k] > limits[0] - 1e-7 and lines[k + 1] < limits[1] + 1e-7]

    @staticmethod
    def _points(lines, cells):
        places = [(lines[k] + lines[k + 1]) / 2 + g * (lines[k + 1] - lines[k]) / 2
                  for k in cells for g in (-GAUSS, GAUSS)]
        return np.array(places), np.array([(lines[k + 1] - lines[k]) / 2 for k in cells for _ in (0, 1)])

    def grid(self, u, v, face):
        """Arrays (3, len(u), len(v)) of s_uu, s_vv, s_uv on the face 1 (towards u x v), -1 or 0 (membrane)."""
        return np.array([self.splines[k](u, v) + face * self.splines[k + 3](u, v) for k in range(3)])

    def principal(self, u, v, face):
        s = self.grid(u, v, face)
        return (s[0] + s[1]) / 2 + np.hypot((s[0] - s[1]) / 2, s[2])

    def at(self, u, v, face):
        return [float(c) for c in self.grid([u], [v], face)[:, 0, 0]]

    def peak(self, u_range, v_range, step=0.002):
        """Largest principal tension on either face within a rectangle: (stress, u, v, face)."""
        u = np.linspace(*u_range, max(2, int(np.ceil((u_range[1] - u_range[0]) / step)) + 1))
        v = np.linspace(*v_range, max(2, int(np.ceil((v_range[1] - v_range[0]) / step)) + 1))
        best = None
        for face in (-1, 1):
            p = self.principal(u, v, face)
            i, j = np.unravel_index(np.argmax(p), p.shape)
            if best is None or p[i, j] > best[0]:
                best = (float(p[i, j]), float(u[i]), float(v[j]), face)
        return best

    def section(self, along, station):
        """Force and in-plane moment of this rectangle cut at `station` along u (0) or v (1).

        The moment is about the middle of the width, positive when it pulls at the larger coordinate.
        """
        stress = self.values[along] if along == 0 else self.values[along].T
        x, y, w = (self.u, self.v, self.wv) if along == 0 else (self.v, self.u, self.wu)
        middle = sum(self.v_range if along == 0 else self.u_range) / 2
        near = np.sort(np.argsort(np.abs(x - station))[:4])
        force = stress @ w * self.sheet.t
        moment = stress @ (w * (y - middle)) * self.sheet.t
        return [float(np.polyval(np.polyfit(x[near] - station, f[near], len(near) - 1), 0)) for f in (force, moment)]
