"""Runs pytest on this folder; exit code 77 (skipped, for ctest) with the reason where a needed package is missing."""
import importlib.util
import pathlib
import sys

# Worker processes of a local cluster import this file again.
if __name__ == "__main__":
    missing = [name for name in ("pytest", "numpy", "pint", "matplotlib", "tqdm") if importlib.util.find_spec(name) is None]
    if missing:
        print(f"SKIPPED: the Python tests need {', '.join(missing)} for {sys.executable}")
        sys.exit(77)
    import pytest  # noqa: E402

    here = pathlib.Path(__file__).parent
    sys.exit(pytest.main(["-q", "-rs", "-p", "no:cacheprovider", str(here), *sys.argv[1:]]))
