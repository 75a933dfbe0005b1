#pragma once
// What stands still in a glTF scene: the path, the ground's lines, a mark, a camera.

#include <string>
#include <vector>

#include "engine/data/site.h"
#include "engine/out/gltf_document.h"
#include "engine/out/gltf_motion.h"

namespace plumbline::out {

/// Three floats more.
void appendPoint(std::vector<float>& numbers, const Vec3& point);

/// Adds nodes to a document; materials that it needs are made once each.
class GltfShapes {
public:
    explicit GltfShapes(GltfDocument& document) : document_(document) {}

    /// A line and, where the attitude is shown, a ribbon across the wings for each figure.
    int addPath(const path::Path& path, const MotionKeys& keys, double span_m,
                const std::string& title);
    int addGround(const data::Site& site);
    /// An eye at the middle of the crowd line.
    int addCrowdCamera(const data::Site& site);
    /// A body without front or wings.
    int addMark(double radius_m);

private:
    struct Mesh {
        std::vector<float> points;
        std::vector<std::uint32_t> corners;  ///< of triangles; none: a line through the points
    };
    int material(const char* name, const std::array<double, 4>& display_colour);
    int primitiveNode(const std::string& name, const std::vector<Mesh>& meshes, int material);

    GltfDocument& document_;
};

}  // namespace plumbline::out
