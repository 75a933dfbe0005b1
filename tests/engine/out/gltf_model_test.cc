// A user's aircraft model in an exported scene.
#include "engine/out/gltf_model.h"

#include <map>

#include "engine/out/flight_glb.h"
#include "tests/engine/out/gltf_read_back.h"
#include "tests/engine/out/made_flight.h"

namespace plumbline::out {
namespace {

using Json = nlohmann::json;

/// Files by their names.
load::FileSource holding(std::map<std::string, std::string> files) {
    return [files](const std::filesystem::path& path) {
        system::ReadFile read;
        const auto found = files.find(path.generic_string());
        if (found == files.end())
            read.reason = "no such file";
        else
            read.bytes = found->second;
        return read;
    };
}

std::string bytesOf(const std::vector<float>& numbers) {
    return std::string(reinterpret_cast<const char*>(numbers.data()), 4 * numbers.size());
}

/// A dart in a frame of its own: nose to -x, canopy to +z, wings 2 wide along y, its middle far
/// from its origin. Its corners: nose, two wing tips, a fin.
struct Dart {
    std::vector<float> corners = {98, 50, 0, 101, 49, 0, 101, 51, 0, 101, 50, 0.5F};
    Json json = Json::parse(R"({
        "asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}],
        "nodes": [{"name": "dart", "mesh": 0}],
        "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],
        "accessors": [
            {"bufferView": 0, "componentType": 5126, "count": 4, "type": "VEC3",
             "min": [98, 49, 0], "max": [101, 51, 0.5]},
            {"bufferView": 1, "componentType": 5123, "count": 6, "type": "SCALAR"}],
        "bufferViews": [{"buffer": 0, "byteLength": 48}, {"buffer": 1, "byteLength": 12}],
        "buffers": [{"uri": "dart%20points.bin", "byteLength": 48},
                    {"uri": "data:application/octet-stream;base64,AAABAAIAAAACAAMA",
                     "byteLength": 12}]})");

    load::FileSource files() const {
        return holding(
            {{"models/dart.gltf", json.dump()}, {"models/dart points.bin", bytesOf(corners)}});
    }
    Flight flight() const {
        Flight flight = test::madeFlight();
        flight.model = {"models/dart.gltf", "-x", "+z", 8};
        return flight;
    }
};

TEST(GltfModel, AUsersModelIsTurnedScaledAndTakenIn) {
    const Dart dart;
    const Expected<std::string, std::string> bytes = flightGlb(dart.flight(), dart.files());
    ASSERT_TRUE(bytes) << bytes.error();
    const tinygltf::Model model = test::readGlb(*bytes);
    EXPECT_EQ(model.buffers.size(), 1u);
    EXPECT_TRUE(model.buffers[0].uri.empty());
    const int node = test::nodeNamed(model, "dart");
    ASSERT_GE(node, 0);
    const int accessor =
        model.meshes[std::size_t(model.nodes[std::size_t(node)].mesh)].primitives[0].attributes.at(
            "POSITION");
    const glm::dmat4 m = test::sceneMatrix(model, node, 0);
    std::vector<Vec3> at;
    for (const auto& p : test::rowsOf(model, accessor))
        at.push_back(Vec3(m * glm::dvec4(p[0], p[1], p[2], 1)));
    // Level to crowd right at the start: nose to +x, canopy to +y, right wing to the crowd's +z.
    // Span 2 becomes 8, so all is four times as large; the middle flies along the path.
    const Vec3 place(0, 100, -test::kY_m);
    const auto near = [](const Vec3& a, const Vec3& b) { return glm::length(a - b) < 1e-3; };
    EXPECT_TRUE(near(at[0] - place, {6, -1, 0})) << at[0].x << " " << at[0].y << " " << at[0].z;
    EXPECT_TRUE(near(at[3] - place, {-6, 1, 0}));
    EXPECT_NEAR(std::abs(at[1].z - at[2].z), 8, 1e-3);
    // Flown to -x with z up, +y is the right wing.
    EXPECT_NEAR(at[2].z - place.z, 4, 1e-3);
}

TEST(GltfModel, IndicesOfADataUriArriveUnchanged) {
    const Dart dart;
    const Expected<GltfModel, std::string> model = readGltfModel(dart.flight().model, dart.files());
    ASSERT_TRUE(model) << model.error();
    const Json& view = model->document.json["bufferViews"][1];
    const std::string bytes = model->document.bin.substr(view["byteOffset"].get<std::size_t>(), 12);
    EXPECT_EQ(bytes, std::string("\0\0\1\0\2\0\0\0\2\0\3\0", 12));
}

TEST(GltfModel, WhatCannotBeUsedIsSaid) {
    const auto refused = [](const Dart& dart, const load::FileSource& files) {
        const Expected<std::string, std::string> bytes = flightGlb(dart.flight(), files);
        EXPECT_FALSE(bytes);
        return bytes ? std::string() : bytes.error();
    };
    Dart dart;
    EXPECT_EQ(refused(dart, holding({})), "no such file");
    EXPECT_NE(refused(dart, holding({{"models/dart.gltf", dart.json.dump()}})).find("dart points"),
              std::string::npos);
    EXPECT_NE(refused(dart, holding({{"models/dart.gltf", dart.json.dump()},
                                     {"models/dart points.bin", "short"}}))
                  .find("cut short"),
              std::string::npos);
    EXPECT_EQ(refused(dart, holding({{"models/dart.gltf", "solid dart"}})), "it is no glTF");
    EXPECT_EQ(refused(dart, holding({{"models/dart.gltf", "glTF\2\0\0\0\xFF\xFF\xFF\xFF"}})),
              "it is no glTF");

    const auto changed = [&](const char* pointer, const Json& value) {
        Dart other;
        other.json[Json::json_pointer(pointer)] = value;
        return refused(other, other.files());
    };
    EXPECT_EQ(changed("/asset/version", "1.0"), "it is not glTF 2.0");
    EXPECT_EQ(changed("/scenes", Json::array()), "it has no scene");
    EXPECT_NE(changed("/buffers/0/uri", "https://example.org/a.bin").find("not fetched"),
              std::string::npos);
    EXPECT_NE(changed("/buffers/0/uri", "../dart%20points.bin").find("outside its folder"),
              std::string::npos);
    EXPECT_NE(changed("/buffers/0/uri", "%2Fetc/hostname").find("outside its folder"),
              std::string::npos);
    for (const char* outside :
         {"..%2fdart%20points.bin", "below/%2e%2e/%2e%2e/a.bin", "/etc/hostname", "%2e%2e"})
        EXPECT_NE(changed("/buffers/0/uri", outside).find("outside its folder"), std::string::npos)
            << outside;
    for (const char* address : {"file:///etc/hostname", "file:/etc/hostname", "FILE:a.bin"})
        EXPECT_NE(changed("/buffers/0/uri", address).find("not fetched"), std::string::npos)
            << address;
    for (const char* no_name : {"file%3a/etc/hostname", "a%00.bin"})
        EXPECT_NE(changed("/buffers/0/uri", no_name).find("no file's name"), std::string::npos)
            << no_name;
    Json nested = 1;
    for (int i = 0; i < 200; ++i) nested = Json::array({std::move(nested)});
    EXPECT_NE(changed("/extras", nested).find("deeper than 100"), std::string::npos);
    EXPECT_NE(changed("/buffers/1/uri", "data:,a").find("base 64"), std::string::npos);
    EXPECT_NE(changed("/bufferViews/0/byteLength", 64).find("outside"), std::string::npos);
    EXPECT_NE(changed("/bufferViews/0/buffer", 7).find("outside"), std::string::npos);
    EXPECT_NE(changed("/bufferViews/0/buffer", "one").find("no valid glTF"), std::string::npos);
    EXPECT_NE(changed("/nodes/0/mesh", 9).find("no valid glTF"), std::string::npos);
    EXPECT_EQ(changed("/scenes/0/nodes", Json::array()), "it has nothing to draw");
    dart.json["nodes"][0]["children"] = {0};  // its own child
    EXPECT_EQ(refused(dart, dart.files()), "its nodes are nested wrongly");

    Flight flight = Dart().flight();
    flight.model.up = "-x";
    const Expected<std::string, std::string> bytes = flightGlb(flight, Dart().files());
    ASSERT_FALSE(bytes);
    EXPECT_NE(bytes.error().find("no two axes"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::out
