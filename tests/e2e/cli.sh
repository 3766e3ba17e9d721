#!/usr/bin/env bash
# The command line as a user meets it: every subcommand, its exit code, and what it says when something is wrong.
set -uo pipefail
lobewise=$1
source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
. "$source/tests/e2e/expect.sh"

for example in "$source"/examples/*.yaml; do
  case $example in *furnace_return*) continue ;; esac
  expect 0 'Evidence' "$lobewise" prove "$example"
  expect 0 'Evidence' "$lobewise" prove "$example" --units us
  expect 0 'Candidates' "$lobewise" size "$example"
  expect 0 'read without errors' "$lobewise" check "$example"
done
conveyor=$source/examples/inclined_cullet_conveyor.yaml
expect 5 'No build of this range serves' "$lobewise" size "$source/examples/furnace_return_apron.yaml"
expect 5 'No build of this range serves' "$lobewise" prove "$source/examples/furnace_return_apron.yaml"
for id in place ratio sharing clearance contact shock life overhung service efficiency heat lubrication motion motor fit cost; do
  expect 0 'Working' "$lobewise" prove "$conveyor" --why "$id"
done
expect 0 'anvil .* brings .*, 60' "$lobewise" prove "$source/examples/fails/shock_sixty_times.yaml" --why shock
expect 0 'does not hold' "$lobewise" prove "$source/examples/fails/shock_sixty_times.yaml" --why shock
expect 0 'times in the life asked for' "$lobewise" prove "$source/examples/fails/shock_too_often.yaml" --why shock
expect 0 'Side by side' "$lobewise" compare "$conveyor"
expect 0 'Working of the unit in service' "$lobewise" compare "$conveyor" --all --units us
expect 0 '"cases"' "$lobewise" compare "$conveyor" --json
expect 0 'it does not pay' "$lobewise" compare "$source/examples/geared_unit_wins.yaml"
expect 0 'the kind of the unit|what drives the machine now' "$lobewise" compare "$source/examples/metering_conveyor.yaml"
expect 2 'no such finding' "$lobewise" prove "$conveyor" --why luck
# A change that in some cases never pays back: its range has no upper end.
{ sed '/^incumbent:/,$d' "$conveyor"; printf '%s\n' 'incumbent: {kind: helical_in_line, ratio: 29, rated_power: 11 kW, age: 12 years}' \
  'economics: {energy_price: 0.16 /kWh, stops_per_year: 2}'; } >"$work/never.yaml"
expect 0 'years until it has paid back.* and more' "$lobewise" prove "$work/never.yaml" --why cost
expect 0 '"findings"' "$lobewise" prove "$conveyor" --json
expect 0 'ring-315' "$lobewise" prove "$conveyor" --frame ring-315 --lobes 31
expect 2 'no such frame' "$lobewise" prove "$conveyor" --frame big
expect 2 'is made with' "$lobewise" prove "$conveyor" --frame ring-315 --lobes 28
expect 0 'limited by' "$lobewise" rate --speed '1450 rpm'
expect 0 'life.l10' "$lobewise" schema
expect 0 'additionalProperties' "$lobewise" schema enquiry
expect 0 'x-unit' "$lobewise" schema life.l10
expect 64 'subcommand' "$lobewise"
expect 2 'cannot be read' "$lobewise" prove "$work/none.yaml"

sed 's/lift: 14 m/lift: 60 HRC/' "$conveyor" >"$work/unit.yaml"
expect 2 "unit.yaml:[0-9]+: machine.belt_conveyor.lift" "$lobewise" prove "$work/unit.yaml"
expect 2 "is a unit of hardness" "$lobewise" prove "$work/unit.yaml"
sed 's/mass_flow:/mass_flaw:/; s/speed: 1.3 m.s/speed: 1300/' "$conveyor" >"$work/two.yaml"
expect 2 "did you mean 'mass_flow'" "$lobewise" prove "$work/two.yaml"
expect 2 "no unit" "$lobewise" prove "$work/two.yaml"
printf 'machine: {measured: {measured_torque: 40 N·m, speed: 57 rpm}}\n' >"$work/least.yaml"
expect 0 'Worth asking next' "$lobewise" prove "$work/least.yaml"
printf 'machine: {hoist: {load_mass: 500 kg, speed: 0.2 m/s, drum_diameter: 300 mm, lifts_people: yes}}\n' >"$work/people.yaml"
expect 2 '[Pp]eople' "$lobewise" prove "$work/people.yaml"
printf 'title: Passenger lift 2\nmachine: {measured: {measured_torque: 40 N·m, speed: 57 rpm}}\n' >"$work/riders.yaml"
expect 2 'title' "$lobewise" prove "$work/riders.yaml"
expect 2 'people' "$lobewise" check "$work/riders.yaml"
# A place that may explode: no offer and no price until it is described, then never more than a condition.
sed 's/explosive_atmosphere: no/explosive_atmosphere: yes/' "$conveyor" >"$work/explosive.yaml"
expect 5 'Not offered for this zone' "$lobewise" prove "$work/explosive.yaml"
expect 5 'Not offered for this zone' "$lobewise" size "$work/explosive.yaml"
expect 5 'no offer' "$lobewise" prove "$work/explosive.yaml"
sed 's/^site:/site:\n  explosive: {zone: zone_22, group: iiib, temperature_class: t3, certifier: inspection body}/' "$work/explosive.yaml" >"$work/zone.yaml"
expect 0 'holds if' "$lobewise" prove "$work/zone.yaml" --why place
printf 'machine: {screw_conveyor: {mass_flow: 400 t/h, length: 6 m, lift: 1 m, diameter: 200 mm, speed: 50 rpm}}\n' >"$work/screw.yaml"
expect 2 'contradicts machine.screw_conveyor.diameter' "$lobewise" prove "$work/screw.yaml"
printf 'machine: {measured: {measured_torque: 40 N·m, speed: 57 rpm}}\nsupply: {frequency: 60 Hz, poles: 6, motor_speed: 1460 rpm}\n' >"$work/poles.yaml"
expect 2 'supply.motor_speed' "$lobewise" prove "$work/poles.yaml"
expect 0 'cannot be judged' "$lobewise" prove "$source/examples/machines/agitator.yaml" --why overhung
printf 'a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]\ne: [*d,*d,*d,*d,*d,*d,*d,*d,*d]\n' >"$work/bomb.yaml"
expect 2 'more than 20000 values' "$lobewise" prove "$work/bomb.yaml"

expect 0 'belt_conveyor +Belt conveyor' "$lobewise" example
expect 2 'one of: agitator' "$lobewise" example escalator
for kind in $("$lobewise" example | cut -d' ' -f1); do
  "$lobewise" example "$kind" >"$work/example.yaml"
  expect 0 "." "$lobewise" size "$work/example.yaml"
done
printf 'Time [s];Torque [Nm]\n0;1200\n60;1500\n120;600\n180;1200\n240;0\n' >"$work/log.csv"
expect 0 'Beside the usual service factors' "$lobewise" prove "$conveyor" --log "$work/log.csv"
expect 2 'log.csv' "$lobewise" prove "$conveyor" --log "$work/none/log.csv"
expect 0 'torque_cycles' "$lobewise" log "$work/log.csv" --enquiry "$conveyor"

count=$((count + 1))
answer=$(echo '{"call": "life.l10", "input": {"C": 50000, "P": 5000, "speed": 100}}' | "$lobewise" api)
grep -q '"hours"' <<<"$answer" || { failures=$((failures + 1)); echo "FAILED: api: $answer"; }
count=$((count + 1))
echo '{"call": "life.l1", "input": {}}' | "$lobewise" api >"$work/api.json"
[ $? -eq 2 ] && grep -q "did you mean" "$work/api.json" || { failures=$((failures + 1)); echo "FAILED: api refuses"; }

echo "$((count - failures)) passed, $failures failed"
[ "$failures" -eq 0 ]
