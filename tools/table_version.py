#!/usr/bin/env python3
"""Sums up everything a mesh table follows from, so that no table of another program is ever taken for one of this.

    table_version.py OUT.h WORDS FILE…       WORDS: compiler, its version, processor, options
"""
import hashlib
import pathlib
import sys

out, words, *files = sys.argv[1:]
total = hashlib.sha256(words.encode())
for name in sorted(files):
    total.update(pathlib.Path(name).name.encode() + b"\0" + pathlib.Path(name).read_bytes())
text = f'#pragma once\n\nnamespace lobewise {{\ninline constexpr char kTableVersion[] = "{total.hexdigest()[:32]}";\n}}\n'
target = pathlib.Path(out)
target.parent.mkdir(parents=True, exist_ok=True)
if not target.exists() or target.read_text(encoding="utf-8") != text:
    target.write_text(text, encoding="utf-8")
