#!/usr/bin/env python3
"""Rejects an include that points upwards in the order of the house (see CONTRIBUTING.md)."""
import pathlib
import re
import sys

LAYERS = [
    ["base"], ["model", "uncertainty"], ["mechanism"], ["contact"], ["strength", "losses"], ["heat", "motion", "tolerance"],
    ["range", "demand", "incumbent", "case"], ["enquiry"], ["drive"], ["evidence"], ["sizing"], ["judge"], ["result"],
    ["api"],
]
RANK = {folder: rank for rank, folders in enumerate(LAYERS) for folder in folders}
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]engine/([a-z_]+)/')
RESULT_JSON = {"engine/result/json.h", "engine/result/json.cc"}
JSON_INCLUDE = re.compile(r'^\s*#\s*include\s*[<"](nlohmann|yaml-cpp)/')

root = pathlib.Path(__file__).resolve().parent.parent
problems = []
for path in sorted((root / "engine").rglob("*")):
    if path.suffix not in {".h", ".cc"}:
        continue
    folder = path.relative_to(root / "engine").parts[0]
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        place = f"{path.relative_to(root)}:{number}"
        if match := INCLUDE.match(line):
            target = match.group(1)
            if target not in RANK:
                problems.append(f"{place}: engine/{target} is not a layer")
            elif RANK[target] > RANK[folder] or (RANK[target] == RANK[folder] and target != folder):
                problems.append(f"{place}: {folder} must not include {target}")
        if JSON_INCLUDE.match(line) and folder != "api" and place.split(":")[0] not in RESULT_JSON:
            problems.append(f"{place}: JSON belongs in engine/api and engine/result/json.*")
for path in sorted((root / "apps").rglob("*")):
    if path.suffix not in {".h", ".cc"}:
        continue
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if (match := INCLUDE.match(line)) and match.group(1) not in {"api", "base", "judge", "result"}:
            problems.append(f"{path.relative_to(root)}:{number}: apps include engine/api, engine/judge, engine/result and engine/base only")
print("\n".join(problems) or "layers: every include points downwards")
sys.exit(1 if problems else 0)
