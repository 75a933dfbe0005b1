#!/usr/bin/env python3
"""Makes one HTML file of the program compiled for a browser.

usage: make_page.py ZOPFLI PAGE.html WINDOW.js START.js PROGRAM.js OUTPUT.html

PROGRAM.wasm lies beside PROGRAM.js. Both are packed as gzip packs, by ZOPFLI, which takes its time for five in a hundred, and stand in the page as base64 text that the browser does not run;
start.js unpacks them. The page's policy lets nothing run but window.js and start.js, by their hash, and what these make themselves, and
nothing be loaded.
"""

import base64
import hashlib
import os
import subprocess
import sys


def packed(zopfli, path):
    # chosen: five rounds; more of them take minutes for a thousandth
    small = subprocess.run([zopfli, "-c", "--gzip", "--i5", path], check=True, stdout=subprocess.PIPE).stdout
    return base64.b64encode(small).decode("ascii")


def main():
    zopfli, page_path, window_path, start_path, program_path, output = sys.argv[1:]
    with open(page_path, encoding="utf-8") as file:
        page = file.read()
    start = "\n"
    for path in (window_path, start_path):
        with open(path, encoding="utf-8") as file:
            start += file.read()
    if "</script" in start or "<!--" in start:
        sys.exit(f"{window_path}, {start_path}: end their own script")
    mark = base64.b64encode(hashlib.sha256(start.encode("utf-8")).digest()).decode("ascii")
    policy = (
        f"default-src 'none'; script-src 'sha256-{mark}' 'wasm-unsafe-eval' blob:; worker-src blob:; "
        "style-src 'unsafe-inline'; img-src data: blob:; form-action 'none'; base-uri 'none'"
    )
    parts = {
        "@POLICY@": policy,
        "@PROGRAM@": packed(zopfli, os.path.splitext(program_path)[0] + ".wasm"),
        "@CODE@": packed(zopfli, program_path),
        "@START@": start,
    }
    for name, text in parts.items():
        if page.count(name) != 1:
            sys.exit(f"{page_path}: {name} does not stand in it once")
        page = page.replace(name, text)
    with open(output + ".part", "w", encoding="utf-8", newline="\n") as file:
        file.write(page)
    os.replace(output + ".part", output)


if __name__ == "__main__":
    main()
