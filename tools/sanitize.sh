#!/usr/bin/env bash
# The unit tests and the kept inputs of tests/fuzz under the sanitizers. Arguments for ctest, e.g. -R unit_store.
#   tools/sanitize.sh            addresses and undefined behaviour
#   tools/sanitize.sh threads    data races of what uses threads: server, store, survey
set -euo pipefail
cd "$(dirname "$0")/.."
tools/install.sh build test fuzz
if [ "${1:-}" = threads ]; then
  shift
  tools/build.sh threads test_unit_server test_unit_store test_unit_survey
  exec ctest --test-dir build/threads --output-on-failure --no-tests=error -R '^unit_(server|store|survey)' "$@"
fi
tools/build.sh sanitize
exec ctest --test-dir build/sanitize --output-on-failure --no-tests=error -j"$(nproc)" -E '^e2e/' "$@"
