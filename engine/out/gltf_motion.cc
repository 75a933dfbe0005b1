#include "engine/out/gltf_motion.h"

#include <algorithm>
#include <cmath>

#include "engine/out/thin.h"

namespace plumbline::out {

namespace {

/// A file's clock has 24 bits: what that costs is part of the error.
double keyTime(const path::Sample& sample) {
    return static_cast<double>(static_cast<float>(sample.time_s));
}

/// Angle between two attitudes.
double angleBetween(const Quat& a, const Quat& b) {
    return glm::length(vectorFromRotation(glm::conjugate(a) * b));
}

/// Of those given, in order, the ones whose times differ in single precision; the last one stays.
std::vector<std::size_t> apartInTime(const std::vector<path::Sample>& samples,
                                     const std::vector<std::size_t>& indices) {
    std::vector<std::size_t> out;
    for (const std::size_t i : indices) {
        if (!out.empty() && !(keyTime(samples[i]) > keyTime(samples[out.back()]))) out.pop_back();
        if (out.empty() || keyTime(samples[i]) > keyTime(samples[out.back()])) out.push_back(i);
    }
    return out;
}

}  // namespace

MotionKeys motionKeys(const path::Path& path, double place_m, double attitude_rad) {
    const std::vector<path::Sample>& all = path.samples;
    MotionKeys keys;
    std::vector<std::size_t> every(all.size()), shown;
    bool before = false;
    for (std::size_t i = 0; i < all.size(); ++i) {
        every[i] = i;
        const bool now = path::attitudeShown(path, all[i]);
        if (now) shown.push_back(i);
        if (i == 0) keys.shown_first = now;
        if (i > 0 && now != before) keys.changes.push_back(i);
        before = now;
    }
    const auto pick = [&](const std::vector<std::size_t>& from, const auto& near) {
        const std::vector<std::size_t> in = apartInTime(all, from);
        std::vector<std::size_t> out;
        for (const std::size_t k : thinned(in.size(), [&](std::size_t a, std::size_t b) {
                 const double start_s = keyTime(all[in[a]]), stop_s = keyTime(all[in[b]]);
                 for (std::size_t i = a + 1; i < b; ++i) {
                     const double u = (all[in[i]].time_s - start_s) / (stop_s - start_s);
                     if (!near(all[in[a]], all[in[b]], all[in[i]], u)) return false;
                 }
                 return true;
             }))
            out.push_back(in[k]);
        return out;
    };
    keys.places = pick(every, [place_m](const path::Sample& a, const path::Sample& b,
                                        const path::Sample& at, double u) {
        return glm::length(a.position_S_m + u * (b.position_S_m - a.position_S_m) -
                           at.position_S_m) < place_m;
    });
    keys.attitudes = pick(shown, [attitude_rad](const path::Sample& a, const path::Sample& b,
                                                const path::Sample& at, double u) {
        const Vec3 turn_rad = vectorFromRotation(glm::conjugate(a.q_SB) * b.q_SB);
        return angleBetween(a.q_SB * rotationFromVector(u * turn_rad), at.q_SB) < attitude_rad;
    });
    return keys;
}

}  // namespace plumbline::out
