// The built-in aircraft model as any loader sees it: read by hand, no code of the renderer.

#include <cmath>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include <glm/gtc/quaternion.hpp>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/math/frames.h"

namespace plumbline::scene {
namespace {

struct Part {
    Vec3 origin{0};
    Quat turn{1, 0, 0, 0};
    std::vector<Vec3> places, normals;  ///< in the node's axes
    std::vector<glm::dvec4> colours;
    std::vector<std::uint16_t> indices;
};

struct Model {
    nlohmann::json document;
    std::map<std::string, Part> parts;
    std::size_t bytes = 0;
};

std::uint32_t wordAt(const std::string& bytes, std::size_t at) {
    std::uint32_t word = 0;
    std::memcpy(&word, bytes.data() + at, 4);
    return word;
}

Model readModel() {
    Model model;
    std::ifstream file(std::string(PLUMBLINE_ASSETS) + "/aircraft/plumbline.glb", std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(file)),
                            std::istreambuf_iterator<char>());
    model.bytes = bytes.size();
    if (bytes.size() < 28 || bytes.substr(0, 4) != "glTF") return model;
    const std::uint32_t text_size = wordAt(bytes, 12);
    model.document = nlohmann::json::parse(bytes.substr(20, text_size));
    const std::size_t data = 20 + text_size + 8;
    const auto& doc = model.document;
    for (const auto& node : doc["nodes"]) {
        Part part;
        if (node.contains("translation")) {
            const auto& t = node["translation"];
            part.origin = {t[0], t[1], t[2]};
        }
        if (node.contains("rotation")) {
            const auto& r = node["rotation"];
            part.turn = Quat(r[3], r[0], r[1], r[2]);
        }
        for (const auto& primitive : doc["meshes"][node["mesh"].get<int>()]["primitives"]) {
            const auto offset = static_cast<std::uint16_t>(part.places.size());
            const auto start = [&](const char* name) {
                const auto& accessor = doc["accessors"][primitive["attributes"][name].get<int>()];
                return data + doc["bufferViews"][accessor["bufferView"].get<int>()]["byteOffset"]
                                  .get<std::size_t>();
            };
            const auto& accessor = doc["accessors"][primitive["attributes"]["POSITION"].get<int>()];
            const auto count = accessor["count"].get<std::size_t>();
            for (std::size_t i = 0; i < count; ++i) {
                float p[3], n[3];
                std::memcpy(p, bytes.data() + start("POSITION") + 12 * i, 12);
                std::memcpy(n, bytes.data() + start("NORMAL") + 12 * i, 12);
                part.places.emplace_back(p[0], p[1], p[2]);
                part.normals.emplace_back(n[0], n[1], n[2]);
                glm::dvec4 colour;
                for (int k = 0; k < 4; ++k) {
                    const char byte = bytes[start("COLOR_0") + 4 * i + static_cast<std::size_t>(k)];
                    colour[k] = static_cast<std::uint8_t>(byte);
                }
                part.colours.push_back(colour);
            }
            const auto& list = doc["accessors"][primitive["indices"].get<int>()];
            const std::size_t at =
                data +
                doc["bufferViews"][list["bufferView"].get<int>()]["byteOffset"].get<std::size_t>();
            for (std::size_t i = 0; i < list["count"].get<std::size_t>(); ++i) {
                std::uint16_t index = 0;
                std::memcpy(&index, bytes.data() + at + 2 * i, 2);
                part.indices.push_back(static_cast<std::uint16_t>(index + offset));
            }
        }
        model.parts[node["name"]] = part;
    }
    return model;
}

/// Place of a vertex in the model's axes with its surface turned about the hinge.
Vec3 placed(const Part& part, std::size_t i, double deflection_rad = 0) {
    return part.origin + part.turn * (axisAngle({1, 0, 0}, deflection_rad) * part.places[i]);
}

class AircraftModel : public testing::Test {
protected:
    static void SetUpTestSuite() { model_ = readModel(); }
    static Model model_;
};
Model AircraftModel::model_;

TEST_F(AircraftModel, HasAllItsNodesWithinItsBudget) {
    for (const char* name :
         {"fuselage", "wing", "aileron_left", "aileron_right", "elevator", "rudder",
          "propeller_blades", "propeller_disc", "canopy", "gear", "cockpit"}) {
        EXPECT_EQ(model_.parts.count(name), 1U) << name;
    }
    EXPECT_LT(model_.bytes, 400000U);
    std::size_t triangles = 0;
    for (const auto& [name, part] : model_.parts) triangles += part.indices.size() / 3;
    EXPECT_GT(triangles, 4000U);
    EXPECT_LT(triangles, 9000U);
    EXPECT_NE(model_.document["asset"]["extras"]["colour_space"].get<std::string>().find("display"),
              std::string::npos);
}

TEST_F(AircraftModel, HasItsSizeAndIsSymmetrical) {
    Vec3 low(1e9), high(-1e9);
    for (const auto& [name, part] : model_.parts) {
        for (std::size_t i = 0; i < part.places.size(); ++i) {
            low = glm::min(low, placed(part, i));
            high = glm::max(high, placed(part, i));
        }
    }
    EXPECT_NEAR(high.x - low.x, 7.6, 0.01);
    EXPECT_NEAR(high.x, -low.x, 1e-4);
    EXPECT_NEAR(high.z - low.z, 6.5, 0.1);
    EXPECT_GT(high.z, 2);  // the nose is at +z, the centre of gravity nearer to it
    EXPECT_LT(high.y - low.y, 2.7);
}

TEST_F(AircraftModel, NormalsAreUnitAndFacesTurnWithThem) {
    for (const auto& [name, part] : model_.parts) {
        for (const Vec3& n : part.normals) EXPECT_NEAR(glm::length(n), 1, 1e-5) << name;
        for (std::size_t i = 0; i + 2 < part.indices.size(); i += 3) {
            ASSERT_LT(part.indices[i], part.places.size());
            const Vec3 a = part.places[part.indices[i]], b = part.places[part.indices[i + 1]],
                       c = part.places[part.indices[i + 2]];
            const Vec3 face = glm::cross(b - a, c - a);
            const Vec3 mean = part.normals[part.indices[i]] + part.normals[part.indices[i + 1]] +
                              part.normals[part.indices[i + 2]];
            EXPECT_GE(glm::dot(face, mean), -1e-9) << name;
        }
    }
}

/// Mean place of the vertices that are farthest from the hinge, undeflected and deflected.
void expectMoves(const Part& part, const Vec3& towards) {
    std::size_t farthest = 0;
    const auto fromHinge = [&](std::size_t i) {
        return std::hypot(part.places[i].y, part.places[i].z);
    };
    for (std::size_t i = 0; i < part.places.size(); ++i) {
        if (fromHinge(i) > fromHinge(farthest)) farthest = i;
    }
    EXPECT_GT(fromHinge(farthest), 0.15);
    const Vec3 moved = placed(part, farthest, 0.3) - placed(part, farthest);
    EXPECT_GT(glm::dot(moved, towards), 0.9 * glm::length(moved));
    // The hinge runs through the part: about as much of its depth on either side of the axis.
    double up = 0, down = 0;
    for (const Vec3& p : part.places) {
        up = std::max(up, p.y);
        down = std::max(down, -p.y);
    }
    EXPECT_NEAR(up, down, 0.02);
}

TEST_F(AircraftModel, SurfacesTurnAboutTheirHingesTheWayTheyShould) {
    expectMoves(model_.parts["aileron_left"], {0, 1, 0});
    expectMoves(model_.parts["aileron_right"], {0, 1, 0});
    expectMoves(model_.parts["elevator"], {0, 1, 0});
    // -x is the right wing. The rudder's depth lies across x in the model.
    const Part& rudder = model_.parts["rudder"];
    std::size_t aft = 0;
    for (std::size_t i = 0; i < rudder.places.size(); ++i) {
        if (placed(rudder, i).z < placed(rudder, aft).z) aft = i;
    }
    EXPECT_LT(placed(rudder, aft, 0.3).x - placed(rudder, aft).x, -0.05);
    // A propeller's local x is forward.
    const Vec3 shaft = model_.parts["propeller_disc"].turn * Vec3(1, 0, 0);
    EXPECT_NEAR(shaft.z, 1, 1e-6);
}

TEST_F(AircraftModel, TheLeftWingAloneCarriesABand) {
    const Part& wing = model_.parts["wing"];
    const glm::dvec4 indigo(0x1b, 0x1f, 0x45, 255), bone(0xe6, 0xde, 0xca, 255);
    int left_above = 0, left_below = 0, right_above = 0, right_below = 0;
    for (std::size_t i = 0; i < wing.places.size(); ++i) {
        const double part = wing.places[i].x / 3.8;
        if (std::abs(part) < 0.60 || std::abs(part) > 0.80) continue;
        const bool above = wing.normals[i].y > 0.5, below = wing.normals[i].y < -0.5;
        if (above && wing.colours[i] == indigo) ++(part > 0 ? left_above : right_above);
        if (below && wing.colours[i] == bone) ++(part > 0 ? left_below : right_below);
    }
    EXPECT_GT(left_above, 3);
    EXPECT_GT(left_below, 3);
    EXPECT_EQ(right_above, 0);
    EXPECT_EQ(right_below, 0);
}

}  // namespace
}  // namespace plumbline::scene
