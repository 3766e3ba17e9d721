# shellcheck shell=bash
# Sourced: counts what is expected of a program, `failures` of `count`.
failures=0
count=0

# expect CODE PATTERN COMMAND…: runs it, compares exit code and looks for the pattern in what it prints.
expect() {
  local code=$1 pattern=$2
  shift 2
  local out status
  out=$("$@" 2>&1 </dev/null)
  status=$?
  count=$((count + 1))
  if [ "$status" -ne "$code" ] || ! grep -qE -- "$pattern" <<<"$out"; then
    failures=$((failures + 1))
    echo "FAILED: $* -> $status (wanted $code, /$pattern/)"
    head -5 <<<"$out"
  fi
}
