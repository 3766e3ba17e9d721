#!/usr/bin/env python3
"""count_steps.py BINARY ENQUIRY…: how many steps of `BINARY prove ENQUIRY --json` are of which kind, by the place where they stand."""
import collections
import json
import subprocess
import sys


def steps_of(answer, place=""):
    if isinstance(answer, dict):
        if {"symbol", "meaning", "kind", "inputs"} <= set(answer):
            yield place, answer["kind"]
            return
        place = answer["id"] if isinstance(answer.get("id"), str) else place
        for key, inner in answer.items():
            yield from steps_of(inner, place if key in ("findings", "working") else key)
    elif isinstance(answer, list):
        for inner in answer:
            yield from steps_of(inner, place)


def main(binary, files):
    count = collections.Counter()
    for file in files:
        done = subprocess.run([binary, "prove", file, "--json"], capture_output=True, text=True, check=False)
        if done.returncode not in (0, 5):
            sys.exit(f"{file}: ended with {done.returncode}")
        count.update(steps_of(json.loads(done.stdout)))
    kinds = sorted({kind for _, kind in count})
    print(f"{'':24}" + "".join(f"{kind:>18}" for kind in kinds))
    for place in sorted({place for place, _ in count}):
        print(f"{place:24}" + "".join(f"{count[place, kind]:>18}" for kind in kinds))
    print(f"{'all':24}" + "".join(f"{sum(n for (_, k), n in count.items() if k == kind):>18}" for kind in kinds))


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2:])
