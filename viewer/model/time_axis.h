#pragma once
// The timeline's one scale: seconds to pixels and back.

namespace plumbline::model {

/// A straight scale: `start_s` lies at `left_px`, `start_s + span_s` at `left_px + width_px`.
struct TimeAxis {
    double start_s = 0;
    double span_s = 1;  ///< > 0
    double left_px = 0;
    double width_px = 1;  ///< > 0

    double xOf(double time_s) const { return left_px + (time_s - start_s) / span_s * width_px; }
    double timeOf(double x_px) const { return start_s + (x_px - left_px) / width_px * span_s; }
    double secondsPerPixel() const { return span_s / width_px; }
    double stop_s() const { return start_s + span_s; }
};

/// What part of the path the timeline shows. Kept by the session, changed by zoom and pan.
struct TimeWindow {
    double start_s = 0;
    double span_s = 0;  ///< 0: not chosen, see fitted()
};

/// Least span that can be zoomed to.
inline constexpr double kLeastSpan_s = 2;

/// The window made fit for a path: span no longer than the path (a window never chosen shows
/// `preferred_span_s`), start so that it lies inside.
TimeWindow fitted(TimeWindow window, double duration_s, double preferred_span_s);

/// Zooms about a time that stays where it is; factor > 1 shows more.
TimeWindow zoomed(const TimeWindow& window, double about_s, double factor, double duration_s);

/// Moves the window so that `time_s` stands no further right than 60 % and no further left than its
/// left edge. Moves as little as possible: while playing, the thread runs to 60 % and the lanes
/// then pass under it.
TimeWindow following(const TimeWindow& window, double time_s, double duration_s);

/// Step of the ruler's named ticks: the smallest of 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60... s
/// that leaves at least `least_px` between them.
double tickStep(const TimeAxis& axis, double least_px);

}  // namespace plumbline::model
