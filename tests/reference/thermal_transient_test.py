"""A week of 12 tanks on a sump with thermostats, lights, a power cut and a stuck heater, against scipy.

Nothing of theca is used for the second one: the right side is written anew from its formulas (Hyland & Wexler 1983,
Carrier 1918) and integrated by scipy's Radau IIA, an implicit method of another kind, with its own root finding for the
thermostats.
"""

import math
import os
import subprocess
import sys

try:
    import numpy as np
    from scipy.integrate import solve_ivp
except ImportError as missing:
    print("SKIPPED: tank loops over time are NOT compared with scipy:", missing, file=sys.stderr)
    sys.exit(77)

TANKS, SUMP, HOUR, WEEK = 12, 12, 3600.0, 168 * 3600.0
CAPACITY = np.array([1.6e6 + 1e5 * i for i in range(TANKS)] + [1.5e6])
UA = np.array([8.0 + 0.5 * i for i in range(TANKS)] + [12.0])
START = np.array([298.15 + 0.1 * i for i in range(TANKS)] + [298.65])
EXCHANGE = np.array([700.0 + 50.0 * i for i in range(TANKS)])
# node, heat, on at, off at
UNITS = [(i, 900.0, 298.40, 298.70) for i in range(0, TANKS, 3)]
UNITS += [(SUMP, 1500.0, 298.15, 298.55), (SUMP, -2000.0, 299.35, 298.95)]
BREAKS = sorted({0.0, 30 * HOUR, 36 * HOUR, 100 * HOUR, 110 * HOUR, WEEK} |
                {(24 * d + h) * HOUR for d in range(7) for h in (9, 19)})

# Ten times what is met, which is printed: 3e-7 K, 1e-3 s, 4e-9.
MOST_KELVIN, MOST_SECONDS, MOST_ENERGY = 3e-6, 1e-2, 5e-8


def saturation(t):
    return np.exp(-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t**2 - 1.4452093e-8 * t**3
                  + 6.5459673 * np.log(t))


def room(t):
    return (294.15 + 3 * math.cos(2 * math.pi * (t / HOUR - 15) / 24)
            + 4 * math.cos(2 * math.pi * (t / HOUR - 120) / 168))


def losses(t, temperatures):
    r = room(t)
    over = temperatures - r
    q = UA * over
    tanks = temperatures[:TANKS]
    d = over[:TANKS]
    q[:TANKS] += 4.0 * d * (d * d + 1e-4)**0.125
    q[:TANKS] += 1.6 * 0.5 * 0.089 * (0.98 * saturation(tanks) - 0.55 * saturation(r))
    return q


def right_side(powered, lit, running):
    given = np.zeros(TANKS + 1)
    if powered:
        given[SUMP] += 200.0
        if lit:
            given[:TANKS] += 90.0
        for (node, heat, _, _), on in zip(UNITS, running):
            given[node] += heat if on else 0.0

    def f(t, y):
        temperatures = y[:TANKS + 1]
        q = losses(t, temperatures)
        heat = given - q
        if powered:
            exchanged = EXCHANGE * (temperatures[SUMP] - temperatures[:TANKS])
            heat[:TANKS] += exchanged
            heat[SUMP] -= exchanged.sum()
        return np.append(heat / CAPACITY, q.sum() / 1e6)
    return f


def judge():
    y, t = np.append(START, 0.0), 0.0
    on = [(y[n] <= a) if heat > 0 else (y[n] >= a) for n, heat, a, _ in UNITS]
    hourly, switchings, energy = [y[:-1]], [], np.zeros(len(UNITS))
    for end in BREAKS[1:]:
        middle = 0.5 * (t + end) / HOUR
        powered, lit, stuck = not 30 < middle < 36, 9 < middle % 24 < 19, 100 < middle < 110
        while t < end:
            running = [o or (stuck and u == 4) for u, o in enumerate(on)]
            events = []
            for (node, heat, on_at, off_at), o in zip(UNITS, on):
                def event(_, y, node=node, threshold=off_at if o else on_at):
                    return y[node] - threshold
                event.terminal = True
                event.direction = 1 if (heat > 0) == o else -1
                events.append(event)
            asked = np.arange(math.floor(t / HOUR) + 1, math.floor(end / HOUR + 1e-9) + 1) * HOUR
            run = solve_ivp(right_side(powered, lit, running), (t, end), y, method="Radau", rtol=1e-10, atol=1e-10,
                            events=events, dense_output=True, max_step=1200.0)
            assert run.success
            stop = run.t[-1]
            hourly += [run.sol(a)[:-1] for a in asked if a <= stop]
            energy += [(stop - t) * heat if r and powered else 0.0 for (_, heat, _, _), r in zip(UNITS, running)]
            t, y = stop, run.y[:, -1]
            if run.status == 1:
                for u, times in enumerate(run.t_events):
                    if len(times):
                        on[u] = not on[u]
                        switchings.append((t, u, on[u]))
    return np.array(hourly), switchings, energy, y[-1] * 1e6


def main():
    table = subprocess.run([os.environ["THECA_THERMAL_TRANSIENT_TABLE"]], capture_output=True, text=True,
                           check=True).stdout.splitlines()
    rows = [line.split() for line in table]
    ours = np.array([[float(x) for x in r[2:]] for r in rows if r[0] == "T"])
    our_switchings = [(float(r[1]), int(r[2]), r[3] == "1") for r in rows if r[0] == "S"]
    our_energy = np.array([float(r[2]) for r in rows if r[0] == "E" and r[1] != "lost"])
    our_lost = next(float(r[2]) for r in rows if r[0] == "E" and r[1] == "lost")
    theirs, switchings, energy, lost = judge()
    same = [s[1:] for s in our_switchings] == [s[1:] for s in switchings] and ours.shape == theirs.shape
    print(f"{len(our_switchings)} switchings here, {len(switchings)} there")
    if not same:
        return 1
    kelvin = np.abs(ours - theirs).max()
    seconds = max(abs(a[0] - b[0]) for a, b in zip(our_switchings, switchings))
    joule = max(np.abs(our_energy - energy).max() / np.abs(energy).max(), abs(our_lost / lost - 1))
    print(f"temperatures within {kelvin:.1e} K, switchings within {seconds:.1e} s, energies within {joule:.1e}")
    return not (kelvin <= MOST_KELVIN and seconds <= MOST_SECONDS and joule <= MOST_ENERGY)


if __name__ == "__main__":
    sys.exit(main())
