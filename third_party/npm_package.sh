#!/usr/bin/env bash
# Brings a package of npm's, without dependencies, into build/NAME/. Only the one file whose checksum stands here is taken. Once there
# it is kept.
# usage: third_party/npm_package.sh gltf-validator|playwright-core
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
name=${1:?which package?}
case $name in
gltf-validator) # Khronos' glTF validator, Apache-2.0; for tests/gltf/validate
    version=2.0.0-dev.3.10
    sha512=a1d278934b519065e20c69fbf320c183e7c16c022f0675f187747002d6b47a64b11adc9a80513c078c442c1d6861edd2e510fc0a2dee640b1969ab1c1f62c011
    ;;
playwright-core) # works in a browser by mouse, keys and touch, Apache-2.0; for tests/browser
    version=1.65.1
    sha512=86a3e9cfb6e548c3f1595768784d728814b35ec2a254e77693e9230af994cb00f618f3b60ddf477dc5a7abd34dd061db3590c5819f497c116bf97e7f04ba34ab
    ;;
*) echo "no such package here: $name" >&2 && exit 2 ;;
esac
folder=$root/build/$name
stamp=$folder/made-$version
[ -e "$stamp" ] && exit 0

echo "==> npm pack $name@$version"
command -v npm >/dev/null || { echo "npm is missing: apt-get install npm" >&2 && exit 2; }
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"
npm pack --silent "$name@$version" >/dev/null
echo "$sha512  $name-$version.tgz" | sha512sum --check --quiet
tar -xf "$name-$version.tgz" --strip-components=1
rm "$name-$version.tgz"
touch "$stamp"
