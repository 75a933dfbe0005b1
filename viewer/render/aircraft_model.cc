#include "viewer/render/aircraft_model.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <filesystem>

// Only the classes: the implementation is in the library.
#define TINYGLTF_NO_INCLUDE_STB_IMAGE
#define TINYGLTF_NO_INCLUDE_STB_IMAGE_WRITE
#include <glm/geometric.hpp>
#include <glm/gtc/matrix_transform.hpp>
#include <glm/gtc/quaternion.hpp>
#include <glm/gtc/type_ptr.hpp>
#include <glm/mat3x3.hpp>
#include <tiny_gltf.h>

#include "engine/load/load.h"
#include "engine/out/gltf_in_one_piece.h"

namespace plumbline::render {
namespace {

constexpr std::size_t kMostVertices = 2000000;  // chosen: far beyond what can be drawn in time

using Problem = std::string;

const char* const kRemedy = "; export it again as binary glTF 2.0 (.glb) with plain triangles";

struct Named {
    const char* name;
    PartRole role;
};
constexpr std::array<Named, 8> kRoles{{{"canopy", PartRole::Canopy},
                                       {"cockpit", PartRole::Cockpit},
                                       {"aileron_left", PartRole::AileronLeft},
                                       {"aileron_right", PartRole::AileronRight},
                                       {"elevator", PartRole::Elevator},
                                       {"rudder", PartRole::Rudder},
                                       {"propeller_blades", PartRole::PropellerBlades},
                                       {"propeller_disc", PartRole::PropellerDisc}}};

/// "+x": a direction. @return false when it is none
bool axisOf(const std::string& word, glm::vec3& axis) {
    if (word.size() != 2 || (word[0] != '+' && word[0] != '-') || word[1] < 'x' || word[1] > 'z') {
        return false;
    }
    axis = glm::vec3(0);
    axis[word[1] - 'x'] = word[0] == '+' ? 1.0F : -1.0F;
    return true;
}

/// @return false when the axes are none, or are one
bool bodyFromGltf(const ModelAxes& axes, glm::mat4& out) {
    glm::vec3 nose, up;
    if (!axisOf(axes.nose, nose) || !axisOf(axes.up, up) || glm::dot(nose, up) != 0) return false;
    const glm::vec3 right = glm::cross(nose, up);
    // Rows are the body's axes in those of the file.
    out = glm::mat4(glm::transpose(glm::mat3(nose, right, -up)));
    return true;
}

/// Reads numbers out of an accessor with every bound checked.
class AccessorView {
public:
    static bool open(const tinygltf::Model& model, int index, AccessorView& view) {
        if (index < 0 || static_cast<std::size_t>(index) >= model.accessors.size()) return false;
        const tinygltf::Accessor& accessor = model.accessors[static_cast<std::size_t>(index)];
        if (accessor.sparse.isSparse || accessor.bufferView < 0 ||
            static_cast<std::size_t>(accessor.bufferView) >= model.bufferViews.size()) {
            return false;
        }
        const auto& buffer_view = model.bufferViews[static_cast<std::size_t>(accessor.bufferView)];
        if (buffer_view.buffer < 0 ||
            static_cast<std::size_t>(buffer_view.buffer) >= model.buffers.size()) {
            return false;
        }
        const auto& data = model.buffers[static_cast<std::size_t>(buffer_view.buffer)].data;
        const int stride = accessor.ByteStride(buffer_view);
        const int component =
            tinygltf::GetComponentSizeInBytes(static_cast<std::uint32_t>(accessor.componentType));
        const int components =
            tinygltf::GetNumComponentsInType(static_cast<std::uint32_t>(accessor.type));
        if (stride <= 0 || component <= 0 || components <= 0) return false;
        const std::size_t start = buffer_view.byteOffset + accessor.byteOffset;
        const std::size_t element = static_cast<std::size_t>(component * components);
        if (accessor.count == 0 || accessor.count > 3 * kMostVertices) return false;
        const std::size_t length =
            (accessor.count - 1) * static_cast<std::size_t>(stride) + element;
        if (start > data.size() || length > data.size() - start) return false;
        view.data_ = data.data() + start;
        view.stride_ = static_cast<std::size_t>(stride);
        view.count_ = accessor.count;
        view.type_ = accessor.componentType;
        view.components_ = components;
        return true;
    }

    std::size_t count() const { return count_; }
    int components() const { return components_; }
    int type() const { return type_; }

    /// A component as a number; integer colours and normals as 0..1.
    float number(std::size_t i, int component) const {
        switch (type_) {
            case TINYGLTF_COMPONENT_TYPE_FLOAT:
                return read<float>(i, component);
            case TINYGLTF_COMPONENT_TYPE_UNSIGNED_BYTE:
                return static_cast<float>(read<std::uint8_t>(i, component)) / 255.0F;
            case TINYGLTF_COMPONENT_TYPE_UNSIGNED_SHORT:
                return static_cast<float>(read<std::uint16_t>(i, component)) / 65535.0F;
            default:
                return 0;
        }
    }

    std::uint32_t index(std::size_t i) const {
        switch (type_) {
            case TINYGLTF_COMPONENT_TYPE_UNSIGNED_BYTE:
                return read<std::uint8_t>(i, 0);
            case TINYGLTF_COMPONENT_TYPE_UNSIGNED_SHORT:
                return read<std::uint16_t>(i, 0);
            default:
                return read<std::uint32_t>(i, 0);
        }
    }

private:
    template <class T>
    T read(std::size_t i, int component) const {
        T value;
        std::memcpy(&value, data_ + i * stride_ + static_cast<std::size_t>(component) * sizeof(T),
                    sizeof(T));
        return value;
    }

    const unsigned char* data_ = nullptr;
    std::size_t stride_ = 0;
    std::size_t count_ = 0;
    int type_ = 0;
    int components_ = 0;
};

glm::mat4 localMatrix(const tinygltf::Node& node) {
    if (node.matrix.size() == 16) {
        return glm::mat4(glm::make_mat4(node.matrix.data()));
    }
    glm::mat4 m(1.0F);
    if (node.translation.size() == 3) {
        m = glm::translate(m, glm::vec3(glm::make_vec3(node.translation.data())));
    }
    if (node.rotation.size() == 4) {
        // glTF stores x, y, z, w.
        m = m * glm::mat4_cast(glm::quat(
                    static_cast<float>(node.rotation[3]), static_cast<float>(node.rotation[0]),
                    static_cast<float>(node.rotation[1]), static_cast<float>(node.rotation[2])));
    }
    if (node.scale.size() == 3) {
        m = glm::scale(m, glm::vec3(glm::make_vec3(node.scale.data())));
    }
    return m;
}

class Reader {
public:
    Reader(const tinygltf::Model& model, const glm::mat4& body_from_gltf)
        : model_(model), body_from_gltf_(body_from_gltf) {}

    Expected<AircraftModel, Problem> read() {
        const int scene = model_.defaultScene >= 0 ? model_.defaultScene : 0;
        if (static_cast<std::size_t>(scene) >= model_.scenes.size()) {
            return Unexpected<Problem>(std::string("the aircraft model has no scene") + kRemedy);
        }
        for (const int node : model_.scenes[static_cast<std::size_t>(scene)].nodes) {
            readNode(node, body_from_gltf_, PartRole::Fixed, 0);
        }
        if (!problem_.empty()) return Unexpected<Problem>(problem_ + kRemedy);
        if (out_.indices.empty()) {
            return Unexpected<Problem>(std::string("the aircraft model has no triangles") +
                                       kRemedy);
        }
        measure();
        if (!problem_.empty()) return Unexpected<Problem>(problem_);
        return std::move(out_);
    }

private:
    void readNode(int index, const glm::mat4& parent, PartRole inherited, int depth) {
        if (index < 0 || static_cast<std::size_t>(index) >= model_.nodes.size() || depth > 32) {
            problem_ = "the aircraft model's nodes are nested wrongly";
            return;
        }
        const tinygltf::Node& node = model_.nodes[static_cast<std::size_t>(index)];
        const glm::mat4 here = parent * localMatrix(node);
        PartRole role = inherited;
        for (const Named& named : kRoles) {
            if (node.name == named.name) role = named.role;
        }
        if (node.mesh >= 0 && static_cast<std::size_t>(node.mesh) < model_.meshes.size()) {
            const auto& mesh = model_.meshes[static_cast<std::size_t>(node.mesh)];
            for (const tinygltf::Primitive& primitive : mesh.primitives) {
                readPrimitive(primitive, here, role, node.name);
            }
        }
        for (const int child : node.children) readNode(child, here, role, depth + 1);
    }

    void readPrimitive(const tinygltf::Primitive& primitive, const glm::mat4& body_from_node,
                       PartRole role, const std::string& name) {
        if (primitive.mode != TINYGLTF_MODE_TRIANGLES) return;  // lines and points are not drawn
        const auto attribute = [&](const char* key) {
            const auto found = primitive.attributes.find(key);
            return found == primitive.attributes.end() ? -1 : found->second;
        };
        AccessorView positions, normals, colours, indices;
        if (!AccessorView::open(model_, attribute("POSITION"), positions) ||
            positions.type() != TINYGLTF_COMPONENT_TYPE_FLOAT || positions.components() != 3) {
            problem_ = "node '" + name + "' of the aircraft model has no readable positions";
            return;
        }
        const bool has_normals = AccessorView::open(model_, attribute("NORMAL"), normals) &&
                                 normals.count() == positions.count() && normals.components() == 3;
        const bool has_colours = AccessorView::open(model_, attribute("COLOR_0"), colours) &&
                                 colours.count() == positions.count() && colours.components() >= 3;
        if (out_.vertices.size() + positions.count() > kMostVertices) {
            problem_ = "the aircraft model has over 2 million vertices";
            return;
        }

        ModelPart part;
        part.role = role;
        part.body_from_node = body_from_node;
        glm::vec4 base(0.8F, 0.8F, 0.8F, 1);
        const tinygltf::Image* image = nullptr;
        AccessorView places;
        if (primitive.material >= 0 &&
            static_cast<std::size_t>(primitive.material) < model_.materials.size()) {
            const auto& material = model_.materials[static_cast<std::size_t>(primitive.material)];
            part.translucent = material.alphaMode == "BLEND";
            part.two_sided = material.doubleSided;
            part.roughness = static_cast<float>(material.pbrMetallicRoughness.roughnessFactor);
            const auto& factor = material.pbrMetallicRoughness.baseColorFactor;
            if (factor.size() == 4) base = glm::vec4(glm::make_vec4(factor.data()));
            const auto& texture = material.pbrMetallicRoughness.baseColorTexture;
            image = imageOf(texture.index);
            const std::string key = "TEXCOORD_" + std::to_string(texture.texCoord);
            if (image != nullptr && (!AccessorView::open(model_, attribute(key.c_str()), places) ||
                                     places.count() != positions.count())) {
                image = nullptr;
            }
        }
        const auto first_vertex = static_cast<std::uint32_t>(out_.vertices.size());
        for (std::size_t i = 0; i < positions.count(); ++i) {
            ModelVertex vertex;
            for (int k = 0; k < 3; ++k) {
                vertex.position[k] = positions.number(i, k);
                if (has_normals) vertex.normal[k] = normals.number(i, k);
            }
            glm::vec4 seen = base;
            if (image != nullptr) seen *= texel(*image, places.number(i, 0), places.number(i, 1));
            for (int k = 0; k < 4; ++k) {
                float c = seen[k];
                if (has_colours) c = k < colours.components() ? colours.number(i, k) : 1.0F;
                vertex.colour[k] =
                    static_cast<std::uint8_t>(std::clamp(c, 0.0F, 1.0F) * 255.0F + 0.5F);
            }
            out_.vertices.push_back(vertex);
        }
        part.first_index = static_cast<std::uint32_t>(out_.indices.size());
        if (primitive.indices >= 0) {
            if (!AccessorView::open(model_, primitive.indices, indices)) {
                problem_ = "node '" + name + "' of the aircraft model has unreadable indices";
                return;
            }
            for (std::size_t i = 0; i < indices.count(); ++i) {
                const std::uint32_t index = indices.index(i);
                if (index >= positions.count()) {
                    problem_ = "node '" + name +
                               "' of the aircraft model has an index beyond its "
                               "vertices";
                    return;
                }
                out_.indices.push_back(first_vertex + index);
            }
        } else {
            for (std::uint32_t i = 0; i < positions.count(); ++i) {
                out_.indices.push_back(first_vertex + i);
            }
        }
        part.index_count = static_cast<std::uint32_t>(out_.indices.size()) - part.first_index;
        part.index_count -= part.index_count % 3;
        if (!has_normals) makeFlatNormals(part);
        out_.parts.push_back(part);
    }

    /// An 8-bit picture, or null.
    const tinygltf::Image* imageOf(int texture) const {
        if (texture < 0 || static_cast<std::size_t>(texture) >= model_.textures.size()) {
            return nullptr;
        }
        const int source = model_.textures[static_cast<std::size_t>(texture)].source;
        if (source < 0 || static_cast<std::size_t>(source) >= model_.images.size()) return nullptr;
        const tinygltf::Image& image = model_.images[static_cast<std::size_t>(source)];
        const bool sane = image.bits == 8 && image.width > 0 && image.height > 0 &&
                          image.component >= 3 &&
                          image.image.size() >= static_cast<std::size_t>(image.width) *
                                                    static_cast<std::size_t>(image.height) *
                                                    static_cast<std::size_t>(image.component);
        return sane ? &image : nullptr;
    }

    /// simplified: one texel a vertex, no filter; the picture repeats.
    static glm::vec4 texel(const tinygltf::Image& image, float u, float v) {
        const auto place = [](float at, int size) {
            if (!std::isfinite(at)) return 0;
            const float part = at - std::floor(at);
            return std::min(static_cast<int>(part * static_cast<float>(size)), size - 1);
        };
        const auto at = static_cast<std::size_t>(
            (place(v, image.height) * image.width + place(u, image.width)) * image.component);
        glm::vec4 colour(1);
        for (int k = 0; k < std::min(image.component, 4); ++k) {
            colour[k] = static_cast<float>(image.image[at + static_cast<std::size_t>(k)]) / 255.0F;
        }
        return colour;
    }

    void makeFlatNormals(const ModelPart& part) {
        for (std::uint32_t i = 0; i + 2 < part.index_count; i += 3) {
            const std::uint32_t* corner = &out_.indices[part.first_index + i];
            const glm::vec3 a = out_.vertices[corner[0]].position;
            const glm::vec3 n = glm::cross(out_.vertices[corner[1]].position - a,
                                           out_.vertices[corner[2]].position - a);
            const float length = glm::length(n);
            for (int k = 0; k < 3 && length > 0; ++k) out_.vertices[corner[k]].normal = n / length;
        }
    }

    /// Span and place; an aeroplane that stands on its tail or lies on its side is refused.
    void measure() {
        glm::vec3 low(1e30F), high(-1e30F);
        for (const ModelPart& part : out_.parts) {
            if (part.role == PartRole::PropellerDisc) continue;
            for (std::uint32_t i = 0; i < part.index_count; ++i) {
                const glm::vec3 p = out_.vertices[out_.indices[part.first_index + i]].position;
                const glm::vec3 body(part.body_from_node * glm::vec4(p, 1));
                low = glm::min(low, body);
                high = glm::max(high, body);
            }
        }
        const glm::vec3 size = high - low;
        if (!(size.x > 0 && size.y > 0)) {
            problem_ = std::string("the aircraft model has no size") + kRemedy;
            return;
        }
        // chosen: no aeroplane is taller than its span, or thrice as long
        if (size.z > size.y || size.x > 3 * size.y) {
            char words[200];
            std::snprintf(words, sizeof(words),
                          "the aircraft model is %.1f wide, %.1f long and %.1f high, which is no "
                          "aeroplane standing upright; say which of its axes point to the nose and "
                          "up: model_nose = \"+z\", model_up = \"+y\" in the aircraft file",
                          static_cast<double>(size.y), static_cast<double>(size.x),
                          static_cast<double>(size.z));
            problem_ = words;
            return;
        }
        const glm::vec3 middle = 0.5F * (low + high);
        if (glm::length(middle) > 0.5F * glm::length(size)) {
            for (ModelPart& part : out_.parts) {
                part.body_from_node =
                    glm::translate(glm::mat4(1.0F), -middle) * part.body_from_node;
            }
            low -= middle;
            high -= middle;
        }
        out_.span_m = 2 * std::max(high.y, -low.y);
    }

    const tinygltf::Model& model_;
    glm::mat4 body_from_gltf_;
    AircraftModel out_;
    Problem problem_;
};

}  // namespace

Expected<AircraftModel, std::string> readAircraftModel(const std::uint8_t* bytes, std::size_t size,
                                                       const std::string& folder,
                                                       const ModelAxes& axes) {
    if (size > 0xFFFFFFFFU) {
        return Unexpected<std::string>(std::string("the aircraft model is over 4 GB") + kRemedy);
    }
    glm::mat4 body_from_gltf(1.0F);
    if (!bodyFromGltf(axes, body_from_gltf)) {
        return Unexpected<std::string>("model_nose = \"" + axes.nose + "\" and model_up = \"" +
                                       axes.up +
                                       "\" are no two axes of a model; write +x, -x, +y, -y, +z or "
                                       "-z, a different letter for each");
    }
    const auto unreadable = [](std::string why) {
        return Unexpected<std::string>("the aircraft model cannot be read (" + why + ")" + kRemedy);
    };
    // What it names is judged and taken in here: the loader below has no other files to read.
    const auto whole = out::gltfInOnePiece({reinterpret_cast<const char*>(bytes), size},
                                           std::filesystem::u8path(folder), load::diskFiles());
    if (!whole) return unreadable(whole.error());
    tinygltf::TinyGLTF loader;
    tinygltf::Model model;
    std::string error;
    std::string warning;
    bool loaded = false;
    try {
        loaded = loader.LoadBinaryFromMemory(&model, &error, &warning,
                                             reinterpret_cast<const unsigned char*>(whole->data()),
                                             static_cast<unsigned int>(whole->size()));
    } catch (const std::exception& thrown) {
        error = thrown.what();
    }
    if (!loaded) {
        while (!error.empty() && error.back() == '\n') error.pop_back();
        return unreadable(error.empty() ? "it is no glTF" : error);
    }
    return Reader(model, body_from_gltf).read();
}

AircraftModel markerModel() {
    AircraftModel model;
    constexpr int kSides = 12;
    const auto add = [&](glm::vec3 p, glm::vec3 n) {
        ModelVertex vertex;
        vertex.position = p;
        vertex.normal = glm::normalize(n);
        const std::array<std::uint8_t, 4> bone{0xe6, 0xde, 0xca, 255};
        std::copy(bone.begin(), bone.end(), vertex.colour);
        model.vertices.push_back(vertex);
    };
    // Two cones base to base along x: it has a direction but no bank.
    for (int i = 0; i < kSides; ++i) {
        const float a = static_cast<float>(i) / kSides * 6.2831853F;
        const float b = static_cast<float>(i + 1) / kSides * 6.2831853F;
        const glm::vec3 ra(0, std::cos(a), std::sin(a));
        const glm::vec3 rb(0, std::cos(b), std::sin(b));
        const glm::vec3 shift(-0.8F, 0, 0);
        for (const float end : {3.2F, -3.2F}) {
            const glm::vec3 tip(end, 0, 0);
            const glm::vec3 lean(end > 0 ? 0.25F : -0.35F, 0, 0);
            add(tip, ra + rb + lean);
            const glm::vec3 first = end > 0 ? ra : rb;
            const glm::vec3 second = end > 0 ? rb : ra;
            add(shift + first * 0.8F, first + lean);
            add(shift + second * 0.8F, second + lean);
        }
    }
    for (std::uint32_t i = 0; i < model.vertices.size(); ++i) model.indices.push_back(i);
    ModelPart part;
    part.index_count = static_cast<std::uint32_t>(model.indices.size());
    model.parts.push_back(part);
    model.span_m = 8;
    return model;
}

}  // namespace plumbline::render
