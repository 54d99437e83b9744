"""The what-ifs: each answers in words and a picture, by its command too, and leaves the design as it was."""
import copy
import importlib
import re
import warnings

import pytest

NAMES = ("rim_or_thickness", "light_height", "starving_tank", "power_cut", "glass_or_acrylic", "fallow",
         "one_or_two_levels")


@pytest.mark.parametrize("name", NAMES)
def test_a_what_if_answers_in_words_and_a_picture(name, design, tmp_path):
    before = copy.copy(design)
    module = importlib.import_module(f"theca.studies.{name}")
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        figure, words = module.answer(design)
        figure.savefig(tmp_path / "picture.png")
    assert design == before
    assert re.search(r"\d", words) and words.endswith((".", "used"))
    assert (tmp_path / "picture.png").stat().st_size > 20_000
    assert module.__doc__.strip().endswith("?")


def test_the_command_prints_and_draws(tmp_path, capsys):
    from theca.studies import _run, power_cut

    assert power_cut.main(["--out", str(tmp_path)]) == 0
    printed = capsys.readouterr().out
    assert "how long do the tanks last" in printed and (tmp_path / "power_cut.png").exists()
    bad = tmp_path / "bad.toml"
    bad.write_text("[site]\nname = 3\n", encoding="utf-8")
    assert _run.run("power_cut", "q", power_cut.answer, ["--design", str(bad), "--out", str(tmp_path)]) == 1
    assert "bad.toml" in capsys.readouterr().err


def test_rimless_glass_must_be_thicker_or_uses_more(design):
    study = importlib.import_module("theca.studies.rim_or_thickness")
    braced = [study.used(design, "A", t, True) for t in study.THICKNESSES]
    assert braced == sorted(braced, reverse=True)
    assert study.used(design, "A", 15.0, False) > study.used(design, "A", 15.0, True)
    # At the stated thickness it is the design's own check, but for the least thickness of the standard.
    own = max(c.utilisation for c in __import__("theca").study.structure_checks(design)
              if c.name in ("structure: tank A long wall stress", "structure: tank A long wall deflection"))
    assert study.used(design, "A", 12.0, True) == pytest.approx(own, rel=0.1)
