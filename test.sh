#!/usr/bin/env bash
# Installs what is missing, builds, and runs every test.
set -euo pipefail
cd "$(dirname "$0")"
. tools/environment.sh
tools/install.sh build test step web
echo "== Checks of the source"
python3 tools/check_layers.py
tools/check_format.sh
tools/docs.sh
tools/build.sh release
echo "== Tests"
ctest --test-dir build/release --output-on-failure -j"$(nproc)" --no-tests=error
tools/test_web.sh
echo "== Strangers' bytes under the sanitizers"
tools/fuzz.sh runs=200
