#include "viewer/scene/band.h"

#include <algorithm>
#include <cmath>

#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

// Choice of the band's samples.
constexpr double kSagitta_m = 0.03;
constexpr double kWingTurn_rad = 8 * kPi / 180;
constexpr double kLongest_s = 0.25;

constexpr double kAircraftGap_m = 6;  // chosen: the band leaves the aircraft free
constexpr double kFadedTo = 0.62;     ///< opacity at the far end of what is behind

constexpr glm::vec3 kBone{0xe6 / 255.0F, 0xde / 255.0F, 0xca / 255.0F};
constexpr glm::vec3 kFlight{0x6d / 255.0F, 0xb4 / 255.0F, 0xea / 255.0F};

/// Time at which the aircraft is the gap away from where it is now, at most `limit_s` off.
double timeAtGap(const path::Path& path, double time_s, double sense, double limit_s) {
    const Vec3 here_S_m = placeAt(path, time_s).position_S_m;
    const auto isFar = [&](double offset_s) {
        const Vec3 there_S_m = placeAt(path, time_s + sense * offset_s).position_S_m;
        return glm::length(there_S_m - here_S_m) >= kAircraftGap_m;
    };
    constexpr double kStep_s = 0.05;
    double far_s = kStep_s;
    while (far_s < limit_s && !isFar(far_s)) far_s += kStep_s;
    double near_s = far_s - kStep_s;
    for (int i = 0; i < 7; ++i) {
        const double middle_s = 0.5 * (near_s + far_s);
        (isFar(middle_s) ? far_s : near_s) = middle_s;
    }
    return time_s + sense * std::min(far_s, limit_s);
}

/// Makes the vertices of one strip, in rising time.
class Strip {
public:
    Strip(const SceneSource& source, double half_span_m)
        : path_(*source.path), shape_(*source.shape), half_span_m_(half_span_m) {}

    template <class Colour>
    void fill(double from_s, double to_s, const Colour& colour, Band& band) {
        const auto before = [this](std::int32_t sample, double t_s) {
            return path_.samples[static_cast<std::size_t>(sample)].time_s < t_s;
        };
        constexpr double kApart_s = 1e-3;  // vertices nearer than this are one
        auto kept = std::lower_bound(shape_.band_samples.begin(), shape_.band_samples.end(),
                                     from_s + kApart_s, before);
        double second_s = std::floor(from_s) + 1;
        add(path::sampleAt(path_, from_s), false, colour, band);
        double last_s = from_s;
        for (;;) {
            const double kept_s = kept == shape_.band_samples.end()
                                      ? to_s
                                      : path_.samples[static_cast<std::size_t>(*kept)].time_s;
            const double next_s = std::min(kept_s, second_s);
            if (next_s >= to_s - kApart_s) break;
            if (second_s <= kept_s + kApart_s) {
                // A whole second has its own vertex: rungs and cross lines sit on it.
                if (second_s - last_s < kApart_s) band.vertices.pop_back();
                add(path::sampleAt(path_, second_s), true, colour, band);
                last_s = second_s;
                if (kept_s <= second_s + kApart_s) ++kept;
                second_s += 1;
            } else {
                add(path_.samples[static_cast<std::size_t>(*kept)], false, colour, band);
                last_s = kept_s;
                ++kept;
            }
        }
        add(path::sampleAt(path_, to_s), false, colour, band);
    }

private:
    template <class Colour>
    void add(const path::Sample& sample, bool rung, const Colour& colour, Band& band) {
        Vec3 right_S, canopy_S;
        if (path::attitudeShown(path_, sample)) {
            right_S = rotate(sample.q_SB, Vec3(0, 1, 0));
            canopy_S = rotate(sample.q_SB, Vec3(0, 0, -1));
        } else {
            // Level wings; where the path stands on end, as just before.
            const Vec3 side = glm::cross(sample.velocity_S_mps, Vec3(0, 0, 1));
            const double flat = glm::length(side);
            right_S = flat > 0.5 ? side / flat : last_right_S_;
            canopy_S = Vec3(0, 0, 1);
            last_right_S_ = right_S;
        }
        BandVertex vertex;
        vertex.left_S_m = sample.position_S_m - half_span_m_ * right_S;
        vertex.right_S_m = sample.position_S_m + half_span_m_ * right_S;
        vertex.canopy_S = canopy_S;
        vertex.colour = colour(sample);
        vertex.time_s = static_cast<float>(sample.time_s);
        vertex.rung = rung;
        band.vertices.push_back(vertex);
    }

    const path::Path& path_;
    const PathShape& shape_;
    double half_span_m_;
    Vec3 last_right_S_{0, -1, 0};
};

bool quantityKnown(const path::Path& path, Quantity quantity) {
    return quantity != Quantity::Load || path.known.load;
}

}  // namespace

std::shared_ptr<const PathShape> makeShape(const path::Path& path) {
    auto shape = std::make_shared<PathShape>();
    const std::vector<path::Sample>& samples = path.samples;
    double turned_rad = 0, wing_turned_rad = 0;
    Vec3 wing_S(0);
    double fastest_mps = 0, highest_m = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        fastest_mps = std::max(fastest_mps, valueOf(Quantity::Speed, samples[i]));
        highest_m = std::max(highest_m, valueOf(Quantity::Height, samples[i]));
        const auto load_g = static_cast<float>(valueOf(Quantity::Load, samples[i]));
        std::vector<float>&least = shape->least_load_g, &most = shape->most_load_g;
        least.push_back(i == 0 ? load_g : std::min(least.back(), load_g));
        most.push_back(i == 0 ? load_g : std::max(most.back(), load_g));
        const Vec3 right_S = rotate(samples[i].q_SB, Vec3(0, 1, 0));
        if (i == 0) {
            shape->band_samples.push_back(0);
            wing_S = right_S;
            continue;
        }
        const Vec3 v0 = samples[i - 1].velocity_S_mps, v1 = samples[i].velocity_S_mps;
        const double speed_mps = std::max(glm::length(v0), 0.1);
        turned_rad += std::min(glm::length(v1 - v0) / speed_mps, kPi);
        wing_turned_rad += glm::length(right_S - wing_S);
        wing_S = right_S;

        const path::Sample& kept = samples[static_cast<std::size_t>(shape->band_samples.back())];
        const double chord_m = glm::length(samples[i].position_S_m - kept.position_S_m);
        const bool bent = chord_m * turned_rad / 8 > kSagitta_m;  // sagitta of an arc
        const bool rolled = wing_turned_rad > kWingTurn_rad;
        const bool late = samples[i].time_s - kept.time_s >= kLongest_s;
        if (bent || rolled || late || i + 1 == samples.size()) {
            shape->band_samples.push_back(static_cast<std::int32_t>(i));
            turned_rad = 0;
            wing_turned_rad = 0;
        }
    }
    const auto setRange = [&](Quantity quantity, double highest) {
        shape->ranges.at(static_cast<std::size_t>(quantity)) = rangeUpTo(quantity, highest);
    };
    setRange(Quantity::Load, 0);
    setRange(Quantity::Speed, fastest_mps);
    setRange(Quantity::Height, highest_m);
    return shape;
}

void addBands(const SceneSource& source, const Marks& marks, double time_s, double width_m,
              DrawList& list) {
    const path::Path& path = *source.path;
    const double first_s = path.samples.front().time_s, last_s = path.samples.back().time_s;
    const double half_span_m = 0.5 * width_m;
    const Quantity quantity = marks.band_quantity;
    const QuantityRange range = source.shape->ranges.at(static_cast<std::size_t>(quantity));
    const Ghost* ghost = quantity == Quantity::Apart ? source.ghost.get() : nullptr;
    const bool known =
        quantity == Quantity::Apart ? ghost != nullptr : quantityKnown(path, quantity);

    if (marks.band && marks.band_behind_s > 0) {
        const double from_s = std::max(first_s, time_s - marks.band_behind_s);
        const double to_s = timeAtGap(path, time_s, -1, time_s - from_s);
        if (to_s > from_s + 0.01) {
            const auto colour = [&](const path::Sample& sample) {
                const double age = (time_s - sample.time_s) / marks.band_behind_s;
                const double value = ghost != nullptr
                                         ? static_cast<double>(keptApart(*ghost, sample.time_s))
                                         : valueOf(quantity, sample);
                const QuantityRange& span = ghost != nullptr ? ghost->apart_range : range;
                const glm::vec3 rgb =
                    known ? mapColour(quantity, span, value, marks.grey) : kFlight;
                return glm::vec4(rgb, static_cast<float>(1 - (1 - kFadedTo) * age));
            };
            Band band;
            Strip(source, half_span_m).fill(from_s, to_s, colour, band);
            list.bands.push_back(std::move(band));
        }
    }
    if (marks.to_come && marks.to_come_s > 0) {
        const double to_s = std::min(last_s, time_s + marks.to_come_s);
        const double from_s = timeAtGap(path, time_s, 1, to_s - time_s);
        if (to_s > from_s + 0.01) {
            Band ladder;
            ladder.ladder = true;
            Strip(source, half_span_m)
                .fill(
                    from_s, to_s, [](const path::Sample&) { return glm::vec4(kBone, 1); }, ladder);
            list.bands.push_back(std::move(ladder));
        }
    }
}

void addLadder(const SceneSource& source, double from_s, double to_s, double width_m,
               const glm::vec4& colour, DrawList& list) {
    SceneSource other = source;
    other.path = source.ghost->path;
    other.shape = source.ghost->shape;
    Band ladder;
    ladder.ladder = true;
    Strip(other, 0.5 * width_m)
        .fill(
            from_s, to_s, [&colour](const path::Sample&) { return colour; }, ladder);
    list.bands.push_back(std::move(ladder));
}

}  // namespace plumbline::scene
