# shellcheck shell=bash
# Debian's source packages without touching the system's own package lists: a private list, private indexes. apt checks each file
# against Debian's signed index.

# private_apt FOLDER CODENAME: fills the array `apt`, a call of apt-get that keeps everything in FOLDER, and brings the indexes there.
private_apt() {
    local folder=$1 codename=$2 suite mirror
    mkdir -p "$folder/lists/partial" "$folder/cache/archives/partial"
    # shellcheck disable=SC2016  # the words in $() are apt's
    mirror=$(apt-get indextargets --format '$(ORIGIN) $(REPO_URI)' | awk '$1 == "Debian" && !/security/ { print $2; exit }')
    [ -n "$mirror" ] || { echo "no mirror of Debian among apt's sources; run apt-get update first" >&2 && return 2; }
    for suite in "$codename" "$codename-updates"; do
        echo "deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] $mirror $suite main"
    done >"$folder/sources.list"
    apt=(apt-get -o "Dir::Etc::SourceList=$folder/sources.list" -o Dir::Etc::SourceParts=/dev/null
        -o "Dir::State::Lists=$folder/lists" -o "Dir::Cache=$folder/cache" -q -q)
    [ "$(id -u)" != 0 ] || apt+=(-o APT::Sandbox::User=root)
    "${apt[@]}" update
}

# unpack_source FOLDER PACKAGE: what was fetched into FOLDER becomes FOLDER/PACKAGE, with Debian's patches (security's are among them).
unpack_source() {
    local folder=$1 package=$2 tree=$1/$2 archive part
    rm -rf "$tree"
    mkdir "$tree"
    archive=$(find "$folder" -maxdepth 1 -name "${package}_*.orig.tar.*" ! -name '*.asc')
    [ -f "$archive" ] || { echo "$package: its source is not in the pool" >&2 && return 1; }
    tar -xf "$archive" -C "$tree" --strip-components=1
    # Parts that come as archives of their own; patches may name them.
    for archive in "$folder/${package}"_*.orig-*.tar.xz; do
        [ -f "$archive" ] || continue
        part=${archive##*.orig-}
        mkdir -p "$tree/${part%.tar.xz}"
        tar -xf "$archive" -C "$tree/${part%.tar.xz}" --strip-components=1
    done
    for archive in "$folder/${package}"_*.debian.tar.xz; do
        [ -f "$archive" ] || continue
        tar -xf "$archive" -C "$tree"
    done
    [ -f "$tree/debian/patches/series" ] || return 0
    while read -r part _; do
        case $part in '' | '#'*) continue ;; esac
        patch -d "$tree" -p1 --quiet --forward --no-backup-if-mismatch <"$tree/debian/patches/$part" ||
            { echo "$package: $part does not fit" >&2 && return 1; }
    done <"$tree/debian/patches/series"
}
