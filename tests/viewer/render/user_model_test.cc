// Aircraft models as users bring them: other axes, other places, textures.

#include <cstring>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "viewer/render/aircraft_model.h"

namespace plumbline::render {
namespace {

/// RFC 4648.
std::string base64(const std::vector<std::uint8_t>& bytes) {
    const char* digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        std::uint32_t group = 0;
        for (std::size_t k = 0; k < 3; ++k) {
            group = group << 8 | (i + k < bytes.size() ? bytes[i + k] : 0U);
        }
        for (std::size_t k = 0; k < 4; ++k) {
            out += i + k > bytes.size() ? '=' : digits[group >> (18 - 6 * k) & 63U];
        }
    }
    return out;
}

std::string utf8(const std::filesystem::path& path) {
    const std::u8string text = path.generic_u8string();
    return {text.begin(), text.end()};
}

/// A .gltf of one mesh whose triangles take the points in turn.
std::string gltfOf(const std::vector<glm::vec3>& points) {
    std::vector<std::uint8_t> bytes(points.size() * sizeof(glm::vec3));
    std::memcpy(bytes.data(), points.data(), bytes.size());
    const std::string length = std::to_string(bytes.size());
    return R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0}],
"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
"accessors":[{"bufferView":0,"componentType":5126,"count":)" +
           std::to_string(points.size()) +
           R"(,"type":"VEC3","min":[-9,-9,-9],"max":[9,9,9]}],
"bufferViews":[{"buffer":0,"byteLength":)" +
           length + R"(}],"buffers":[{"byteLength":)" + length +
           R"(,"uri":"data:application/octet-stream;base64,)" + base64(bytes) + "\"}]}";
}

Expected<AircraftModel, std::string> read(const std::vector<glm::vec3>& points,
                                          const ModelAxes& axes = {}) {
    const std::string text = gltfOf(points);
    return readAircraftModel(reinterpret_cast<const std::uint8_t*>(text.data()), text.size(), "",
                             axes);
}

/// Left tip, right tip and nose of an aeroplane of 8 m span and 3 m from wing to nose, and a fin.
/// @param left, up, nose  the file's own axes
std::vector<glm::vec3> aeroplane(glm::vec3 left, glm::vec3 up, glm::vec3 nose) {
    return {4.0F * left,  -4.0F * left, 3.0F * nose,
            -3.0F * nose, -2.0F * nose, -3.0F * nose + 1.5F * up};
}

glm::vec3 bodyPoint(const AircraftModel& model, std::size_t i) {
    return glm::vec3(model.parts[0].body_from_node * glm::vec4(model.vertices[i].position, 1));
}

TEST(UserModel, StandsUprightWhicheverWayItsFileHoldsIt) {
    const glm::vec3 x(1, 0, 0), y(0, 1, 0), z(0, 0, 1);
    struct Case {
        glm::vec3 left, up, nose;
        ModelAxes axes;
    };
    const Case cases[] = {{x, y, z, {}},
                          {-x, y, -z, {"-z", "+y"}},
                          {y, z, x, {"+x", "+z"}},
                          {z, y, -x, {"-x", "+y"}}};
    for (const Case& c : cases) {
        const auto model = read(aeroplane(c.left, c.up, c.nose), c.axes);
        ASSERT_TRUE(model.has_value()) << model.error();
        EXPECT_FLOAT_EQ(model->span_m, 8);
        EXPECT_LT(glm::length(bodyPoint(*model, 0) - glm::vec3(0, -4, 0)), 1e-5F);
        EXPECT_LT(glm::length(bodyPoint(*model, 2) - glm::vec3(3, 0, 0)), 1e-5F);
        EXPECT_LT(glm::length(bodyPoint(*model, 5) - glm::vec3(-3, 0, -1.5)), 1e-5F);
    }
}

TEST(UserModel, RefusesWhatCannotBeAnAeroplaneAndSaysWhichKeysToSet) {
    const glm::vec3 x(1, 0, 0), y(0, 1, 0), z(0, 0, 1);
    // Its nose points along +y, which glTF calls up.
    const auto standing = read(aeroplane(0.5F * x, z, 2.0F * y));
    ASSERT_FALSE(standing.has_value());
    EXPECT_NE(standing.error().find("model_nose"), std::string::npos) << standing.error();
    const auto same = read(aeroplane(x, y, z), {"+y", "-y"});
    ASSERT_FALSE(same.has_value());
    EXPECT_NE(same.error().find("a different letter"), std::string::npos) << same.error();
    EXPECT_FALSE(read(aeroplane(x, y, z), {"z", "+y"}).has_value());
    EXPECT_FALSE(read({glm::vec3(0), glm::vec3(0), glm::vec3(0)}).has_value());
}

TEST(UserModel, OneThatLiesFarFromItsOriginIsBroughtThere) {
    std::vector<glm::vec3> points = aeroplane({1, 0, 0}, {0, 1, 0}, {0, 0, 1});
    for (glm::vec3& p : points) p += glm::vec3(200, 30, -70);
    const auto model = read(points);
    ASSERT_TRUE(model.has_value()) << model.error();
    EXPECT_NEAR(model->span_m, 8, 1e-3F);
    EXPECT_LT(glm::length(bodyPoint(*model, 0) - glm::vec3(0, -4, 0.75)), 1e-3F);
}

TEST(UserModel, NothingBeyondItsFolderIsRead) {
    namespace fs = std::filesystem;
    const fs::path folder = fs::path(testing::TempDir()) / "user_model" / "below";
    fs::create_directories(folder);
    const std::vector<glm::vec3> points = aeroplane({1, 0, 0}, {0, 1, 0}, {0, 0, 1});
    for (const fs::path& place : {folder, folder.parent_path()})
        std::ofstream(place / "my points.bin", std::ios::binary)
            .write(reinterpret_cast<const char*>(points.data()),
                   static_cast<std::streamsize>(points.size() * sizeof(glm::vec3)));
    const auto naming = [&](const std::string& uri) {
        std::string text = gltfOf(points);
        const std::size_t at = text.find("data:");
        text.replace(at, text.find('"', at) - at, uri);
        return readAircraftModel(reinterpret_cast<const std::uint8_t*>(text.data()), text.size(),
                                 utf8(folder), {});
    };
    const auto beside = naming("my%20points.bin");
    EXPECT_TRUE(beside.has_value()) << beside.error();
    const std::string whole = utf8(folder / "my points.bin");
    for (const std::string& uri :
         {std::string("../my%20points.bin"), std::string("..%2fmy%20points.bin"),
          std::string("%2e%2e/my points.bin"), whole, "file://" + whole, "file:" + whole}) {
        const auto model = naming(uri);
        ASSERT_FALSE(model.has_value()) << uri;
        const bool said = model.error().find("outside its folder") != std::string::npos ||
                          model.error().find("not fetched") != std::string::npos;
        EXPECT_TRUE(said) << model.error();
    }
    fs::remove_all(folder.parent_path());
}

}  // namespace
}  // namespace plumbline::render
