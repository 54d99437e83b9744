"""What help() and type checkers see."""
import enum
import inspect
import pathlib
import subprocess
import sys

import pytest

import theca
from theca import si
from theca._kinds import find

PUBLIC = [n for n in si._table["functions"] if n not in theca._face._ROOT_SKIPPED]


@pytest.mark.parametrize("name", PUBLIC)
def test_every_function_is_documented_in_both_layers(name):
    owner = name.rsplit(".", 1)[0]
    for layer in (si, theca):
        if layer is theca and owner in theca._face._ROOT_SKIPPED:
            continue
        text = find(layer, name).__doc__
        assert text and len(text) > 20
        for s in si._table["functions"][name]:
            for a in s["arguments"]:
                assert (a["si_name"] if layer is si else a["name"]) in text


@pytest.mark.parametrize("name", [n for n in PUBLIC if len(si._table["functions"][n]) == 1])
def test_signatures_can_be_read(name):
    s = si._table["functions"][name][0]
    start = 1 if s["method"] else 0
    thin = list(inspect.signature(find(si, name)).parameters)
    assert thin[-len(s["arguments"]):] == [a["si_name"] for a in s["arguments"]] or not s["arguments"]
    typed = list(inspect.signature(find(theca, name)).parameters)
    assert typed[start:] == [a["name"] for a in s["arguments"]]


@pytest.mark.parametrize("name", [n for n in si._table["structs"] if n not in theca._face._ROOT_SKIPPED])
def test_every_struct_documents_its_fields(name):
    for layer, key in ((si, "si_name"), (theca, "name")):
        text = find(layer, name).__doc__
        for f in si._table["structs"][name]["fields"]:
            assert f[key] in text


def test_enums_are_enums():
    for name in si._table["enums"]:
        assert issubclass(find(si, name), enum.Enum) and find(theca, name) is find(si, name)


def test_help_shows_the_source():
    text = theca.structure.bend.__doc__
    assert "Timoshenko" in text and "Raises" in text and "Returns" in text


def test_stubs_are_in_step_with_the_extension():
    import make_stubs

    package = pathlib.Path(si.__file__).parents[1]
    for name, text in make_stubs.stubs().items():
        assert (package / name).read_text() == text, f"{name} is stale: run python/tools/make_stubs.py"
    assert (package / "py.typed").exists()


def test_stubs_hold_under_a_type_checker(tmp_path):
    pytest.importorskip("mypy", reason="mypy is not installed: stubs are not checked")
    program = tmp_path / "user.py"
    program.write_text("""
import theca
from theca import si, structure, materials
u = theca.registry()
rho: float = si.seawater.density(298.15, 35.0)
wall = structure.Panel(width=u.Quantity(1, "m"), height=u.Quantity(1, "m"), thickness=u.Quantity(1, "cm"),
                       material=materials.float_glass())
bent = structure.bend(wall, structure.hydrostatic(u.Quantity(0.3, "m"), u.Quantity(1025, "kg/m**3")))
bent.max_tension.to("psi")
for check in theca.assess(theca.read_design("demo.toml")).checks:
    name: str = check.name
""")
    wrong = tmp_path / "wrong.py"
    wrong.write_text("import theca\ntheca.structure.hydrostatic(0.3, 1025.0)\ntheca.structure.Panel(wdth=3)\n")
    package_root = pathlib.Path(si.__file__).parents[2]

    def mypy(path):
        return subprocess.run([sys.executable, "-m", "mypy", "--cache-dir", str(tmp_path / "cache"), str(path)],
                              capture_output=True, text=True, env={"MYPYPATH": str(package_root), "PATH": "/usr/bin:/bin"})

    good = mypy(program)
    assert good.returncode == 0, good.stdout + good.stderr
    bad = mypy(wrong)
    assert bad.returncode == 1 and bad.stdout.count("error:") >= 3
