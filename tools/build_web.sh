#!/usr/bin/env bash
# Installs what is missing and builds the page of the workspace, with the engine as WebAssembly in it: web/dist.
set -euo pipefail
cd "$(dirname "$0")/.."
. tools/environment.sh
tools/install.sh build web
tools/build.sh wasm
cd web
if [ ! -e node_modules/.package-lock.json ] || [ package-lock.json -nt node_modules/.package-lock.json ]; then
  echo "== Packages of the page"
  npm ci --silent
fi
echo "== Building the page"
npm run --silent build -- --logLevel warn
