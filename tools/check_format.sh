#!/usr/bin/env bash
# Says which C++ files are not formatted as .clang-format asks.
set -euo pipefail
cd "$(dirname "$0")/.."
formatter=$(command -v clang-format-14 || command -v clang-format)
find apps bench engine examples tests \( -name '*.h' -o -name '*.cc' \) -print0 | xargs -0 "$formatter" --dry-run --Werror
echo "format: clean"
