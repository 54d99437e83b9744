"""Flows of networks with tees against a solution of the same equations by scipy.

Nothing of theca is used for the second one: friction by a root search on Colebrook-White, tees by the handbook's
formulas with the static pressures at the tee as unknowns (theca has total heads), all equations at once by
scipy.optimize.root.
"""

import math
import os
import subprocess
import sys

try:
    import numpy as np
    from scipy.optimize import brentq, root
except ImportError as missing:
    print("SKIPPED: tees are NOT compared with scipy:", missing, file=sys.stderr)
    sys.exit(77)

G, NU, ROUGHNESS = 9.80665, 1e-6, 1.5e-6
TOLERANCE = 1e-8  # of the largest flow: theca states 1e-9 of the head; what is met is 1e-11


def area(bore):
    return math.pi / 4 * bore**2


def friction_loss(q, bore, length, K):
    v = q / area(bore)
    reynolds = abs(v) * bore / NU
    if reynolds < 100:  # on scipy's way only; the answer is looked at below
        return (64 / 100 * length / bore + K) * v * abs(v) / (2 * G)
    f = 1 / brentq(lambda x: x + 2 * math.log10(ROUGHNESS / bore / 3.7 + 2.51 * x / reynolds), 0.5, 40, xtol=1e-15) ** 2
    return (f * length / bore + K) * v * abs(v) / (2 * G)


def tee_losses(run, onward, branch, run_bore, branch_bore, angle):
    """Total head lost between combined flow and each other leg, over g; flows into the tee are positive.

    Idelchik 2006, section 7 (diagrams 7-20, 7-29), and Crane TP-410 (2009), eq. 2-35 and 2-36.
    """
    n = area(branch_bore) / area(run_bore)
    cosine = 0.0 if angle == 90 else math.cos(math.radians(angle))
    legs = {"run": run, "onward": onward, "branch": branch}
    combined = max(legs, key=lambda leg: abs(legs[leg]))
    splits = legs[combined] > 0
    if combined == "branch":
        head = (branch / area(branch_bore)) ** 2 / (2 * G)
        s = {leg: abs(legs[leg] / branch) for leg in ("run", "onward")}
        if splits:
            return combined, splits, {leg: (1 + 1.5 * (n * s[leg]) ** 2) * head for leg in s}
        return combined, splits, {leg: (1 + n**2 + 3 * n**2 * (s[leg] ** 2 - s[leg])) * head for leg in s}
    other = "onward" if combined == "run" else "run"
    head = (legs[combined] / area(run_bore)) ** 2 / (2 * G)
    q = abs(branch / legs[combined])
    v = q / n
    if splits:
        A = max(1.1 - 0.7 * q, 0.85) if n <= 0.35 else max(1 - 0.6 * q, 0.6)
        t = 0.4 if n <= 0.4 else (2 if q <= 0.5 else 0.3) * (2 * q - 1)
        K = {other: t * q**2, "branch": A * (1 + v**2 - 2 * v * cosine)}
    else:
        A = 1 if n <= 0.35 else max(0.9 * (1 - q), 0.55)
        K = {other: 1.55 * q - q**2 if angle == 90 else 1 - (1 - q) ** 2 - 2 * q * v * cosine,
             "branch": A * (1 + v**2 - 2 * (1 - q) ** 2 - 2 * q * v * cosine)}
    return combined, splits, {leg: K[leg] * head for leg in K}


class Reference:
    """Unknowns: the flows, and for each tee the pressure head at each of its three legs."""

    def __init__(self, nodes, pipes, tees):
        self.nodes, self.pipes, self.tees = nodes, pipes, tees

    def equations(self, x):
        q, at_tee = x[:len(self.pipes)] * 1e-3, x[len(self.pipes):].reshape(-1, 3)
        residual = []
        end = {}
        for t, (node, *legs, run_bore, branch_bore, angle) in enumerate(self.tees):
            into = [q[i] if self.pipes[i][1] == node else -q[i] for i in legs]
            residual.append(1e3 * sum(into))
            total = [p + (q[i] / area(self.pipes[i][2])) ** 2 / (2 * G) for p, i in zip(at_tee[t], legs)]
            combined, splits, losses = tee_losses(*into, run_bore, branch_bore, angle)
            names = ["run", "onward", "branch"]
            for leg, loss in losses.items():
                drop = total[names.index(combined)] - total[names.index(leg)]
                residual.append(drop - loss if splits else -drop - loss)
            for i, head in zip(legs, total):
                end[i, node] = head
        for i, (start, stop, bore, length, K) in enumerate(self.pipes):
            heads = [end.get((i, v), self.nodes[v]) for v in (start, stop)]
            residual.append(heads[0] - heads[1] - friction_loss(q[i], bore, length, K))
        return residual

    def solve(self, start):
        x = np.concatenate([1e3 * start, np.full(3 * len(self.tees), 0.3)])
        for _ in range(5):
            x = root(self.equations, x, method="hybr", options={"xtol": 1e-13, "maxfev": 20000}).x
        error = np.abs(self.equations(x)).max()
        q = x[:len(self.pipes)] * 1e-3
        slowest = min(abs(qi) / area(p[2]) * p[2] / NU for qi, p in zip(q, self.pipes))
        if error > 1e-11 or slowest < 4000:
            raise RuntimeError(f"the reference is no reference: residual {error:.2g} m, Re from {slowest:.0f}")
        return q

    def text(self):
        lines = ["junction" if level is None else f"surface {level}" for level in self.nodes]
        lines += ["pipe " + " ".join(map(repr, pipe)) for pipe in self.pipes]
        lines += ["tee " + " ".join(map(repr, tee)) for tee in self.tees]
        return "\n".join(lines) + "\nend\n"


def header(levels, feed, bore, branch_bore, branch_K, angle=90):
    """A free surface, a header, and three branches: two tees and the header's end. Water runs either way."""
    nodes = [feed, None, None] + levels
    pipes = [(0, 1, bore, 2.0, 0.5), (1, 2, bore, 1.0, 0.0), (2, 5, branch_bore, 2.0, branch_K),
             (1, 3, branch_bore, 1.0, branch_K), (2, 4, branch_bore, 1.0, branch_K)]
    tees = [(1, 0, 1, 3, bore, branch_bore, angle), (2, 1, 2, 4, bore, branch_bore, angle)]
    return Reference(nodes, pipes, tees)


def ring():
    """Fed by the branch of one tee, drained by those of three: the middle one is fed from both sides."""
    nodes = [1.0, None, None, None, None, 0.0, 0.1, 0.05]
    pipes = [(0, 1, 0.05, 2.0, 0.5)] + [(v, v % 4 + 1, 0.05, 3.0, 0.2) for v in (1, 2, 3, 4)]
    pipes += [(v, v + 3, 0.04, 1.0, 3.0) for v in (2, 3, 4)]
    tees = [(1, 4, 1, 0, 0.05, 0.05, 90)] + [(v, v - 1, v, v + 3, 0.05, 0.04, 90) for v in (2, 3, 4)]
    return Reference(nodes, pipes, tees)


CASES = {
    "manifold, equal bores": (header([0.0, 0.05, 0.1], 1.0, 0.04, 0.04, 2.0), [6, 4, 2, 2, 2]),
    "manifold, narrow branches": (header([0.0, 0.0, 0.0], 0.6, 0.06, 0.025, 5.0), [3, 2, 1, 1, 1]),
    "manifold of wyes": (header([0.0, 0.05, 0.1], 1.0, 0.05, 0.04, 2.0, 45), [6, 4, 2, 2, 2]),
    "drain header": (header([1.0, 0.9, 1.1], 0.0, 0.05, 0.04, 2.0), [-6, -4, -2, -2, -2]),
    "drain header of wyes": (header([1.0, 0.9, 1.1], 0.0, 0.05, 0.035, 2.0, 60), [-6, -4, -2, -2, -2]),
    "ring": (ring(), [6, 3, 1, -1, -3, 2, 2, 2]),
}


def main():
    text = "".join(case.text() for case, _ in CASES.values())
    table = subprocess.run([os.environ["THECA_HYDRAULICS_TEES_TABLE"]], input=text, capture_output=True, text=True,
                           check=True).stdout.splitlines()
    failures = len(table) != len(CASES)
    for (name, (case, start)), line in zip(CASES.items(), table):
        theirs = case.solve(1e-3 * np.array(start, dtype=float))
        ours = np.array([float(word) for word in line.split()])
        difference = np.abs(ours - theirs).max() / np.abs(theirs).max()
        failures += not difference <= TOLERANCE
        print(f"{name}: {difference:.1e} of {1e3 * np.abs(theirs).max():.3f} L/s"
              f"{'' if difference <= TOLERANCE else '  TOO FAR'}")
    return failures != 0


if __name__ == "__main__":
    sys.exit(main())
