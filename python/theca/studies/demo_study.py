"""Assesses the fictional farm in demo.toml: every check, what would cure those that fail, cautions, pictures, a report.

    python -m theca.studies.demo_study [--design FILE] [--out DIR]
"""
from __future__ import annotations

import argparse
import pathlib
import shutil
import sys

from tqdm import tqdm

import theca
from theca import _table, structure, study

HERE = pathlib.Path(__file__).parent


def tank_picture(design):
    """The first kind of tank as it will be built, joints as bonded: the tank that the checks judge."""
    name, kind = next(iter(design.tanks.kinds.items()))
    bent = structure.bend(study.built_tank(design, kind), study.tank_load(design, kind.water_depth))
    return theca.plot.bent_tank(bent, title=f"Tank {name} under its water, unfolded")


def pump_picture(design):
    """The return pump on its pipes, as proposed and with the stated larger bores."""
    variants = {}
    header, main = design.pipes.header.bore_variant, design.pipes.main.bore_variant
    if header is not None:
        wider = theca.study.Design._wrap(design.si.__copy__())
        wider.pipes.header.bore = header
        variants[f"headers {header.to('inch'):.3g~}"] = study.manifold(wider)
        if main is not None:
            wider.pipes.main.bore = main
            variants[f"headers {header.to('inch'):.3g~}, main {main.to('inch'):.3g~}"] = study.manifold(wider)
    return theca.plot.pump_and_system_curve(study.manifold(design), study.pump_curve(design),
                                            design.site.water.kinematic_viscosity, variants=variants,
                                            title=f"Return pump of {design.site.name}")


def walls_text(design):
    """What the walls of one tank lose with their films, and what k/t without films would say."""
    name = next(iter(design.tanks.kinds))
    watts = lambda power: f"{power.to('W').magnitude:,.0f} W"
    lines = [f"Walls of tank {name}, winter night    with films   k/t, films ignored   whole tank"]
    for option in study.wall_options(design, name):
        lines.append(f"  {option.name:<32} {watts(option.walls):>10} {watts(option.walls_films_ignored):>20} "
                     f"{watts(option.balance.total_loss):>12}")
    lines.append("The films of water and air hold most of the heat back, not the pane: k/t misleads.")
    return "\n".join(lines)


def main(argv=None) -> int:
    parser = argparse.ArgumentParser(prog="python -m theca.studies.demo_study", description=__doc__.split("\n")[0])
    parser.add_argument("--design", type=pathlib.Path, default=HERE / "demo.toml", help="design file to assess")
    parser.add_argument("--out", type=pathlib.Path, default=pathlib.Path("study-output"), help="folder for the pictures")
    parser.add_argument("--no-pictures", action="store_true", help="only print")
    arguments = parser.parse_args(argv)

    bar = tqdm(total=3 if arguments.no_pictures else 13, file=sys.stderr, disable=not sys.stderr.isatty(), leave=False,
               bar_format="{desc:<28} {bar} {n_fmt}/{total_fmt}")

    def step(words):
        bar.set_description_str(words)

    try:
        step("reading the design")
        design = theca.read_design(arguments.design)
        bar.update()
        step("answering the checks")
        assessment = theca.assess(design)
        bar.update()
        step("looking for cures")
        cures = {c.name: study.cures(design, c.name) for c in assessment.checks if c.verdict.name == "fails"}
        bar.update()
        if not arguments.no_pictures:
            arguments.out.mkdir(parents=True, exist_ok=True)
            pictures = {
                "light_map.png": lambda: theca.plot.light_map(design),
                "bent_tank.png": lambda: tank_picture(design),
                "pump_curve.png": lambda: pump_picture(design),
                "utilisation.png": lambda: theca.plot.utilisations(
                    assessment, title=f"{design.site.name}: share of each criterion that is used"),
                "tank_flows.png": lambda: theca.plot.tank_flows(design),
                "wall_heat.png": lambda: theca.plot.wall_heat(study.wall_options(design, next(iter(design.tanks.kinds)))),
                "oxygen.png": lambda: theca.plot.oxygen(design),
                "reach.png": lambda: theca.plot.reach(design),
                "rotation.png": lambda: theca.plot.rotation_calendar(design),
            }
            for name, draw in pictures.items():
                step(name)
                draw().savefig(arguments.out / name, dpi=150)
                bar.update()
            step("report.html")
            theca.report(design, arguments.out / "report.html", cures=cures)
            bar.update()
    except theca.Error as e:
        bar.close()
        print(f"{arguments.design}: {e}", file=sys.stderr)
        return 1
    bar.close()

    print(f"{design.site.name}, {design.site.place}\n")
    assessment.table(width=shutil.get_terminal_size().columns if sys.stdout.isatty() else 0)
    print(f"\n{walls_text(design)}")
    print("\nSingle changes that cure what fails, each as small as its steps allow, costs left out\n"
          "-----------------------------------------------------------------------------------")
    print(_table.cures_text(assessment, cures))
    print("\nCautions\n--------")
    print(_table.cautions_text(assessment))
    print("\nEach line compares one computed demand with one stated capacity. It approves nothing.")
    if not arguments.no_pictures:
        print(f"Pictures are in {arguments.out}/, and all of it on one page in {arguments.out / 'report.html'}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
