#include "engine/review/slides.h"

#include <algorithm>
#include <cmath>

#include "engine/review/doubts.h"

namespace plumbline::review {

SlideMeasure measureSlide(const path::Path& path, const Piece& slide, double late_s) {
    SlideMeasure m;
    const double stop_s = std::max(slide.start_s, slide.stop_s - late_s);
    const path::Sample end = path::sampleAt(path, stop_s);
    const path::Sample first = path::sampleAt(path, slide.start_s);
    path::Sample top = first;
    for (std::size_t i = path::sampleIndexAt(path, slide.start_s);
         i < path.samples.size() && path.samples[i].time_s <= stop_s; ++i) {
        const path::Sample& s = path.samples[i];
        if (s.time_s < slide.start_s) continue;
        if (s.position_S_m.z > top.position_S_m.z) top = s;
        const double back_mps = -glm::dot(rotate(s.q_SB, Vec3(1, 0, 0)), s.velocity_S_mps);
        m.fastest_mps = std::max(m.fastest_mps, back_mps);
    }
    // The piece may begin when the aircraft is on its way back already.
    m.way_m = top.position_S_m.z - end.position_S_m.z;
    const double sigma_m = placeSigma_m(end);
    if (sigma_m > 0) {
        constexpr double kEnd_s = 0.03;  // chosen: where the swing begins is told to about so much
        m.sigma_m = std::hypot(apartSigma_m(sigma_m), kEnd_s * std::fabs(end.velocity_S_mps.z));
        // It goes fastest where it is let swing, or nearly.
        const double gain_mps =
            kEnd_s * std::fabs(end.velocity_S_mps.z) / std::max(stop_s - top.time_s, kEnd_s);
        m.fastest_sigma_mps = std::hypot(groundSpeedSigma_mps(path, stop_s), gain_mps);
    }
    return m;
}

double seenLate_s(const path::Path& plan, const Piece& slide) {
    for (const path::Element& element : plan.elements) {
        if (element.label.rfind("slide", 0) != 0) continue;
        if (element.stop_s <= slide.start_s || element.start_s >= slide.stop_s) continue;
        return std::max(0.0, slide.stop_s - element.stop_s);
    }
    return 0;
}

}  // namespace plumbline::review
