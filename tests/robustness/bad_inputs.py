#!/usr/bin/env python3
"""Spoils files in many ways and gives them to the program as a user would.

usage: bad_inputs.py PROGRAM FOLDER [--count N] [--seed S] [--more FOLDER...] [--only TEXT]

Takes the routines, data files and recordings of tests/data and the demo (and those in the folders of --more), spoils each
copy and runs the command that reads it. Asked of every run:
  - it ends by itself within a minute and without a signal, within 2 GB;
  - exit code 0 or 1: what it wrote is there, reads again without a complaint, and every number in it is finite;
  - exit code 2: it says why, and nothing was written, whole or in part;
  - no other exit code, and nothing anywhere else in the folder.
Prints what failed, with the spoilt file kept in FOLDER, and a summary; exit code 1 if anything failed.
"""

import argparse
import collections
import csv
import gzip
import json
import math
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
RECORDINGS = {".csv", ".igc", ".gpx", ".kml", ".nmea", ".ulg", ".gz", ".txt"}
LONGEST_S = 60
MOST_MEMORY = 2 << 30

NUMBER = re.compile(rb"-?\d+(\.\d+)?")
ODD_NUMBERS = [b"nan", b"-inf", b"1e999", b"1e-999", b"-0", b"0", b"99999999999999999999", b"1,5", b"0x1p9", b"1e9", b"-1e9", b""]


def spoil(data: bytes, chance: random.Random) -> tuple[str, bytes]:
    """One way of spoiling, its name first."""
    if not data:
        return "empty", b"\0"
    at = chance.randrange(len(data))
    lines = data.split(b"\n")
    line = chance.randrange(len(lines))

    def number() -> bytes:
        found = list(NUMBER.finditer(data))
        if not found:
            return data[:at]
        n = chance.choice(found)
        return data[: n.start()] + chance.choice(ODD_NUMBERS) + data[n.end() :]

    def swapped() -> bytes:
        other = chance.randrange(len(lines))
        lines[line], lines[other] = lines[other], lines[line]
        return b"\n".join(lines)

    def flipped() -> bytes:
        spoilt = bytearray(data)
        for _ in range(1 + len(spoilt) // 2000):
            spoilt[chance.randrange(len(spoilt))] ^= 1 << chance.randrange(8)
        return bytes(spoilt)

    ways = {
        "cut off": lambda: data[:at],
        "head lost": lambda: data[at:],
        "bits flipped": flipped,
        "zeros within": lambda: data[:at] + bytes(chance.randrange(1, 600)) + data[at:],
        "noise within": lambda: data[:at] + chance.randbytes(chance.randrange(1, 300)) + data[at:],
        "a piece lost": lambda: data[:at] + data[at + chance.randrange(1, 4000) :],
        "a piece twice": lambda: data[:at] + data[max(0, at - chance.randrange(1, 4000)) :],
        "a number odd": number,
        "two lines swapped": swapped,
        "a line lost": lambda: b"\n".join(lines[:line] + lines[line + 1 :]),
        "a line very long": lambda: b"\n".join(lines[:line] + [lines[line] * 3000 + b"x" * 100000] + lines[line + 1 :]),
        "a line many times": lambda: b"\n".join(lines[:line] + [lines[line]] * 2000 + lines[line:]),
        "brackets": lambda: data[:at] + chance.choice([b"[", b"{", b"<a>", b"("]) * 20000 + data[at:],
        "two bytes a letter": lambda: data.decode("latin-1").encode("utf-16"),
        "another's line ends": lambda: data.replace(b"\n", b"\r\n"),
        "old line ends": lambda: data.replace(b"\n", b"\r"),
    }
    name = chance.choice(list(ways))
    return name, ways[name]()


def inputs(more: list[str]) -> list[pathlib.Path]:
    """Everything that can be spoilt."""
    found = []
    for folder in [ROOT / "tests/data", ROOT / "assets/demo", ROOT / "assets/aircraft", *map(pathlib.Path, more)]:
        for file in sorted(folder.rglob("*")):
            licence = file.suffix == ".md" or file.name.upper().startswith(("LICEN", "SOURCE"))
            if file.is_file() and not licence and (file.suffix in RECORDINGS or file.name.endswith(".toml")) and file.stat().st_size < 20e6:
                found.append(file)
    return found


def demo_in(folder: pathlib.Path) -> pathlib.Path:
    """A copy of the demo with its aircraft; the routine in it."""
    shutil.copytree(ROOT / "assets/demo", folder, dirs_exist_ok=True)
    shutil.copytree(ROOT / "assets/aircraft", folder.parent / "aircraft", dirs_exist_ok=True)
    return next(folder.glob("*.routine.toml"))


def limits() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


class Trial:
    def __init__(self, program: str, folder: pathlib.Path):
        self.program, self.folder, self.faults = program, folder, []

    def run(self, *words) -> subprocess.CompletedProcess | None:
        try:
            return subprocess.run([self.program, *map(str, words)], cwd=self.folder, capture_output=True, timeout=LONGEST_S,
                                  preexec_fn=limits, stdin=subprocess.DEVNULL)
        except subprocess.TimeoutExpired:
            self.faults.append(f"{words[0]} did not end within {LONGEST_S} s")
            return None

    def finite(self, path: pathlib.Path) -> None:
        with open(path, newline="", encoding="utf-8") as file:
            for row in csv.reader(line for line in file if not line.startswith("#")):
                for cell in row:
                    try:
                        value = float(cell)
                    except ValueError:
                        continue
                    if not math.isfinite(value):
                        self.faults.append(f"{path.name} holds {cell}")
                        return

    def ask(self, words: list, written: pathlib.Path | None) -> int | None:
        """Runs a command that may write one file; what it did wrong goes into faults."""
        before = set(self.folder.rglob("*"))
        ran = self.run(*words)
        if ran is None:
            return None
        added = set(self.folder.rglob("*")) - before - {written}
        if added:
            self.faults.append(f"{words[0]} left {sorted(p.name for p in added)}")
        complaint = ran.stderr.decode("utf-8", "replace")
        if ran.returncode not in (0, 1, 2):
            self.faults.append(f"{words[0]} ended with {ran.returncode}: {complaint[-300:]}")
        elif ran.returncode == 2:
            if ": " not in complaint:
                self.faults.append(f"{words[0]} says nothing of why: {complaint[:200]!r}")
            if written is not None and written.exists():
                self.faults.append(f"{words[0]} failed and wrote {written.name}")
        elif written is not None:
            if not written.exists():
                self.faults.append(f"{words[0]} ended with {ran.returncode} and wrote nothing")
            else:
                self.finite(written)
        return ran.returncode if ran.returncode in (0, 1, 2) else None


def attempt(program: str, source: pathlib.Path, folder: pathlib.Path, chance: random.Random) -> tuple[str, str, list[str]]:
    """Spoils `source` into `folder`, reads it; the way, how it ended, what was wrong."""
    data = source.read_bytes()
    packed = source.suffix == ".gz" and chance.random() < 0.6  # spoilt within the packing as often as outside
    if packed:
        data = gzip.decompress(data)
    way, data = spoil(data, chance)
    if packed:
        data = gzip.compress(data)

    routine = demo_in(folder / "demo")
    trial = Trial(program, folder)
    written = folder / "out.csv"
    if source.name.endswith(".toml"):
        place = next((p for p in folder.rglob("*") if p.name == source.name), folder / "demo" / source.name)
        place.write_bytes(data)
        target = place if source.name.endswith(".routine.toml") else routine
        code = trial.ask(["solve", target, "-o", written], written)
        if code in (0, 1):
            trial.ask(["import", written, "-o", folder / "again.csv"], folder / "again.csv")
        checked = trial.run("check", "--json", target)
        if checked is not None:
            if checked.returncode not in (0, 1, 2):
                trial.faults.append(f"check ended with {checked.returncode}")
            elif checked.returncode != 2:
                try:
                    json.loads(checked.stdout, parse_constant=lambda name: trial.faults.append(f"check tells {name}"))
                except ValueError as error:
                    trial.faults.append(f"check's JSON: {error}")
    else:
        log = folder / source.name
        log.write_bytes(data)
        code = trial.ask(["import", log, "-o", written], written)
        if code in (0, 1):
            trial.ask(["import", written, "-o", folder / "again.csv"], folder / "again.csv")
            if not (folder / "again.csv").exists():
                trial.faults.append("what was written cannot be read again")
    ending = {None: "fault", 0: "read", 1: "read, with findings", 2: "refused"}[code]
    return way, ending, trial.faults


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("program")
    asked.add_argument("folder", type=pathlib.Path)
    asked.add_argument("--count", type=int, default=500)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--more", nargs="*", default=[])
    asked.add_argument("--only", default="")
    options = asked.parse_args()
    program = str(pathlib.Path(options.program).resolve())
    sources = [s for s in inputs(options.more) if options.only in str(s)]
    chance = random.Random(options.seed)
    endings, failed = collections.Counter(), 0
    for n in range(options.count):
        folder = options.folder.resolve() / f"{n:04}"
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        source = sources[n % len(sources)]
        way, ending, faults = attempt(program, source, folder, chance)
        endings[ending] += 1
        if faults:
            failed += 1
            print(f"{folder.name} {source.name}, {way}: " + "; ".join(faults), flush=True)
        else:
            shutil.rmtree(folder)
    print(f"{options.count} spoilt files from {len(sources)}: " + ", ".join(f"{n} {e}" for e, n in sorted(endings.items())) + f"; {failed} at fault")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
