"""The farm of batch_farm.hpp stepped by numpy, all tanks at once, and by theca in the same run.

    PYTHONPATH=build/python /usr/bin/python3 bench/thermal/batch_numpy.py [systems] [days]

The numpy step is what one would write with care: the same correlations, all four sides of a tank as one wall (they are
equally high), the outer face by Newton's method to 1e-6 K from where it was a step ago, losses at the start and at the
foreseen end of a step and again where a thermostat switched, exchange with the sump in closed form by the modes of each
system, thermostats by bisection. Each line that evaluates a correlation works on all tanks. Set OMP_NUM_THREADS=1.
"""
import os
import sys
import time

os.environ.setdefault("OMP_NUM_THREADS", "1")
import numpy as np

SIGMA = 5.670374419e-8
DAY, STEP = 86400.0, 600.0
PRESSURE, SPEED, SALT, ACTIVITY = 101325.0, 0.1, 35.16504, 0.65
R_DRY, R_VAPOUR = 287.042, 461.524


# --- the farm -----------------------------------------------------------------------------------------------------

class Farm:
    def __init__(self, systems, days):
        self.systems, self.days = systems, days
        hours = np.arange(int(np.ceil(days * 24.0)) + 1)
        season, clock = np.cos(2 * np.pi * (hours / 8760.0 - 0.55)), np.cos(2 * np.pi * (hours - 15) / 24.0)
        self.air = [22.0 + r + 4.5 * season + 1.5 * clock for r in range(2)]
        self.around = [a - 0.5 + 0.8 * season for a in self.air]
        self.humidity = [0.58 + 0.08 * season - 0.04 * clock for _ in range(2)]
        n = np.arange(20 * systems)
        self.system, even = n // 20, n % 2 == 0
        self.type = n % 2
        self.water = np.where(even, 0.62, 0.31) * (1.0 + 0.02 * np.sin(n))
        self.turns = np.where(even, 4.0, 6.0) / 3600.0
        self.light = np.where(even, 150.0, 80.0) * (1.0 + 0.1 * np.cos(n))
        self.length, self.width = np.where(even, 2.4, 1.2), np.where(even, 0.74, 0.6)
        self.depth = np.where(even, 0.36, 0.45)
        self.room = np.arange(systems) % 2
        self.lights_from = 3600.0 * (8 + np.arange(systems) % 3)


# --- the physics, as in include/theca -----------------------------------------------------------------------------

def saturation(t):
    return np.exp(-5.8002206e3 / t + 1.3914993 + t * (-4.8640239e-2 + t * (4.1764768e-5 - t * 1.4452093e-8))
                  + 6.5459673 * np.log(t))


def air_properties(t):
    """Kinematic viscosity, conductivity, Prandtl number, heat capacity of dry air."""
    root = t * np.sqrt(t)
    viscosity = 1.458e-6 * root / (t + 110.4)
    conductivity = 2.64638e-3 * root / (t + 245.4 * np.exp(-12.0 * np.log(10.0) / t))
    heat = 1034.09 + t * (-0.284887 + t * (0.7816818e-3 + t * (-0.4970786e-6 + t * 0.1077024e-9)))
    return viscosity * R_DRY * t / PRESSURE, conductivity, heat * viscosity / conductivity, heat


def latent_heat(t):
    c = t - 273.15
    return 2.501e6 + c * (-2.369e3 + c * (2.678e-1 + c * (-8.103e-3 - c * 2.079e-5)))


class Losses:
    def __init__(self, farm):
        self.f = farm
        self.side = farm.length * farm.width / (2.0 * (farm.length + farm.width))
        self.area = farm.length * farm.width
        self.wall_area = 2.0 * (farm.length + farm.width) * farm.depth
        self.short = np.minimum(farm.length, farm.width)
        self.face = None
        self.salt = np.exp(-SALT * (4.5818e-4 + 2.0443e-6 * SALT))

    def wall(self, water, air, around, height, face):
        """Flux through water film, 12 mm of glass, and the film and radiation outside."""
        inner = 1.0 / (1.0 / 100.0 + 0.012)
        for _ in range(30):
            mean = 0.5 * (face + air)
            viscosity, conductivity, prandtl, _ = air_properties(mean)
            rayleigh = 9.80665 * np.abs(face - air) / mean * height**3 / viscosity**2 * prandtl
            blend = (1.0 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
            film = conductivity / height * (0.825 + 0.387 * rayleigh ** (1 / 6) / blend) ** 2
            radiation = 0.9 * SIGMA * (face**4 - around**4)
            over = inner * (water - face) - film * (face - air) - radiation
            step = over / (inner + 1.25 * film + 3.6 * SIGMA * face**3)
            face = face + step
            if np.max(np.abs(step)) < 1e-6:
                break
        return inner * (water - face), face

    def __call__(self, water, room, which, face):
        """W of tanks `which` at water temperatures in K; room: air, surroundings, humidity per tank."""
        air, around, humidity = room
        side, area, short = self.side[which], self.area[which], self.short[which]
        wall, face = self.wall(water, air, around, self.f.depth[which], face)

        at_water = saturation(water) * self.salt
        at_room = humidity * saturation(air)
        dry_w, dry_r = (PRESSURE - at_water) / (R_DRY * water), (PRESSURE - at_room) / (R_DRY * air)
        rho_w, rho_r = dry_w + at_water / (R_VAPOUR * water), dry_r + at_room / (R_VAPOUR * air)
        mean = 0.5 * (water + air)
        viscosity, conductivity, prandtl, heat = air_properties(mean)
        buoyancy = (rho_r - rho_w) / (0.5 * (rho_r + rho_w))
        rayleigh = 9.80665 * np.abs(buoyancy) * side**3 / viscosity**2 * prandtl
        rayleigh = np.maximum(rayleigh, 1e-12)
        thin = 0.835 * 0.671 / (1.0 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9) * rayleigh**0.25
        laminar = 1.4 / np.log(1.0 + 1.4 / thin)
        turbulent = 0.14 * (1.0 + 0.0107 * prandtl) / (1.0 + 0.01 * prandtl) * rayleigh ** (1 / 3)
        rising = (laminar**10 + turbulent**10) ** 0.1
        held = 0.527 * rayleigh**0.2 / (1.0 + (1.9 / prandtl) ** 0.9) ** (2 / 9)
        natural = conductivity / side * np.where(buoyancy >= 0.0, rising, 2.5 / np.log(1.0 + 2.5 / held))
        forced = conductivity / short * 0.664 * np.sqrt(SPEED * short / viscosity) * prandtl ** (1 / 3)
        film = (forced**3.5 + natural**3.5) ** (1 / 3.5)

        difference, latent = at_water - at_room, latent_heat(water)
        rho = PRESSURE / (R_DRY * mean)
        diffusivity = 0.2178e-4 * 101325.0 / PRESSURE * (mean / 273.15) ** 1.81
        lewis = conductivity / (rho * heat) / diffusivity
        analogy = film / (rho * heat * lewis ** (2 / 3)) * difference / (461.52 * mean)
        ashrae = ACTIVITY * difference * (0.089 + 0.0782 * SPEED) / latent
        smith = 0.74 * (1055.05585262 / 3600.0 / 0.3048**2) / 3386.389 * (95.0 + 0.425 / (0.3048 / 60.0) * SPEED) \
            * difference / latent
        lift = dry_r - dry_w
        ratio_w, ratio_r = 0.621945 * at_water / (PRESSURE - at_water), 0.621945 * at_room / (PRESSURE - at_room)
        natural_shah = 35.0 * dry_w * np.maximum(lift, 0.0) ** (1 / 3) * (ratio_w - ratio_r)
        shah = np.maximum(natural_shah, 5e-5 * difference) / 3600.0
        rate = np.where(difference >= 0.0, 0.25 * (analogy + ashrae + smith + shah), analogy)
        return (area * (rate * latent + film * (water - air) + 0.96 * SIGMA * (water**4 - around**4))
                + self.wall_area[which] * wall + 1.5 * area * (water - air)), face


# --- the step -----------------------------------------------------------------------------------------------------

def decay(z):
    z = np.maximum(z, 1e-9)
    first = np.where(z < 1e-3, 1.0 - z / 2 + z**2 / 6, -np.expm1(-z) / z)
    second = np.where(z < 1e-3, 0.5 - z / 6 + z**2 / 24, (1.0 - first) / z)
    return np.exp(-z), first, second


def run_numpy(farm, heat_of_water):
    n, s = len(farm.system), farm.systems
    capacity = heat_of_water * farm.water
    tank = farm.system
    group = tank * 2 + farm.type  # two groups of equal turnover in each system
    part_capacity = np.column_stack([np.bincount(group, capacity, 2 * s).reshape(s, 2), np.full(s, heat_of_water * 0.8)])
    exchange = part_capacity[:, :2] * np.array([4.0, 6.0]) / 3600.0
    arrow = np.zeros((s, 3, 3))
    for g in range(2):
        arrow[:, g, g] = exchange[:, g] / part_capacity[:, g]
        arrow[:, g, 2] = arrow[:, 2, g] = -exchange[:, g] / np.sqrt(part_capacity[:, g] * part_capacity[:, 2])
    leak = 18.0
    arrow[:, 2, 2] = (exchange.sum(1) + leak) / part_capacity[:, 2]
    rate, vector = np.linalg.eigh(arrow)
    inward = vector * np.sqrt(part_capacity)[:, :, None]   # amplitude of mode k per temperature of part g
    out = vector / np.sqrt(part_capacity)[:, :, None]

    losses = Losses(farm)
    t = np.full(n, 298.65)
    sump, slope = np.full(s, 298.65), np.zeros(n)
    sump_slope = np.zeros(s)
    heater, chiller = np.zeros(s, bool), np.zeros(s, bool)
    heated = np.zeros(s)
    face = t.copy()
    area = np.zeros(n)
    starts = np.zeros(s, int)
    tank_room = farm.room[tank]

    def room_at(step):
        x = step * STEP / 3600.0
        k = min(int(x), len(farm.air[0]) - 2)
        w = x - k
        def mean(lists):
            return np.array([a[k] + w * (a[k + 1] - a[k]) for a in lists])
        return mean(farm.air) + 273.15, mean(farm.around) + 273.15, mean(farm.humidity)

    def advance(which, h, amplitude, push, push_slope):
        e, first, second = decay(rate[which] * h[:, None])
        return amplitude * e + h[:, None] * (push * first + push_slope * h[:, None] * second)

    def sums(values, which_systems=None):
        return np.bincount(group, values, 2 * s).reshape(s, 2)

    def exchange_step(lit, q0, q1, q0s, q1s, foreseen_sump, heater, chiller):
        """Parts and devices at the end of the step, all systems."""
        heat0 = lit[tank] * farm.light - q0
        change = (q0 - q1) / STEP
        means = np.column_stack([sums(capacity * t) / part_capacity[:, :2], sump])
        heat = np.column_stack([sums(heat0), 400.0 - q0s + leak * sump])
        rise = np.column_stack([sums(change), (q0s - q1s + leak * (foreseen_sump - sump)) / STEP])
        a = np.einsum("sgk,sg->sk", inward, means)
        push = np.einsum("sgk,sg->sk", out, heat)
        push_slope = np.einsum("sgk,sg->sk", out, rise)
        heater, chiller = heater.copy(), chiller.copy()
        left = np.full(s, STEP)
        on_time, started = np.zeros(s), np.zeros(s, int)
        which = np.arange(s)
        for _ in range(1000):
            device = (heater[which] * 8000.0 - chiller[which] * 6000.0)[:, None] * out[which, 2, :]
            p = push[which] + device
            end = advance(which, left[which], a[which], p, push_slope[which])
            at_end = np.einsum("sk,sk->s", out[which, 2, :], end)
            low = np.where(heater[which], np.where(chiller[which], 299.35, -1e9), np.where(chiller[which], 299.35, 297.85))
            high = np.where(heater[which], 298.45, np.where(chiller[which], 1e9, 299.95))
            crossed = (at_end < low) | (at_end > high)
            done = which[~crossed]
            a[done] = end[~crossed]
            on_time[done] += left[done] * heater[done]
            which, p = which[crossed], p[crossed]
            if len(which) == 0:
                break
            limit = np.where(at_end < low, low, high)[crossed]
            sign = np.where(at_end[crossed] > limit, 1.0, -1.0)
            lo, hi = np.zeros(len(which)), left[which].copy()
            for _ in range(40):
                middle = 0.5 * (lo + hi)
                there = np.einsum("sk,sk->s", out[which, 2, :],
                                  advance(which, middle, a[which], p, push_slope[which]))
                beyond = sign * (there - limit) > 0.0
                hi, lo = np.where(beyond, middle, hi), np.where(beyond, lo, middle)
            a[which] = advance(which, hi, a[which], p, push_slope[which])
            push[which] += push_slope[which] * hi[:, None]
            on_time[which] += hi * heater[which]
            left[which] -= hi
            by_heater = np.where(sign < 0, limit == 297.85, limit == 298.45)
            heater[which] ^= by_heater
            chiller[which] ^= ~by_heater
            started[which] += by_heater & heater[which]
        parts = np.einsum("sgk,sk->sg", out, a)
        e, first, second = decay(farm.turns * STEP)
        mean_now, mean_then = means[:, :2].reshape(-1)[group], parts[:, :2].reshape(-1)[group]
        heat_mean = (heat[:, :2] / part_capacity[:, :2]).reshape(-1)[group]
        rise_mean = (rise[:, :2] / part_capacity[:, :2]).reshape(-1)[group]
        then = mean_then + e * (t - mean_now) + STEP * first * (heat0 / capacity - heat_mean) \
            + STEP**2 * second * (change / capacity - rise_mean)
        return then, parts[:, 2], heater, chiller, on_time, started

    steps = int(round(farm.days * DAY / STEP))
    everything = np.arange(n)
    now_room = room_at(0)
    for step in range(steps):
        next_room = room_at(step + 1)
        clock = (step * STEP) % DAY
        lit = ((clock - farm.lights_from + 1e-6) % DAY) < 36000.0
        at = [x[tank_room] for x in now_room]
        q0, face = losses(t, at, everything, face)
        foreseen, foreseen_sump = t + slope * STEP, sump + sump_slope * STEP
        at = [x[tank_room] for x in next_room]
        q1, face = losses(foreseen, at, everything, face)
        q0s = leak * (sump - now_room[0][farm.room])
        for _ in range(3):
            q1s = leak * (foreseen_sump - next_room[0][farm.room])
            then, sump_then, h, c, on, started = exchange_step(lit, q0, q1, q0s, q1s, foreseen_sump, heater, chiller)
            off = np.zeros(s, bool)
            np.logical_or.at(off, tank, np.abs(then - foreseen) > 2e-3)
            off |= np.abs(sump_then - foreseen_sump) > 2e-3
            again = np.flatnonzero(off[tank])
            if len(again) == 0:
                break
            foreseen, foreseen_sump = then, sump_then
            q1[again], face[again] = losses(foreseen[again], [x[again] for x in at], again, face[again])
        area += 0.5 * STEP * (t + then)
        slope, sump_slope = (then - t) / STEP, (sump_then - sump) / STEP
        t, sump, heater, chiller = then, sump_then, h, c
        heated += 8000.0 * on
        starts += started
        now_room = next_room
    return t, area / (steps * STEP), heated, starts


# --- the same by theca --------------------------------------------------------------------------------------------

def open_tank(si, length, width, depth):
    wall = [si.WallPatch(name="wall", length_m=side, height_m=depth,
                         layers=[si.Layer(thickness_m=0.012, conductivity_W_per_m_K=1.0)])
            for side in (length, length, width, width)]
    return si.TankSurfaces(name="open tank", water_length_m=length, water_width_m=width, walls=wall,
                           inside_film_W_per_m2_K=100.0, base_m2=length * width, base_U_W_per_m2_K=1.5,
                           evaporation_activity=ACTIVITY)


def batch_of(si, farm):
    s = farm.systems
    def each(x):
        return np.full(s, x)
    return si.Batch(
        types=[open_tank(si, 2.4, 0.74, 0.36), open_tank(si, 1.2, 0.6, 0.45),
               si.TankSurfaces(name="sump", base_m2=6.0, base_U_W_per_m2_K=3.0)],
        rooms=[si.RoomSeries(name="hall", interval_s=3600.0, air_K=farm.air[r] + 273.15,
                             surroundings_K=farm.around[r] + 273.15, humidity=farm.humidity[r],
                             air_speed_m_per_s=SPEED) for r in range(2)],
        systems=si.BatchSystems(
            room=farm.room.tolist(), sump_room=farm.room.tolist(), sump_type=[2] * s, sump_water_m3=each(0.8),
            sump_start_K=each(298.65), gain_W=each(400.0), heater_W=each(8000.0), chiller_W=each(6000.0),
            heater_set_point_K=each(298.15), chiller_set_point_K=each(299.65), spread_K=each(0.6),
            lights_from_s=farm.lights_from, lights_length_s=each(36000.0)),
        tanks=si.BatchTanks(system=farm.system.tolist(), type=farm.type.tolist(), water_m3=farm.water,
                            turnover_m3_per_s=farm.turns * farm.water, light_W=farm.light,
                            start_K=np.full(20 * s, 298.65)),
        duration_s=farm.days * DAY, water_low_K=293.15, water_high_K=304.15, cold_limit_K=297.65, warm_limit_K=300.15)


def main():
    systems = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    days = float(sys.argv[2]) if len(sys.argv) > 2 else 2.0
    from theca import si
    farm = Farm(systems, days)
    batch = batch_of(si.thermal, farm)
    water = si.thermal.Water(temperature_K=298.15, salinity_g_per_kg=SALT)
    heat = si.thermal.water_heat_capacity(1.0, water)
    clock = time.process_time()
    prepared = si.thermal.prepare(batch)
    ready = time.process_time()
    result = si.thermal.run_batch(prepared)
    done = time.process_time()
    end, mean, heated, starts = run_numpy(farm, heat)
    by_numpy = time.process_time() - done
    tank_steps = 20 * systems * days * DAY / STEP
    year = 10000 * 365 * DAY / STEP
    each, each_numpy = (done - ready) / tank_steps, by_numpy / tank_steps
    print(f"{20 * systems} tanks, {days} days; differences of all tanks: at the end "
          f"{np.max(np.abs(np.asarray(result.end_K) - end)) * 1e3:.2f} mK, mean "
          f"{np.max(np.abs(np.asarray(result.mean_K) - mean)) * 1e3:.2f} mK; heater starts "
          f"{np.sum(result.heater_starts)} and {np.sum(starts)}; heat {np.sum(result.heated_J) / np.sum(heated) - 1:.1e}")
    print(f"theca {each * 1e9:.1f} ns, numpy {each_numpy * 1e9:.0f} ns a tank and step: {each_numpy / each:.0f} times; "
          f"10,000 tanks over a year {each * year:.1f} s and {each_numpy * year:.0f} s (scaled); tables "
          f"{ready - clock:.2f} s once")


if __name__ == "__main__":
    main()
