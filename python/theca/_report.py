"""A farm's assessment as one page: to read offline, to print, to hand to a landlord, a tank builder or an engineer."""
from __future__ import annotations

import base64
import html
import io
import pathlib
from collections.abc import Mapping

from . import _table

# Paper and screen alike: no colour carries a meaning alone, wide tables stay on the sheet, nothing is fetched.
_STYLE = """
:root { --ink: #22303c; --grey: #5d6770; --line: #d4d9de; --pale: #f3f5f7; }
* { box-sizing: border-box; }
body { font: 15px/1.5 "Noto Sans", "DejaVu Sans", Arial, sans-serif; color: var(--ink); margin: 0 auto; max-width: 60rem;
       padding: 2rem 1.2rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0; }
h2 { font-size: 1.2rem; border-bottom: 2px solid var(--ink); padding-bottom: .2rem; margin: 2.2rem 0 .8rem; }
h3 { font-size: 1rem; margin: 1.4rem 0 .4rem; }
p { margin: .4rem 0; }
.quiet { color: var(--grey); }
.counts { display: flex; flex-wrap: wrap; gap: .8rem; margin: 1.2rem 0; padding: 0; list-style: none; }
.counts li { border: 1px solid var(--line); border-radius: 4px; padding: .5rem .9rem; min-width: 8rem; }
.counts b { display: block; font-size: 1.5rem; line-height: 1.2; }
table { border-collapse: collapse; width: 100%; font-size: .84rem; margin: .4rem 0 1rem; }
th, td { text-align: left; vertical-align: top; padding: .28rem .5rem; border-bottom: 1px solid var(--line);
         overflow-wrap: anywhere; }
th { background: var(--pale); font-weight: 600; }
td.number, th.number { text-align: right; white-space: nowrap; }
tr { break-inside: avoid; }
.verdict { white-space: nowrap; font-weight: 600; }
.fails { color: #a33b00; } .marginal { color: #8a5a00; } .holds { color: #00664a; } .outside_validity { color: var(--grey); }
figure { margin: 1.2rem 0; break-inside: avoid; }
figure img { max-width: 100%; height: auto; border: 1px solid var(--line); }
figcaption { font-size: .84rem; color: var(--grey); }
ul.cures { margin: .2rem 0 .8rem; padding-left: 1.2rem; font-size: .9rem; }
.caution { border-left: 4px solid #a33b00; background: var(--pale); padding: .5rem .8rem; margin: .6rem 0; font-size: .88rem;
           break-inside: avoid; }
.caution small { display: block; color: var(--grey); }
pre { font: .72rem/1.4 "DejaVu Sans Mono", monospace; background: var(--pale); padding: .8rem; overflow-wrap: anywhere;
      white-space: pre-wrap; }
@page { margin: 16mm 14mm; }
@media print {
  figure img { max-height: 205mm; width: auto; }
  body { font-size: 10pt; max-width: none; padding: 0; }
  table { font-size: 8pt; } pre { font-size: 7pt; } h2 { break-after: avoid; } h3 { break-after: avoid; }
  thead { display: table-header-group; }
}
"""

_MARKS = {"holds": "✓ holds", "marginal": "◆ marginal", "fails": "✗ fails", "outside_validity": "– no verdict"}
_MODULES = {"structure": "Glass, joints, stand and floor", "hydraulics": "Pump, pipes, overflow and power cuts",
            "light": "Light", "thermal": "Heat, evaporation and air", "farm": "People, stock, chemistry, electricity and money"}


def _text(words: object) -> str:
    return html.escape(str(words))


def _picture(figure, caption: str) -> str:
    file = io.BytesIO()
    figure.savefig(file, format="png", dpi=130)
    data = base64.b64encode(file.getvalue()).decode("ascii")
    return (f'<figure><img alt="{_text(caption)}" src="data:image/png;base64,{data}">'
            f"<figcaption>{_text(caption)}</figcaption></figure>")


def _checks(checks) -> str:
    rows = []
    for c in checks:
        verdict = c.verdict.name
        cells = [f"<td>{_text(c.name.split(': ', 1)[-1])}<br><span class=quiet>{_text(c.question)}</span></td>",
                 f'<td class="verdict {verdict}">{_MARKS[verdict]}</td>']
        if verdict == "outside_validity":
            cells += ["<td></td>", "<td></td>", "<td></td>", f"<td>{_text(c.where)}</td>"]
        else:
            pair = _table.si_pair(c.demand, c.capacity)
            cells += [f"<td class=number>{_text(_table.percent(c.utilisation))}</td>",
                      f"<td class=number>{_text(_table.shown(c.demand))}</td>",
                      f"<td class=number>{_text(_table.shown(c.capacity))}</td>",
                      f"<td>{_text(c.where)}" + (f"<br><span class=quiet>in SI: {_text(pair)}</span>" if pair else "") + "</td>"]
        rows.append("<tr>" + "".join(cells) + "</tr>")
    return ("<table><thead><tr><th>Check</th><th>Verdict</th><th class=number>Used</th><th class=number>Demand</th>"
            "<th class=number>Capacity</th><th>Where</th></tr></thead><tbody>" + "".join(rows) + "</tbody></table>")


def _cures(assessment, cures) -> str:
    parts = []
    for c in assessment.checks:
        if c.verdict.name != "fails":
            continue
        parts.append(f"<h3>{_text(c.name)}, {_text(_table.percent(c.utilisation))} used</h3>")
        items: list[str] = []
        for line in _cure_lines(c, cures):
            if items and line.startswith(("then fails", "cures too")):
                items[-1] += f"<br><small>{_text(line)}</small>"
            else:
                items.append(_text(line))
        parts.append("<ul class=cures>" + "".join(f"<li>{item}</li>" for item in items) + "</ul>")
    return "".join(parts) or "<p>No check fails.</p>"


def _cure_lines(check, cures) -> list[str]:
    """The lines of the study's own text for one check, so that page and terminal say the same."""

    class One:
        checks = [check]

    return [line.strip() for line in _table.cures_text(One, cures, 10_000).splitlines()[1:] if line.strip()]


def _cautions(assessment) -> str:
    carried: dict[str, list[str]] = {}
    for c in assessment.checks:
        if c.caution:
            carried.setdefault(c.caution, []).append(c.name)
    return "".join(f"<div class=caution>{_text(caution)}<small>{_text('; '.join(names))}</small></div>"
                   for caution, names in carried.items())


def _sources(assessment) -> str:
    carried: dict[str, list[str]] = {}
    for c in assessment.checks:
        carried.setdefault(c.source, []).append(c.name.split(": ", 1)[-1])
    return ("<table><thead><tr><th>Source or model</th><th>Used for</th></tr></thead><tbody>"
            + "".join(f"<tr><td>{_text(source)}</td><td>{_text('; '.join(names))}</td></tr>"
                      for source, names in sorted(carried.items())) + "</tbody></table>")


def _pictures(design, assessment) -> list[tuple[object, str]]:
    from . import plot, structure, study

    name, kind = next(iter(design.tanks.kinds.items()))
    bent = structure.bend(study.built_tank(design, kind), study.tank_load(design, kind.water_depth))
    pictures = [
        (lambda: plot.utilisations(assessment), "How far each criterion is used up; whiskers are the models' uncertainty."),
        (lambda: plot.bent_tank(bent, title=f"Tank {name} under its water, unfolded"),
         f"Bowing and stress of tank {name} as it will be built."),
        (lambda: plot.light_map(design), "Light on the rack plane."),
        (lambda: plot.tank_flows(design), "What the return pump gives to each tank."),
        (lambda: plot.pump_and_system_curve(study.manifold(design), study.pump_curve(design),
                                            design.site.water.kinematic_viscosity), "Return pump on its pipes."),
        (lambda: plot.wall_heat(study.wall_options(design, name), title=f"Heat through the walls of tank {name}, winter night"),
         "Glass against acrylic and insulation."),
        (lambda: plot.oxygen(design), "Oxygen after the power went."),
        (lambda: plot.reach(design), "What a hand reaches."),
    ]
    if design.production.rotation.fallow_tanks > 0:
        pictures.append((lambda: plot.rotation_calendar(design), "Which tank rests when."))
    return pictures


def report(design, file=None, *, cures: bool | Mapping[str, list] = True, pictures: bool = True) -> str:
    """Writes a design's whole assessment as one self-contained HTML page.

    The page holds the verdicts, what fails and what would cure it, every check with demand, capacity, place and source,
    the cautions, pictures and all inputs. It needs no network and prints on A4 and letter paper through the browser.

    Parameters
    ----------
    design : study.Design
    file : path, optional
        where to write it
    cures : bool or mapping
        look for the single changes that cure each failed check (some seconds), or what `study.cures` found, by check
    pictures : bool
        draw the pictures

    Returns
    -------
    str, the page
    """
    from . import assess, study

    assessment = assess(design)
    counts = {name: sum(c.verdict.name == name for c in assessment.checks) for name in _MARKS}
    parts = [f"<h1>{_text(design.site.name)}</h1><p class=quiet>{_text(design.site.place)}</p>",
             "<p>Each line below compares one computed demand with one stated capacity. It approves nothing: glass with water "
             "in it, electricity beside water, loads on floors and lifting can hurt people, and local codes and licensed "
             "practice decide.</p>",
             "<ul class=counts>" + "".join(f"<li><b>{n}</b><span class={name}>{_MARKS[name]}</span></li>"
                                           for name, n in counts.items() if n) + "</ul>"]
    if pictures:
        drawn = _pictures(design, assessment)
        parts.append(_picture(drawn[0][0](), drawn[0][1]))
    if cures:
        found = cures if isinstance(cures, Mapping) else {
            c.name: study.cures(design, c.name) for c in assessment.checks if c.verdict.name == "fails"}
        parts.append("<h2>What to change</h2><p>Single changes that cure what fails, each as small as its steps allow; what it "
                     "does to other checks stands beside it. Costs are left out.</p>" + _cures(assessment, found))
    parts.append("<h2>All checks</h2>")
    for module, heading in _MODULES.items():
        checks = [c for c in assessment.checks if c.name.startswith(module + ":")]
        if checks:
            parts.append(f"<h3>{_text(heading)}</h3>" + _checks(checks))
    if pictures:
        parts.append("<h2>Pictures</h2>" + "".join(_picture(draw(), caption) for draw, caption in drawn[1:]))
    parts.append("<h2>Cautions</h2>" + _cautions(assessment))
    parts.append("<h2>Sources and models</h2>" + _sources(assessment))
    parts.append("<h2>Inputs</h2><p>The design as a file; read again it gives this page.</p><pre>"
                 + _text(study.write_design(design)) + "</pre>")
    page = ("<!DOCTYPE html>\n<html lang=en><head><meta charset=utf-8>"
            '<meta name=viewport content="width=device-width, initial-scale=1">'
            f"<title>{_text(design.site.name)}: assessment</title><style>{_STYLE}</style></head><body>"
            + "\n".join(parts) + "</body></html>\n")
    if file is not None:
        pathlib.Path(file).write_text(page, encoding="utf-8")
    return page
