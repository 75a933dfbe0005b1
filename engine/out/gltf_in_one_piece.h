#pragma once
// A glTF 2.0 file with all that it names.

#include <filesystem>
#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/load/load.h"

namespace plumbline::out {

/// A .glb or .gltf as one .glb that names no other file. Buffers and pictures come from below
/// `folder` or from data URIs; percent signs are decoded first, then the name is judged, then read.
/// @errors a sentence: no glTF 2.0, nested deeper than kDeepest, more than a gigabyte in all, a
/// name that leads outside the folder or is an address, a file that cannot be read, no scene
Expected<std::string, std::string> gltfInOnePiece(std::string_view bytes,
                                                  const std::filesystem::path& folder,
                                                  const load::FileSource& files);

}  // namespace plumbline::out
