"""Lets CMake build the package and puts the result into the wheel. The version is the CMake project's.

THECA_BUILD_DIR, if set, names a build tree of CMake to use instead of one of its own.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys

from setuptools import Distribution, setup
from setuptools.command.build_py import build_py

SOURCE = pathlib.Path(__file__).resolve().parent.parent
VERSION = re.search(r"project\(theca VERSION ([0-9.]+)", (SOURCE / "CMakeLists.txt").read_text(encoding="utf-8"))[1]
BUILD = pathlib.Path(os.environ.get("THECA_BUILD_DIR") or SOURCE / "build" / "wheel").resolve()
SCRATCH = BUILD / "wheel"  # so that nothing is written beside the sources
SCRATCH.mkdir(parents=True, exist_ok=True)


class BuildWithCMake(build_py):
    def run(self):
        build = BUILD
        if not (build / "CMakeCache.txt").exists():
            subprocess.run(["cmake", "-S", SOURCE, "-B", build, "-DCMAKE_BUILD_TYPE=Release", "-DTHECA_BUILD_PYTHON=ON",
                            "-DTHECA_BUILD_TESTS=OFF", "-DTHECA_BUILD_BENCH=OFF", f"-DPython3_EXECUTABLE={sys.executable}",
                            f"-DPython_EXECUTABLE={sys.executable}"], check=True)
        subprocess.run(["cmake", "--build", build, "--target", "_theca", "--parallel", str(os.cpu_count() or 2)], check=True)
        shutil.copytree(build / "python" / "theca", pathlib.Path(self.build_lib) / "theca", dirs_exist_ok=True,
                        ignore=shutil.ignore_patterns("__pycache__"))

    def get_outputs(self, include_bytecode=1):
        return []


class WithExtension(Distribution):
    """The wheel holds compiled code: it is tagged for this Python and this machine."""

    def has_ext_modules(self):
        return True


setup(version=VERSION, packages=["theca"], cmdclass={"build_py": BuildWithCMake}, distclass=WithExtension,
      options={"build": {"build_base": str(SCRATCH)}, "egg_info": {"egg_base": str(SCRATCH)}})
