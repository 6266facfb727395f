"""Validates PDFs as PDF/UA-1 and PDF/A-2a, and shows first that a seeded fault is caught.

What encloses pages of others claims to keep neither: packages, and one specimen. Nothing else may claim nothing.
"""

import pathlib
import sys
import tempfile

import page


def report_of(path, profile):
    """The validator's report; long tables are allowed."""
    try:
        limits = page.SafetyLimits(max_table_grid_rows=100_000)
        return page.validate_pdf(str(path), profile=profile, limits=limits)
    except TypeError:
        return page.validate_pdf(str(path), profile=profile)


def main(paths):
    if not paths:
        raise SystemExit("no papers to validate")
    # The seeded fault: a paper that no longer says which standard it keeps must fail, else the validator is asleep.
    seeded = pathlib.Path(paths[0]).read_bytes().replace(b"pdfuaid:part", b"pdfuaid:port")
    with tempfile.TemporaryDirectory() as folder:
        broken = pathlib.Path(folder) / "seeded.pdf"
        broken.write_bytes(seeded)
        if report_of(broken, "ua1").is_compliant:
            raise SystemExit("a seeded fault was not caught")
    bad = 0
    claiming = []
    for path in map(pathlib.Path, paths):
        if b"pdfuaid:part" in path.read_bytes():
            claiming.append(path)
        elif path.name.startswith("submittal-") or path.name == "specimen-enclosed.pdf":
            print(f"{path}: claims no standard")
        else:
            raise SystemExit(f"{path}: claims no standard, and encloses nothing")
    for path in claiming:
        for profile in ("ua1", "2a"):
            report = report_of(path, profile)
            if report.is_compliant:
                print(f"{path}: {profile} passes")
            else:
                bad += 1
                print(f"{path}: {profile} FAILS\n{report}")
    print(f"{2 * len(claiming) - bad} passed, {bad} failed")
    raise SystemExit(1 if bad else 0)


main(sys.argv[1:])
