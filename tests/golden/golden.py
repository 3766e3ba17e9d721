#!/usr/bin/env python3
"""Golden proofs: every figure and verdict of every example, beside what was stored.

    golden.py check LOBEWISE [CASE…]     fails when anything moved
    golden.py first LOBEWISE             the same, ends at the first case that moved
    golden.py update LOBEWISE [CASE…]    stores what is now, and prints what moved (tools/update_golden.sh)

A case is an example: every file of examples/*.yaml, examples/machines and examples/fails is proved; what has a drive in service
is compared too; kCommands adds others. Kept: exit code, verdicts, the build, every quantity with its range, the value of every
step of every working. Not kept: charts, prose, what a step prints of its inputs.

Tolerance: 1e-6 of the figure. Figures come out of iterations that stop at 1e-9 and below, and sums change in their last digits
with compiler and optimisation; nobody sees a millionth, since figures are shown to four digits. kNothing is below any
quantity in SI: a difference that small stands between two zeros.
"""
import csv
import json
import math
import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

kTolerance = 1e-6
kNothing = 1e-14
kDigits = 10

ROOT = Path(__file__).resolve().parents[2]
STORED = Path(__file__).resolve().parent

# Cases that are more than `prove FILE`: name -> arguments.
kCommands = {
    "prove_washing_screw_logged": ["prove", "examples/washing_screw.yaml", "--log", "examples/washing_screw_amps.csv", "--json"],
    "log_washing_screw": ["log", "examples/washing_screw_amps.csv", "--enquiry", "examples/washing_screw.yaml", "--json"],
    "survey_plant_list": ["survey", "examples/plant_list.csv", "--out", "OUT.csv"],
}

# Words of an answer that are a result and not prose about one.
kWords = {"verdict", "basis", "better", "frame", "first_frame", "build_name", "why_none", "agreement", "kind", "base", "mounting", "condition",
          "weakest", "orientation",
          "time_share", "torque", "range", "mean", "hours_per_day", "starts_per_hour"}  # a log's duty, with their units
# Charts and prose, and what a step prints of its inputs.
kLeftOut = {"charts", "inputs", "cautions", "notes", "answer", "explanation", "text", "source", "formula", "question", "left_out",
            "si", "us", "quantity", "changes"}
# What names an element of a list.
kNames = ("id", "path", "name", "symbol", "label", "key", "what", "check", "unknown", "number")


def rounded(number):
    return float(f"{number:.{kDigits}g}") if isinstance(number, float) else number


def name_of(element):
    if "symbol" in element and "meaning" in element:
        return f"{element['symbol']}: {element['meaning']}"
    for key in kNames:
        if isinstance(element.get(key), (str, int)):
            return str(element[key])
    return None


def pruned(value, key=""):
    """What is kept of an answer; None for nothing."""
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, (int, float)):
        return rounded(value)
    if isinstance(value, str):
        return value if key in kWords else None
    if isinstance(value, list):
        if key == "missing" or all(isinstance(item, str) for item in value):
            return len(value) if value else None
        if all(isinstance(item, dict) and name_of(item) for item in value):
            out = {}
            for item in value:
                name, n = name_of(item), 1
                while (name if n == 1 else f"{name} ({n})") in out:
                    n += 1
                kept = pruned(item)
                if kept is not None:
                    out[name if n == 1 else f"{name} ({n})"] = kept
            return out or None
        kept = [pruned(item) for item in value]
        return kept if any(item is not None for item in kept) else None
    if "quantity" in value and "value" in value:  # a quantity: its number in SI
        return rounded(value["value"])
    out = {k: pruned(v, k) for k, v in value.items() if k not in kLeftOut}
    out = {k: v for k, v in out.items() if v is not None}
    if "symbol" in value:  # a step: how it came about is no result
        out.pop("kind", None)
    if set(out) == {"value"}:
        return out["value"]
    if {"value", "low", "high"} <= set(out) and set(out) <= {"value", "low", "high", "assumed", "kind"}:
        return [out["low"], out["value"], out["high"]]
    return out or None


def survey_rows(path):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))

    def cell(text):
        try:
            return rounded(float(text))
        except (TypeError, ValueError):
            return text if text and len(text) < 40 else None  # longer cells are prose

    return {row["Tag"]: {k: v for k, v in ((k, cell(t)) for k, t in row.items()) if k != "Tag" and v is not None} for row in rows}


def cases():
    out = {}
    for file in sorted([*ROOT.glob("examples/*.yaml"), *ROOT.glob("examples/machines/*.yaml"), *ROOT.glob("examples/fails/*.yaml")]):
        relative = str(file.relative_to(ROOT))
        stem = file.stem if file.parent.name == "examples" else f"{file.parent.name}_{file.stem}"
        out[f"prove_{stem}"] = ["prove", relative, "--json"]
        if any(line.startswith("incumbent:") for line in file.read_text(encoding="utf-8").splitlines()):
            out[f"compare_{stem}"] = ["compare", relative, "--json"]
    return out | kCommands


def outcome(binary, arguments):
    with tempfile.TemporaryDirectory() as folder:
        table = str(Path(folder) / "out.csv")
        done = subprocess.run([binary, *[table if a == "OUT.csv" else a for a in arguments]], cwd=ROOT, capture_output=True, text=True,
                              timeout=120)
        out = {"command": " ".join(arguments), "exit": done.returncode}
        if "OUT.csv" in arguments:
            return out | survey_rows(table) if done.returncode == 0 else out
        try:
            return out | (pruned(json.loads(done.stdout)) or {})
        except json.JSONDecodeError:
            return out | {"not_json": done.stdout[:200]}


def written(value, indent=0):
    """JSON with what fits on a line on one, so that a difference is read line by line."""
    line = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, dict) or (len(line) + indent < 200 and not any(isinstance(v, dict) for v in value.values())):
        return line
    inner = ",\n".join(" " * (indent + 1) + json.dumps(k, ensure_ascii=False) + ": " + written(v, indent + 1) for k, v in value.items())
    return "{\n" + inner + "\n" + " " * indent + "}"


def flat(value, path=""):
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from flat(inner, f"{path} / {key}" if path else key)
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from flat(inner, f"{path} [{i}]")
    else:
        yield path, value


def same(a, b):
    if isinstance(a, bool) or isinstance(b, bool) or not (isinstance(a, (int, float)) and isinstance(b, (int, float))):
        return a == b
    return math.isclose(a, b, rel_tol=kTolerance, abs_tol=kNothing)


def moved(old, new):
    """Lines of what moved; verdicts first."""
    old, new = dict(flat(old)), dict(flat(new))
    lines = []
    for path in [*old, *(p for p in new if p not in old)]:
        if path not in new:
            lines.append(f"  gone   {path}: {old[path]}")
        elif path not in old:
            lines.append(f"  new    {path}: {new[path]}")
        elif not same(old[path], new[path]):
            mark = "TURNED" if path.endswith("verdict") or path == "exit" or path.startswith("build") else "moved "
            share = ""
            if mark == "moved " and isinstance(old[path], (int, float)) and old[path]:
                share = f"  ({100 * (new[path] / old[path] - 1):+.3g} %)" if isinstance(new[path], (int, float)) else ""
            lines.append(f"  {mark} {path}: {old[path]} -> {new[path]}{share}")
    return sorted(lines, key=lambda line: not line.startswith("  TURNED"))


def main():
    if len(sys.argv) < 3 or sys.argv[1] not in ("check", "first", "update"):
        sys.exit(__doc__)
    update, binary, wanted = sys.argv[1] == "update", str(Path(sys.argv[2]).resolve()), sys.argv[3:]
    known = cases()
    for name in wanted:
        if name not in known:
            sys.exit(f"no such case: {name}; there are {', '.join(known)}")
    bad = turned = 0
    first = sys.argv[1] == "first"
    pool = ThreadPoolExecutor(1 if first else os.cpu_count())
    outcomes = {name: pool.submit(outcome, binary, known[name]) for name in wanted or known}
    for name in outcomes:
        file = STORED / f"{name}.json"
        new = outcomes[name].result()
        old = json.loads(file.read_text(encoding="utf-8")) if file.exists() else {}
        lines = moved(old, new) if old else [f"  nothing is stored yet ({len(dict(flat(new)))} figures)"]
        if lines:
            bad += 1
            turned += sum(line.startswith("  TURNED") for line in lines)
            print(f"{name}: {' '.join(known[name])}")
            print("\n".join(lines if update else lines[:12] + ([f"  … and {len(lines) - 12} more"] if len(lines) > 12 else [])))
        if first and bad:
            pool.shutdown(cancel_futures=True)
            sys.exit(1)
        if update and lines:
            file.write_text(written(new) + "\n", encoding="utf-8")
    if not wanted:
        for file in sorted(STORED.glob("*.json")):
            if file.stem not in known:
                bad += 1
                print(f"{file.name}: stored, but no such case")
                if update:
                    file.unlink()
    print(f"golden proofs: {len(wanted or known)} cases, {bad} moved, {turned} verdicts or builds turned")
    if bad and not update:
        sys.exit("If this is meant: tools/update_golden.sh stores it, and the commit says why")


if __name__ == "__main__":
    main()
