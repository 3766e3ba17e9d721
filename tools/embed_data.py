#!/usr/bin/env python3
"""Turns a table of data/ (CSV with a header line) into a C++ header with one struct and one constexpr array.

    embed_data.py data/motor_ratings.csv build/generated/data/motor_ratings.h

The engine does no I/O, so its reference tables are compiled in:

    #include "data/motor_ratings.h"   // lobewise::data::MotorRatingsRow, lobewise::data::kMotorRatings

A column whose cells are all numbers becomes `double` (`std::optional<double>` where a cell is empty), every other column
`std::string_view`; columns named frame*, source, status, note or item are always text. Field names are the column names
in lower case; a leading digit gets `n` in front, a C++ keyword `_` behind. Values keep the unit their column states.
"""
import csv
import pathlib
import re
import sys

KEYWORDS = {"class", "default", "double", "float", "int", "long", "short", "operator", "register", "union", "new", "for"}
ALWAYS_TEXT = re.compile(r"frame|source|status|note|item|section")


def field_name(column):
    name = re.sub(r"[^0-9A-Za-z]+", "_", column).strip("_").lower()
    if not name:
        raise ValueError("a column has no name")
    if name[0].isdigit():
        name = "n" + name
    return name + "_" if name in KEYWORDS else name


def is_number(cell):
    return re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?", cell) is not None


def literal(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def main(source, target):
    source, target = pathlib.Path(source), pathlib.Path(target)
    with source.open(encoding="utf-8", newline="") as file:
        header, *rows = list(csv.reader(file))
    names = [field_name(column) for column in header]
    if len(set(names)) != len(names):
        raise ValueError(f"{source}: two columns have the same name")
    for number, row in enumerate(rows, 2):
        if len(row) != len(header):
            raise ValueError(f"{source}:{number}: {len(row)} cells, the header has {len(header)}")
    types = []
    for index, name in enumerate(names):
        cells = [row[index].strip() for row in rows]
        filled = [cell for cell in cells if cell]
        if ALWAYS_TEXT.match(name) or not filled or not all(is_number(cell) for cell in filled):
            types.append("std::string_view")
        else:
            types.append("double" if len(filled) == len(cells) else "std::optional<double>")

    def value(cell, kind):
        cell = cell.strip()
        if kind == "std::string_view":
            return literal(cell)
        return repr(float(cell)) if cell else "std::nullopt"

    camel = "".join(part.capitalize() for part in source.stem.split("_"))
    lines = [
        "#pragma once",
        f"// Generated from data/{source.name}; sources and units: data/README.md.",
        "",
        "#include <array>",
        "#include <optional>",
        "#include <string_view>",
        "",
        "namespace lobewise::data {",
        "",
        f"struct {camel}Row {{",
        *(f"  {kind} {name};" for kind, name in zip(types, names)),
        "};",
        "",
        f"inline constexpr std::array<{camel}Row, {len(rows)}> k{camel} = {{{{",
        *("    {" + ", ".join(value(cell, kind) for cell, kind in zip(row, types)) + "}," for row in rows),
        "}};",
        "",
        "}  // namespace lobewise::data",
        "",
    ]
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    try:
        main(sys.argv[1], sys.argv[2])
    except ValueError as problem:
        sys.exit(f"embed_data: {problem}")
