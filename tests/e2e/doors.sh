#!/usr/bin/env bash
# Whatever lifts or carries people is refused through every door of the program; a place that may explode gets no offer.
set -uo pipefail
lobewise=$1
source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
export LOBEWISE_STORE=$work/office.lobewise
. "$source/tests/e2e/expect.sh"

measured='machine: {measured: {measured_torque: 300 N·m, speed: 57 rpm}}'
winch='load_mass: 500 kg, speed: 0.2 m/s, drum_diameter: 300 mm'
cat >hoist.yaml <<<"machine: {hoist: {$winch, lifts_people: yes}}"
cat >unsaid.yaml <<<"machine: {hoist: {$winch}}"
cat >travel.yaml <<<'machine: {travel_drive: {mass: 9 t, speed: 0.6 m/s, wheel_diameter: 315 mm, drives: 2, carries_people: yes}}'
printf 'title: Passenger lift 2\n%s\n' "$measured" >title.yaml
printf 'note: Antrieb der Seilfahrt am Schacht\n%s\n' "$measured" >note.yaml
printf '%s\nduty: {shocks: [{what: the man-riding winch drops its cage, torque: 2, per_year: 3}]}\n' "$measured" >shock.yaml
printf '%s\nincumbent: {kind: worm, note: monte-personnes de la tour}\n' "$measured" >present.yaml
printf '%s\nincumbent: {kind: worm, troubles: [{what: noise, note: escalator squeals}]}\n' "$measured" >trouble.yaml
printf 'Time [s],Torque [N·m]\n0,100\n1,110\n2,120\n3,100\n' >load.csv
"$lobewise" store init >/dev/null

for said in hoist unsaid travel title note shock present trouble; do
  for door in prove size compare check; do expect 2 '[Pp]eople' "$lobewise" "$door" "$said.yaml"; done
  expect 2 '[Pp]eople' "$lobewise" prove "$said.yaml" --json
  expect 2 '[Pp]eople' "$lobewise" prove "$said.yaml" --frame ring-224 --lobes 29
  expect 2 '[Pp]eople' "$lobewise" handover "$said.yaml" --out offered
  expect 2 '[Pp]eople' "$lobewise" log load.csv --enquiry "$said.yaml"
  expect 2 '[Pp]eople' "$lobewise" prove "$said.yaml" --log load.csv
  [ "$said" = unsaid ] || expect 2 '[Pp]eople' "$lobewise" store save "$said.yaml"
done
[ ! -e offered ] || expect 0 'nothing is written' false

# A draft may be kept before it is known whether people ride; no later revision may say that they do.
expect 0 'Enquiry 1 saved' "$lobewise" store save unsaid.yaml
expect 2 '[Pp]eople' "$lobewise" store revise 1 hoist.yaml --based-on 1
# An export of somebody else's that was saved without this program's doors.
printf 'title: Conveyor 7\n%s\n' "$measured" >plain.yaml
expect 0 'Enquiry 2 saved' "$lobewise" store save plain.yaml
expect 0 '.' "$lobewise" store export other.zip
python3 - <<'PY'
import hashlib, zipfile
with zipfile.ZipFile("other.zip") as old:
    files = {name: old.read(name).replace(b"Conveyor 7", b"Passenger lift 7") for name in old.namelist()}
# Contents are named by their checksum.
for name in [n for n in files if n.startswith("content/")]:
    kept, changed = name[len("content/"):].split(".")[0], hashlib.sha256(files[name]).hexdigest()
    files = {n.replace(kept, changed): text.replace(kept.encode(), changed.encode()) for n, text in files.items()}
with zipfile.ZipFile("lifts.zip", "w", zipfile.ZIP_DEFLATED) as new:
    for name, text in files.items():
        new.writestr(name, text)
PY
"$lobewise" store --store new.lobewise init >/dev/null
expect 2 '[Pp]eople' "$lobewise" store --store new.lobewise import lifts.zip

# A plant's list is answered line by line.
cat >plant.csv <<'CSV'
Tag,Drive,Motor power [kW],Motor speed [1/min],Driven speed [1/min],Gearbox,Ratio,Explosive atmosphere
L-1,Passenger lift tower 2,7.5,1450,50,worm,29,no
L-2,Man-riding winch,7.5,1450,50,worm,29,no
L-3,Personenaufzug Halle 3,7.5,1450,50,worm,29,no
C-1,Belt conveyor,7.5,1450,50,worm,29,no
X-1,Belt conveyor in the paint shop,7.5,1450,50,worm,29,yes
CSV
expect 0 '.' "$lobewise" survey plant.csv --out result.csv
line() { grep -- "$1" result.csv; }
for tag in L-1 L-2 L-3; do expect 0 'refused' line "$tag"; done
expect 0 ',serves under conditions,|,serves,' line C-1
expect 0 'not offered' line X-1
python3 - <<'PY' || failures=$((failures + 1))
import csv
rows = {row["Tag"]: row for row in csv.DictReader(open("result.csv", encoding="utf-8-sig"))}
assert rows["C-1"]["Saved a year [kWh]"], "a line that is offered says what it saves"
for tag in ("X-1", "L-1"):
    assert not rows[tag]["Saved a year [kWh]"], f"{tag}: a saving without an offer"
PY

# The sheet for the visit asks before anything is filled in.
for kind in hoist travel_drive; do expect 0 '[Pp]eople' "$lobewise" visit-sheet --machine "$kind"; done

[ "$failures" -eq 0 ] || { echo "$failures of $count"; exit 1; }
echo "$count doors"
