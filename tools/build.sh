#!/usr/bin/env bash
# Builds one preset: tools/build.sh PRESET [TARGET…]. Quiet when nothing changed.
set -euo pipefail
cd "$(dirname "$0")/.."
preset=$1
shift
[ -f "build/$preset/build.ninja" ] || { echo "== Configuring $preset"; cmake --preset "$preset" >/dev/null; }
echo "== Building $preset"
if [ $# -gt 0 ]; then cmake --build --preset "$preset" --target "$@"; else cmake --build --preset "$preset"; fi
