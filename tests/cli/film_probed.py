"""Films with the narrator's cues and the demo's music, looked at by FFmpeg's ffprobe: how long, which streams, how large.

usage: film_probed.py PLUMBLINE FOLDER
"""
import json
import pathlib
import shutil
import subprocess
import sys

program, folder = sys.argv[1], pathlib.Path(sys.argv[2])
shutil.rmtree(folder, ignore_errors=True)
folder.mkdir(parents=True)

# From 15 s on the demo's second cue is on the screen.
for name, picture, sound in (("cues.mp4", "h264", "aac"), ("cues.webm", "vp9", "opus")):
    subprocess.run([program, "film", "demo", "--start", "15.5s", "--stop", "17.5s", "--size", "320x180", "--frames", "25",
                    "--cues", "-o", folder / name], check=True, stderr=subprocess.DEVNULL)
    out = subprocess.run(["ffprobe", "-v", "error", "-count_frames", "-show_streams", "-show_format", "-of", "json",
                          folder / name], check=True, capture_output=True, text=True)
    assert out.stderr == "", out.stderr
    found = json.loads(out.stdout)
    duration = float(found["format"]["duration"])
    assert abs(duration - 2) < 0.1, (name, duration)  # the sound ends with whole packets
    streams = {s["codec_type"]: s for s in found["streams"]}
    assert set(streams) == {"video", "audio"} and len(found["streams"]) == 2, (name, list(streams))
    video, audio = streams["video"], streams["audio"]
    assert (video["codec_name"], audio["codec_name"]) == (picture, sound), (video["codec_name"], audio["codec_name"])
    assert (video["width"], video["height"]) == (320, 180) and video["nb_read_frames"] == "50", video
    assert video["r_frame_rate"] == "25/1" and audio["channels"] == 2, (video["r_frame_rate"], audio["channels"])
    # There is something to be heard: a mean within bounds, nothing at full scale.
    heard = subprocess.run(["ffmpeg", "-hide_banner", "-nostdin", "-i", folder / name, "-af", "volumedetect", "-f", "null",
                            "-"], check=True, capture_output=True, text=True).stderr
    level = {words[0]: float(words[1].split()[0]) for line in heard.splitlines() if "_volume:" in line
             for words in [line.split("] ")[1].split(": ")]}
    assert -40 < level["mean_volume"] < -8 and level["max_volume"] < 0, (name, level)

# Written over the picture: the lower middle of a frame differs from the same frame without cues.
def pixels(options):
    film = folder / "one.mp4"
    subprocess.run([program, "film", "demo", "--start", "16s", "--stop", "16.2s", "--size", "320x180", "--frames", "10",
                    *options, "-o", film], check=True, stderr=subprocess.DEVNULL)
    return subprocess.run(["ffmpeg", "-v", "error", "-nostdin", "-i", film, "-frames:v", "1", "-f", "rawvideo", "-pix_fmt",
                           "gray", "-"], check=True, capture_output=True).stdout


plain, cued = pixels([]), pixels(["--cues"])
assert len(plain) == len(cued) == 320 * 180
changed = [y for y in range(180) if sum(abs(plain[320 * y + x] - cued[320 * y + x]) > 40 for x in range(320)) > 20]
assert changed and min(changed) > 100, changed[:3]
assert not list(folder.glob("*.part")), "something half-made is left"
print("films as they should be")
