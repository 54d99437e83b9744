"""The wheel and `cmake --install`: what is built is what a clean virtual environment imports."""
import importlib.util
import os
import pathlib
import subprocess
import sys

import pytest

import theca

BUILD = os.environ.get("THECA_BUILD_DIR")
SCRIPT = """
import theca
design = theca.read_design(theca.__path__[0] + "/studies/demo.toml")
print(theca.__file__)
print(theca.__version__)
print(len(theca.assess(design).checks))
"""

pytestmark = pytest.mark.skipif(BUILD is None, reason="THECA_BUILD_DIR names no build tree to take the wheel from")


def quietly(*command, **more):
    run = subprocess.run([str(c) for c in command], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, timeout=500,
                         **more)
    assert run.returncode == 0, run.stdout
    return run.stdout


def without_path():
    return {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}


def test_a_wheel_installs_into_a_clean_environment_without_the_network(tmp_path, source, design):
    for tool in ("pip", "setuptools", "wheel", "venv"):
        if importlib.util.find_spec(tool) is None:
            pytest.skip(f"{tool} is not installed")
    quietly(sys.executable, "-m", "pip", "wheel", "--no-build-isolation", "--no-index", "--no-deps", "-w", tmp_path,
            source / "python", env={**without_path(), "THECA_BUILD_DIR": BUILD})
    wheel, = tmp_path.glob("theca-*.whl")
    assert "-any" not in wheel.name
    # numpy, pint and matplotlib are the system's.
    quietly(sys.executable, "-m", "venv", "--system-site-packages", "--without-pip", tmp_path / "env")
    python = tmp_path / "env" / "bin" / "python"
    quietly(sys.executable, "-m", "pip", "--python", python, "install", "--no-index", "--no-deps", wheel, env=without_path())
    where, version, checks = quietly(python, "-c", SCRIPT, cwd=tmp_path, env=without_path()).split()
    assert pathlib.Path(where).is_relative_to(tmp_path / "env")
    assert version == theca.__version__ and wheel.name.startswith(f"theca-{version}-")
    assert int(checks) == len(theca.assess(design).checks)
    package = pathlib.Path(where).parent
    assert (package / "py.typed").exists() and list(package.rglob("*.pyi"))


def test_cmake_installs_the_package_under_a_prefix(tmp_path, design):
    quietly("cmake", "--install", BUILD, "--component", "python", "--prefix", tmp_path / "prefix")
    package, = (tmp_path / "prefix").rglob("theca/__init__.py")
    env = {**without_path(), "PYTHONPATH": str(package.parent.parent)}
    where, version, checks = quietly(sys.executable, "-c", SCRIPT, cwd=tmp_path, env=env).split()
    assert pathlib.Path(where) == package and version == theca.__version__
    assert int(checks) == len(theca.assess(design).checks)
