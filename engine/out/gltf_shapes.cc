#include "engine/out/gltf_shapes.h"

#include <algorithm>
#include <cmath>

#include "engine/out/gltf_frames.h"
#include "engine/out/ground_marks.h"

namespace plumbline::out {

namespace {

using Json = nlohmann::json;

constexpr double kRibbonOfSpan = 0.4;  // chosen: inside the wings, so that they stay in sight
constexpr double kShowLineWidth_m = 1.5, kCrowdLineWidth_m = 3;  // chosen: seen from the far side
constexpr double kLift_m = 0.1;                                  // chosen: of lines over areas
constexpr double kEye_m = 1.7;                                   // chosen: somebody stands
constexpr const char* kUnlit = "KHR_materials_unlit";

/// A band of that width about a line on the ground.
std::vector<Vec3> band(const Vec3& from_S_m, const Vec3& to_S_m, double width_m) {
    const Vec3 way = to_S_m - from_S_m;
    const double length_m = std::hypot(way.x, way.y);
    const Vec3 aside =
        length_m > 0 ? Vec3(-way.y, way.x, 0) * (width_m / 2 / length_m) : Vec3(0, width_m / 2, 0);
    const Vec3 lift(0, 0, kLift_m);
    return {from_S_m - aside + lift, to_S_m - aside + lift, to_S_m + aside + lift,
            from_S_m + aside + lift};
}

}  // namespace

void appendPoint(std::vector<float>& numbers, const Vec3& point) {
    for (int k = 0; k < 3; ++k) numbers.push_back(static_cast<float>(point[k]));
}

int GltfShapes::material(const char* name, const std::array<double, 4>& display_colour) {
    const auto linear = [](double c) {
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    Json& list = document_.json["materials"];
    for (std::size_t i = 0; list.is_array() && i < list.size(); ++i)
        if (list[i].value("name", std::string()) == name) return static_cast<int>(i);
    Json& used = document_.json["extensionsUsed"];
    if (!used.is_array()) used = Json::array();
    if (std::find(used.begin(), used.end(), kUnlit) == used.end()) used.push_back(kUnlit);
    const auto& [r, g, b, a] = display_colour;
    Json out = {{"name", name},
                {"doubleSided", true},
                {"pbrMetallicRoughness",
                 {{"baseColorFactor", {linear(r), linear(g), linear(b), a}},
                  {"metallicFactor", 0.0},
                  {"roughnessFactor", 1.0}}},
                {"extensions", {{kUnlit, Json::object()}}}};
    if (a < 1) out["alphaMode"] = "BLEND";
    return document_.add("materials", std::move(out));
}

int GltfShapes::primitiveNode(const std::string& name, const std::vector<Mesh>& meshes,
                              int material) {
    constexpr int kLineStrip = 3, kTriangles = 4;
    Json primitives = Json::array();
    for (const Mesh& mesh : meshes) {
        Json primitive = {
            {"attributes", {{"POSITION", document_.addFloats(mesh.points, GltfType::Vec3, true)}}},
            {"material", material},
            {"mode", mesh.corners.empty() ? kLineStrip : kTriangles}};
        if (!mesh.corners.empty()) primitive["indices"] = document_.addIndices(mesh.corners);
        primitives.push_back(std::move(primitive));
    }
    const int mesh = document_.add("meshes", {{"name", name}, {"primitives", primitives}});
    return document_.add("nodes", {{"name", name}, {"mesh", mesh}});
}

int GltfShapes::addPath(const path::Path& path, const MotionKeys& keys, double span_m,
                        const std::string& title) {
    std::vector<double> times_s;
    for (const auto* list : {&keys.places, &keys.attitudes})
        for (const std::size_t i : *list) times_s.push_back(path.samples[i].time_s);
    std::sort(times_s.begin(), times_s.end());
    times_s.erase(std::unique(times_s.begin(), times_s.end()), times_s.end());

    std::vector<path::Figure> figures = path.figures;
    if (figures.empty()) figures.push_back({title, 0, path.duration_s()});
    const double half_m = kRibbonOfSpan / 2 * span_m;
    std::vector<int> nodes;
    for (std::size_t f = 0; f < figures.size(); ++f) {
        const path::Figure& figure = figures[f];
        std::vector<double> own_s = {figure.start_s};
        for (auto t = std::upper_bound(times_s.begin(), times_s.end(), figure.start_s);
             t != times_s.end() && *t < figure.stop_s; ++t)
            own_s.push_back(*t);
        if (figure.stop_s > figure.start_s) own_s.push_back(figure.stop_s);
        if (own_s.size() < 2) continue;
        Mesh line, ribbon;
        bool before = false;
        for (const double time_s : own_s) {
            const path::Sample at = path::sampleAt(path, time_s);
            appendPoint(line.points, sceneFromSite(at.position_S_m));
            const bool shown = path::attitudeShown(path, at);
            if (shown) {
                const Vec3 right_S_m = half_m * rotate(at.q_SB, Vec3(0, 1, 0));
                const auto count = static_cast<std::uint32_t>(ribbon.points.size() / 3);
                appendPoint(ribbon.points, sceneFromSite(at.position_S_m - right_S_m));
                appendPoint(ribbon.points, sceneFromSite(at.position_S_m + right_S_m));
                if (before)
                    for (const int corner : {-2, -1, 0, 0, -1, 1})
                        ribbon.corners.push_back(count + static_cast<std::uint32_t>(corner));
            }
            before = shown;
        }
        std::vector<Mesh> meshes = {std::move(line)};
        if (!ribbon.corners.empty()) meshes.push_back(std::move(ribbon));
        // chosen: neighbours differ in lightness too
        const int colour = f % 2 == 0 ? material("figure", {0.98, 0.72, 0.16, 0.6})
                                      : material("next figure", {0.18, 0.23, 0.54, 0.6});
        nodes.push_back(primitiveNode(figure.name, meshes, colour));
        document_.json["nodes"].back()["extras"] = {{"start_s", figure.start_s},
                                                    {"stop_s", figure.stop_s}};
    }
    Json node = {{"name", "path"}};
    if (!nodes.empty()) node["children"] = nodes;
    return document_.add("nodes", std::move(node));
}

int GltfShapes::addGround(const data::Site& site) {
    using Kind = GroundMark::Kind;
    std::vector<int> nodes;
    for (const GroundMark& mark : groundMarks(site)) {
        std::vector<Vec3> corners_S_m = mark.points_S_m;
        if (mark.line())
            corners_S_m = band(mark.points_S_m[0], mark.points_S_m[1],
                               mark.kind == Kind::ShowLine ? kShowLineWidth_m : kCrowdLineWidth_m);
        Mesh mesh;
        for (const Vec3& corner_S_m : corners_S_m)
            appendPoint(mesh.points, sceneFromSite(corner_S_m));
        int colour = 0;
        if (mark.kind == Kind::Box) {
            appendPoint(mesh.points, sceneFromSite(corners_S_m.front()));
            colour = material("box", {0.55, 0.55, 0.55, 1});
        } else if (mark.kind == Kind::Obstacle) {
            // Walls; what is above them is open.
            const auto count = static_cast<std::uint32_t>(corners_S_m.size());
            for (Vec3 corner_S_m : corners_S_m) {
                corner_S_m.z = mark.top_m;
                appendPoint(mesh.points, sceneFromSite(corner_S_m));
            }
            for (std::uint32_t i = 0; i < count; ++i) {
                const std::uint32_t j = (i + 1) % count;
                mesh.corners.insert(mesh.corners.end(), {i, j, count + i, count + i, j, count + j});
            }
            colour = material("obstacle", {0.8, 0.35, 0.2, 1});
        } else {
            mesh.corners = {0, 1, 2, 0, 2, 3};
            colour = mark.kind == Kind::ShowLine    ? material("show line", {0.75, 0.75, 0.75, 1})
                     : mark.kind == Kind::CrowdLine ? material("crowd line", {0.88, 0.19, 0.19, 1})
                                                    : material("runway", {0.4, 0.4, 0.42, 1});
        }
        nodes.push_back(primitiveNode(mark.name, {mesh}, colour));
    }
    return document_.add("nodes", {{"name", "ground"}, {"children", nodes}});
}

int GltfShapes::addCrowdCamera(const data::Site& site) {
    // Its own axes are the scene's: it looks along -z, away from the crowd, a little up.
    const double up_rad = 10 * kPi / 180;  // chosen: the ground's edge stays in sight
    const int camera =
        document_.add("cameras", {{"name", "from the crowd"},
                                  {"type", "perspective"},
                                  {"perspective", {{"yfov", kPi / 3}, {"znear", 1.0}}}});
    const Vec3 eye = sceneFromSite(
        Vec3((site.crowd_x_min_m + site.crowd_x_max_m) / 2, site.crowd_line_y_m, kEye_m));
    return document_.add("nodes",
                         {{"name", "from the crowd"},
                          {"camera", camera},
                          {"translation", {eye.x, eye.y, eye.z}},
                          {"rotation", {std::sin(up_rad / 2), 0.0, 0.0, std::cos(up_rad / 2)}}});
}

int GltfShapes::addMark(double radius_m) {
    Mesh mesh;
    for (const int axis : {0, 1, 2})
        for (const int sign : {1, -1}) {
            Vec3 tip(0);
            tip[axis] = sign * radius_m;
            appendPoint(mesh.points, tip);
        }
    for (const std::uint32_t x : {0u, 1u})
        for (const std::uint32_t y : {2u, 3u})
            for (const std::uint32_t z : {4u, 5u})
                mesh.corners.insert(mesh.corners.end(), {x, y, z});
    return primitiveNode("place, attitude not known", {mesh},
                         material("mark", {0.9, 0.87, 0.79, 1}));
}

}  // namespace plumbline::out
