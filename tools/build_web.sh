#!/usr/bin/env bash
# Builds the engine for WebAssembly and the page of the workspace: web/dist.
set -euo pipefail
cd "$(dirname "$0")/.."
tools/build.sh wasm
cd web
if [ ! -e node_modules/.package-lock.json ] || [ package-lock.json -nt node_modules/.package-lock.json ]; then
  echo "== Packages of the page"
  npm ci --silent
fi
echo "== Building the page"
npm run --silent build -- --logLevel warn
