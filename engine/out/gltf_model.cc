#include "engine/out/gltf_model.h"

#include <cmath>
#include <cstring>
#include <functional>
#include <limits>

#include <glm/ext/matrix_double4x4.hpp>
#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>
#include <glm/gtc/type_ptr.hpp>

namespace plumbline::out {

namespace {

using Json = nlohmann::json;

constexpr int kDeepest = 32;  // chosen: models are nested a few levels deep

struct Extent {
    Vec3 low{std::numeric_limits<double>::max()}, high{std::numeric_limits<double>::lowest()};

    bool some() const { return low.x <= high.x; }
    void add(const Vec3& p) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
};

glm::dmat4 localMatrix(const Json& node) {
    if (node.contains("matrix")) {
        const auto m = node["matrix"].get<std::array<double, 16>>();
        return glm::make_mat4(m.data());
    }
    glm::dmat4 out(1.0);
    if (node.contains("translation")) {
        const auto t = node["translation"].get<std::array<double, 3>>();
        out = glm::translate(out, Vec3(t[0], t[1], t[2]));
    }
    if (node.contains("rotation")) {
        const auto r = node["rotation"].get<std::array<double, 4>>();
        out = out * glm::mat4_cast(Quat(r[3], r[0], r[1], r[2]));
    }
    if (node.contains("scale")) {
        const auto s = node["scale"].get<std::array<double, 3>>();
        out = glm::scale(out, Vec3(s[0], s[1], s[2]));
    }
    return out;
}

/// Measures the model: all positions of all nodes but a propeller's disc.
class Measurer {
public:
    explicit Measurer(const GltfDocument& document) : document_(document) {}

    void addNode(int index, const glm::dmat4& parent, int depth) {
        const Json& nodes = document_.json.at("nodes");
        if (depth > kDeepest) {
            too_deep_ = true;
            return;
        }
        const Json& node = nodes.at(static_cast<std::size_t>(index));
        if (node.value("name", std::string()) == "propeller_disc") return;
        const glm::dmat4 here = parent * localMatrix(node);
        if (node.contains("mesh"))
            for (const Json& primitive :
                 document_.json.at("meshes").at(node["mesh"].get<std::size_t>()).at("primitives"))
                if (primitive.at("attributes").contains("POSITION"))
                    addPositions(primitive["attributes"]["POSITION"].get<std::size_t>(), here);
        if (node.contains("children"))
            for (const Json& child : node["children"]) addNode(child.get<int>(), here, depth + 1);
    }
    const Extent& extent() const { return extent_; }
    bool tooDeep() const { return too_deep_; }

private:
    void addPositions(std::size_t index, const glm::dmat4& here) {
        constexpr std::size_t kPosition = 3 * sizeof(float);
        const Json& accessor = document_.json.at("accessors").at(index);
        if (!accessor.contains("bufferView") || accessor.at("componentType") != 5126) return;
        const Json& view =
            document_.json.at("bufferViews").at(accessor["bufferView"].get<std::size_t>());
        const std::size_t stride = view.value("byteStride", kPosition);
        const std::size_t count = accessor.at("count").get<std::size_t>();
        std::size_t at =
            view.at("byteOffset").get<std::size_t>() + accessor.value("byteOffset", std::size_t{0});
        for (std::size_t i = 0; i < count; ++i, at += stride) {
            float p[3];
            if (at > document_.bin.size() || document_.bin.size() - at < kPosition) return;
            std::memcpy(p, document_.bin.data() + at, kPosition);
            extent_.add(Vec3(here * glm::dvec4(p[0], p[1], p[2], 1)));
        }
    }

    const GltfDocument& document_;
    Extent extent_;
    bool too_deep_ = false;
};

/// "+x": a direction; a zero vector for anything else.
Vec3 axisOf(const std::string& word) {
    Vec3 axis(0);
    if (word.size() == 2 && (word[0] == '+' || word[0] == '-') && word[1] >= 'x' && word[1] <= 'z')
        axis[word[1] - 'x'] = word[0] == '+' ? 1 : -1;
    return axis;
}

double linear(double display) {
    return display <= 0.04045 ? display / 12.92 : std::pow((display + 0.055) / 1.055, 2.4);
}

/// The built-in model says that its colours are of display space, for renderers that use them as
/// they are; glTF's are linear (IEC 61966-2-1).
void makeColoursLinear(GltfDocument& document) {
    if (!document.json["asset"].contains("extras") ||
        !document.json["asset"]["extras"].contains("colour_space"))
        return;
    for (const Json& mesh : document.json["meshes"]) {
        for (const Json& primitive : mesh["primitives"]) {
            if (!primitive["attributes"].contains("COLOR_0")) continue;
            const Json& accessor =
                document.json["accessors"][primitive["attributes"]["COLOR_0"].get<std::size_t>()];
            const Json& view =
                document.json["bufferViews"][accessor["bufferView"].get<std::size_t>()];
            const std::size_t start = view["byteOffset"].get<std::size_t>();
            for (std::size_t i = 0; i < view["byteLength"].get<std::size_t>(); ++i) {
                if (i % 4 == 3) continue;  // alpha
                char& byte = document.bin[start + i];
                byte = static_cast<char>(static_cast<unsigned char>(
                    255 * linear(static_cast<unsigned char>(byte) / 255.0) + 0.5));
            }
        }
    }
    document.json["asset"].erase("extras");
}

/// Roots of the scene that a viewer would show.
std::vector<int> rootsOf(const Json& json) {
    const Json& scene = json.at("scenes").at(json.value("scene", std::size_t{0}));
    return scene.contains("nodes") ? scene["nodes"].get<std::vector<int>>() : std::vector<int>();
}

Expected<GltfModel, std::string> takeIn(GltfDocument document, const FlownModel& wish) {
    const Vec3 nose = axisOf(wish.nose), up = axisOf(wish.up);
    if (glm::length(nose) == 0 || glm::length(up) == 0 || glm::dot(nose, up) != 0)
        return Unexpected<std::string>("\"" + wish.nose + "\" and \"" + wish.up +
                                       "\" are no two axes of a model");
    const Vec3 left = glm::cross(up, nose);
    const Quat q_MF = glm::conjugate(quatFromAxes(left, up, nose));
    const std::vector<int> roots = rootsOf(document.json);
    Measurer measurer(document);
    for (const int root : roots) measurer.addNode(root, glm::mat4_cast(q_MF), 0);
    const Extent& extent = measurer.extent();
    if (measurer.tooDeep()) return Unexpected<std::string>("its nodes are nested wrongly");
    if (!extent.some()) return Unexpected<std::string>("it has nothing to draw");
    Vec3 middle_M = 0.5 * (extent.low + extent.high);
    if (glm::length(middle_M) <= 0.5 * glm::length(extent.high - extent.low)) middle_M = Vec3(0);
    const double half_span = std::max(extent.high.x - middle_M.x, middle_M.x - extent.low.x);
    const double scale = wish.span_m > 0 && half_span > 0 ? wish.span_m / (2 * half_span) : 1;
    GltfModel model;
    model.span_m = 2 * half_span * scale;
    const Vec3 at = -scale * middle_M;
    model.node = document.add("nodes", {{"name", "model"},
                                        {"children", roots},
                                        {"translation", {at.x, at.y, at.z}},
                                        {"rotation", {q_MF.x, q_MF.y, q_MF.z, q_MF.w}},
                                        {"scale", {scale, scale, scale}}});
    model.document = std::move(document);
    return model;
}

}  // namespace

Expected<GltfModel, std::string> readGltfModel(const FlownModel& model,
                                               const load::FileSource& files) {
    const auto whole = [&](std::string_view bytes, const std::filesystem::path& folder,
                           const FlownModel& wish) -> Expected<GltfModel, std::string> {
        Expected<GltfDocument, std::string> document = GltfDocument::read(bytes, folder, files);
        if (!document) return Unexpected<std::string>(document.error());
        try {  // the JSON library's own, where a member is missing or of another kind
            makeColoursLinear(*document);
            return takeIn(std::move(*document), wish);
        } catch (const Json::exception& error) {
            return Unexpected<std::string>(std::string("it is no valid glTF (") + error.what() +
                                           ")");
        }
    };
    if (model.file.empty())
        return whole(*embeddedModel("aircraft.glb"), {}, {"", "+z", "+y", model.span_m});
    const system::ReadFile read = files(model.file);
    if (!read.bytes) return Unexpected<std::string>(read.reason);
    return whole(*read.bytes, std::filesystem::path(model.file).parent_path(), model);
}

}  // namespace plumbline::out
