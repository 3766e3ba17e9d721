#!/usr/bin/env python3
"""check_workbook.py BINARY ENQUIRY FOLDER: the live workbook as a customer's spreadsheet program sees it.

Writes it, has a general spreadsheet program (gnumeric's ssconvert) compute every cell anew and demands: at least 150 formulas
among the workings, every cell as it was stored to 1e-9 of its size, every solved step closed; and after an input was
changed, that the demand's cells equal a new proof of the changed enquiry. The enquiry must lift 14 m.
"""
import json
import re
import subprocess
import sys
import xml.etree.ElementTree as xml
import zipfile
from pathlib import Path

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
LEAST = 150


def run(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def read(file):
    """{sheet: {cell: (value, has a formula)}}"""
    with zipfile.ZipFile(file) as book:
        words = []
        if "xl/sharedStrings.xml" in book.namelist():
            for item in xml.fromstring(book.read("xl/sharedStrings.xml")):
                words.append("".join(t.text or "" for t in item.iter(MAIN + "t")))
        sheets = {}
        names = [s.get("name") for s in xml.fromstring(book.read("xl/workbook.xml")).iter(MAIN + "sheet")]
        for number, name in enumerate(names, 1):
            cells = {}
            for cell in xml.fromstring(book.read(f"xl/worksheets/sheet{number}.xml")).iter(MAIN + "c"):
                value = cell.findtext(MAIN + "v")
                if value is None:
                    continue
                if cell.get("t") == "s":
                    value = words[int(value)]
                elif cell.get("t") in (None, "n"):
                    value = float(value)
                cells[cell.get("r")] = (value, cell.find(MAIN + "f") is not None)
            sheets[name] = cells
        return sheets


def type_into(file, changed, sheet, cell, value):
    """The same workbook with another number in a cell."""
    with zipfile.ZipFile(file) as book, zipfile.ZipFile(changed, "w") as out:
        names = [s.get("name") for s in xml.fromstring(book.read("xl/workbook.xml")).iter(MAIN + "sheet")]
        part = f"xl/worksheets/sheet{names.index(sheet) + 1}.xml"
        for name in book.namelist():
            data = book.read(name)
            if name == part:
                data, count = re.subn(
                    rf'(<c r="{cell}"[^>]*><v>)[^<]*'.encode(), rb"\g<1>" + repr(float(value)).encode(), data
                )
                assert count == 1, f"{sheet}!{cell} stands {count} times"
            out.writestr(name, data)


def differ(a, b, scale=0.0):
    if isinstance(a, float) and isinstance(b, float):
        return abs(a - b) > 1e-9 * max(abs(a), abs(b), scale)
    return a != b


def main(binary, enquiry, folder):
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    run(binary, "handover", enquiry, "--out", str(folder), "--only", "workings", "--date", "2026-01-15")
    file = folder / "workings.xlsx"
    stored = read(file)
    faults = []

    again = folder / "recalculated.xlsx"
    run("ssconvert", "--recalc", str(file), str(again))
    fresh = read(again)
    live = 0
    for sheet, cells in stored.items():
        for cell, (value, formula) in cells.items():
            if not formula:
                continue
            live += sheet == "Workings" and cell.startswith("E")
            got = fresh[sheet].get(cell, (None,))[0]
            # A residual is a difference of large figures: its tolerance stands in the step.
            if sheet == "Workings" and cell.startswith("K"):
                if fresh[sheet]["L" + cell[1:]][0] != "closes":
                    faults.append(f"{sheet}!{cell}: does not close, {got}")
            elif differ(value, got):
                faults.append(f"{sheet}!{cell}: stored {value}, computed {got}")
    if live < LEAST:
        faults.append(f"only {live} steps are formulas")

    # A customer lifts the load higher. The demand is closed formulas: it moves to what a new proof says.
    stated, other = "lift: 14 m", "lift: 14.5 m"
    text = Path(enquiry).read_text(encoding="utf-8")
    if stated not in text:
        faults.append(f"{enquiry} does not say '{stated}'")
    row = next(c[1:] for c, (v, _) in stored["Given"].items() if c.startswith("B") and v == "lift")
    unit = stored["Given"][f"D{row}"][0]
    typed = folder / "typed.xlsx"
    type_into(file, typed, "Given", f"C{row}", {"m": 14.5, "mm": 14500, "ft": 14.5 / 0.3048}[unit])
    moved_file = folder / "moved.xlsx"
    run("ssconvert", "--recalc", str(typed), str(moved_file))
    moved = read(moved_file)["Workings"]
    new_enquiry = folder / "changed.yaml"
    new_enquiry.write_text(text.replace(stated, other), encoding="utf-8")
    proof = json.loads(subprocess.run([binary, "prove", str(new_enquiry), "--json"], capture_output=True, text=True).stdout)
    follow = 0
    for number, step in enumerate(proof["demand_working"], 2):
        if moved[f"A{number}"][0] != "demand" or differ(step["value"]["value"], moved[f"E{number}"][0]):
            faults.append(f"demand {step['symbol']}: {moved[f'E{number}'][0]} in the workbook, {step['value']['value']} proved")
        follow += differ(stored["Workings"][f"E{number}"][0], moved[f"E{number}"][0])
    everywhere = sum(
        formula and cell.startswith("E") and differ(value, moved.get(cell, (None,))[0])
        for cell, (value, formula) in stored["Workings"].items()
    )
    if follow == 0 or everywhere <= follow:
        faults.append(f"{follow} steps of the demand follow the lift, {everywhere} in all")
    for fault in faults[:20]:
        print(fault)
    print(f"{file}: {live} live steps, {everywhere} follow the lift, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
