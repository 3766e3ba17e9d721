#!/usr/bin/env bash
# Builds the engine for WebAssembly and the page, checks types and style, and tests both: the page against the engine, native
# against WebAssembly, and the workspace in Chromium, served by the native binary (which must be there).
set -euo pipefail
cd "$(dirname "$0")/.."
. tools/environment.sh
tools/build_web.sh
echo "== Checks and tests of the page"
(cd web && npm run --silent check && npm run --silent test -- --reporter=dot)
echo "== The workspace in Chromium, and WebAssembly beside native"
node --test tests/e2e/*.test.mjs
