"""The demo's captions, read by other people's readers: python3-webvtt, python3-srt and FFmpeg's (ffprobe).

usage: captions_read_back.py PLUMBLINE FOLDER
"""
import json
import pathlib
import shutil
import subprocess
import sys

import srt
import webvtt

program, folder = sys.argv[1], pathlib.Path(sys.argv[2])
shutil.rmtree(folder, ignore_errors=True)
subprocess.run([program, "brief", "demo", "--flights", "20", "-o", folder], check=True, stdout=subprocess.DEVNULL)

vtt = [(c.start_in_seconds, c.end_in_seconds, c.text) for c in webvtt.read(folder / "captions.vtt").captions]
subtitles = list(srt.parse((folder / "captions.srt").read_text(encoding="utf-8")))
rows = [(s.start.total_seconds(), s.end.total_seconds(), s.content) for s in subtitles]
assert len(rows) > 20, len(rows)
assert [s.index for s in subtitles] == list(range(1, len(subtitles) + 1))
assert [text for _, _, text in vtt] == [text for _, _, text in rows]
for (a, b, _), (c, d, _) in zip(vtt, rows):
    assert abs(a - c) < 1 and abs(b - d) < 1, (a, b, c, d)  # some versions of the one reader give whole seconds
for (_, stop, _), (start, _, _) in zip(rows, rows[1:]):
    assert start >= stop, (stop, start)
for start, stop, text in rows:
    assert stop > start and all(len(line) <= 42 for line in text.split("\n")), text


def packets(name):
    out = subprocess.run(["ffprobe", "-v", "error", "-show_packets", "-of", "json", folder / name], check=True,
                         capture_output=True, text=True)
    assert out.stderr == "", out.stderr
    return [(float(p["pts_time"]), float(p["duration_time"])) for p in json.loads(out.stdout)["packets"]]


for name in ("captions.vtt", "captions.srt"):
    found = packets(name)
    assert len(found) == len(rows), (name, len(found))
    for (start, duration), row in zip(found, rows):
        assert abs(start - row[0]) < 0.002 and abs(start + duration - row[1]) < 0.002, (name, start, row)
print(len(rows), "captions")
