#!/usr/bin/env bash
# Makes the page for browsers, from nothing: packages, libraries, build/page/bin/plumbline.html.
# usage: third_party/web_page.sh [--yes]     --yes: do not ask before installing packages
set -euo pipefail
root=$(dirname "$0")/..
# shellcheck source=third_party/setup.sh
. "$root/third_party/setup.sh"
[ "${1:-}" != --yes ] || assume_yes=yes
need_packages packages.txt packages-web.txt
build_page
ls -l "$build"/page/bin/plumbline.html
