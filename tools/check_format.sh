#!/usr/bin/env bash
# Says which C++ files are not formatted as .clang-format asks.
set -euo pipefail
cd "$(dirname "$0")/.."
formatter=$(command -v clang-format-14 || command -v clang-format)
git ls-files '*.h' '*.cc' | xargs "$formatter" --dry-run --Werror
echo "format: clean"
