#pragma once
// Exported scenes read by tinygltf and moved as the glTF specification says.

#include <cstring>
#include <string>
#include <vector>

#include <glm/ext/matrix_double4x4.hpp>
#include <glm/ext/matrix_transform.hpp>
#include <glm/gtc/quaternion.hpp>
#include <gtest/gtest.h>
#define TINYGLTF_NO_INCLUDE_STB_IMAGE
#define TINYGLTF_NO_INCLUDE_STB_IMAGE_WRITE
#include <tiny_gltf.h>

namespace plumbline::test {

inline tinygltf::Model readGlb(const std::string& bytes) {
    tinygltf::TinyGLTF loader;
    tinygltf::Model model;
    std::string error, warning;
    EXPECT_TRUE(loader.LoadBinaryFromMemory(&model, &error, &warning,
                                            reinterpret_cast<const unsigned char*>(bytes.data()),
                                            static_cast<unsigned>(bytes.size())))
        << error;
    EXPECT_EQ(error + warning, "");
    return model;
}

inline int nodeNamed(const tinygltf::Model& model, const std::string& name) {
    for (std::size_t i = 0; i < model.nodes.size(); ++i)
        if (model.nodes[i].name == name) return static_cast<int>(i);
    return -1;
}

/// The floats of an accessor, so many a row.
inline std::vector<std::vector<double>> rowsOf(const tinygltf::Model& model, int index) {
    const auto& accessor = model.accessors.at(static_cast<std::size_t>(index));
    const auto& view = model.bufferViews.at(static_cast<std::size_t>(accessor.bufferView));
    const auto& data = model.buffers.at(0).data;
    const auto width =
        static_cast<std::size_t>(tinygltf::GetNumComponentsInType(unsigned(accessor.type)));
    EXPECT_EQ(accessor.componentType, TINYGLTF_COMPONENT_TYPE_FLOAT);
    std::vector<std::vector<double>> rows(accessor.count, std::vector<double>(width));
    for (std::size_t i = 0; i < accessor.count * width; ++i) {
        float number = 0;
        std::memcpy(&number, data.data() + view.byteOffset + accessor.byteOffset + 4 * i, 4);
        rows[i / width][i % width] = static_cast<double>(number);
    }
    return rows;
}

/// The sampler that moves a property of a node, or null.
inline const tinygltf::AnimationSampler* samplerOf(const tinygltf::Model& model, int node,
                                                   const std::string& property) {
    if (model.animations.empty()) return nullptr;
    const tinygltf::Animation& animation = model.animations.front();
    for (const auto& channel : animation.channels)
        if (channel.target_node == node && channel.target_path == property)
            return &animation.samplers.at(static_cast<std::size_t>(channel.sampler));
    return nullptr;
}

/// Appendix C of the specification: LINEAR, slerp for rotations; STEP.
inline std::vector<double> valueAt(const tinygltf::Model& model,
                                   const tinygltf::AnimationSampler& sampler, double time_s) {
    const auto times = rowsOf(model, sampler.input);
    const auto values = rowsOf(model, sampler.output);
    EXPECT_EQ(times.size(), values.size());
    std::size_t k = 0;
    while (k + 1 < times.size() && times[k + 1][0] <= time_s) ++k;
    if (sampler.interpolation == "STEP" || k + 1 == times.size() || time_s <= times[0][0])
        return values[k];
    const double u = (time_s - times[k][0]) / (times[k + 1][0] - times[k][0]);
    const auto& a = values[k];
    const auto& b = values[k + 1];
    if (a.size() == 4) {
        const glm::dquat q =
            glm::slerp(glm::dquat(a[3], a[0], a[1], a[2]), glm::dquat(b[3], b[0], b[1], b[2]), u);
        return {q.x, q.y, q.z, q.w};
    }
    std::vector<double> out(a.size());
    for (std::size_t i = 0; i < a.size(); ++i) out[i] = a[i] + u * (b[i] - a[i]);
    return out;
}

/// From a node's own axes to its parent's.
inline glm::dmat4 localMatrix(const tinygltf::Model& model, int index, double time_s) {
    const tinygltf::Node& node = model.nodes.at(static_cast<std::size_t>(index));
    const auto part = [&](const std::string& property, std::vector<double> fixed,
                          std::vector<double> usual) {
        if (const auto* sampler = samplerOf(model, index, property))
            return valueAt(model, *sampler, time_s);
        return fixed.empty() ? usual : fixed;
    };
    const auto t = part("translation", node.translation, {0, 0, 0});
    const auto r = part("rotation", node.rotation, {0, 0, 0, 1});
    const auto s = part("scale", node.scale, {1, 1, 1});
    glm::dmat4 out = glm::translate(glm::dmat4(1), glm::dvec3(t[0], t[1], t[2]));
    out = out * glm::mat4_cast(glm::dquat(r[3], r[0], r[1], r[2]));
    return glm::scale(out, glm::dvec3(s[0], s[1], s[2]));
}

/// From a node's axes to the scene's.
inline glm::dmat4 sceneMatrix(const tinygltf::Model& model, int index, double time_s) {
    glm::dmat4 out = localMatrix(model, index, time_s);
    for (std::size_t i = 0; i < model.nodes.size(); ++i)
        for (const int child : model.nodes[i].children)
            if (child == index) return sceneMatrix(model, static_cast<int>(i), time_s) * out;
    return out;
}

}  // namespace plumbline::test
