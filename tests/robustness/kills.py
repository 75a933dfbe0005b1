#!/usr/bin/env python3
"""Kills the program at random moments while it writes, also on a full disk and in a folder that cannot be written.

Each file must be the old or the new one afterwards, whole; the season's book must open with the sorties of before or one more;
what was typed in the window must be back but for the last second; nothing may be left that nobody asked for; an error must be
exit 2 with the file's name and a remedy.

usage: kills.py PROGRAM FOLDER [--kills N] [--seed S] [--no-window]
"""
import argparse
import hashlib
import os
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "assets" / "demo"
NOBODY = 65534  # who may not write where root alone may

failures = []


def fault(where, what):
    failures.append(f"{where}: {what}")
    print(f"kills.py: {where}: {what}", file=sys.stderr)


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else None


def listing(folder):
    return {str(path.relative_to(folder)) for path in folder.rglob("*")}


class Job:
    """A command that writes files, known by what it makes of two inputs: "old" first, then "new" over it."""

    def __init__(self, name, program, folder, arguments_old, arguments_new, outputs):
        self.name, self.program, self.folder = name, program, folder / name
        self.arguments = {"old": arguments_old, "new": arguments_new}
        self.whole = {}
        self.seconds = 0.0
        for which in ("old", "new"):
            shutil.rmtree(self.folder, ignore_errors=True)
            self.folder.mkdir(parents=True)
            begun = time.monotonic()
            done = self.run(which)
            self.seconds = max(self.seconds, time.monotonic() - begun)
            if done.returncode not in (0, 1):
                sys.exit(f"kills.py: {name}: exit {done.returncode}: {done.stderr}")
            self.outputs = sorted(outputs or listing(self.folder))
            self.whole[which] = {output: digest(self.folder / output) for output in self.outputs}
            self.largest = max((self.folder / output).stat().st_size for output in self.outputs
                               if (self.folder / output).is_file())
        if self.whole["old"] == self.whole["new"]:
            sys.exit(f"kills.py: {name}: both inputs make the same bytes, so nothing would be seen")

    def start(self, which, **more):
        return subprocess.Popen([self.program, *self.arguments[which]], cwd=self.folder, stdin=subprocess.DEVNULL,
                                stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, **more)

    def run(self, which, **more):
        with self.start(which, **more) as process:
            said = process.communicate()[1]
            return subprocess.CompletedProcess(process.args, process.returncode, "", said)

    def looked_at(self, where, allowed=("old", "new")):
        """Every output is that of one of the whole runs; other names are left by nobody but a kill."""
        for output in self.outputs:
            path = self.folder / output
            if path.is_dir():
                continue
            if digest(path) not in [self.whole[which][output] for which in allowed]:
                fault(where, f"{output} is neither the old nor the new one, {path.stat().st_size if path.exists() else 'no'} bytes")

    def strays(self):
        return sorted(listing(self.folder) - set(self.outputs))

    def written(self, which):
        """As it is after a whole run, without running."""
        done = self.run(which)
        if done.returncode not in (0, 1):
            fault(self.name, f"cannot be made anew: {done.stderr}")
        for stray in self.strays():
            (self.folder / stray).unlink(missing_ok=True)


def killed(job, draw, counts):
    """One kill: half of them at any moment, half once a file is being written."""
    where = f"{job.name}, killed"
    before = listing(job.folder)
    process = job.start("new" if counts["kills"] % 2 else "old")
    if draw.random() < 0.5:
        time.sleep(draw.uniform(0, 1.1 * job.seconds))
    else:
        until = time.monotonic() + 2 * job.seconds + 1
        while process.poll() is None and time.monotonic() < until and listing(job.folder) == before:
            time.sleep(0.0005)
        time.sleep(draw.uniform(0, 0.02))
    process.send_signal(signal.SIGKILL)
    process.communicate()
    counts["kills"] += 1
    counts["in time"] += process.returncode == -signal.SIGKILL
    job.looked_at(where)
    strays = job.strays()
    if strays:
        counts["strays"] += 1
        counts["strays of"] = counts.get("strays of", set()) | {job.name}
    for stray in strays:
        if ".part" not in stray:
            fault(where, f"left {stray}")
        (job.folder / stray).unlink(missing_ok=True)


def refused(job, where, done):
    """What a command must do when it cannot write: say so, leave all as it was."""
    if done.returncode != 2 or not done.stderr.strip():
        fault(where, f"exit {done.returncode} with: {done.stderr.strip() or 'no word'}")
    job.looked_at(where, ("old",))
    if job.strays():
        fault(where, f"left {', '.join(job.strays())}")
        for stray in job.strays():
            (job.folder / stray).unlink(missing_ok=True)


def on_a_full_disk(job, draw):
    """No file may grow beyond a part of the largest one: what a write meets on a full disk, for anybody, on any system."""
    job.written("old")
    most = draw.randrange(1, max(2, job.largest // 2))

    def limit():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

    refused(job, f"{job.name}, no room beyond {most} bytes", job.run("new", preexec_fn=limit, restore_signals=False))


def in_a_folder_not_to_be_written(job):
    job.written("old")
    places = [job.folder, *[path for path in job.folder.rglob("*") if path.is_dir()]]
    for place in places:
        place.chmod(0o555)
    # Root may write anywhere: somebody else then.
    someone = {"user": NOBODY, "env": {**os.environ, "HOME": "/nonexistent"}} if os.geteuid() == 0 else {}
    refused(job, f"{job.name}, folder not to be written", job.run("new", **someone))
    for place in places:
        place.chmod(0o755)


def season(program, folder, kills, draw, counts):
    """Sorties added to the book, killed on the way: as many as before or one more, and sound."""
    book = folder / "season.book"
    add = [program, "season", "add", "--on", "2026-05-14", "--airframe", "X-AAA", "--book", str(book)]
    sorties = []
    path = folder / "flown.csv"
    subprocess.run([program, "solve", "demo", "-o", path, "--rate", "10"], check=False, capture_output=True)
    lines = path.read_text().splitlines(keepends=True)
    for number in range(6):  # the same flight begun at other moments: other recordings
        sortie = folder / f"sortie{number}.csv"
        sortie.write_text(lines[0] + "".join(lines[1 + 300 * number:]))
        sorties.append(sortie)

    def count():
        if not book.exists():
            return 0
        with sqlite3.connect(book) as database:
            state = database.execute("PRAGMA integrity_check").fetchone()[0]
            if state != "ok":
                fault("season", f"the book is damaged: {state}")
            # Killed while the book was being made: there is nothing in it yet.
            made = database.execute("SELECT count(*) FROM sqlite_master WHERE name = 'sortie'").fetchone()[0]
            return database.execute("SELECT count(*) FROM sortie").fetchone()[0] if made else 0

    begun = time.monotonic()
    first = subprocess.run([*add, str(sorties[0])], capture_output=True, text=True, check=False)
    if first.returncode not in (0, 1):
        sys.exit(f"kills.py: season add: exit {first.returncode}: {first.stderr}")
    whole = time.monotonic() - begun
    for _ in range(kills):
        if count() >= len(sorties):
            book.unlink()
        before = count()
        process = subprocess.Popen([*add, str(sorties[before])], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        # The reviewing takes most of the time, the writing a moment: most kills near it.
        time.sleep(draw.uniform(0, whole) if draw.random() < 0.3 else max(0.0, draw.gauss(whole, 0.05)))
        process.kill()
        process.wait()
        counts["kills"] += 1
        counts["in time"] += process.returncode == -signal.SIGKILL
        after = count()
        if after not in (before, before + 1) or (process.returncode in (0, 1) and after != before + 1):
            fault("season", f"{before} sorties before, {after} after, exit {process.returncode}")
        listed = subprocess.run([program, "season", "list", "--book", str(book)], capture_output=True, text=True, check=False)
        if book.exists() and listed.returncode != 0:
            fault("season", f"the book is not opened after a kill: {listed.stderr}")


def window(program, folder, kills, draw, counts):
    """Typed in the window, killed: what was put aside holds all but what was typed in the last second."""
    display = f":{os.environ.get('KILLS_DISPLAY', '96')}"
    server = subprocess.Popen(["Xvfb", display, "-noreset", "-screen", "0", "1000x600x24"],
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    env = {**os.environ, "DISPLAY": display, "LIBGL_ALWAYS_SOFTWARE": "1", "XDG_CONFIG_HOME": str(folder / "config"),
           "XDG_DATA_HOME": str(folder / "data")}
    place = folder / "typed"
    shutil.copytree(DEMO, place)
    routine = place / "demo.routine.toml"
    saved = routine.read_text()
    unsaved = folder / "config" / "plumbline" / "unsaved"

    def xdotool(*words):
        return subprocess.run(["xdotool", *words], env=env, capture_output=True, text=True, check=False)

    def kept_text():
        texts = [path.read_text() for path in unsaved.glob("*.unsaved")] if unsaved.is_dir() else []
        for text in texts:
            if not text.startswith("plumbline: texts not saved\n"):
                fault("window", "what was put aside does not begin as it should")
        return max(texts, key=len, default="")

    try:
        time.sleep(1)
        for number in range(kills):
            shutil.rmtree(folder / "config", ignore_errors=True)
            routine.write_text(saved)
            log = folder / "window.log"
            log.unlink(missing_ok=True)
            process = subprocess.Popen([program, "show", "--size", "900x500", "--log", str(log), str(routine)], env=env,
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            until = time.monotonic() + 30
            while time.monotonic() < until and not xdotool("search", "--onlyvisible", "--pid", str(process.pid)).stdout:
                time.sleep(0.1)
            time.sleep(3)
            xdotool("key", "F2")
            time.sleep(0.4)
            xdotool("type", "--delay", "20", "whole routine as text")
            xdotool("key", "Return")
            time.sleep(0.6)
            xdotool("key", "ctrl+End")
            begun, length, words = time.monotonic(), draw.uniform(1.5, 5), 0
            while time.monotonic() - begun < length:
                xdotool("type", "--delay", "40", f"# w{number}x{words}y")
                xdotool("key", "Return")
                words += 1
            if draw.random() < 0.3:
                xdotool("key", "ctrl+s")
                time.sleep(draw.uniform(0, 0.1))
            else:
                time.sleep(draw.uniform(0, 0.3))
            process.kill()
            process.wait()
            counts["kills"] += 1
            counts["in time"] += process.returncode == -signal.SIGKILL
            on_disk = routine.read_text()
            if not on_disk.startswith(saved.rstrip("\n")):
                fault("window", f"the file that is saved has {len(on_disk)} bytes of something else")
            found = kept_text() + on_disk
            taken = words_taken(log)
            if not taken:
                fault("window", "the window took nothing of what was typed")
                continue
            lost = [taken[-1][0] - when for when, word in taken if word not in found]
            counts["oldest lost s"] = max([counts.get("oldest lost s", 0.0), *lost])
            if lost and max(lost) > 1.0:
                fault("window", f"what was typed {max(lost):.2f} s before the kill is lost")
    finally:
        server.terminate()
        server.wait()


def words_taken(log):
    """(seconds, word) of each word that the window had taken, as its own log tells, and last the time of the last key."""
    word, taken, when = "", [], 0.0
    for line in log.read_text(errors="replace").splitlines() if log.exists() else []:
        if "TypeText text " not in line:
            continue
        moment, _, typed = line.partition(" TypeText text ")
        when = float(moment)
        word = word + typed if typed.strip() and typed != "#" else ""
        if typed == "y":
            taken.append((when, word))
    return [*taken, (when, "")] if taken else []


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("program", type=Path)
    options.add_argument("folder", type=Path)
    options.add_argument("--kills", type=int, default=24, help="how many in all, default 24; 1000 takes half an hour")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--no-window", action="store_true", help="leave out what needs xvfb and xdotool")
    given = options.parse_args()
    program = str(given.program.resolve())
    folder = given.folder.resolve()
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    folder.chmod(0o755)
    draw = random.Random(given.seed)
    counts = {"kills": 0, "in time": 0, "strays": 0}

    for name, options_of in (("low", []), ("high", ["--floor", "300m"])):
        subprocess.run([program, "solve", "demo", *options_of, "-o", folder / f"{name}.csv", "--rate", "20"], check=False,
                       capture_output=True)
    low, high = str(folder / "low.csv"), str(folder / "high.csv")
    jobs = [
        Job("solve", program, folder, ["solve", "demo", "-o", "path.csv"], ["solve", "demo", "--floor", "300m", "-o", "path.csv"], ["path.csv"]),
        Job("import", program, folder, ["import", low, "-o", "sortie.csv"], ["import", high, "-o", "sortie.csv"], ["sortie.csv"]),
        Job("export", program, folder, ["export", "demo", "-o", "demo.glb"], ["export", "demo", "--mirror", "-o", "demo.glb"], ["demo.glb"]),
        Job("brief", program, folder, ["brief", "demo", "--flights", "20", "-o", "sheets"],
            ["brief", "demo", "--mirror", "--flights", "20", "-o", "sheets"], None),
    ]
    for job in jobs:
        on_a_full_disk(job, draw)
        in_a_folder_not_to_be_written(job)
        job.written("old")
    windows = 0 if given.no_window else max(1, given.kills // 8)
    books = given.kills // 4
    for number in range(given.kills - windows - books):
        killed(jobs[number % len(jobs)], draw, counts)
    season(program, folder, books, draw, counts)
    if windows:
        window(program, folder, windows, draw, counts)

    print(f"{counts['kills']} kills, {counts['in time']} while it ran, {counts['strays']} left a part file "
          f"({', '.join(sorted(counts.get('strays of', {'none'})))}); "
          f"oldest text lost {counts.get('oldest lost s', 0.0):.2f} s before the kill; {len(failures)} faults (seed {given.seed})")
    sys.exit(1 if failures else 0)


main()
