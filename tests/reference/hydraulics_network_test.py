"""Flows of pipe networks against EPANET, both with the same formulas.

EPANET's flows stand in hydraulics_network_epanet.txt, made by hydraulics_network_epanet.mjs.
"""

import os
import pathlib
import subprocess
import sys

# The unit factors of EPANET are rounded to five digits; what is met is 6e-6.
TOLERANCE = 2e-5


def main():
    networks = pathlib.Path(__file__).with_name("hydraulics_network_epanet.txt").read_text(encoding="ascii")
    table = subprocess.run([os.environ["THECA_HYDRAULICS_NETWORK_TABLE"]], input=networks, capture_output=True,
                           text=True, check=True).stdout
    rows = [line.split() for line in table.splitlines()]
    failures = 0
    for name, difference, largest in rows:
        agrees = float(difference) <= TOLERANCE
        failures += not agrees
        print(f"{name}: {float(difference):.2e} of {float(largest):.4g} L/s{'' if agrees else '  TOO FAR'}")
    if len(rows) < 10:
        print(f"{len(rows)} networks, 10 or more expected")
        failures += 1
    return failures != 0


if __name__ == "__main__":
    sys.exit(main())
