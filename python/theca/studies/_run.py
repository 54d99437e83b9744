"""The command line that all what-ifs share: read a design, answer, print the words, write the picture."""
from __future__ import annotations

import argparse
import pathlib
import sys

import theca

DEMO = pathlib.Path(__file__).parent / "demo.toml"


def run(name: str, question: str, answer, argv=None) -> int:
    """`answer` takes a design and gives a figure and a conclusion in words."""
    parser = argparse.ArgumentParser(prog=f"python -m theca.studies.{name}", description=question)
    parser.add_argument("--design", type=pathlib.Path, default=DEMO, help="design file")
    parser.add_argument("--out", type=pathlib.Path, default=pathlib.Path("study-output"), help="folder for the picture")
    arguments = parser.parse_args(argv)
    try:
        figure, words = answer(theca.read_design(arguments.design))
    except theca.Error as e:
        print(f"{arguments.design}: {e}", file=sys.stderr)
        return 1
    arguments.out.mkdir(parents=True, exist_ok=True)
    figure.savefig(arguments.out / f"{name}.png", dpi=150)
    print(f"{question}\n\n{words}\n\nThe picture is {arguments.out / f'{name}.png'}.")
    return 0
