#!/usr/bin/env python3
"""Sets one long hardware schedule in several ways, side by side in one run, and prints times, memory and sizes as ratios.

Every way is a whole process: start, fonts, rows from a file, layout, PDF to a file. Ways take turns, so that a busy machine
slows all of them alike; medians and minima of the turns count, by the clock and of the processors, since on a machine with other
work the clock says how busy it was. Times of different runs do not compare; ratios do.

    python3 benches/compare.py [TURNS]

The ways: `ours` (this tool, tagged, PDF/UA-1 and PDF/A-2a); `printpdf` (raw operations, no tags, the measure of the ratios);
`typst` 0.15.2 with tags (its default) and without; `reportlab` 5.1.0, LongTable of strings. Packages are installed by name
from the Python package index into target/compare.
"""

import json
import os
import pathlib
import statistics
import subprocess
import sys
import time

TOP = pathlib.Path(__file__).resolve().parent.parent
WORK = TOP / "target" / "compare"
FACES = TOP / "src" / "fonts" / "faces"
PACKAGES = ["typst==0.15.2", "reportlab==5.1.0"]
WIDTHS = [38, 118, 36, 84, 72, 62, 34, 60]
HEADS = ["Mark", "From, to", "Hand", "Size", "Door", "Frame", "Label", "Notes"]
ROOMS = ["Lobby", "Corridor {}", "Linen {}", "Meeting room {}", "Kitchen", "Loading dock", "Stair {}", "Washroom {}"]
DOORS = ["hollow metal, 16 gauge", "wood, mineral core", "aluminum, narrow stile"]


def rows(count):
    """Rows that are the same in every run: a linear congruence chooses among the words."""
    state = 20261125
    for number in range(count):
        state = (state * 1103515245 + 12345) % 2**31
        pick = lambda some, shift: some[(state >> shift) % len(some)]
        room = lambda shift: pick(ROOMS, shift).format(100 + (state >> shift) % 400)
        yield [
            f"{101 + number}{pick('ABC', 9)}",
            f"{room(7)}, {room(11)}",
            pick(["LH", "RH", "LHR", "RHR"], 13),
            f"{pick([3, 4], 15)}'-0\" × 7'-{pick([0, 2, 8], 16)}\" × 1 3/4\"",
            pick(DOORS, 17),
            pick(["welded steel", "knocked down", "aluminum"], 18),
            pick(["–", "20", "90"], 19),
            pick(["1, 4", "2", "1, 3, 7 and the door schedule", "see 101A"], 20),
        ]


TYPST = """#set page(paper: "us-letter", margin: (x: 54pt, top: 54pt, bottom: 60pt),
  footer: context [Schedule #h(1fr) Page #counter(page).display() of #counter(page).final().first()])
#set text(font: "Source Sans 3", size: 9pt)
#set document(title: "Hardware schedule")
= Hardware schedule
#let rows = csv("{rows}", delimiter: "\\t")
#table(columns: ({widths}), inset: 3pt, stroke: none, fill: (_, y) => if y > 0 and calc.even(y) {{ luma(241) }},
  table.header({heads}, table.hline(stroke: 0.75pt)), ..rows.flatten())
"""

TYPST_RUN = """import sys, typst
typst.compile(sys.argv[1], output=sys.argv[2], font_paths=[sys.argv[3]], ignore_system_fonts=True, pdf_tags=sys.argv[4] == "tags")
"""

REPORTLAB_RUN = """import sys
from reportlab.lib import colors
from reportlab.lib.pagesizes import letter
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import SimpleDocTemplate
from reportlab.platypus.tables import LongTable
from reportlab.lib.utils import simpleSplit
rows, out, faces, widths, heads = sys.argv[1], sys.argv[2], sys.argv[3], eval(sys.argv[4]), eval(sys.argv[5])
pdfmetrics.registerFont(TTFont("R", faces + "/SourceSans3-Regular.ttf"))
pdfmetrics.registerFont(TTFont("B", faces + "/SourceSans3-Bold.ttf"))
fit = lambda text, width: "\\n".join(simpleSplit(text, "R", 9, width - 6))
data = [heads] + [[fit(c, w) for c, w in zip(line.rstrip("\\n").split("\\t"), widths)] for line in open(rows, encoding="utf-8")]
style = [("FONT", (0, 0), (-1, -1), "R", 9, 11), ("FONT", (0, 0), (-1, 0), "B", 9, 11), ("VALIGN", (0, 0), (-1, -1), "TOP"),
  ("ROWBACKGROUNDS", (0, 1), (-1, -1), [colors.white, colors.Color(.945, .945, .945)]), ("LINEBELOW", (0, 0), (-1, 0), .75, colors.black),
  ("LEFTPADDING", (0, 0), (-1, -1), 3), ("RIGHTPADDING", (0, 0), (-1, -1), 3), ("TOPPADDING", (0, 0), (-1, -1), 1), ("BOTTOMPADDING", (0, 0), (-1, -1), 3)]
foot = lambda canvas, doc: (canvas.setFont("R", 9), canvas.drawString(54, 40, f"Page {doc.page}"))
SimpleDocTemplate(out, pagesize=letter, leftMargin=54, rightMargin=54, topMargin=54, bottomMargin=60).build(
  [LongTable(data, colWidths=widths, repeatRows=1, style=style)], onFirstPage=foot, onLaterPages=foot)
"""


def built():
    """Builds the bench; hands out the program."""
    command = ["cargo", "build", "--release", "--locked", "--bench", "schedule", "--message-format=json"]
    lines = subprocess.run(command, cwd=TOP, check=True, capture_output=True, text=True).stdout.splitlines()
    found = [json.loads(line) for line in lines]
    return next(it["executable"] for it in found if it.get("executable") and it["target"]["name"] == "schedule")


def installed():
    """The Python of an environment that has the packages."""
    python = WORK / "bin" / "python"
    if not python.exists():
        subprocess.run([sys.executable, "-m", "venv", str(WORK)], check=True)
    subprocess.run([str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *PACKAGES], check=True)
    return str(python)


def ways(program, python, count):
    """The command lines for a number of rows, and the file that each writes."""
    table = WORK / f"rows-{count}.tsv"
    lines = list(rows(count))
    table.write_text("".join("\t".join(row) + "\n" for row in lines), encoding="utf-8")
    widths, heads = ", ".join(f"{width}pt" for width in WIDTHS), ", ".join(f"[*{head}*]" for head in HEADS)
    source = WORK / f"rows-{count}.typ"
    source.write_text(TYPST.format(rows=table.name, widths=widths, heads=heads), encoding="utf-8")
    for name, text in [("typst.run.py", TYPST_RUN), ("reportlab.run.py", REPORTLAB_RUN)]:
        (WORK / name).write_text(text, encoding="utf-8")
    out = lambda way: str(WORK / f"{way}-{count}.pdf")
    commands = {
        "ours": [program, "ours", str(table), out("ours")],
        "printpdf": [program, "plain", str(table), out("printpdf")],
    }
    if count <= 5000:
        for way, tags in [("typst", "tags"), ("typst-untagged", "none")]:
            commands[way] = [python, str(WORK / "typst.run.py"), str(source), out(way), str(FACES), tags]
        commands["reportlab"] = [python, str(WORK / "reportlab.run.py"), str(table), out("reportlab"), str(FACES), str(WIDTHS), str(HEADS)]
    return {way: (command, out(way)) for way, command in commands.items()}


def measured(command):
    """Milliseconds of a process by the clock and of its processors, and the peak of its memory in MB."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    took = (time.perf_counter() - start) * 1000
    process.returncode = status
    if status:
        raise SystemExit(f"failed: {' '.join(command)}")
    return took, (usage.ru_utime + usage.ru_stime) * 1000, usage.ru_maxrss / 1024


def ratios(taken, way):
    """Of a way: its time as a part of printpdf's, and how many times as long as ours, each in three measures."""
    clock, processors = lambda turn: turn[0], lambda turn: turn[1]
    measures = [(statistics.median, clock), (min, clock), (min, processors)]
    times = [{each: of(map(kind, taken[each])) for each in (way, "printpdf", "ours")} for of, kind in measures]
    of_printpdf = " · ".join(f"{time[way] / time['printpdf']:.2f}" for time in times)
    return of_printpdf, " · ".join(f"{time[way] / time['ours']:.1f}" for time in times)


def main():
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    python, program = installed(), built()
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} before the first turn; {turns} turns.")
    print("Each ratio: median by the clock · least by the clock · least of the processors (user and system).\n")
    print("| rows | way | time, of printpdf's | ours is faster by | peak, MB | file, KB |\n|---|---|---|---|---|---|")
    for count in [100, 1000, 5000, 50000]:
        commands = ways(program, python, count)
        taken = {way: [] for way in commands}
        for _ in range(turns):
            for way, (command, _) in commands.items():
                taken[way].append(measured(command))
        for way, (_, out) in commands.items():
            peak, size = max(peak for _, _, peak in taken[way]), os.path.getsize(out) / 1000
            part, faster = ratios(taken, way)
            print(f"| {count} | {way} | {part} | {faster} | {peak:.0f} | {size:.0f} |", flush=True)


main()
