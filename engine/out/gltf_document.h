#pragma once
// A glTF 2.0 file in memory: its JSON, and all its buffers as one. For .cc files of this folder and
// tests: includes the JSON library.

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include <glm/ext/vector_float3.hpp>
#include <nlohmann/json.hpp>

#include "engine/base/expected.h"
#include "engine/load/load.h"

namespace plumbline::out {

/// What glTF calls its numbers.
enum class GltfType { Scalar, Vec3, Vec4 };

class GltfDocument {
public:
    nlohmann::json json;
    std::string bin;  ///< the one buffer

    /// A .glb or a .gltf. Buffers and pictures that it names are taken in, from beside it or from
    /// data URIs.
    /// @param folder  of the file
    /// @errors a sentence: no glTF 2.0, a file beside it that cannot be read, no scene
    static Expected<GltfDocument, std::string> read(std::string_view bytes,
                                                    const std::filesystem::path& folder,
                                                    const load::FileSource& files);

    /// Adds an object to one of the top arrays. @return its index there
    int add(const char* array, nlohmann::json object);
    /// Adds numbers to the buffer, with their least and greatest. Four floats a rotation, x y z w.
    /// @return the accessor
    int addFloats(std::span<const float> numbers, GltfType type, bool of_vertices);
    int addIndices(std::span<const std::uint32_t> indices);

    /// As one .glb.
    std::string toGlb() const;

private:
    int addView(const void* bytes, std::size_t size, int target);
};

}  // namespace plumbline::out
