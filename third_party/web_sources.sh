#!/usr/bin/env bash
# Prepares build/web/ for the preset web: links to the header-only libraries (a browser build must never see /usr/include as a
# whole) and, from Debian's source packages, the few files of the libraries that have to be compiled. Leaves the system's own
# package lists alone. Once made, build/web/ is kept.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
# shellcheck source=third_party/debian_sources.sh
. "$root/third_party/debian_sources.sh"
web=$root/build/web
headers=(glm eigen3/Eigen fmt fast_float nlohmann CLI toml++ GeographicLib pugixml.hpp pugiconfig.hpp stb/stb_image.h stb/stb_image_write.h tiny_gltf.h)
sources=(geographiclib pugixml zlib imgui freetype)
stamp=$web/made-$(printf '%s\n' "${headers[@]}" "${sources[@]}" | cksum | cut -d ' ' -f 1)
[ -e "$stamp" ] && exit 0

echo "==> libraries for the browser: ${headers[*]}"
rm -rf "$web"
mkdir -p "$web/include"
for header in "${headers[@]}"; do
    ln -s "/usr/include/$header" "$web/include/${header##*/}"
done

# shellcheck source=/dev/null
codename=$(. /etc/os-release && echo "$VERSION_CODENAME")
echo "==> apt-get source ${sources[*]} (into build/web)"
private_apt "$web/apt" "$codename"
(cd "$web" && "${apt[@]}" source --download-only "${sources[@]}")
for source in "${sources[@]}"; do
    mkdir "$web/$source"
    tar -xf "$(find "$web" -maxdepth 1 -name "${source}_*.orig.tar.*" ! -name '*.asc')" -C "$web/$source" --strip-components=1
done
rm -rf "$web/apt" "$web"/*.tar.* "$web"/*.dsc
touch "$stamp"
