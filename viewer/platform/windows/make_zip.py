#!/usr/bin/env python3
"""Packs what a Windows person unpacks and clicks on; the same files give the same bytes.

usage: make_zip.py CHECKOUT BUILD VERSION TO.zip

Licences: those of the libraries in build/windows-libraries/sources, of the header-only ones and the font from Debian's packages here.
"""

import pathlib
import sys
import zipfile

# Debian packages whose code or data is in the programs but whose source was not fetched.
INSTALLED = (
    "libglm-dev libeigen3-dev libfast-float-dev nlohmann-json3-dev libcli11-dev libtomlplusplus-dev fonts-inter python3-glad "
    "libz-mingw-w64-dev mingw-w64-x86-64-dev gcc-mingw-w64-x86-64-posix-runtime"
).split()
COMMON = ("LGPL-2.1", "LGPL-2", "MPL-1.1", "MPL-2.0", "Apache-2.0", "GPL-3")
START = """Plumbline {version} for Windows 10 and later (64 bit)

How to start
 1. Unpack this whole archive into a folder of yours; nothing is installed, and nothing needs an administrator.
 2. Double-click plumbline-window.exe: it opens an invented show. F1 tells what the keys do.
    Files can be dropped on it or on its window: a routine (*.routine.toml) or a recording (CSV, IGC, GPX, NMEA, KML, ULog).
 3. In a terminal, "plumbline --help" lists what works without a picture; each command has --help with an example.

plumbline.html is the same for a browser, on any computer or tablet; "plumbline brief" sends a show along in a copy of it.
The graphics driver must have OpenGL 3.3. The folder "demo" holds that show's files, to be copied and changed; "figures" holds figures to
take over, "rules" rule sets. Films need ffmpeg.exe, and a spoken walk-through espeak-ng.exe, in the PATH; neither is in this archive.
Settings are kept in %APPDATA%\\plumbline, the season's book in %LOCALAPPDATA%\\plumbline. To be rid of it all, delete these and the folder.

A planning and training aid with a simplified model, no approval to fly: limits come from the aircraft's documents, the display authority
and a licensed evaluator. Try everything high first.

Licences of this program and of all that it is made of: licences.txt.
"""
RELINK = """Plumbline's own licence comes first, then those of the libraries in plumbline.exe and plumbline-window.exe, as Debian tells them, then
the long texts that they name. Libraries under the LGPL (cairo may be had under the MPL 1.1 as well) are linked into the program; the
source of all of it is public: Debian's source packages of the versions named here, fetched, patched and built by
third_party/windows_libraries.sh in Plumbline's own source, so that anybody can change them and link the program anew.
"""


def windows_text(text):
    return text.replace("\r\n", "\n").replace("\n", "\r\n").encode("utf-8")


def licences(checkout):
    parts = [RELINK, heading("Plumbline"), (checkout / "LICENSE").read_text(encoding="utf-8")]
    sources = checkout / "build/windows-libraries/sources"
    for folder in sorted(path for path in sources.iterdir() if path.is_dir()):
        archive = next(sources.glob(folder.name + "_*.orig.tar.*"))
        named = folder / "debian/copyright"
        text = named if named.exists() else folder / "COPYING"
        parts += [heading(archive.name.split(".orig")[0].replace("_", " ")), text.read_text(encoding="utf-8", errors="replace")]
    for package in INSTALLED:
        text = pathlib.Path("/usr/share/doc") / package / "copyright"
        parts += [heading(package), text.read_text(encoding="utf-8", errors="replace")]
    for name in COMMON:
        parts += [heading(name), pathlib.Path("/usr/share/common-licenses", name).read_text(encoding="utf-8")]
    return "\n".join(parts)


def heading(name):
    return f"\n{'=' * 100}\n{name}\n{'=' * 100}\n"


def main():
    checkout, build = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    version, output = sys.argv[3:]
    files = {"README.txt": windows_text(START.format(version=version)), "licences.txt": windows_text(licences(checkout))}
    for program in ("plumbline.exe", "plumbline-window.exe"):
        files[program] = (build / "bin" / program).read_bytes()
    files["plumbline.html"] = (checkout / "build/page/bin/plumbline.html").read_bytes()
    for folder in ("demo", "figures", "rules"):
        for path in (checkout / "assets" / folder).glob("*.toml"):
            files[f"{folder}/{path.name}"] = windows_text(path.read_text(encoding="utf-8"))
    with zipfile.ZipFile(output, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name in sorted(files):
            # Of no time: the first that the format knows.
            archive.writestr(zipfile.ZipInfo(f"plumbline-{version}/{name}"), files[name], zipfile.ZIP_DEFLATED, 9)


if __name__ == "__main__":
    main()
