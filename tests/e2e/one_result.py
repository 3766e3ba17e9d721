#!/usr/bin/env python3
"""one_result.py BINARY FOLDER: largest lobe force, contact pressure and life are one number wherever they are shown.

Three examples are taken through ledger, working, chart, drawing, comparison, candidates, list and hand-over. Figures that one
computation gave agree to 1e-9, shown ones are the ledger's own words. Where a quick look took rigid discs it says ≈.
"""
import json
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ["inclined_cullet_conveyor", "sorting_belt_two_stages", "geared_unit_wins"]
# Findings into whose checks the loaded mesh does not enter.
EXACT = {"place", "ratio", "fit"}
kSame = 1e-9
# A curve through the places of a lobe stays below what both solved torques give at most, by little.
kCurve = 0.05


def run(binary, *arguments, given=None):
    done = subprocess.run([binary, *arguments], cwd=ROOT, input=given, capture_output=True, text=True, check=False,
                          env={**os.environ, "LOBEWISE_BROWSER": ""})
    assert done.returncode in (0, 5), (arguments, done.stderr[-500:])
    return done.stdout


def call(binary, name, given):
    answer = json.loads(run(binary, "api", given=json.dumps({"call": name, "input": given})))
    assert "errors" not in answer, answer
    return answer.get("result", answer)


def same(what, one, other):
    assert abs(one - other) <= kSame * abs(one), f"{what}: {one!r} beside {other!r}"


def step(finding, symbol):
    (found,) = [s for s in finding["working"] if s["symbol"] == symbol]
    return found["value"]["value"]


def chart(finding, name):
    (found,) = [c for c in finding["charts"] if c["id"] == name]
    return found["series"]


def workbook_numbers(file, sheet):
    with zipfile.ZipFile(file) as book:
        names = re.findall(r'<sheet name="([^"]*)"', book.read("xl/workbook.xml").decode())
        text = book.read(f"xl/worksheets/sheet{names.index(sheet) + 1}.xml").decode()
    return [float(v) for v in re.findall(r'<c r="[A-Z]+\d+"(?: s="\d+")?>(?:<f[^>]*>[^<]*</f>)?<v>(-?[\d.][^<]*)</v>', text)]


def within(numbers, value):
    """Whether a workbook that keeps six digits holds a figure."""
    return any(abs(n - value) <= 1e-5 * abs(value) for n in numbers)


def examine(binary, example):
    file = f"examples/{example}.yaml"
    proof = json.loads(run(binary, "prove", file, "--json"))
    findings = {f["id"]: f for f in proof["findings"]}
    contact, life, sharing = findings["contact"], findings["life"], findings["sharing"]
    lobes = contact["checks"][0]
    assert "lobe" in lobes["name"]
    # Ledger, working and chart.
    force = step(sharing, "F_max")
    same("force, lubrication", force, step(findings["lubrication"], "F_max"))
    series = chart(sharing, "lobe_force")
    same("force, line of the chart", force, max(series[3]["y"]))
    assert (1 - kCurve) * force <= max(series[1]["y"]) <= force * (1 + kSame), f"{example}: the curve of the lobe force"
    (shown,) = {s["value"]["si"] for s in sharing["working"] if s["symbol"] == "F_max"}
    assert shown.replace("\u00a0", " ") in sharing["answer"]["si"].replace("\u00a0", " "), sharing["answer"]
    pressures = [s["value"]["value"] for s in contact["working"] if re.fullmatch(r"p_0(_\d)?", s["symbol"])]
    same("pressure, working", lobes["figure"]["value"], max(pressures))
    assert lobes["figure"]["si"] in contact["answer"]["si"], contact["answer"]
    torque = next(d["value"]["value"] for d in proof["drive"] if d["id"] == "output_torque")
    curve = chart(contact, "pressure_over_torque")[0]
    (at,) = [y for x, y in zip(curve["x"], curve["y"]) if abs(x - torque) <= kSame * torque]
    same("pressure, chart", pressures[0], at)  # of the last stage
    bars = {s["name"]["si"]: s["y"][0] for s in chart(life, "life_by_part")}
    for check in life["checks"]:
        part = check["name"].removeprefix("modified life of the ")
        if part != check["name"]:
            same(f"life of the {part}, chart", check["figure"]["value"], bars[part])
    explained = [s for s in life["working"] if s["symbol"] == "L_nmh"]
    for s in explained:
        part = s["meaning"].rsplit("of the ", 1)[1]
        for check in life["checks"]:
            if check["name"] == f"modified life of the {part}":
                same(f"life of the {part}, working", check["figure"]["value"], s["value"]["value"])
    # Drawing.
    drawn = call(binary, "mechanism", {"build": proof["build"], "torque": torque})["stages"]
    same("force, drawing", force, drawn[-1]["largest"]["force"])
    same("pressure, drawing", lobes["figure"]["value"], max(s["largest"]["pressure"] for s in drawn))
    # Comparison with what stands there.
    if example != "sorting_belt_two_stages":
        compared = json.loads(run(binary, "compare", file, "--json"))
        (axis,) = [a for a in compared["axes"] if a["id"] == "contact_stress"]
        same("pressure, comparison", lobes["figure"]["value"], axis["candidate"]["nominal"]["value"])
    # Candidates: the proof's margin, or ≈.
    sized = json.loads(run(binary, "size", file, "--json"))
    own = [c for c in sized["candidates"] if c["build"] == proof["build"]][0]
    assert own["mesh"] in ("rigid discs", "discs that bend")
    bends = own["mesh"] == "discs that bend"
    for margin in own["margins"]:
        exact = bends or margin["id"] in EXACT
        assert margin["estimate"] == (not exact), margin
        checks = findings[margin["id"]]["checks"]
        if exact and checks:
            assert any(abs(c["margin"] - margin["margin"]) <= 1e-9 for c in checks), (margin, checks)
    table = run(binary, "size", file)
    assert ("≈" in table) == any(m["estimate"] for c in sized["candidates"] for m in c["margins"]), "size says ≈"
    return findings


def examine_handover(binary, example, folder, findings):
    run(binary, "handover", f"examples/{example}.yaml", "--out", str(folder), "--only", "proposal,findings,workings")
    pressure = findings["contact"]["checks"][0]["figure"]
    assert within(workbook_numbers(folder / "findings.xlsx", "Checks"), pressure["value"] / 1e6), "pressure, findings.xlsx"
    force = step(findings["sharing"], "F_max")
    assert within(workbook_numbers(folder / "workings.xlsx", "Workings"), force), "force, workings.xlsx"
    proposal = (folder / "proposal.html").read_text(encoding="utf-8").replace("\u00a0", " ").replace("\u202f", " ")
    assert pressure["si"] in proposal, "pressure, proposal"
    assert "≈ " in proposal, "candidates, proposal"


def examine_list(binary, folder):
    """Margins of a list come from discs that bend, unless rigid ones are asked for; its headings say so."""
    short = folder / "short.csv"
    lines = (ROOT / "examples/plant_list.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    short.write_text("".join(lines[:6]), encoding="utf-8")
    for options, about in ([], False), (["--rigid"], True):
        file = folder / "list.csv"
        run(binary, "survey", str(short), "--out", str(file), *options)
        headings = file.read_text(encoding="utf-8-sig").splitlines()[0].split(",")
        assert ("contact margin ≈ [%]" in headings) == about, headings
        assert ("contact margin [%]" in headings) != about, headings
        assert "ratio margin [%]" in headings and "Tag" in headings and "Saved a year [kWh]" in headings, headings


def main():
    binary, folder = Path(sys.argv[1]).resolve(), Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    for example in EXAMPLES:
        findings = examine(binary, example)
        if example == EXAMPLES[0]:
            examine_handover(binary, example, folder / example, findings)
    examine_list(binary, folder)
    print(f"{len(EXAMPLES)} examples: one force, one pressure, one life each")


if __name__ == "__main__":
    main()
