#!/usr/bin/env python3
"""Kills the program at random moments while it writes, also on a full disk and in a folder that cannot be written.

Each file must be the old or the new one afterwards, whole; the season's book must open with the sorties of before or one more;
what was typed in the window must be back but for the last second; nothing may be left that nobody asked for; an error must be
exit 2 with the file's name and a remedy. A fifth of the kills meets a disk that is nearly full (as root a small one of its own, else
files that may not grow), a tenth a folder that may not be written; what a kill leaves is gone after the next run.

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
import threading
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "assets" / "demo"
NOBODY = 65534  # who may not write where root alone may
NOTE = "plumbline-unfinished.txt"  # stands beside files of two versions
LONG_AGO_S = 3600  # what is left is taken for left only after minutes

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
        """Every output is that of one of the whole runs, and all are of the same one or a note says that they are not."""
        versions = set(allowed)
        for output in self.outputs:
            path = self.folder / output
            if path.is_dir():
                continue
            of = {which for which in allowed if self.whole[which][output] == digest(path)}
            versions &= of
            if not of:
                fault(where, f"{output} is neither the old nor the new one, {path.stat().st_size if path.exists() else 'no'} bytes")
        if not versions and not list(self.folder.rglob(NOTE)):
            fault(where, "some files are new, some old, and nothing says so")

    def strays(self):
        return sorted(listing(self.folder) - set(self.outputs))

    def written(self, which):
        """As it is after a whole run, without running."""
        done = self.run(which)
        if done.returncode not in (0, 1):
            fault(self.name, f"cannot be made anew: {done.stderr}")


def killed(job, draw, counts, **more):
    """One kill: half of them at any moment, half once a file is being written."""
    where = f"{job.name}, killed"
    before = listing(job.folder)
    process = job.start("new" if counts["kills"] % 2 else "old", **more)
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
    if process.returncode not in (0, 1, 2, -signal.SIGKILL):
        fault(where, f"exit {process.returncode}")
    job.looked_at(where)
    strays = job.strays()
    if strays:
        counts["strays"] += 1
        counts["strays of"] = counts.get("strays of", set()) | {job.name}
    counts["notes"] += any(Path(stray).name == NOTE for stray in strays)
    for stray in strays:
        if ".part" not in stray and Path(stray).name != NOTE:
            fault(where, f"left {stray}")
        os.utime(job.folder / stray, (time.time() - LONG_AGO_S,) * 2)
    if strays:
        job.written("old")  # the next run that ends tidies up
        for stray in job.strays():
            fault(where, f"{stray} is still there after the next run")
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


def small_files(job, draw):
    """No file may grow beyond a part of the largest one: what a write meets on a full disk, for anybody, on any system."""
    most = draw.randrange(1, max(2, job.largest // 2))

    def limit():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

    return {"preexec_fn": limit, "restore_signals": False}


class Folder:
    """A job's folder as somebody finds it who may not write there."""

    def __init__(self, job):
        self.places = [job.folder, *[path for path in job.folder.rglob("*") if path.is_dir()]]

    def __enter__(self):
        for place in self.places:
            place.chmod(0o555)
        # Root may write anywhere: somebody else then.
        return {"user": NOBODY, "env": {**os.environ, "HOME": "/nonexistent"}} if os.geteuid() == 0 else {}

    def __exit__(self, *_):
        for place in self.places:
            place.chmod(0o755)


class SmallDisk:
    """Under a job's folder while it lives: room for what is there and a part of what is to come."""

    def __init__(self, job):
        self.job, self.kept = job, job.folder.with_name(job.name + " kept")

    def __enter__(self):
        job = self.job
        shutil.copytree(job.folder, self.kept)
        sizes = sum(-(-path.stat().st_size // 4096) * 4096 for path in job.folder.rglob("*") if path.is_file())
        subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={sizes + job.largest // 2 + 16384}", "none", job.folder], check=True)
        shutil.copytree(self.kept, job.folder, dirs_exist_ok=True)

    def __exit__(self, *_):
        subprocess.run(["umount", self.job.folder], check=True)
        shutil.rmtree(self.kept)

    @staticmethod
    def can_be_made(folder):
        """Root may, but not everywhere."""
        trial = folder / "trial"
        trial.mkdir()
        made = os.geteuid() == 0 and subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "none", trial], capture_output=True,
                                                    check=False).returncode == 0
        if made:
            subprocess.run(["umount", trial], check=True)
        return made


def in_need(job, draw, counts, small_disks):
    """One kill where there is little room or no right to write: all must be as it was before."""
    job.written("old")
    need = counts["kills"] % 3
    if need == 0:
        with Folder(job) as more:
            killed(job, draw, counts, **more)
        counts["not to be written"] += 1
    elif need == 1 and small_disks:
        with SmallDisk(job):
            killed(job, draw, counts)
        counts["small disk"] += 1
    else:
        killed(job, draw, counts, **small_files(job, draw))
        counts["small files"] += 1


def without_room_or_right(job, draw, small_disks):
    """Not killed: refused."""
    job.written("old")
    refused(job, f"{job.name}, files that may not grow", job.run("new", **small_files(job, draw)))
    if small_disks:
        with SmallDisk(job):
            refused(job, f"{job.name}, full disk", job.run("new"))
    with Folder(job) as more:
        refused(job, f"{job.name}, folder not to be written", job.run("new", **more))


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

    def awaited(what, said, times=1):
        """Until the window's own log has it: a busy machine is slow."""
        until = time.monotonic() + 60
        while time.monotonic() < until:
            if log.exists() and log.read_text(errors="replace").count(said) >= times:
                return True
            time.sleep(0.05)
        fault("window", f"{what}: the window did not take it within a minute")
        return False

    log = folder / "window.log"
    try:
        time.sleep(1)
        for number in range(kills):
            shutil.rmtree(folder / "config", ignore_errors=True)
            routine.write_text(saved)
            log.unlink(missing_ok=True)
            process = subprocess.Popen([program, "show", "--size", "900x500", "--log", str(log), str(routine)], env=env,
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            until = time.monotonic() + 30
            while time.monotonic() < until and not xdotool("search", "--onlyvisible", "--pid", str(process.pid)).stdout:
                time.sleep(0.1)
            time.sleep(3)
            search = "whole routine as text"
            xdotool("key", "F2")
            awaited("F2", " ShowList ")
            xdotool("type", "--delay", "20", search)
            awaited("the search", " ListType text ", len(search))
            time.sleep(0.2)
            xdotool("key", "Return")
            time.sleep(0.6)
            xdotool("key", "ctrl+End")
            begun, length, words = time.monotonic(), draw.uniform(1.5, 5), 0
            while time.monotonic() - begun < length:
                xdotool("type", "--delay", "40", f"# w{number}x{words}y")
                xdotool("key", "Return")
                words += 1
            awaited("the first word", " TypeText text y")
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
    counts = {"kills": 0, "in time": 0, "strays": 0, "notes": 0, "small disk": 0, "small files": 0, "not to be written": 0}

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
    small_disks = SmallDisk.can_be_made(folder)
    for job in jobs:
        without_room_or_right(job, draw, small_disks)
        job.written("old")
    windows = 0 if given.no_window else max(1, given.kills // 16)
    books = given.kills // 4
    # The window waits most of its time: beside the others. Its faults and counts are its own until both are done.
    of_window = {"kills": 0, "in time": 0}
    beside = threading.Thread(target=window, args=(program, folder, windows, random.Random(given.seed + 1), of_window))
    if windows:
        beside.start()
    for number in range(given.kills - windows - books):
        job = jobs[number % len(jobs)]
        if number // len(jobs) % 10 in (2, 5, 8):
            in_need(job, draw, counts, small_disks)
        else:
            killed(job, draw, counts)
        if (number + 1) % 100 == 0:
            print(f"{number + 1} kills of commands, {of_window['kills']} of windows", flush=True)
    season(program, folder, books, draw, counts)
    if windows:
        beside.join()
    if of_window["kills"] != windows:
        fault("window", f"{windows - of_window['kills']} of {windows} kills were not made")
    counts["kills"] += of_window["kills"]
    counts["in time"] += of_window["in time"]
    counts["oldest lost s"] = of_window.get("oldest lost s", 0.0)

    print(f"{counts['kills']} kills, {counts['in time']} while it ran; of those {counts['small disk']} on a small disk, "
          f"{counts['small files']} with files that may not grow, {counts['not to be written']} in a folder not to be written, "
          f"{books} of the book, {windows} of the window; {counts['strays']} left something to be tidied up "
          f"({', '.join(sorted(counts.get('strays of', {'none'})))}), {counts['notes']} a note of two versions; "
          f"oldest text lost {counts.get('oldest lost s', 0.0):.2f} s before the kill; {len(failures)} faults (seed {given.seed})")
    sys.exit(1 if failures else 0)


main()
