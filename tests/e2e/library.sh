#!/usr/bin/env bash
# Installs the engine into a temporary folder and builds and runs the sample project against it.
set -euo pipefail
build=$1
source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cmake --install "$build" --prefix "$work/prefix" >/dev/null
cmake -S "$source/examples/library" -B "$work/build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_PREFIX_PATH="$work/prefix" >/dev/null
cmake --build "$work/build" >/dev/null
"$work/build/lobe_forces" | grep -E '^largest lobe force [0-9]+ N, largest contact pressure [0-9]+ MPa$'
