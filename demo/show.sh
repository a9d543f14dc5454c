#!/usr/bin/env bash
# Runs the example job: show.sh PROGRAM FOLDER writes report, JSON and pictures
# into FOLDER. The example has openings that fall short, on purpose, so the exit
# statuses 1 and 3 of check are no failures here.
set -euo pipefail
program=$1 out=$2
job=$(dirname "$0")/harbour-street-clinic

judge() {
  local status=0
  "$@" || status=$?
  case $status in 0 | 1 | 3) ;; *) exit "$status" ;; esac
}

rm -rf "$out"
mkdir -p "$out"
judge "$program" check "$job" --pictures "$out/pictures" >"$out/report.txt"
judge "$program" check "$job" --why --all --units si >"$out/report-why-si.txt"
judge "$program" check "$job" --json >"$out/report.json"
"$program" swing "$job" -o 101 >"$out/swing-101.txt"
"$program" swing "$job" -o 101 --json >"$out/swing-101.json"

sed -n '/^Openings$/,$p' "$out/report.txt"
echo
echo "Written to $out:"
find "$out" -type f | sort | sed 's/^/  /'
