#!/usr/bin/env bash
# Builds, with Debian's mingw-w64, the libraries that plumbline.exe is made of, statically, from the source packages of Debian 12
# into build/windows-libraries/root. What is built lies in the user's cache, one folder for each way of building, and build/windows-libraries
# leads there: a second run, and another checkout, take no time.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
# shellcheck source=third_party/debian_sources.sh
. "$root/third_party/debian_sources.sh"

key=$(cat "$root/third_party/"{windows_libraries.sh,debian_sources.sh,windows_sources.txt,windows_toolchain.cmake} \
    <(x86_64-w64-mingw32-gcc-posix --version) | sha256sum | cut -c 1-16)
work=${XDG_CACHE_HOME:-$HOME/.cache}/plumbline/windows-libraries-$key
mkdir -p "$work" "$root/build"
[ -L "$root/build/windows-libraries" ] || rm -rf "$root/build/windows-libraries"
ln -sfn "$work" "$root/build/windows-libraries"
# One builds, another checkout waits.
exec 9>"$work/lock"
flock 9
prefix=$work/root
host=x86_64-w64-mingw32
# In the order in which they need each other.
libraries=(headers googletest glfw3 fmtlib pugixml geographiclib sqlite3 freetype imgui libstb tinygltf harfbuzz fribidi pixman cairo libogg
    libvorbis flac opus lame mpg123 libsndfile)
export CC=$host-gcc-posix CXX=$host-g++-posix AR=$host-gcc-ar-posix RANLIB=$host-gcc-ranlib-posix
export PKG_CONFIG_LIBDIR=$prefix/lib/pkgconfig
if command -v ccache >/dev/null; then export CMAKE_C_COMPILER_LAUNCHER=ccache CMAKE_CXX_COMPILER_LAUNCHER=ccache; fi
# By paths that are the same wherever this checkout lies.
optimise=(-O2 "-ffile-prefix-map=$work=.")
jobs=$(nproc)

with_cmake() { # SOURCE OPTION...
    local source=$1
    shift
    cmake -S "$source" -B "$work/build" -G Ninja -DCMAKE_TOOLCHAIN_FILE="$root/third_party/windows_toolchain.cmake" \
        -DCMAKE_BUILD_TYPE=Release -DCMAKE_C_FLAGS_RELEASE="${optimise[*]} -DNDEBUG" -DCMAKE_CXX_FLAGS_RELEASE="${optimise[*]} -DNDEBUG" \
        -DCMAKE_INSTALL_PREFIX="$prefix" -DCMAKE_INSTALL_LIBDIR=lib -DBUILD_SHARED_LIBS=OFF "$@" || return
    cmake --build "$work/build" -j "$jobs" --target install
}
with_configure() { # SOURCE OPTION...
    local source=$1
    shift
    (cd "$work/build" && CFLAGS="${optimise[*]} ${cflags:-}" CPPFLAGS="-I$prefix/include" LDFLAGS="-L$prefix/lib" "$source/configure" --host=$host \
        --prefix="$prefix" --disable-shared --enable-static --disable-dependency-tracking "$@") || return
    # Patches touched what these scripts were made from; they are not made anew.
    make -C "$work/build" -j "$jobs" install AUTOCONF=: AUTOHEADER=: AUTOMAKE=: ACLOCAL=:
}
archive() { # NAME OBJECT...
    $AR rcs "$prefix/lib/lib$1.a" "${@:2}"
}
package() { # NAME VERSION CFLAGS LIBS: what pkg-config tells of it
    printf 'Name: %s\nDescription: %s\nVersion: %s\nCflags: %s\nLibs: -L%s %s\n' "$1" "$1" "$2" "$3" "$prefix/lib" "$4" >"$prefix/lib/pkgconfig/$1.pc"
}

build_glfw3() { with_cmake "$1" -DGLFW_BUILD_DOCS=OFF -DGLFW_BUILD_TESTS=OFF -DGLFW_BUILD_EXAMPLES=OFF; }
build_fmtlib() { with_cmake "$1" -DFMT_TEST=OFF -DFMT_DOC=OFF; }
build_pugixml() { with_cmake "$1"; }
build_geographiclib() { with_cmake "$1" -DBUILD_BOTH_LIBS=OFF; }
build_sqlite3() {
    (cd "$work/build" && env -u CC -u AR -u RANLIB -u CXX "$1/configure" --disable-readline --disable-shared && make sqlite3.c)
    (cd "$work/build" && $CC "${optimise[@]}" -DSQLITE_OMIT_LOAD_EXTENSION -DSQLITE_DQS=0 -c sqlite3.c && archive sqlite3 sqlite3.o)
    cp "$work/build/sqlite3.h" "$prefix/include/"
}
build_freetype() {
    with_cmake "$1" -DFT_REQUIRE_ZLIB=ON -DFT_DISABLE_PNG=ON -DFT_DISABLE_BZIP2=ON -DFT_DISABLE_HARFBUZZ=ON -DFT_DISABLE_BROTLI=ON
    # Cairo's configure looks for it by pkg-config, which knows nothing of mingw's own zlib.
    package freetype2 24.3.18 "-I$prefix/include/freetype2" "-lfreetype -lz"
}
build_harfbuzz() {
    (cd "$work/build" && $CXX -std=c++11 "${optimise[@]}" -fno-exceptions -fno-rtti -fno-threadsafe-statics -DHAVE_PTHREAD -c "$1/src/harfbuzz.cc")
    archive harfbuzz "$work/build/harfbuzz.o"
    mkdir -p "$prefix/include/harfbuzz"
    cp "$1"/src/hb.h "$1"/src/hb-*.h "$prefix/include/harfbuzz/"
    package harfbuzz 6.0.0 "-I$prefix/include/harfbuzz" "-lharfbuzz"
}
build_fribidi() { cflags=-DFRIBIDI_LIB_STATIC with_configure "$1" --disable-debug; }
build_pixman() { with_configure "$1" --disable-gtk --disable-libpng --disable-openmp; }
build_cairo() {
    cflags="-DCAIRO_WIN32_STATIC_BUILD" with_configure "$1" --disable-fc --enable-ft --disable-xlib --disable-xcb --disable-gobject --disable-ps --disable-png \
        --disable-svg --disable-script --disable-interpreter --disable-trace --disable-gtk-doc --disable-full-testing \
        --disable-valgrind SUBDIRS=
}
build_libogg() { with_cmake "$1" -DINSTALL_DOCS=OFF -DBUILD_TESTING=OFF; }
build_libvorbis() { with_cmake "$1"; }
build_flac() {
    with_cmake "$1" -DBUILD_PROGRAMS=OFF -DBUILD_EXAMPLES=OFF -DBUILD_TESTING=OFF -DBUILD_DOCS=OFF -DINSTALL_MANPAGES=OFF -DBUILD_CXXLIBS=OFF
}
build_opus() { cflags="-U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=0" with_configure "$1" --disable-doc --disable-extra-programs --disable-stack-protector; }
build_lame() { with_configure "$1" --disable-frontend --disable-decoder; }
build_mpg123() { with_cmake "$1/ports/cmake" -DBUILD_PROGRAMS=OFF -DBUILD_LIBOUT123=OFF; }
build_libsndfile() { with_cmake "$1" -DBUILD_PROGRAMS=OFF -DBUILD_EXAMPLES=OFF -DBUILD_TESTING=OFF -DENABLE_CPACK=OFF -DENABLE_PACKAGE_CONFIG=OFF; }
build_imgui() {
    local -a objects=()
    local source
    for source in imgui imgui_draw imgui_tables imgui_widgets backends/imgui_impl_glfw backends/imgui_impl_opengl3 misc/freetype/imgui_freetype; do
        (cd "$work/build" && $CXX "${optimise[@]}" -I"$1" -I"$1/backends" -I"$prefix/include" -I"$prefix/include/freetype2" -DIMGUI_DISABLE_DEMO_WINDOWS \
            -DIMGUI_DISABLE_METRICS_WINDOW -c "$1/$source.cpp")
        objects+=("$work/build/$(basename "$source").o")
    done
    archive imgui "${objects[@]}"
    mkdir -p "$prefix/include/imgui/backends"
    cp "$1"/*.h "$1"/misc/freetype/*.h "$prefix/include/imgui/"
    cp "$1"/backends/*.h "$prefix/include/imgui/backends/"
}
build_libstb() {
    mkdir -p "$prefix/include/stb"
    cp "$1"/stb_image.h "$1"/stb_image_write.h "$prefix/include/stb/"
    printf '#define STB_IMAGE_IMPLEMENTATION\n#define STB_IMAGE_WRITE_IMPLEMENTATION\n#include <stb_image.h>\n#include <stb_image_write.h>\n' >"$work/build/stb.c"
    (cd "$work/build" && $CC "${optimise[@]}" -fwrapv -I"$1" -c stb.c)
    archive stb "$work/build/stb.o"
}
build_tinygltf() {
    cp "$1/tiny_gltf.h" "$prefix/include/"
    (cd "$work/build" && $CXX -std=c++17 "${optimise[@]}" -DTINYGLTF_IMPLEMENTATION -I"$1" -I"$prefix/include/stb" -isystem "$work/json" -x c++ -c "$1/tiny_gltf.cc")
    archive tinygltf "$work/build/tiny_gltf.o"
    config TinyGLTF "add_library(TinyGLTF::TinyGLTF STATIC IMPORTED)
set_target_properties(TinyGLTF::TinyGLTF PROPERTIES IMPORTED_LOCATION $prefix/lib/libtinygltf.a
  INTERFACE_INCLUDE_DIRECTORIES \"$prefix/include;$prefix/include/stb\" INTERFACE_LINK_LIBRARIES $prefix/lib/libstb.a)"
}
config() { # NAME TEXT: what find_package reads
    mkdir -p "$prefix/lib/cmake/$1"
    printf '%s\n' "$2" >"$prefix/lib/cmake/$1/$1Config.cmake"
}
# Those without code of their own to compile: links, since /usr/include as a whole must not be seen.
build_headers() {
    local header
    for header in glm eigen3 fast_float nlohmann CLI toml++; do
        ln -sfn "/usr/include/$header" "$prefix/include/$header"
    done
    # The static one before mingw's own two, of which the other is found first.
    cp "/usr/$host/lib/libz.a" "$prefix/lib/"
    config tomlplusplus "add_library(tomlplusplus::tomlplusplus INTERFACE IMPORTED)"
}
build_googletest() { with_cmake /usr/src/googletest -DBUILD_GMOCK=OFF; }

fetch() { # LIBRARY...
    local library
    echo "==> sources of Debian 12: $* (into $work)"
    mkdir -p "$work/sources"
    private_apt "$work/apt" bookworm
    for library in "$@"; do
        # A file may be gone from the pool, such as a signature; what is needed is looked for below.
        (cd "$work/sources" && "${apt[@]}" source --download-only "$library") || true
        (cd "$work/sources" && sha256sum --check --quiet <(grep " ${library}_.*orig" "$root/third_party/windows_sources.txt"))
        unpack_source "$work/sources" "$library"
    done
}

mkdir -p "$prefix"/{include,lib/pkgconfig} "$work/json" "$work/made"
ln -sfn /usr/include/nlohmann "$work/json/nlohmann"
missing=()
for library in "${libraries[@]}"; do
    [ -e "$work/made/$library" ] || missing+=("$library")
done
[ ${#missing[@]} -gt 0 ] || exit 0
wanted=()
for library in "${missing[@]}"; do
    case $library in headers | googletest) continue ;; esac
    [ -d "$work/sources/$library" ] || wanted+=("$library")
done
[ ${#wanted[@]} = 0 ] || fetch "${wanted[@]}"
for library in "${missing[@]}"; do
    echo "==> $library"
    rm -rf "$work/build"
    mkdir "$work/build"
    "build_$library" "$work/sources/$library" >"$work/$library.log" 2>&1 ||
        { tail -n 30 "$work/$library.log" >&2 && echo "all it said: $work/$library.log" >&2 && exit 1; }
    touch "$work/made/$library"
done
rm -rf "$work/build"
# What stays of the sources: the archives as they came, and what the licences are.
find "$work/sources" -mindepth 2 ! -type d ! -path '*/debian/copyright' ! -path "$work/sources/*/COPYING" -delete
find "$work/sources" -mindepth 1 -type d -empty -delete
