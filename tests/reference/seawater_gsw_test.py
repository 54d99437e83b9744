"""Seawater properties over the whole accepted range (0-40 degC x 0-42 g/kg) against TEOS-10 (package gsw).

THECA_SEAWATER_TABLE is the path of the program built from seawater_table.cpp. Run as a script (exit code 77: gsw is
missing, nothing was compared) or with pytest.
"""

import csv
import io
import os
import subprocess
import sys
import unittest

try:
    import gsw
    import numpy as np
except ImportError as missing:
    message = f"seawater is NOT compared with TEOS-10: {missing}"
    if __name__ != "__main__":
        raise unittest.SkipTest(message) from missing
    print("SKIPPED:", message, file=sys.stderr)
    sys.exit(77)

from seawater_gsw_grid import grid


def read_table():
    program = os.environ.get("THECA_SEAWATER_TABLE")
    if not program:
        raise RuntimeError("set THECA_SEAWATER_TABLE to the program built from seawater_table.cpp")
    text = subprocess.run([program], check=True, capture_output=True, text=True).stdout
    rows = list(csv.DictReader(io.StringIO(text)))
    return {name: np.array([float(row[name] or "nan") for row in rows]) for name in rows[0]}


class SeawaterAgainstTeos10(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.theca = read_table()
        cls.teos = grid(np.arange(41), np.arange(43))

    def within(self, difference, allowed):
        i = int(np.argmax(np.abs(difference)))
        place = f"{self.theca['t'][i]:g} degC, {self.theca['s'][i]:g} g/kg"
        self.assertLess(abs(difference[i]), allowed, f"largest {difference[i]:.3g} at {place}")

    def test_both_tables_cover_the_same_states(self):
        np.testing.assert_array_equal(self.theca["t"], self.teos["t"])
        np.testing.assert_array_equal(self.theca["s"], self.teos["s"])

    def test_density_within_a_hundredth_of_a_kilogram(self):
        self.within(self.theca["density"] - self.teos["density"], 0.01)

    def test_heat_capacity_is_that_of_the_same_gibbs_function(self):
        self.within(self.theca["specific_heat_capacity"] / self.teos["specific_heat_capacity"] - 1, 1e-12)

    def test_heat_capacity_from_heating_the_water(self):
        # Another way to the same number: TEOS-10 enthalpy a little warmer and a little colder.
        t, s, h = self.teos["t"], self.teos["s"], 1e-3
        slope = (gsw.enthalpy_t_exact(s, t + h, 0) - gsw.enthalpy_t_exact(s, t - h, 0)) / (2 * h)
        self.within(self.theca["specific_heat_capacity"] / slope - 1, 1e-6)

    def test_latent_heat_per_kilogram_of_water(self):
        # TEOS-10 evaporates into humid air at one atmosphere, whose real-gas terms lower it by up to 0.15 % against
        # steam tables; its salt dependence is the heat of dilution, below 0.1 %.
        self.within(self.theca["latent_heat"] / self.teos["latent_heat"] - 1, 1.6e-3)
        salt = self.teos["latent_heat"].reshape(41, 43)
        self.within((salt / salt[:, :1] - 1).ravel(), 1e-3)

    def test_salt_lowers_the_vapour_pressure_as_it_lowers_the_chemical_potential(self):
        pressure = self.theca["vapour_pressure"].reshape(41, 43)
        self.within((pressure / pressure[:, :1]).ravel() - self.teos["vapour_pressure_lowering"], 6e-4)

    def test_no_number_is_missing_or_wild(self):
        t, s = self.theca["t"], self.theca["s"]
        narrower = {"surface_tension": t >= 1, "refractive_index_550nm": (t <= 30) & (s <= 40)}
        for name, column in self.theca.items():
            np.testing.assert_array_equal(np.isfinite(column), narrower.get(name, t >= 0), name)


if __name__ == "__main__":
    unittest.main()
