#!/usr/bin/env bash
# API of the engine as pages, build/docs/html/index.html. Fails on any warning.
set -euo pipefail
cd "$(dirname "$0")/.."
mkdir -p build/docs
doxygen Doxyfile
echo "docs: clean"
