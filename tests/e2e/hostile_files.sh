#!/usr/bin/env bash
# Files made to do harm: every one is refused in a second or two, with a sentence, without a crash.
set -uo pipefail
lobewise=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
failures=0
count=0

# refused PATTERN COMMAND…: exit code 2 or 3, the pattern, at most 1 GiB of memory and 20 s.
refused() {
  local pattern=$1
  shift
  local out status
  out=$(ulimit -v 1048576 && timeout 20 "$@" 2>&1 </dev/null)
  status=$?
  count=$((count + 1))
  if { [ "$status" -ne 2 ] && [ "$status" -ne 3 ]; } || ! grep -qE -- "$pattern" <<<"$out"; then
    failures=$((failures + 1))
    echo "FAILED: $* -> $status (/$pattern/)"
    head -c 500 <<<"$out"
  fi
}
repeat() { head -c "$2" /dev/zero | tr '\0' "$1"; }

# Aliases of aliases, with and without an anchor that holds itself.
{
  echo 'a0: &a0 x'
  for i in $(seq 1 30); do echo "a$i: &a$i [*a$((i - 1)), *a$((i - 1)), *a$((i - 1))]"; done
} >aliases.yaml
refused 'more than 20000 values|deeper' "$lobewise" check aliases.yaml
{
  echo 'a0: &a0 {k: v}'
  for i in $(seq 1 40); do echo "a$i: &a$i {<<: *a$((i - 1)), x: *a$((i - 1)), y: *a$((i - 1))}"; done
} >merges.yaml
refused 'more than 20000 values|deeper|not readable' "$lobewise" check merges.yaml
printf 'a: &a [*a]\n' >itself.yaml
refused 'not readable|deeper|unknown field' "$lobewise" check itself.yaml

# Depth.
{ printf 'a: '; repeat '[' 500000; } >deep.yaml
refused 'not readable|deeper' "$lobewise" check deep.yaml
{ printf 'a: '; repeat '[' 40; printf x; repeat ']' 40; } >levels.yaml
refused 'deeper than 32' "$lobewise" check levels.yaml
for i in $(seq 1 1000); do printf "%*s- \n" "$i" ''; done >indent.yaml
refused 'not readable|deeper|fields such as' "$lobewise" check indent.yaml
{ printf 'a: '; repeat '{' 500000; } >braces.yaml
refused 'not readable|deeper' "$lobewise" check braces.yaml
repeat '[' 5000000 >deep.json
refused 'deeper than 64' "$lobewise" mesh deep.json
{ repeat '[' 3000000; repeat ']' 3000000; } >whole.json
refused 'deeper than 64' "$lobewise" mesh whole.json
count=$((count + 1))
{ printf '{"call": "prove", "input": '; repeat '[' 3000000; repeat ']' 3000000; printf '}'; } | timeout 20 "$lobewise" api >answer.json
{ [ $? -eq 2 ] && grep -q 'deeper than 64' answer.json; } || { failures=$((failures + 1)); echo "FAILED: api and depth"; }

# Size.
repeat x 1048577 >large.yaml
refused 'larger than 1024 KiB' "$lobewise" check large.yaml
truncate -s 3G large.json
refused 'larger than 65536 KiB' "$lobewise" mesh large.json
{ printf 'title: '; repeat y 1000000; } >title.yaml
refused '20000 characters' "$lobewise" check title.yaml
printf 'machine: {measured: {speed: ' >digits.yaml
{ repeat 9 500000; printf ' rpm}}\n'; } >>digits.yaml
refused 'speed' "$lobewise" check digits.yaml
head -c 900000 /dev/urandom >noise.yaml
refused '.' "$lobewise" check noise.yaml
printf 'a: "\x00b"\n\xff\xfe: 1\n' >bytes.yaml
refused '.' "$lobewise" check bytes.yaml

# What is no file.
refused 'cannot be read' "$lobewise" check "$work"
refused "fields such as" "$lobewise" check /dev/null

echo "$((count - failures)) passed, $failures failed"
[ "$failures" -eq 0 ]
