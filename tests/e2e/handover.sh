#!/usr/bin/env bash
# A hand-over of a hostile enquiry and a hostile range, read back by independent readers.
#   handover.sh PROGRAM SOURCE
set -euo pipefail
program=$1
source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
python=/usr/bin/python3 # Debian's own, which has ezdxf; another one may come first on the path
command -v chromium >/dev/null || echo "no chromium here: PDF files are not tested (tools/install.sh test)"

"$program" range >"$work/range.txt"
"$python" "$source/tests/e2e/handover_check.py" hostile "$source" "$work"
"$program" handover "$work/enquiry.yaml" --range "$work/range.json" --out "$work/a" --date 2026-11-25 >"$work/report"
LOBEWISE_BROWSER='' "$program" handover "$work/enquiry.yaml" --range "$work/range.json" --out "$work/b" --date 2026-11-25 >/dev/null
"$python" "$source/tests/e2e/handover_check.py" check "$work/a" "$work/b"
if command -v chromium >/dev/null; then # made again, all of it is the same, PDF files too
  "$program" handover "$work/enquiry.yaml" --range "$work/range.json" --out "$work/a2" --date 2026-11-25 >/dev/null
  for file in "$work"/a/*; do
    again=$work/a2/${file##*/}
    cmp -s "$file" "$again" && continue
    # A busy browser may set a letter half a point higher (docs/decisions/110-handover.md): then the text decides.
    [[ $file == *.pdf ]] || { echo "${file##*/} differs when made again"; exit 1; }
    diff <(pdftotext -layout "$file" - && pdfinfo "$file" | grep -v "File size") \
      <(pdftotext -layout "$again" - && pdfinfo "$again" | grep -v "File size")
  done
fi
# The other paper, units and mounting; two stages.
"$program" handover "$source/examples/metering_conveyor.yaml" --out "$work/us" --date 2026-11-25 --units us --paper letter \
  --only drawing,model,step >"$work/report"
"$python" "$source/tests/e2e/handover_check.py" letter "$work/us"
# With a drive in service: comparison and case.
LOBEWISE_BROWSER='' "$program" handover "$source/examples/inclined_cullet_conveyor.yaml" --out "$work/beside" --date 2026-11-25 \
  --only proposal,findings,drawing,step >"$work/report"
"$python" "$source/tests/e2e/handover_check.py" beside "$work/beside"
"$python" "$source/tests/e2e/handover_check.py" step "$program" "$work/beside"
# Nothing serves: an examination without an offer, and nothing to order.
LOBEWISE_BROWSER='' "$program" handover "$source/examples/furnace_return_apron.yaml" --out "$work/none" --date 2026-11-25 \
  --only proposal,order,commissioning,drawing >"$work/report" && exit 1 || [ $? -eq 5 ]
grep -q "not made: order_sheet" "$work/report"
"$python" "$source/tests/e2e/handover_check.py" none "$work/none"
# Mistakes are told, with the exit code of an input error.
for wrong in "--date 2026-02-30" "--only poem" "--model-size 3 --only model" "--out /proc/nothing"; do
  code=0
  # shellcheck disable=SC2086
  "$program" handover "$source/examples/metering_conveyor.yaml" --out "$work/c" $wrong >/dev/null 2>"$work/error" || code=$?
  [ "$code" -eq 2 ] || [ "$code" -eq 64 ] || { echo "$wrong: exit code $code"; exit 1; }
done
echo "handover: every file read back"
