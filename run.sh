#!/usr/bin/env bash
# Installs what is missing, builds, and does the main job on the demo enquiry.
set -euo pipefail
cd "$(dirname "$0")"
tools/install.sh build
tools/build.sh release lobewise
echo
echo "== The main job on the demo enquiry: examples/inclined_cullet_conveyor.yaml"
exec build/release/bin/lobewise prove examples/inclined_cullet_conveyor.yaml "$@"
