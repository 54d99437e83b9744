"""Prints what TEOS-10 (package gsw) says of seawater at one atmosphere, as CSV: the table the published tests quote.

Sea pressure is 0 dbar: gsw counts pressure from one standard atmosphere.
"""

import gsw
import numpy as np

WATER_GAS_CONSTANT = 8.314472 / 0.018015268  # J/kg/K, as in the TEOS-10 manual


def grid(temperatures, salinities):
    """Columns t (degC), s (g/kg) and the TEOS-10 properties in SI units, one row for each pair."""
    t, s = (a.ravel() for a in np.meshgrid(temperatures, salinities, indexing="ij"))
    t, s = t.astype(float), s.astype(float)
    potential = gsw.chem_potential_water_t_exact(s, t, 0) - gsw.chem_potential_water_t_exact(0 * s, t, 0)  # J/g
    return {
        "t": t,
        "s": s,
        "density": gsw.rho_t_exact(s, t, 0),
        "specific_heat_capacity": gsw.cp_t_exact(s, t, 0),
        "latent_heat": gsw.latentheat_evap_t(s, t),
        # Vapour over salt water is in balance with the lowered chemical potential of the water (perfect vapour).
        "vapour_pressure_lowering": np.exp(1000 * potential / (WATER_GAS_CONSTANT * (t + 273.15))),
    }


if __name__ == "__main__":
    table = grid([0, 10, 20, 25, 30, 40], [0, 15, 35, 42])
    print(",".join(table))
    for row in zip(*table.values()):
        print(",".join(f"{value:.9g}" for value in row))
