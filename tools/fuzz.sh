#!/usr/bin/env bash
# Lets libFuzzer make inputs for each target under the sanitizers: tools/fuzz.sh SECONDS [TARGET…]. SECONDS are for all of them
# together. tools/fuzz.sh runs=N makes N inputs a target, the same every time: for the tests. What is found lies in build/fuzz/found/TARGET; put the smallest into tests/fuzz/inputs/TARGET, where the ordinary
# tests run it for ever. LOBEWISE_FUZZ_LONG=1 lets the engine's slow calls in.
set -euo pipefail
cd "$(dirname "$0")/.."
seconds=${1:?usage: tools/fuzz.sh SECONDS|runs=N [TARGET…]}
shift
tools/install.sh build fuzz
tools/build.sh sanitize fuzz
read -ra targets <<<"${*:-$(build/sanitize/bin/fuzz | tr '\n' ' ')}"
if [[ $seconds == runs=* ]]; then
  limit="-seed=1 -$seconds"
else
  each=$((seconds / ${#targets[@]}))
  limit=-max_total_time=$((each > 0 ? each : 1))
fi
fuzz_one() {
  local target=$1 known=build/fuzz/known/$1 found=build/fuzz/found/$1
  mkdir -p "$known" "$found"
  LOBEWISE_TARGET=$target build/sanitize/bin/fuzz $limit -timeout=60 -rss_limit_mb=2048 -max_len=16384 \
    -artifact_prefix="$found/" -print_final_stats=1 -verbosity=0 "$known" "tests/fuzz/inputs/$target" >"$found/log" 2>&1 ||
    { echo "== $target: FOUND SOMETHING"; tail -n 60 "$found/log"; return 1; }
  printf '%-14s %9s inputs\n' "$target" "$(sed -n 's/^stat::number_of_executed_units: *//p' "$found/log")"
}
export -f fuzz_one
export limit
printf '%s\n' "${targets[@]}" | xargs -P "$(nproc)" -I{} bash -c 'fuzz_one {}'
