"""Reads every PDF twice with outside programs, by its tags and by its pages, and holds the two readings to each other.

What the tags say must stand on the pages, letter for letter: a text that is tagged and not shown, or shown as something
else, fails. What stands on the pages beyond that is heads, feet and other artifacts. Shown first: a letter that is taken
away is missed.
"""

import collections
import concurrent.futures
import subprocess
import sys


def letters(text):
    """How often each letter occurs, space left out."""
    return collections.Counter(it for it in text if not it.isspace())


def tagged(path):
    """The texts of the structure tree, a line each."""
    out = subprocess.run(["pdfinfo", "-struct-text", path], capture_output=True, check=True, text=True).stdout
    lines = (line.strip() for line in out.splitlines())
    return [line[1:-1] for line in lines if len(line) > 1 and line[0] == line[-1] == '"']


def shown(path):
    """The text of the pages."""
    return subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, check=True, text=True).stdout


def read(path):
    """Both readings of a paper."""
    return path, tagged(path), shown(path)


def missing(texts, pages):
    """Letters that tags say and pages do not show."""
    return letters("".join(texts)) - letters(pages)


def main(paths):
    if not paths:
        raise SystemExit("no papers to read")
    bad = 0
    with concurrent.futures.ThreadPoolExecutor() as pool:
        readings = list(pool.map(read, paths))
    for path, texts, pages in readings:
        if sum(map(len, texts)) < 200:
            raise SystemExit(f"{path}: its tags say next to nothing")
        # The reading is awake: of the same letters, less one word, it misses that word.
        alone = "".join(texts)
        if not missing(texts, alone.replace(alone.split()[0], "", 1)):
            raise SystemExit(f"{path}: a word that was taken away was not missed")
        lost = missing(texts, pages)
        if lost:
            bad += 1
            print(f"{path}: tagged and not shown: {dict(lost)}")
        else:
            print(f"{path}: {len(texts)} texts, read by their tags, all stand on the pages")
    raise SystemExit(1 if bad else 0)


main(sys.argv[1:])
