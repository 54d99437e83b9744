import os
import pathlib
import sys

import pytest

import theca

SOURCE = pathlib.Path(os.environ.get("THECA_SOURCE", pathlib.Path(__file__).parents[2]))
sys.path.insert(0, str(SOURCE / "python" / "tools"))


@pytest.fixture
def Q():
    return theca.registry().Quantity


@pytest.fixture
def source():
    return SOURCE


@pytest.fixture
def wall(Q):
    return theca.structure.Panel(width=Q(1.4, "m"), height=Q(16, "inch"), thickness=Q(11.91, "mm"),
                                 material=theca.materials.float_glass())


@pytest.fixture(scope="session")
def design():
    return theca.read_design(SOURCE / "python" / "theca" / "studies" / "demo.toml")
