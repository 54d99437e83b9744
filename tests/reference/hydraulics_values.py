"""Prints the reference values that tests/hydraulics and tests/published/hydraulics_* compare with.

Nothing of theca is used: Colebrook-White is solved with mpmath to 50 digits, pump curves come from scipy, the manifold
from scipy.optimize.fsolve with the friction factor of the package fluids. Needs mpmath, scipy, fluids.
"""
import math
from bisect import bisect_right

import mpmath as mp
import numpy as np
from fluids import friction_factor
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq, fsolve

mp.mp.dps = 50
INCH, FOOT, GALLON = 0.0254, 0.3048, 231 * 0.0254**3
GPH = GALLON / 3600
G = 9.80665
NU = 0.93e-6


def colebrook(reynolds, roughness):
    def g(x):
        return x + 2 * mp.log10(mp.mpf(roughness) / mp.mpf("3.7") + mp.mpf("2.51") * x / reynolds)

    x = mp.findroot(g, (mp.mpf(1), mp.mpf(20)), solver="anderson", tol=mp.mpf(10) ** -45)
    return 1 / x**2


def print_colebrook():
    print("// Re, roughness/bore, f")
    for reynolds in ("4000", "1e4", "5e4", "1e5", "1e6", "1e7", "1e8"):
        for roughness in ("0", "1e-6", "5e-5", "1e-3", "1e-2", "5e-2"):
            f = colebrook(mp.mpf(reynolds), roughness)
            print("{%s, %s, %s}," % (reynolds, roughness, mp.nstr(f, 17)))


CURVE = [(0, 30), (2000, 29.4), (4000, 28), (6000, 25.6), (8000, 22.2), (10000, 17.2), (12000, 9.2), (13500, 1.5)]
FLOWS = [q * GPH for q, _ in CURVE]
HEADS = [h * FOOT for _, h in CURVE]


def linear(q):
    i = min(max(bisect_right(FLOWS, q) - 1, 0), len(FLOWS) - 2)
    return HEADS[i] + (HEADS[i + 1] - HEADS[i]) * (q - FLOWS[i]) / (FLOWS[i + 1] - FLOWS[i])


def print_pchip():
    curve = PchipInterpolator([q for q, _ in CURVE], [h for _, h in CURVE])
    print("// gph, ft of the monotone cubic")
    for q in (500, 1000, 3100, 6000, 9000, 11000, 12900, 13400):
        print("{%g, %.15g}," % (q, curve(q)))


def loss(q, bore, length, minor, roughness=1.5e-6):
    if q == 0:
        return 0.0
    v = q / (math.pi / 4 * bore**2)
    f = friction_factor(Re=v * bore / NU, eD=roughness / bore, Method="Colebrook")
    return (f * length / bore + minor) * v * v / (2 * G)


def manifold(main_bore, header_bore):
    """Flows in gph of the 14 branches of the demo's return."""
    main = (main_bore, 49 * FOOT, 0.5 + 5 * 0.54 + 1.8 + 0.05 + 1.08)
    firsts, counts = (18, 28, 24), (5, 5, 4)
    branch = (1.049 * INCH, 5 * FOOT, 1.38 + 0.07 + 2 * 0.69 + 1.0)

    def residual(q_gph):
        q = np.asarray(q_gph) * GPH
        at_junction = linear(q.sum()) - loss(q.sum(), *main)
        out, start = [], 0
        for first, count in zip(firsts, counts):
            own = q[start:start + count]
            head = at_junction
            for i in range(count):
                pipe = (header_bore, (first if i == 0 else 8.5) * FOOT, 0.3 + 3 * 0.57 if i == 0 else 0.3)
                head -= loss(own[i:].sum(), *pipe)
                out.append(head - loss(own[i], *branch))
            start += count
        return out

    q, info, ok, message = fsolve(residual, np.full(14, 600.0), xtol=1e-14, full_output=True)
    assert max(abs(r) for r in residual(q)) < 1e-10, message
    return q


def print_manifolds():
    for name, main, header in (("as drawn", 3.068, 2.067), ("headers 3 in", 3.068, 3.068), ("main 4 in", 4.026, 2.067),
                               ("both", 4.026, 3.068)):
        q = manifold(main * INCH, header * INCH)
        print("//", name, "total %.9g gph, head %.9g ft, imbalance %.4g" %
              (q.sum(), linear(q.sum() * GPH) / FOOT, max(abs(q / q.mean() - 1))))
        print("{" + ", ".join("%.10g" % x for x in q) + "},")


def print_duty_point():
    """One line: 3 ft + 46 ft of 3 in, then 60 ft of 2 in, 4 ft up."""
    def excess(q):
        return (linear(q) - 4 * FOOT - loss(q, 3.068 * INCH, 49 * FOOT, 6.13) - loss(q, 2.067 * INCH, 60 * FOOT, 4.0))

    q = brentq(excess, 100 * GPH, 13000 * GPH, xtol=1e-18, rtol=1e-14)
    print("// duty point %.12g gph, %.12g ft" % (q / GPH, linear(q) / FOOT))


if __name__ == "__main__":
    print_colebrook()
    print_pchip()
    print_duty_point()
    print_manifolds()
