#!/usr/bin/env python3
"""Seeded faults: plants one fault of tests/faults.toml at a time and asks whether a test notices.

    seed_faults.py --rotate N            N faults, others every day (what CI does)
    seed_faults.py --only NAME…          those
    seed_faults.py --all                 every one
    seed_faults.py --list                only whether the list fits the code
      --build FOLDER                     a configured build folder (build/release)
      --jobs N                           faults tried at the same time (as many as there are cores)

A fault is one line of one source file. The checkout is only read: the changed file is written below FOLDER/faults and compiled
there, and the program is linked again with it before everything else. What a test is asked first is what noticed the fault last
time (`by`); then the golden proofs; then the tests of the file's folder, one executable after the other. Whoever notices is
asked once without the fault too: a test that always fails notices nothing.

Exit code: 0 every fault is noticed or its life is explained, 1 one lives, 2 the list does not fit the code, a fault does not
compile, or a test fails without any fault.
"""
import argparse
import json
import os
import re
import shlex
import subprocess
import sys
import threading
import time
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LIST = ROOT / "tests/faults.toml"
kMostAlive = 2
kLongest = 600  # seconds of one test; a fault that makes it run longer is noticed by that
kSeed = "seed=20261125"  # of random tests, as tests/CMakeLists.txt sets it

# Folder of a file -> test executables that are asked after the golden proofs, the most likely first.
kTests = {
    "engine/drive": ["unit_drive", "unit_evidence", "property_evidence", "unit_sizing", "property_sizing", "property_enquiry"],
    "engine/evidence": ["unit_evidence", "property_evidence", "property_enquiry", "unit_api"],
    "engine/demand": ["unit_demand", "reference_demand", "property_demand", "unit_load_log", "property_load_log", "unit_api"],
    "engine/case": ["unit_case", "reference_case", "property_case", "unit_evidence"],
    "engine/incumbent": ["unit_incumbent", "reference_incumbent", "property_incumbent", "unit_evidence"],
    "engine/api": ["unit_api", "unit_load_log", "unit_survey", "unit_evidence"],
    "engine/sizing": ["unit_sizing", "property_sizing", "unit_evidence"],
    "engine/judge": ["unit_judge", "unit_survey", "unit_api"],
    "apps/survey": ["unit_survey", "e2e/survey"],
}


class Broken(Exception):
    """The list, the build or a test is at fault, not the planted line."""


def read_list():
    faults = tomllib.loads(LIST.read_text(encoding="utf-8"))["fault"]
    errors = []
    for fault in faults:
        name = fault.get("name", "?")
        missing = [key for key in ("name", "file", "text", "fault", "means") if not fault.get(key)]
        unknown = set(fault) - {"name", "file", "text", "fault", "means", "by", "lives"}
        if missing or unknown:
            errors.append(f"{name}: {', '.join([*missing, *unknown])}")
            continue
        file = ROOT / fault["file"]
        if file.suffix != ".cc" or not any(fault["file"].startswith(folder + "/") for folder in kTests):
            errors.append(f"{name}: {fault['file']} is no .cc file of {', '.join(kTests)}")
        elif not file.exists():
            errors.append(f"{name}: there is no {fault['file']}")
        elif (count := file.read_text(encoding="utf-8").count(fault["text"])) != 1:
            errors.append(f"{name}: {fault['file']} holds `{fault['text']}` {count} times, not once")
        elif fault["text"] == fault["fault"]:
            errors.append(f"{name}: changes nothing")
    for name in {fault.get("name") for fault in faults}:
        if sum(fault.get("name") == name for fault in faults) > 1:
            errors.append(f"{name}: this name stands twice")
    alive = sum("lives" in fault for fault in faults)
    if alive > kMostAlive:
        errors.append(f"{alive} faults are explained to live; at most {kMostAlive} may")
    if errors:
        raise Broken(f"{LIST.relative_to(ROOT)} does not fit the code:\n  " + "\n  ".join(errors))
    return faults


def ran(command, **options):
    return subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                          stdin=subprocess.DEVNULL, **options)


class Build:
    """A build folder, whose programs are linked again with one object more."""

    def __init__(self, folder):
        self.folder = folder.resolve()
        self.lock = threading.Lock()
        self.built = set()
        if not (self.folder / "build.ninja").exists():
            raise Broken(f"{folder} is not configured: cmake --preset release")
        commands = json.loads((self.folder / "compile_commands.json").read_text(encoding="utf-8"))
        self.compile_commands = {entry["file"]: entry for entry in commands}

    def program(self, name):
        """Path of a program without any fault."""
        with self.lock:
            if name not in self.built:
                done = ran(["ninja", "-C", str(self.folder), name])
                if done.returncode != 0:
                    raise Broken(f"{name} cannot be built:\n{done.stdout[-3000:]}")
                self.built.add(name)
        return self.folder / "bin" / name

    def compiled(self, fault, place):
        """The object of a file with its fault."""
        source = ROOT / fault["file"]
        planted, result = place / source.name, place / (source.stem + ".o")
        planted.write_text(source.read_text(encoding="utf-8").replace(fault["text"], fault["fault"]), encoding="utf-8")
        entry = self.compile_commands.get(str(source))
        if entry is None:
            raise Broken(f"{fault['file']} is not built in {self.folder}")
        arguments = shlex.split(entry["command"])
        arguments = [str(planted) if a == str(source) else a for a in arguments]
        arguments[arguments.index("-o") + 1] = str(result)
        done = ran(arguments, cwd=entry["directory"])
        if done.returncode != 0:
            raise Broken(f"{fault['name']} does not compile:\n{done.stdout[-3000:]}")
        return result

    def linked(self, name, object_file, place):
        """A program with the fault: an object that stands before the libraries is taken instead of theirs."""
        self.program(name)
        command = ran(["ninja", "-C", str(self.folder), "-t", "commands", "-s", f"bin/{name}"]).stdout
        link = [part for part in command.split(" && ") if f" -o bin/{name} " in part]
        if len(link) != 1:
            raise Broken(f"how {name} is linked is not understood:\n{command[:500]}")
        arguments = shlex.split(link[0])
        result = place / name
        at = arguments.index("-o")
        arguments[at:at + 2] = [str(object_file), "-o", str(result)]
        done = ran(arguments, cwd=self.folder)
        if done.returncode != 0:
            raise Broken(f"{name} cannot be linked:\n{done.stdout[-3000:]}")
        return result


def program_of(net):
    """The program that a test needs."""
    return "lobewise" if net.startswith(("golden", "e2e/")) else "test_" + net.split(" ")[0]


def fails(net, program, cwd):
    """Whether a test fails, and which one of those that it is made of: golden/CASE, unit_drive SUITE.TEST, e2e/survey."""
    kind, _, rest = net.partition("/")
    environment = os.environ | {"LOBEWISE_TABLES": "none"}  # a table kept without the fault would hide it
    if net == "golden":
        command = [sys.executable, ROOT / "tests/golden/golden.py", "first", program]
    elif kind == "golden":
        command = [sys.executable, ROOT / "tests/golden/golden.py", "check", program, rest]
    elif kind == "e2e":
        command = [ROOT / f"tests/e2e/{rest}.sh", program, ROOT]
    else:
        command = [program, "--gtest_fail_fast", "--gtest_brief=1"]
        if " " in net:
            command.append("--gtest_filter=" + net.split(" ")[1])
        environment = environment | {"RC_PARAMS": kSeed}
    try:
        done = ran([str(part) for part in command], cwd=cwd, env=environment, timeout=kLongest)
    except subprocess.TimeoutExpired:
        return net
    if done.returncode == 0:
        return None
    if net == "golden":
        return "golden/" + done.stdout.split(":")[0]
    if kind not in ("golden", "e2e") and (failed := re.search(r"\[  FAILED  \] ([\w/.]+)", done.stdout)):
        return f"{net.split(' ')[0]} {failed[1]}"
    return net


class Trial:
    def __init__(self, build):
        self.build = build
        self.sound = {}
        self.lock = threading.Lock()

    def stands(self, net):
        """A test that fails without any fault notices nothing."""
        with self.lock:
            known = self.sound.setdefault(net, threading.Lock())
        if isinstance(known, bool):
            return known
        with known:
            if not isinstance(self.sound[net], bool):
                self.sound[net] = fails(net, self.build.program(program_of(net)), self.build.folder) is None
            return self.sound[net]

    def noticed(self, fault):
        """What notices a fault; None when it lives."""
        place = self.build.folder / "faults" / fault["name"]
        place.mkdir(parents=True, exist_ok=True)
        made = []
        try:
            object_file = self.build.compiled(fault, place)
            made.append(object_file)
            folder = next(folder for folder in kTests if fault["file"].startswith(folder + "/"))
            before = [fault["by"]] if "by" in fault else []
            programs = {}
            for net in [*before, "golden", *kTests[folder]]:
                name = program_of(net)
                if name not in programs:
                    programs[name] = self.build.linked(name, object_file, place)
                    made.append(programs[name])
                by = fails(net, programs[name], self.build.folder)
                if by is None:
                    continue
                if not self.stands(by):
                    raise Broken(f"{by} fails without any fault")
                return by
            return None
        finally:
            for file in made:  # programs are large; the changed source stays to be read
                file.unlink(missing_ok=True)


def chosen(faults, options):
    if options.only:
        known = {fault["name"]: fault for fault in faults}
        for name in options.only:
            if name not in known:
                raise Broken(f"no such fault: {name}")
        return [known[name] for name in options.only]
    if options.rotate:
        day = int(time.time() // 86400)
        return [faults[(day * options.rotate + i) % len(faults)] for i in range(min(options.rotate, len(faults)))]
    return faults


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    which = parser.add_mutually_exclusive_group(required=True)
    which.add_argument("--rotate", type=int, metavar="N")
    which.add_argument("--only", nargs="+", metavar="NAME")
    which.add_argument("--all", action="store_true")
    which.add_argument("--list", action="store_true")
    parser.add_argument("--build", type=Path, default=ROOT / "build/release", metavar="FOLDER")
    parser.add_argument("--jobs", type=int, default=os.cpu_count(), metavar="N")
    options = parser.parse_args()
    faults = read_list()
    if options.list:
        print(f"{len(faults)} faults, all of them found in the code")
        return 0
    wanted = chosen(faults, options)
    trial = Trial(Build(options.build))
    trial.build.program("lobewise")
    alive, broken, began = [], [], time.monotonic()

    def attempt(fault):
        start = time.monotonic()
        try:
            by = trial.noticed(fault)
        except Broken as problem:
            broken.append(fault["name"])
            print(f"ERROR    {fault['name']}: {problem}", flush=True)
            return
        seconds = f"{time.monotonic() - start:.0f} s"
        if by:
            more = "; it was explained to live" if "lives" in fault else ""
            print(f"noticed  {fault['name']} ({fault['means']}): {by}, {seconds}{more}", flush=True)
        else:
            why = f"; {fault['lives']}" if "lives" in fault else ""
            print(f"LIVES    {fault['name']} ({fault['means']}), {seconds}{why}", flush=True)
            if "lives" not in fault:
                alive.append(fault["name"])

    with ThreadPoolExecutor(max(1, options.jobs)) as pool:
        try:
            list(pool.map(attempt, wanted))
        except KeyboardInterrupt:
            pool.shutdown(cancel_futures=True)
            return 130
    print(f"seeded faults: {len(wanted)} of {len(faults)} planted, {len(alive)} live, {len(broken)} errors, "
          f"{time.monotonic() - began:.0f} s")
    return 2 if broken else 1 if alive else 0


try:
    sys.exit(main())
except Broken as problem:
    print(f"seed_faults: {problem}")
    sys.exit(2)
