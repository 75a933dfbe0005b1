#!/usr/bin/env python3
"""Works in the window for as long as asked, in a loop: replay, views, edits and undo, another file, a recording.

Every few seconds it takes the memory in use, and by the driver's own counters the time a frame takes and errors of GL (Mesa; needs
xvfb and xdotool). Fails when the program ends, when GL reports an error, when memory, after the first round and a fifth of the time, still
grows by more than 24 MB and 8 % to the end, or when the median frame of the last third takes half as long again as that of the first.

usage: soak.py PROGRAM FOLDER [--minutes N] [--display :N]
"""
import argparse
import os
import shutil
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MOST_GROWTH_MB = 24.0  # chosen: a few undo histories and glyphs; an hour that leaks a kilobyte a frame takes 200
MOST_GROWTH = 0.08  # of all memory: the allocator's own unevenness
SLOWER = 1.5  # chosen: shared machines differ by less from third to third
SETTLED = 0.2  # part of the time until caches are full
GL_ERRORS = ("Mesa: User error", "GL_INVALID", "GL_OUT_OF_MEMORY")


class Window:
    """The program in a window of its own, and hands to work it."""

    def __init__(self, program, folder, display):
        self.folder = folder
        counters = folder / "counters"
        counters.mkdir()
        self.env = {**os.environ, "DISPLAY": display, "LIBGL_ALWAYS_SOFTWARE": "1", "MESA_DEBUG": "1", "GALLIUM_HUD": "frametime",
                    "GALLIUM_HUD_VISIBLE": "false", "GALLIUM_HUD_PERIOD": "0", "GALLIUM_HUD_DUMP_DIR": str(counters),
                    "XDG_CONFIG_HOME": str(folder / "config"), "XDG_DATA_HOME": str(folder / "data"), "XDG_STATE_HOME": str(folder / "state")}
        self.counters, self.log = counters, folder / "soak.log"
        self.messages = open(folder / "messages.txt", "w", encoding="utf-8")
        self.server = subprocess.Popen(["Xvfb", display, "-noreset", "-screen", "0", "1280x720x24"], stdout=subprocess.DEVNULL,
                                       stderr=subprocess.DEVNULL)
        time.sleep(1)
        place = folder / "show"
        shutil.copytree(ROOT / "assets" / "demo", place)
        (place / "demo.routine.toml").rename(place / "soak.routine.toml")
        (folder / "flown.csv").rename(place / "flown.csv")
        self.process = subprocess.Popen([program, "show", "--size", "1280x720", "--log", str(self.log), str(place / "soak.routine.toml")],
                                        env=self.env, stdout=self.messages, stderr=self.messages)
        until = time.monotonic() + 60
        while time.monotonic() < until and not self.xdotool("search", "--onlyvisible", "--pid", str(self.process.pid)):
            time.sleep(0.2)
        time.sleep(3)

    def xdotool(self, *words):
        return subprocess.run(["xdotool", *words], env=self.env, capture_output=True, text=True, check=False).stdout

    def key(self, *keys, wait=0.3):
        for key in keys:
            self.xdotool("key", key)
            time.sleep(wait)

    def command(self, words):
        """By its words."""
        self.key("F2", wait=0.5)
        self.xdotool("type", "--delay", "30", words)
        time.sleep(0.4)
        self.key("Return", wait=0.6)

    def taken(self, what):
        """How often the window's log has an action of that name."""
        return self.log.read_text(errors="replace").count(f" {what}") if self.log.exists() else 0

    def awaited(self, what, times):
        """Until the window has taken so many: a busy machine is slow."""
        until = time.monotonic() + 30
        while self.alive() and self.taken(what) < times and time.monotonic() < until:
            time.sleep(0.1)

    def alive(self):
        return self.process.poll() is None

    def memory_mb(self):
        for line in Path(f"/proc/{self.process.pid}/status").read_text().splitlines():
            if line.startswith("VmRSS:"):
                return int(line.split()[1]) / 1024
        return 0.0

    def frames_ms(self):
        """All frames so far: each line of the driver's counter is the mean of a moment."""
        values = []
        for file in self.counters.glob("*frametime*"):
            for word in file.read_text(errors="replace").split():
                try:
                    values.append(float(word))
                except ValueError:
                    pass
        return values

    def close(self):
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
        self.server.terminate()
        self.server.wait()
        self.messages.close()


def looks(window):
    """A loop of a figure from every view, two views, other speeds."""
    window.key("Escape", "space", "l")
    for view in "234561":
        window.key(view, wait=1.0)
    window.key("v", "equal", "minus", "shift+2", "v", "v", "space", wait=0.6)


def edits(window):
    """Something written in a figure, flown, taken back."""
    window.key("Escape", "shift+Right", "Return", wait=0.5)
    window.key("End", wait=0.1)
    window.xdotool("type", "--delay", "40", "  # soak")
    window.key("Return", wait=0.3)
    window.xdotool("type", "--delay", "40", "wait 2 s")
    time.sleep(2)
    window.key(*["ctrl+z"] * 20, wait=0.1)
    window.key("Escape", wait=0.5)


def desks(window):
    """Margins, the brief, the prompter, what the timeline shows."""
    window.key("z", wait=4)
    window.key("z", "F6", wait=2)
    window.key("ctrl+F6", "F6", "F7", wait=1.5)
    window.key("F7", "F1", "Escape", wait=0.7)


def imports(window):
    """A recording in place of the routine, and back, out of the list of files."""
    for name in ("flown", "soak.routine"):
        opened, typed = window.taken("Open "), window.taken("ListType ")
        window.key("ctrl+o", wait=0.8)
        window.xdotool("type", "--delay", "60", name)
        window.awaited("ListType ", typed + len(name))
        window.key("Return", wait=0.5)
        window.awaited("Open ", opened + 1)
        time.sleep(3)
        window.key("Escape", wait=0.3)


def main():
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("program", type=Path)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--minutes", type=float, default=60)
    asked.add_argument("--display", default=":97")
    given = asked.parse_args()
    program, folder = str(given.program.resolve()), given.folder.resolve()
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    flown = folder / "flown.csv"
    subprocess.run([program, "solve", "demo", "-o", flown, "--rate", "10"], check=False, capture_output=True)

    window = Window(program, folder, given.display)
    faults, samples, rounds = [], [], 0
    begun = time.monotonic()
    try:
        while window.alive() and time.monotonic() - begun < 60 * given.minutes:
            for work in (looks, edits, desks, imports):
                work(window)
                if not window.alive():
                    break
                samples.append(((time.monotonic() - begun) / 60, window.memory_mb()))
            rounds += 1
            if samples:
                print(f"{samples[-1][0]:.1f} min, round {rounds}: {samples[-1][1]:.0f} MB", flush=True)
        if not window.alive():
            faults.append(f"it ended by itself with {window.process.returncode} after {(time.monotonic() - begun) / 60:.1f} min")
        frames = window.frames_ms()
        done = {what: window.taken(what) for what in ("SetView", "TypeText", "Undo", "Open ")}
    finally:
        window.close()

    for what, times in done.items():
        if times < rounds:
            faults.append(f"only {times} of {what.strip()} in {rounds} rounds: the work did not reach the window")
    errors = [line for line in (folder / "messages.txt").read_text(errors="replace").splitlines() if any(e in line for e in GL_ERRORS)]
    if errors:
        faults.append(f"{len(errors)} errors of GL, the first: {errors[0]}")
    settled = [mb for minute, mb in samples if minute >= SETTLED * samples[-1][0]]
    growth = 0.0
    if len(settled) >= 12:
        part = len(settled) // 3
        early, late = statistics.median(settled[:part]), statistics.median(settled[-part:])
        growth = late - early
        if growth > MOST_GROWTH_MB + MOST_GROWTH * early:
            faults.append(f"memory grew from {early:.0f} to {late:.0f} MB")
    else:
        faults.append("too short to tell whether memory grows: give more minutes")
    medians = []
    if len(frames) >= 300:
        part = len(frames) // 3
        medians = [statistics.median(frames[:part]), statistics.median(frames[-part:])]
        if medians[1] > SLOWER * medians[0]:
            faults.append(f"the median frame took {medians[0]:.1f} ms at first and {medians[1]:.1f} ms at last")
    else:
        faults.append(f"only {len(frames)} frames were counted by the driver")

    for fault in faults:
        print(f"soak.py: {fault}", file=sys.stderr)
    shown = " and ".join(f"{median:.1f}" for median in medians)
    print(f"{given.minutes:g} minutes, {rounds} rounds ({', '.join(f'{n} {what.strip()}' for what, n in done.items())}), memory at most "
          f"{max((mb for _, mb in samples), default=0):.0f} MB, settled growth {growth:+.0f} MB, {len(frames)} frames counted, their medians first and last "
          f"{shown} (driver's units), {len(errors)} errors of GL; {len(faults)} faults")
    sys.exit(1 if faults else 0)


main()
