#!/usr/bin/env bash
# Brings Khronos' glTF validator (npm package gltf-validator, Apache-2.0, no dependencies) into build/gltf-validator/, for
# tests/gltf/validate. Only the one file whose checksum stands here is taken. Once there it is kept.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
version=2.0.0-dev.3.10
sha512=a1d278934b519065e20c69fbf320c183e7c16c022f0675f187747002d6b47a64b11adc9a80513c078c442c1d6861edd2e510fc0a2dee640b1969ab1c1f62c011
folder=$root/build/gltf-validator
stamp=$folder/made-$version
[ -e "$stamp" ] && exit 0

echo "==> npm pack gltf-validator@$version"
command -v npm >/dev/null || { echo "npm is missing: apt-get install npm" >&2 && exit 2; }
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"
npm pack --silent "gltf-validator@$version" >/dev/null
echo "$sha512  gltf-validator-$version.tgz" | sha512sum --check --quiet
tar -xf "gltf-validator-$version.tgz" --strip-components=1
rm "gltf-validator-$version.tgz"
touch "$stamp"
