#!/usr/bin/env bash
# Fills the seeds of every target from the demo's files, into fuzz/corpus/<target>, where cargo-fuzz looks for them.
set -euo pipefail
cd "$(dirname "$0")"
seed() { mkdir -p "corpus/$1"; cp "${@:2}" "corpus/$1/"; }
seed job ../catalog_demo/revised/job.toml
seed tables ../catalog_demo/job/*.csv
seed catalog ../catalog_demo/*.toml
seed template ../templates/*.xml
seed rule ../catalog_demo/rules.toml
seed enclosed ../catalog_demo/sheets/*.pdf
seed record ../catalog_demo/revised/job.issued.toml
