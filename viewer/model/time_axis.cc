#include "viewer/model/time_axis.h"

#include <algorithm>

namespace plumbline::model {
namespace {

constexpr double kFollow_frac = 0.6;  // chosen: more of the past than of the time to come

TimeWindow inside(TimeWindow window, double duration_s) {
    window.start_s = std::clamp(window.start_s, 0.0, std::max(0.0, duration_s - window.span_s));
    return window;
}

}  // namespace

TimeWindow fitted(TimeWindow window, double duration_s, double preferred_span_s) {
    const double longest_s = std::max(duration_s, kLeastSpan_s);
    if (!(window.span_s > 0)) window.span_s = preferred_span_s;
    window.span_s = std::clamp(window.span_s, kLeastSpan_s, longest_s);
    return inside(window, duration_s);
}

TimeWindow zoomed(const TimeWindow& window, double about_s, double factor, double duration_s) {
    TimeWindow out = window;
    const double longest_s = std::max(duration_s, kLeastSpan_s);
    out.span_s = std::clamp(window.span_s * factor, kLeastSpan_s, longest_s);
    out.start_s = about_s - (about_s - window.start_s) * out.span_s / window.span_s;
    return inside(out, duration_s);
}

TimeWindow following(const TimeWindow& window, double time_s, double duration_s) {
    TimeWindow out = window;
    out.start_s = std::min(out.start_s, time_s);
    out.start_s = std::max(out.start_s, time_s - kFollow_frac * out.span_s);
    return inside(out, duration_s);
}

double tickStep(const TimeAxis& axis, double least_px) {
    constexpr double kSteps_s[] = {0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1800};
    for (double step_s : kSteps_s) {
        if (step_s / axis.secondsPerPixel() >= least_px) return step_s;
    }
    double step_s = 3600;
    while (step_s / axis.secondsPerPixel() < least_px) step_s *= 2;
    return step_s;
}

}  // namespace plumbline::model
