#!/usr/bin/env bash
# Installs what is missing, builds, does the main job on the demo enquiry, and offers the workspace with it.
set -euo pipefail
cd "$(dirname "$0")"
demo=examples/inclined_cullet_conveyor.yaml
tools/install.sh build
tools/build.sh program lobewise
echo
echo "== The main job on the demo enquiry: $demo"
build/release/bin/lobewise prove "$demo" "$@"
echo
if [ -t 0 ] && [ -t 1 ]; then
  built=""
  [ -e web/dist/index.html ] || built=" (it is built first, which takes some minutes)"
  read -rp "Open this enquiry in the workspace, in a browser of this machine?$built [y/N] " answer
  [[ "$answer" == [yY]* ]] || exit 0
  tools/build_web.sh
  exec build/release/bin/lobewise workspace "$demo"
fi
echo "The same enquiry in a browser: tools/build_web.sh && build/release/bin/lobewise workspace $demo"
