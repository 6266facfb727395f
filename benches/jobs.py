#!/usr/bin/env python3
"""Times whole commands on jobs of any number of openings, and prints a row each.

The jobs are the demo's, with its openings, panels and runs repeated under other marks; sites, kinds and the three
alternates remain as they are, so that the work grows with the number of openings and with nothing else.

    cargo build --release && python3 benches/jobs.py
    python3 benches/jobs.py --against /path/to/a/binary/of/another/commit --openings 30 300

CPU seconds are user and system time of the whole process; of several turns the least. With `--against` both binaries run
turn by turn in the same run, and the ratio of their least times is printed beside.
"""

import argparse
import csv
import os
import re
import resource
import shutil
import subprocess
import tempfile
import time

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
DEMO = os.path.join(ROOT, "catalog_demo")
COMMANDS = {
    "check": ["check", "JOB"],
    "takeoff": ["takeoff", "JOB", "--format", "csv"],
    "price": ["explain", "JOB", "base-bid"],
    "issue": ["issue", "JOB", "--output", "OUT"],
}


def renamed(text, copy):
    """Marks, panels and junctions of the demo under the names of a copy."""
    text = re.sub(r"\b([HCF]\d{3})\b", rf"\1-{copy}", text)
    return re.sub(r"\b((?:LP|J)-[HCF]\d+)\b", rf"\1-{copy}", text)


def blocks(text, head):
    """The tables of a job file whose head matches, each with what follows it up to the next table."""
    parts = re.split(r"(?m)^(?=\[)", text)
    return [part for part in parts if re.match(head, part)]


def rows(path, copies):
    with open(path, newline="") as file:
        lines = list(csv.reader(file))
    out = [lines[0]]
    for copy in range(1, copies + 1):
        out += [[cell if copy == 1 else renamed(cell, copy) for cell in line] for line in lines[1:]]
    return out


def write_rows(path, lines):
    with open(path, "w", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(lines)


def grown(folder, copies, alternates=True):
    """Writes the demo with its openings `copies` times into a folder; gives the path of the job file."""
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("revised"), dirs_exist_ok=True)
    job = os.path.join(folder, "job", "job.toml")
    with open(job) as file:
        text = file.read()
    more = blocks(text, r"\[\[run\]\]|\[panel\.")
    for copy in range(2, copies + 1):
        text += "\n" + "\n".join(renamed(block, copy) for block in more)
    if not alternates:
        for block in blocks(text, r"\[\[?alternate"):
            text = text.replace(block, "")
    with open(job, "w") as file:
        file.write(text)
    for table in ("openings.csv", "survey.csv"):
        path = os.path.join(folder, "job", table)
        write_rows(path, rows(path, copies))
    return job


def timed(binary, command, job, out):
    """CPU seconds, wall seconds and peak memory in MB of a whole process."""
    words = [binary] + [{"JOB": job, "OUT": out}.get(word, word) for word in COMMANDS[command]]
    began = time.monotonic()
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        raise SystemExit(f"{' '.join(words)} ended with {os.waitstatus_to_exitcode(status)}")
    return used.ru_utime + used.ru_stime, time.monotonic() - began, used.ru_maxrss / 1024


def best(turns):
    return tuple(min(turn[at] for turn in turns) for at in range(3))


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--binary", default=os.path.join(ROOT, "target", "release", "hingewright"))
    options.add_argument("--against", help="a binary to run beside it")
    options.add_argument("--openings", type=int, nargs="*", default=[30, 300, 3000])
    options.add_argument("--commands", nargs="*", default=list(COMMANDS), choices=list(COMMANDS))
    options.add_argument("--turns", type=int, default=3)
    options.add_argument("--without-alternates", action="store_true")
    chosen = options.parse_args()
    print("| openings | command | CPU s | ms an opening | wall s | MB | other CPU s | other / this |")
    print("|---|---|---|---|---|---|---|---|")
    for openings in chosen.openings:
        copies = max(1, openings // 30)
        with tempfile.TemporaryDirectory() as folder:
            job = grown(folder, copies, not chosen.without_alternates)
            out = os.path.join(folder, "out")
            for command in chosen.commands:
                ours, theirs = [], []
                for _ in range(chosen.turns):
                    ours.append(timed(chosen.binary, command, job, out))
                    if chosen.against:
                        theirs.append(timed(chosen.against, command, job, out))
                cpu, wall, memory = best(ours)
                row = f"| {copies * 30} | {command} | {cpu:.2f} | {1000 * cpu / (copies * 30):.2f} | {wall:.2f} | {memory:.0f} |"
                row += f" {best(theirs)[0]:.2f} | {best(theirs)[0] / cpu:.2f} |" if theirs else " | |"
                print(row, flush=True)


if __name__ == "__main__":
    # Children are counted one by one, so that none hides in the peak of another.
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    main()
