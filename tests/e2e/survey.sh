#!/usr/bin/env bash
# A plant's list, a load log and a visit sheet, as a user meets them. usage: survey.sh LOBEWISE SOURCE
set -euo pipefail
lobewise=$(realpath "$1")
source=$(realpath "$2")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
fail() { echo "FAILED: $*"; exit 1; }
# code WANTED COMMAND…
code() {
  local wanted=$1 status=0
  shift
  "$@" >out.txt 2>err.txt </dev/null || status=$?
  [ "$status" -eq "$wanted" ] || { tail -n 5 out.txt err.txt; fail "$* -> $status, wanted $wanted"; }
}

# The example list: every line is in the result, two with the reason why they could not be proved.
cp "$source/examples/plant_list.csv" list.csv
code 0 "$lobewise" survey list.csv --out one.csv
grep -q '12 lines' out.txt || fail "not all lines"
[ "$(wc -l <one.csv)" -eq 13 ] || fail "the CSV has not 12 lines and a heading"
[ "$(grep -c 'not proved' one.csv)" -eq 2 ] || fail "two lines cannot be proved"
grep -q "V-601.*Motor (kW) '3 to 4'" one.csv || fail "the bad cell is not named"
grep -q 'K-602.*Driven speed is needed' one.csv || fail "the missing speed is not named"
# Both gear units are overloaded and stop more than 40 h a year; the drive that no build serves has the points of its proof too.
sed -n 2p one.csv | grep -q 'F-501.*no build serves' || fail "the overloaded drive that no build serves is not first"
sed -n 3p one.csv | grep -q 'C-101' || fail "the overloaded worm drive is not second"

# The mapping that was kept gives the same result, edited it gives another; a column that is missing is named.
code 0 "$lobewise" survey list.csv --out two.csv --mapping one.mapping.yaml
cmp one.csv two.csv
sed 's/field: gear_torque.*}/field: none}/' one.mapping.yaml >other.yaml
code 0 "$lobewise" survey list.csv --out three.csv --mapping other.yaml
! cmp -s one.csv three.csv || fail "the edited mapping changed nothing"
sed 's/n2 \[rpm\]/n3/' list.csv >renamed.csv
code 2 "$lobewise" survey renamed.csv --out no.csv --mapping one.mapping.yaml
grep -q 'no such column' err.txt || fail "the missing column is not named"
code 0 "$lobewise" survey list.csv --out one.xlsx --units us
[ "$(od -An -c -N2 one.xlsx | tr -d ' ')" = PK ] || fail "no workbook"

# Slices joined are the whole list, byte by byte; one missing is named.
for k in 1 2 3; do code 0 "$lobewise" survey list.csv --mapping one.mapping.yaml --slice $k/3 --out part$k; done
code 0 "$lobewise" survey --join part3 part1 part2 --out joined.csv
cmp one.csv joined.csv
code 2 "$lobewise" survey --join part1 part2 --out joined.csv
grep -q 'slice 3 of 3 is missing' err.txt || fail "the missing slice is not named"
code 2 "$lobewise" survey list.csv --slice 1/3 --out part.csv
code 2 "$lobewise" survey list.csv --slice 4/3 --out part
code 2 "$lobewise" survey list.csv --out result.pdf

# One line opens as an enquiry.
code 0 "$lobewise" survey list.csv --mapping one.mapping.yaml --line 7
cp out.txt line.yaml
code 0 "$lobewise" check line.yaml
code 2 "$lobewise" survey list.csv --mapping one.mapping.yaml --line 14

# Ctrl-C keeps what is done.
python3 - <<'EOF'
with open("long.csv", "w") as out:
    out.write("Tag,Motor power [kW],n2 rpm\n")
    for i in range(20000):
        out.write(f"D{i},{0.5 + i % 97 / 7:.2f},{12 + i % 131}\n")
EOF
status=0
"$lobewise" survey long.csv --out cancelled.csv >out.txt 2>err.txt &
survey=$!
# On a busy machine the program needs a while until it listens: bit 2 of the caught signals is Ctrl-C.
until (( 0x$(awk '/^SigCgt/ {print $2}' /proc/$survey/status) & 2 )); do sleep 0.1; done
sleep 2
kill -INT "$survey"
wait "$survey" || status=$?
[ "$status" -eq 130 ] || fail "cancelled: exit code $status"
done_lines=$(($(wc -l <cancelled.csv) - 1))
[ "$done_lines" -gt 0 ] && [ "$done_lines" -lt 20000 ] || fail "cancelled: $done_lines lines"
grep -q "stopped after $done_lines lines" err.txt || fail "cancelling is not told"

# A load log becomes the duty of an enquiry.
python3 - <<'EOF'
import math
with open("log.csv", "w") as log:
    log.write("Time [s];Current [A]\n")
    for t in range(0, 36000, 2):
        running = t // 1800 % 5 != 4
        amps = 8 + 0.8 * math.sin(t / 60) if running else 0
        if running and t % 7200 == 100: amps = 16
        log.write(f"{t};{amps:.2f}\n".replace(".", ","))
EOF
code 0 "$lobewise" log log.csv --enquiry "$source/examples/washing_screw.yaml" --duty-out duty.yaml
grep -q 'Starts .* 3, 0.375 an hour' out.txt || fail "the starts of the log"
grep -q 'peaks above 2 times' out.txt || fail "the shocks of the log"
python3 - "$source/examples/washing_screw.yaml" <<'EOF'
import re, sys
text = open(sys.argv[1]).read()
duty = open("duty.yaml").read()
open("with_log.yaml", "w").write(re.sub(r"(?ms)^duty:\n(  .*\n)+", duty, text))
shares = [float(x) for x in re.findall(r"time_share: ([\d.]+) %", duty)]
assert abs(sum(shares) - 100) < 1e-9, shares
EOF
code 0 "$lobewise" check with_log.yaml
code 0 "$lobewise" log log.csv --enquiry "$source/examples/washing_screw.yaml" --json
python3 -m json.tool <out.txt >/dev/null || fail "the log's JSON"
code 2 "$lobewise" log log.csv --enquiry "$source/examples/trommel_pinion.yaml"
grep -q 'rated_current' err.txt || fail "the missing nameplate is not named"
code 2 "$lobewise" log list.csv --enquiry "$source/examples/washing_screw.yaml"

# The visit sheet is one page, needs no network, and escapes what it writes.
code 2 "$lobewise" visit-sheet --machine nonsense
grep -q 'belt_conveyor' err.txt || fail "the kinds of machine are not named"
for sheet in "a4 si measured" "letter us belt_conveyor"; do
  read -r paper units machine <<<"$sheet"
  code 0 "$lobewise" visit-sheet --machine "$machine" --units "$units" --out "$paper.html"
  grep -q 'locked it out' "$paper.html" || fail "no caution on the visit sheet"
  ! grep -qE 'https?:|<script|src=' "$paper.html" || fail "the visit sheet reaches out"
  if command -v chromium >/dev/null && command -v pdfinfo >/dev/null; then
    chromium --headless --no-sandbox --disable-gpu --no-first-run --disable-background-networking --user-data-dir="$work/profile" \
      --no-pdf-header-footer --print-to-pdf="$paper.pdf" "file://$work/$paper.html" >/dev/null 2>&1
    pdfinfo "$paper.pdf" | grep -q 'Pages: *1$' || fail "the visit sheet of $machine is more than a page"
  fi
done
echo "survey, log, visit-sheet: as they should be"
