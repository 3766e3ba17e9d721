#!/usr/bin/env bash
# Stores every example's figures and verdicts as they are now (tests/golden), and prints what moved. Arguments: cases, none for all.
set -euo pipefail
cd "$(dirname "$0")/.."
tools/build.sh release lobewise
exec python3 tests/golden/golden.py update build/release/bin/lobewise "$@"
