// Read back by tinygltf, which shares nothing with the writer; Khronos' own validator looks at
// files of every kind in tests/gltf.
#include "engine/out/flight_glb.h"

#include <algorithm>
#include <cmath>

#include "tests/engine/out/gltf_read_back.h"
#include "tests/engine/out/made_flight.h"

namespace plumbline::out {
namespace {

using test::nodeNamed;
using test::noseAt;
using test::placeAt;
using test::rightWingAt;
using test::rowsOf;
using test::samplerOf;
using test::sceneMatrix;

/// Site to scene, by the words of the header: x to crowd right, y up, the crowd at positive z.
Vec3 scene(const Vec3& p_S) { return {p_S.x, p_S.z, -p_S.y}; }

Vec3 turned(const glm::dmat4& m, const Vec3& direction) {
    return glm::normalize(Vec3(m * glm::dvec4(direction, 0)));
}
double apart_deg(const Vec3& a, const Vec3& b) {
    return std::acos(std::clamp(glm::dot(a, b), -1.0, 1.0)) * 180 / kPi;
}

std::string glbOf(const Flight& flight) {
    const Expected<std::string, std::string> bytes = flightGlb(flight);
    EXPECT_TRUE(bytes) << bytes.error();
    return bytes ? *bytes : std::string();
}

/// Least and greatest corner of a node's meshes and all below it, in the scene.
struct Extent {
    Vec3 low{1e9}, high{-1e9};
};
void measure(const tinygltf::Model& model, int index, double time_s, Extent& extent) {
    const tinygltf::Node& node = model.nodes[std::size_t(index)];
    if (node.mesh >= 0)
        for (const auto& primitive : model.meshes[std::size_t(node.mesh)].primitives)
            for (const auto& p : rowsOf(model, primitive.attributes.at("POSITION"))) {
                const Vec3 at(sceneMatrix(model, index, time_s) * glm::dvec4(p[0], p[1], p[2], 1));
                extent.low = glm::min(extent.low, at);
                extent.high = glm::max(extent.high, at);
            }
    for (const int child : node.children) measure(model, child, time_s, extent);
}

TEST(FlightGlb, FliesThePathWithinItsBounds) {
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight()));
    const int aircraft = nodeNamed(model, "aircraft");
    ASSERT_GE(aircraft, 0);
    double farthest_m = 0, most_deg = 0;
    for (double time_s = 0; time_s <= 20; time_s += 0.0137) {
        const glm::dmat4 m = sceneMatrix(model, aircraft, time_s);
        farthest_m = std::max(farthest_m, glm::length(Vec3(m[3]) - scene(placeAt(time_s))));
        // glTF 2.0, 3.4: +y up, the front of an asset faces +z, so its left is +x.
        most_deg = std::max(most_deg, apart_deg(turned(m, {0, 0, 1}), scene(noseAt(time_s))));
        most_deg = std::max(most_deg, apart_deg(turned(m, {-1, 0, 0}), scene(rightWingAt(time_s))));
    }
    // Between samples a hair more than at them: 50 m/s and 25 m/s2 over a hundredth of a second.
    EXPECT_LT(farthest_m, kGlbPlace_m + 0.001);
    EXPECT_LT(most_deg, 0.2 + 0.01);
    // The bounds are made use of.
    EXPECT_GT(farthest_m, 0.5 * kGlbPlace_m);
    EXPECT_GT(most_deg, 0.1);
    const auto* places = samplerOf(model, nodeNamed(model, "flight"), "translation");
    ASSERT_NE(places, nullptr);
    EXPECT_LT(rowsOf(model, places->input).size(), 2001u / 8);
}

TEST(FlightGlb, EndsWithThePath) {
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight()));
    for (const char* name : {"flight", "aircraft"}) {
        const auto* sampler = samplerOf(model, nodeNamed(model, name),
                                        name == std::string("flight") ? "translation" : "rotation");
        ASSERT_NE(sampler, nullptr);
        const auto times = rowsOf(model, sampler->input);
        EXPECT_EQ(times.front()[0], 0);
        EXPECT_EQ(times.back()[0], 20);
        for (std::size_t i = 1; i < times.size(); ++i) ASSERT_GT(times[i][0], times[i - 1][0]);
    }
}

TEST(FlightGlb, LongRecordingsKeepTheirTimesApart) {
    // Ten hours in, single precision tells times 4 ms apart: a thousand samples a second are more.
    auto path = test::madePath(2, 1000);
    for (path::Sample& sample : path->samples) sample.time_s += 36000;
    path->samples.front().time_s = 0;
    path->figures.clear();
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight(path)));
    const auto* places = samplerOf(model, nodeNamed(model, "flight"), "translation");
    ASSERT_NE(places, nullptr);
    const auto times = rowsOf(model, places->input);
    for (std::size_t i = 1; i < times.size(); ++i) ASSERT_GT(times[i][0], times[i - 1][0]);
}

TEST(FlightGlb, TheBuiltInAircraftIsAsWideAsItsFileSays) {
    Flight flight = test::madeFlight();
    flight.model.span_m = 9.5;
    const tinygltf::Model model = test::readGlb(glbOf(flight));
    Extent extent;
    measure(model, nodeNamed(model, "aircraft"), 0, extent);
    // It starts level to crowd right: the wings lie along z.
    EXPECT_NEAR(extent.high.z - extent.low.z, 9.5, 1e-3);
    EXPECT_NEAR((extent.high.z + extent.low.z) / 2, -test::kY_m, 1e-3);
}

TEST(FlightGlb, EachFigureHasItsLineAndRibbon) {
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight()));
    for (const auto& [name, start_s, stop_s] :
         {std::tuple("First", 0.0, 10.0), std::tuple("Second", 10.0, 20.0)}) {
        const int node = nodeNamed(model, name);
        ASSERT_GE(node, 0);
        EXPECT_EQ(model.nodes[std::size_t(node)].extras.Get("start_s").GetNumberAsDouble(),
                  start_s);
        const auto& mesh = model.meshes[std::size_t(model.nodes[std::size_t(node)].mesh)];
        ASSERT_EQ(mesh.primitives.size(), 2u);
        const auto line = rowsOf(model, mesh.primitives[0].attributes.at("POSITION"));
        EXPECT_EQ(mesh.primitives[0].mode, TINYGLTF_MODE_LINE_STRIP);
        for (const auto& [row, time_s] :
             {std::pair(line.front(), start_s), std::pair(line.back(), stop_s)})
            EXPECT_LT(glm::length(Vec3(row[0], row[1], row[2]) - scene(placeAt(time_s))), 1e-3);
        // Every point of the ribbon lies on a wing: straight out from the path's circle.
        for (const auto& row : rowsOf(model, mesh.primitives[1].attributes.at("POSITION"))) {
            const double out_m = std::hypot(row[0], row[1] - 200) - test::kRadius_m;
            EXPECT_NEAR(std::hypot(out_m, row[2] + test::kY_m), 0.2 * 7.6, 0.02);
        }
    }
}

TEST(FlightGlb, TheGroundLiesWhereTheSiteSays) {
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight()));
    Extent crowd, runway;
    ASSERT_GE(nodeNamed(model, "Crowd line"), 0);
    measure(model, nodeNamed(model, "Crowd line"), 0, crowd);
    EXPECT_NEAR(crowd.low.x, -300, 1e-3);
    EXPECT_NEAR(crowd.high.x, 300, 1e-3);
    EXPECT_NEAR((crowd.low.z + crowd.high.z) / 2, 150, 1e-3);
    ASSERT_GE(nodeNamed(model, "Runway 07/25"), 0);
    measure(model, nodeNamed(model, "Runway 07/25"), 0, runway);
    EXPECT_NEAR(runway.high.x - runway.low.x, 900, 1e-2);
    EXPECT_NEAR(runway.high.z - runway.low.z, 30, 1e-2);
    EXPECT_EQ(runway.low.y, 0);
}

TEST(FlightGlb, AnUnknownAttitudeIsNotShown) {
    auto path = test::madePath();
    path->known.attitude = path->known.bank = false;
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight(path)));
    for (const auto& channel : model.animations.at(0).channels)
        EXPECT_EQ(channel.target_path, "translation");
    EXPECT_EQ(nodeNamed(model, "aircraft"), -1);
    EXPECT_EQ(nodeNamed(model, "fuselage"), -1);
    EXPECT_GE(nodeNamed(model, "place, attitude not known"), 0);
    const auto& mesh =
        model.meshes[std::size_t(model.nodes[std::size_t(nodeNamed(model, "First"))].mesh)];
    EXPECT_EQ(mesh.primitives.size(), 1u);  // no ribbon: it would tell a bank
}

TEST(FlightGlb, WhereTheAttitudeIsUnsureAMarkTakesItsPlace) {
    auto path = test::madePath();
    for (path::Sample& sample : path->samples)
        if (sample.time_s >= 5 && sample.time_s < 8) sample.attitude_sigma_rad = 1;
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight(path)));
    const int aircraft = nodeNamed(model, "aircraft");
    const int mark = nodeNamed(model, "place, attitude not known");
    ASSERT_GE(aircraft, 0);
    ASSERT_GE(mark, 0);
    for (const auto& [time_s, shown] :
         {std::pair(1.0, 1.0), std::pair(4.98, 1.0), std::pair(5.02, 0.0), std::pair(7.98, 0.0),
          std::pair(8.02, 1.0), std::pair(20.0, 1.0)}) {
        EXPECT_EQ(test::valueAt(model, *samplerOf(model, aircraft, "scale"), time_s)[0], shown);
        EXPECT_EQ(test::valueAt(model, *samplerOf(model, mark, "scale"), time_s)[0], 1 - shown);
    }
}

TEST(FlightGlb, OneSampleStandsStill) {
    auto path = test::madePath();
    path->samples.resize(1);
    path->figures.clear();
    const tinygltf::Model model = test::readGlb(glbOf(test::madeFlight(path)));
    const Vec3 at(sceneMatrix(model, nodeNamed(model, "flight"), 0)[3]);
    EXPECT_LT(glm::length(at - scene(placeAt(0))), 1e-4);
}

TEST(FlightGlb, TheSameFlightGivesTheSameBytes) {
    EXPECT_EQ(glbOf(test::madeFlight()), glbOf(test::madeFlight()));
}

}  // namespace
}  // namespace plumbline::out
