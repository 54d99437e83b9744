"""Seawater properties over the whole accepted range (0-40 degC x 0-42 g/kg) against TEOS-10 (package gsw).

Run with pytest. THECA_SEAWATER_TABLE is the path of the program built from seawater_table.cpp.
"""

import csv
import io
import os
import subprocess

import pytest

np = pytest.importorskip("numpy", reason="numpy is not installed: seawater is NOT compared with TEOS-10")
pytest.importorskip("gsw", reason="gsw is not installed: seawater is NOT compared with TEOS-10")

from seawater_gsw_grid import grid  # noqa: E402


@pytest.fixture(scope="module")
def theca():
    program = os.environ.get("THECA_SEAWATER_TABLE")
    assert program, "set THECA_SEAWATER_TABLE to the program built from seawater_table.cpp"
    text = subprocess.run([program], check=True, capture_output=True, text=True).stdout
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == 41 * 43
    return {name: np.array([float(row[name] or "nan") for row in rows]) for name in rows[0]}


@pytest.fixture(scope="module")
def teos(theca):
    table = grid(np.arange(41), np.arange(43))
    assert np.array_equal(table["t"], theca["t"]) and np.array_equal(table["s"], theca["s"])
    return table


def worst(theca, difference):
    i = int(np.argmax(np.abs(difference)))
    return f"largest {difference[i]:.3g} at {theca['t'][i]:g} degC, {theca['s'][i]:g} g/kg"


def test_density_within_a_hundredth_of_a_kilogram(theca, teos):
    difference = theca["density"] - teos["density"]
    assert np.all(np.abs(difference) < 0.01), worst(theca, difference)


def test_heat_capacity_is_that_of_the_same_gibbs_function(theca, teos):
    difference = theca["specific_heat_capacity"] / teos["specific_heat_capacity"] - 1
    assert np.all(np.abs(difference) < 1e-12), worst(theca, difference)


def test_heat_capacity_from_heating_the_water(teos):
    # Another way to the same number: TEOS-10 enthalpy a little warmer and a little colder.
    import gsw

    t, s, h = teos["t"], teos["s"], 1e-3
    slope = (gsw.enthalpy_t_exact(s, t + h, 0) - gsw.enthalpy_t_exact(s, t - h, 0)) / (2 * h)
    assert np.all(np.abs(slope / teos["specific_heat_capacity"] - 1) < 1e-6)


def test_latent_heat_per_kilogram_of_water(theca, teos):
    # TEOS-10 evaporates into humid air at one atmosphere, whose real-gas terms lower it by up to 0.15 % against steam
    # tables; its salt dependence is the heat of dilution, below 0.1 %.
    difference = theca["latent_heat"] / teos["latent_heat"] - 1
    assert np.all(np.abs(difference) < 2e-3), worst(theca, difference)
    salt = teos["latent_heat"].reshape(41, 43)
    assert np.all(np.abs(salt / salt[:, :1] - 1) < 1e-3)


def test_salt_lowers_the_vapour_pressure_as_it_lowers_the_chemical_potential(theca, teos):
    pressure = theca["vapour_pressure"].reshape(41, 43)
    difference = (pressure / pressure[:, :1]).ravel() - teos["vapour_pressure_lowering"]
    assert np.all(np.abs(difference) < 6e-4), worst(theca, difference)


def test_no_number_is_missing_or_wild(theca):
    for name, column in theca.items():
        inside = np.ones(column.shape, dtype=bool)
        if name == "surface_tension":
            inside = theca["t"] >= 1
        if name == "refractive_index_550nm":
            inside = (theca["t"] <= 30) & (theca["s"] <= 40)
        assert np.all(np.isfinite(column[inside])), name
        assert np.all(np.isnan(column[~inside])), name
