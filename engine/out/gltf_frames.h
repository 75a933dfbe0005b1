#pragma once
// glTF's axes: the one place where they are met.
//
//   G  the scene: x along the show line to crowd right, y up, z towards the crowd, so that a
//      viewer's usual front view is the crowd's
//   M  a model: x left wing, y up, z to the nose

#include <glm/ext/vector_float3.hpp>

#include "engine/math/frames.h"

namespace plumbline::out {

inline Vec3 sceneFromSite(const Vec3& p_S) { return {p_S.x, p_S.z, -p_S.y}; }

/// The rotation of a model that has the attitude q_SB.
inline Quat modelRotation(const Quat& q_SB) {
    const Quat q_GS = rotationX(-kPi / 2);
    const Quat q_BM = quatFromAxes(Vec3(0, -1, 0), Vec3(0, 0, -1), Vec3(1, 0, 0));
    return q_GS * q_SB * q_BM;
}

}  // namespace plumbline::out
