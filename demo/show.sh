#!/usr/bin/env bash
# Runs the example job: show.sh PROGRAM FOLDER writes reports, JSON and pictures
# into FOLDER, and shows on the screen how every opening stands. The example has
# openings that fall short, on purpose, so the exit statuses 1 and 3 are no
# failures here.
set -euo pipefail
program=$1 out=$2
job=$(dirname "$0")/harbour-street-clinic

# into FILE COMMAND... keeps what a command of the program answers.
into() {
  local file=$out/$1 status=0
  shift
  "$program" "$@" >"$file" || status=$?
  case $status in 0 | 1 | 3) ;; *) exit "$status" ;; esac
}

rm -rf "$out"
mkdir -p "$out"
into report.txt check "$job" --pictures "$out/pictures"
into report-why-si.txt check "$job" --why --all --units si
into report.json check "$job" --json

# One opening at a time: the motion of one in order, of one whose operator
# struggles and of one that the wind holds shut; and the settings of one that has
# some, and of two that have none.
for id in 101 107 113; do into "swing-$id.txt" swing "$job" -o "$id"; done
into swing-101.json swing "$job" -o 101 --json
for id in 102 103 112; do into "window-$id.txt" window "$job" -o "$id" --pictures "$out/pictures"; done

# Where to drill, and the templates: of a leaf in good order, of a head, of a fire
# door that must not be drilled yet, and of one with old holes.
for id in 102 103 111 115; do into "holes-$id.txt" holes "$job" -o "$id" --out "$out/templates"; done
into holes-102.json holes "$job" -o 102 --json

# Two wirings proved: one that is sound, one that is not.
for id in 107 110; do into "wiring-$id.txt" wiring "$job" -o "$id" --pictures "$out/pictures"; done

# What could stand in place of an opening, beside it; and the letter about the one
# that is refused.
for id in 103 104 112 114 115; do into "compare-$id.txt" compare "$job" -o "$id"; done
into letter-111.txt letter "$job" -o 111

# The papers that go to site, one PDF for every opening and one for the job.
"$program" packet "$job" --out "$out/packet" >/dev/null

# What feeds them: four that their supplies feed or not, one of them on a small supply and bell wire.
for id in 115 114 107 110; do into "power-$id.txt" power "$job" -o "$id" --pictures "$out/pictures"; done

sed -n '/^Openings$/,/openings:/p' "$out/report.txt"
echo
echo "In $out, to read next:"
(cd "$out" && ls -d -- *) | sed 's/^/  /'
