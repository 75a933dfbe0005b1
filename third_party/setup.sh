# shellcheck shell=bash
# Shared by viewer/run, tests/run and .ci/run: says what it does, installs the Debian packages that are missing, builds.
# Source it with `root` set to the checkout's top folder. Nothing here is done twice: a second run takes seconds.

assume_yes=no # set by --yes

say() { printf '==> %s\n' "$*"; }
fail() {
    printf '%s: %s\n' "$(basename "$(dirname "$0")")/$(basename "$0")" "$*" >&2
    exit 2
}

# The number of jobs at once: one a core, but no more than memory allows (a compiler takes about 1.5 GB at worst).
jobs_at_once() {
    local cores memory_jobs
    cores=$(nproc)
    memory_jobs=$(awk '/^MemAvailable/ { print int($2 / 1500000) }' /proc/meminfo)
    [ "$memory_jobs" -ge 1 ] || memory_jobs=1
    echo $((cores < memory_jobs ? cores : memory_jobs))
}

# missing_packages LIST...: names in the lists (files in third_party/) that are not installed.
missing_packages() {
    local list name optional
    for list in "$@"; do
        while read -r name; do
            case $name in '' | '#'*) continue ;; esac
            optional=no
            case $name in '?'*) optional=yes name=${name#?} ;; esac
            # Some builds of Node bring npm with them and go badly with Debian's.
            [ "$name" = npm ] && command -v npm >/dev/null && continue
            [ "$(dpkg-query -W -f '${db:Status-Status}' "$name" 2>/dev/null)" = installed ] && continue
            if [ $optional = yes ]; then echo "?$name"; else echo "$name"; fi
        done <"$root/third_party/$list"
    done
}

# need_packages LIST...: installs what is missing; asks first unless --yes was given.
need_packages() {
    if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
        say "no apt-get here: the packages in third_party/$1 must be there already, under this system's names for them"
        return
    fi
    local -a missing wanted=() as_root=()
    local name
    mapfile -t missing < <(missing_packages "$@")
    for name in "${missing[@]}"; do
        case $name in
        '?'*) [ -n "$(apt-cache policy "${name#?}" 2>/dev/null | awk '/Candidate:/ && $2 != "(none)"')" ] &&
            wanted+=("${name#?}") ;;
        *) wanted+=("$name") ;;
        esac
    done
    [ ${#wanted[@]} -gt 0 ] || return 0

    say "packages missing: ${wanted[*]}"
    if [ "$(id -u)" != 0 ]; then
        command -v sudo >/dev/null || fail "not root and no sudo: as root, run: apt-get install ${wanted[*]}"
        as_root=(sudo)
    fi
    if [ $assume_yes = no ]; then
        [ -t 0 ] || fail "packages are missing and there is nobody to ask: run again with --yes to install them"
        read -r -p "Install them with ${as_root[*]:+${as_root[*]} }apt-get? [y/N] " answer
        case $answer in y | Y | yes) ;; *) fail "nothing installed" ;; esac
    fi
    as_root+=(env DEBIAN_FRONTEND=noninteractive)
    say "apt-get update"
    "${as_root[@]}" apt-get update -q -q || fail "apt-get update failed; see above"
    say "apt-get install (${#wanted[@]} packages and what they need)"
    "${as_root[@]}" apt-get install -y -q -q --no-install-recommends "${wanted[@]}" >"$build/apt.log" 2>&1 ||
        { tail -n 20 "$build/apt.log" >&2 && fail "apt-get install failed; all it said: $build/apt.log"; }
    # Optional packages could not be asked for before the first update; now they can.
    mapfile -t missing < <(missing_packages "$@" | sed -n 's/^?//p')
    for name in "${missing[@]}"; do
        "${as_root[@]}" apt-get install -y -q -q --no-install-recommends "$name" >>"$build/apt.log" 2>&1 ||
            say "$name is not in this distribution; going on without it"
    done
}

# build_preset PRESET [TARGET...]: configures and builds build/PRESET.
build_preset() {
    local preset=$1
    shift
    say "configure $preset"
    cmake --preset "$preset" >"$build/$preset.configure.log" 2>&1 ||
        { cat "$build/$preset.configure.log" >&2 && return 1; }
    say "build $preset (build/$preset)"
    cmake --build --preset "$preset" -j "$(jobs_at_once)" ${1:+--target "$@"}
}

# build_page: the page for a browser, build/page/bin/plumbline.html, which packages contain.
build_page() { third_party/web_sources.sh && build_preset web page; }

root=$(cd "$root" && pwd) || exit 2
build=$root/build
mkdir -p "$build"
cd "$root" || exit 2
