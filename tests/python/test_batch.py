"""A batch of tanks: lists in as arrays, results as arrays, systems shared out to threads of the caller."""
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest

import theca
from theca import si


def farm(systems=4, tanks=24, days=2):
    t = si.thermal
    hours = np.arange(24 * days + 1)
    each = lambda x: np.full(systems, x)  # noqa: E731
    return t.Batch(
        types=[t.TankSurfaces(name="open tank", water_length_m=2.4, water_width_m=0.74, base_m2=1.776,
                              base_U_W_per_m2_K=1.5),
               t.TankSurfaces(name="sump", base_m2=6.0, base_U_W_per_m2_K=3.0)],
        rooms=[t.RoomSeries(name="hall", interval_s=3600.0, air_K=293.15 + 3.0 * np.cos(hours * np.pi / 12.0),
                            humidity=[0.55], air_speed_m_per_s=0.1)],
        systems=t.BatchSystems(
            room=[0] * systems, sump_room=[0] * systems, sump_type=[1] * systems, sump_water_m3=each(0.5),
            sump_start_K=each(298.15), gain_W=each(0.0), heater_W=each(5000.0), chiller_W=each(0.0),
            heater_set_point_K=each(298.15), chiller_set_point_K=each(300.15), spread_K=each(0.5),
            lights_from_s=each(9 * 3600.0), lights_length_s=each(36000.0)),
        tanks=t.BatchTanks(
            system=np.arange(tanks) % systems, type=np.zeros(tanks, int), water_m3=np.full(tanks, 0.6),
            turnover_m3_per_s=np.full(tanks, 0.6 * 4 / 3600), light_W=np.linspace(0.0, 200.0, tanks),
            start_K=np.full(tanks, 298.15)),
        duration_s=days * 86400.0, water_low_K=291.15, water_high_K=304.15, cold_limit_K=297.15, warm_limit_K=300.15,
        traced=[3])


def test_results_are_arrays_and_the_course_is_whole():
    prepared = si.thermal.prepare(farm())
    r = si.thermal.run_batch(prepared)
    mean = np.asarray(r.mean_K)
    assert mean.shape == (24,) and np.all(np.abs(mean - 298.0) < 1.0)
    assert np.asarray(r.courses_K[0]).shape == (2 * 144 + 1,)
    assert r.courses_K[0][-1] == r.end_K[3]
    assert prepared.table_error_K <= 5e-3


def test_threads_of_the_caller_give_the_same_bits():
    prepared = si.thermal.prepare(farm())
    whole = si.thermal.run_batch(prepared)
    with ThreadPoolExecutor(2) as pool:
        parts = list(pool.map(lambda ends: si.thermal.run_batch(prepared, *ends), [(0, 1), (1, 4)]))
    order = np.concatenate([np.asarray(p.tank) for p in parts])
    mean = np.empty(24)
    mean[order] = np.concatenate([np.asarray(p.mean_K) for p in parts])
    assert np.array_equal(mean, np.asarray(whole.mean_K))


def test_a_list_of_another_length_is_named():
    batch = farm()
    batch.tanks.light_W = np.zeros(3)
    with pytest.raises(theca.InvalidInput, match="length of lights"):
        si.thermal.prepare(batch)
