#!/usr/bin/env bash
# Builds one preset: tools/build.sh PRESET [TARGET…]. Quiet when nothing changed.
# The preset `program` is `release` without what only tests and benchmarks need, in the same folder; a folder that is
# configured for all of it stays so.
set -euo pipefail
cd "$(dirname "$0")/.."
. tools/environment.sh
preset=$1
shift
folder=build/${preset/#program/release}
without_tests() { grep -q '^LOBEWISE_TESTS:BOOL=OFF' "$folder/CMakeCache.txt"; }
if [ ! -f "$folder/build.ninja" ] || { [ "$preset" = release ] && without_tests; }; then
  echo "== Configuring $preset"
  cmake --preset "$preset" >/dev/null
fi
echo "== Building $preset"
if [ $# -gt 0 ]; then cmake --build "$folder" --target "$@"; else cmake --build "$folder"; fi
