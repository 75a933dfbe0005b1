#!/usr/bin/env bash
# Makes the archive for Windows, from nothing: packages, libraries, page, programs, build/windows/plumbline-VERSION-windows.zip.
# usage: third_party/windows_zip.sh [--yes]     --yes: do not ask before installing packages
set -euo pipefail
root=$(dirname "$0")/..
# shellcheck source=third_party/setup.sh
. "$root/third_party/setup.sh"
[ "${1:-}" != --yes ] || assume_yes=yes
need_packages packages.txt packages-web.txt packages-windows.txt
build_page
third_party/windows_libraries.sh
build_preset windows zip
ls -l "$build"/windows/*.zip
