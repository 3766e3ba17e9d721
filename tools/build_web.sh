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
  before=$(node --version)
  npm ci --silent
  case $before in v1[0-9].*)  # under such a Node npm leaves out what needs a newer one: once more under the page's own
    own=$(mktemp -d)
    cp ../web/node_modules/node-linux-*/bin/node "$own/node"
    PATH=$own:$PATH npm ci --silent
    rm -r "$own" ;;
  esac
fi
echo "== Building the page"
npm run --silent build -- --logLevel warn
