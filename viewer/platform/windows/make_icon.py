#!/usr/bin/env python3
"""Draws an SVG at the sizes that Windows shows and puts the pictures into one .ico file.

usage: make_icon.py RSVG-CONVERT FROM.svg TO.ico
"""

import struct
import subprocess
import sys

SIZES = (16, 24, 32, 48, 64, 256)


def main():
    converter, drawing, output = sys.argv[1:]
    pictures = [
        subprocess.run([converter, "-w", str(size), "-h", str(size), drawing], check=True, stdout=subprocess.PIPE).stdout
        for size in SIZES
    ]
    at = 6 + 16 * len(SIZES)
    directory = struct.pack("<HHH", 0, 1, len(SIZES))
    for size, picture in zip(SIZES, pictures):
        directory += struct.pack("<BBBBHHII", size % 256, size % 256, 0, 0, 1, 32, len(picture), at)
        at += len(picture)
    with open(output, "wb") as file:
        file.write(directory + b"".join(pictures))


if __name__ == "__main__":
    main()
