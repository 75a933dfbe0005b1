#include "engine/record/path_csv_reader.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/record/csv_table.h"
#include "engine/record/curve_fit.h"
#include "engine/record/track_path.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

enum Field {
    kTime,
    kX,
    kY,
    kHeight,
    kQw,
    kQx,
    kQy,
    kQz,  // these must be there
    kAirspeed,
    kHeading,
    kAoa,
    kSideslip,
    kNormalG,
    kLateralG,
    kAxialG,
    kPower,
    kMass,
    kVelocityX,
    kVelocityY,
    kVelocityZ,
    kRollRate,
    kPitchRate,
    kYawRate,
    kFuel,
    kElementNumber,
    kSmoke,
    kAttitudeKnown,
    kBankKnown,
    kPlaceKnown,
    kAttitudeSigma,
    kPositionSigma,
    kFieldCount
};
constexpr std::size_t kRequired = kQz + 1;
constexpr std::array<std::string_view, kFieldCount> kNames = {"time_s",
                                                              "x_m",
                                                              "y_m",
                                                              "height_m",
                                                              "qw",
                                                              "qx",
                                                              "qy",
                                                              "qz",
                                                              "airspeed_mps",
                                                              "heading_deg",
                                                              "aoa_deg",
                                                              "sideslip_deg",
                                                              "normal_g",
                                                              "lateral_g",
                                                              "axial_g",
                                                              "power_frac",
                                                              "mass_kg",
                                                              "velocity_x_mps",
                                                              "velocity_y_mps",
                                                              "velocity_z_mps",
                                                              "roll_rate_dps",
                                                              "pitch_rate_dps",
                                                              "yaw_rate_dps",
                                                              "fuel_kg",
                                                              "element_number",
                                                              "smoke",
                                                              "attitude_known",
                                                              "bank_known",
                                                              "place_known",
                                                              "attitude_sigma_deg",
                                                              "position_sigma_m"};

constexpr std::size_t kAbsent = static_cast<std::size_t>(-1);
constexpr std::size_t kMostProblems = 20;  // chosen: more of the same help nobody
constexpr double kRadians = units::kDegree_rad;

struct Layout {
    std::array<std::size_t, kFieldCount> index{};
    std::size_t figure = kAbsent;
    std::size_t element = kAbsent;
    std::size_t columns = 0;
};

std::optional<Layout> readLayout(std::string_view line) {
    CsvRow header;
    header.split(line, ',');
    const auto find = [&](std::string_view name) {
        for (std::size_t i = 0; i < header.size(); ++i)
            if (header.cell(i) == name) return i;
        return kAbsent;
    };
    Layout layout;
    layout.columns = header.size();
    for (std::size_t f = 0; f < kFieldCount; ++f) {
        layout.index[f] = find(kNames[f]);
        if (f < kRequired && layout.index[f] == kAbsent) return std::nullopt;
    }
    layout.figure = find("figure");
    layout.element = find("element");
    return layout;
}

/// A row's numbers; NaN where a cell is empty or its column absent.
struct Numbers {
    std::array<double, kFieldCount> value{};
    bool has(Field f) const { return !std::isnan(value[f]); }
    Vec3 vector(Field first, double scale) const {
        return scale * Vec3(value[first], value[first + 1], value[first + 2]);
    }
};

class Reader {
public:
    Reader(const NamedBytes& input, const Layout& layout) : input_(input), layout_(layout) {}

    void readRow(const CsvRow& row, std::int32_t line) {
        const std::optional<Numbers> numbers = readNumbers(row, line);
        if (!numbers) return;
        const double clock_s = numbers->value[kTime];
        if (!rows_.empty() && clock_s <= rows_.back().value[kTime]) {
            if (dropped_++ == 0) first_dropped_line_ = line;
            return;
        }
        rows_.push_back(*numbers);
        samples().push_back(sampleOf(*numbers));
        addLabels(row, *numbers);
    }

    Expected<ImportedTrack, Problems> finish();

private:
    std::vector<path::Sample>& samples() { return track_.path.samples; }

    std::optional<Numbers> readNumbers(const CsvRow& row, std::int32_t line);
    path::Sample sampleOf(const Numbers& n) const;
    void addLabels(const CsvRow& row, const Numbers& n);
    bool everywhere(std::initializer_list<Field> fields) const;
    void findBearing();
    void findSmoke();

    const NamedBytes& input_;
    const Layout& layout_;
    ImportedTrack track_;
    std::vector<Numbers> rows_;
    Problems problems_;
    std::int32_t dropped_ = 0;
    std::int32_t first_dropped_line_ = 0;
};

std::optional<Numbers> Reader::readNumbers(const CsvRow& row, std::int32_t line) {
    if (row.size() != layout_.columns) {
        problems_.push_back(problem({input_.file, line, 1},
                                    "this row has " + std::to_string(row.size()) +
                                        " cells, the header " + std::to_string(layout_.columns),
                                    "write the file again: it may have been cut short"));
        return std::nullopt;
    }
    Numbers numbers;
    const std::size_t problems_before = problems_.size();
    for (std::size_t f = 0; f < kFieldCount; ++f) {
        numbers.value[f] = std::nan("");
        if (layout_.index[f] == kAbsent) continue;
        const std::string_view cell = row.cell(layout_.index[f]);
        if (cell.empty() && f >= kRequired) continue;
        if (const std::optional<double> value = csvNumber(cell, ',')) {
            numbers.value[f] = *value;
            continue;
        }
        problems_.push_back(problem({input_.file, line, row.column(layout_.index[f])},
                                    "\"" + std::string(cell) + "\" is no number",
                                    "column " + std::string(kNames[f]) + " holds numbers"));
    }
    if (problems_.size() > problems_before) return std::nullopt;
    const double norm = std::hypot(std::hypot(numbers.value[kQw], numbers.value[kQx]),
                                   std::hypot(numbers.value[kQy], numbers.value[kQz]));
    // A thousandth: three printed digits are the least anybody writes.
    if (std::abs(norm - 1) > 1e-3) {
        problems_.push_back(problem({input_.file, line, row.column(layout_.index[kQw])},
                                    "the quaternion is not of unit length",
                                    "qw, qx, qy, qz turn body into site axes, scalar first"));
        return std::nullopt;
    }
    return numbers;
}

path::Sample Reader::sampleOf(const Numbers& n) const {
    const auto known = [&](Field f) { return n.has(f) ? n.value[f] : 0.0; };
    path::Sample s;
    s.time_s = n.value[kTime] - rows_.front().value[kTime];
    s.position_S_m = n.vector(kX, 1);
    s.q_SB = glm::normalize(Quat(n.value[kQw], n.value[kQx], n.value[kQy], n.value[kQz]));
    s.airspeed_mps = known(kAirspeed);
    s.aoa_rad = known(kAoa) * kRadians;
    s.sideslip_rad = known(kSideslip) * kRadians;
    s.specific_force_B_mps2 =
        kGravity_mps2 * Vec3(known(kAxialG), known(kLateralG), -known(kNormalG));
    s.power_frac = known(kPower);
    s.mass_kg = known(kMass);
    s.fuel_kg = known(kFuel);
    s.attitude_sigma_rad = static_cast<float>(known(kAttitudeSigma) * kRadians);
    s.position_sigma_m = static_cast<float>(known(kPositionSigma));
    if (n.has(kVelocityX)) s.velocity_S_mps = n.vector(kVelocityX, 1);
    if (n.has(kRollRate)) s.rate_B_radps = n.vector(kRollRate, kRadians);
    return s;
}

/// A new element starts where figure, words or number change.
void Reader::addLabels(const CsvRow& row, const Numbers& n) {
    path::Path& path = track_.path;
    path::Sample& sample = path.samples.back();
    const std::string_view figure =
        layout_.figure == kAbsent ? std::string_view() : row.cell(layout_.figure);
    const std::string_view element =
        layout_.element == kAbsent ? std::string_view() : row.cell(layout_.element);
    const bool in_figure = !path.figures.empty() && path.figures.back().name == figure;
    if (!path.figures.empty() && path.figures.back().stop_s < 0 && !in_figure)
        path.figures.back().stop_s = sample.time_s;
    if (!figure.empty() && !(in_figure && path.figures.back().stop_s < 0))
        path.figures.push_back({std::string(figure), sample.time_s, -1});

    const auto last = static_cast<std::int32_t>(path.elements.size()) - 1;
    const std::int32_t figure_index =
        figure.empty() ? -1 : static_cast<std::int32_t>(path.figures.size()) - 1;
    const bool open = last >= 0 && path.elements.back().stop_s < 0;
    const bool same = open && path.elements.back().label == element &&
                      path.elements.back().figure == figure_index &&
                      (!n.has(kElementNumber) || rows_.size() < 2 ||
                       !(rows_[rows_.size() - 2].value[kElementNumber] != n.value[kElementNumber]));
    if (same) {
        sample.element = last;
        return;
    }
    if (open) path.elements.back().stop_s = sample.time_s;
    if (element.empty()) return;
    sample.element = last + 1;
    path.elements.push_back({figure_index, std::string(element), 0, sample.time_s, -1});
}

bool Reader::everywhere(std::initializer_list<Field> fields) const {
    return std::all_of(rows_.begin(), rows_.end(), [&](const Numbers& row) {
        return std::all_of(fields.begin(), fields.end(), [&](Field f) { return row.has(f); });
    });
}

/// heading = bearing - angle about z_S, taken where the nose is nearest to level.
void Reader::findBearing() {
    track_.path.show_line_bearing_rad = kPi / 2;
    double best = 0.1;  // chosen: below that the nose is too close to vertical to tell
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (!rows_[i].has(kHeading)) continue;
        const Vec3 nose_S = rotate(samples()[i].q_SB, Vec3(1, 0, 0));
        const double level = std::hypot(nose_S.x, nose_S.y);
        if (level <= best) continue;
        best = level;
        const double bearing_rad =
            rows_[i].value[kHeading] * kRadians + std::atan2(nose_S.y, nose_S.x);
        track_.path.show_line_bearing_rad =
            bearing_rad - 2 * kPi * std::floor(bearing_rad / (2 * kPi));
        if (level > 0.999) return;
    }
}

void Reader::findSmoke() {
    bool on = false;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const bool now = rows_[i].has(kSmoke) && rows_[i].value[kSmoke] > 0.5;
        const double time_s = samples()[i].time_s;
        if (now && !on) track_.path.smoke.push_back({time_s, track_.path.duration_s()});
        if (!now && on) track_.path.smoke.back().stop_s = time_s;
        on = now;
    }
}

Expected<ImportedTrack, Problems> Reader::finish() {
    if (problems_.empty() && rows_.size() < 2)
        problems_.push_back(problem({input_.file, 0, 0}, "this path has fewer than two rows",
                                    "write the file again: it may have been cut short"));
    if (problems_.size() > kMostProblems) {
        const std::size_t more = problems_.size() - kMostProblems;
        problems_.resize(kMostProblems);
        problems_.push_back(problem({input_.file, 0, 0},
                                    std::to_string(more) + " more problems like these",
                                    "write the file again"));
    }
    if (!problems_.empty()) return Unexpected(problems_);
    path::Path& path = track_.path;
    for (path::Figure& figure : path.figures)
        if (figure.stop_s < 0) figure.stop_s = path.duration_s();
    for (path::Element& element : path.elements)
        if (element.stop_s < 0) element.stop_s = path.duration_s();
    track_.kind = "path CSV";
    path.origin = path::Origin::Recording;
    path.name = input_.file;
    path.clock_offset_s = rows_.front().value[kTime];
    path.known.airspeed = everywhere({kAirspeed});
    path.known.incidence = everywhere({kAoa, kSideslip});
    path.known.load = everywhere({kNormalG});
    path.known.side_load = !path.known.load || everywhere({kLateralG});
    path.known.power = everywhere({kPower});
    path.known.fuel = everywhere({kMass, kFuel});
    const auto flagged = [&](Field f) {
        return layout_.index[f] == kAbsent ||
               std::all_of(rows_.begin(), rows_.end(),
                           [f](const Numbers& row) { return row.value[f] > 0.5; });
    };
    path.known.attitude = flagged(kAttitudeKnown);
    path.known.bank = flagged(kBankKnown);
    path.known.place = flagged(kPlaceKnown);
    findBearing();
    findSmoke();
    if (!everywhere({kVelocityX, kVelocityY, kVelocityZ})) differentiate(path.samples, nullptr);
    if (!everywhere({kRollRate, kPitchRate, kYawRate})) ratesFromAttitudes(path.samples);
    if (dropped_ > 0)
        track_.warnings.push_back(problem(
            {input_.file, first_dropped_line_, 1},
            std::to_string(dropped_) + " rows whose time does not rise left out, the first here",
            "expect gaps there"));
    return std::move(track_);
}

}  // namespace

bool looksLikePathCsv(std::string_view bytes) {
    LineReader reader(bytes);
    return reader.next() && readLayout(reader.line()).has_value();
}

Expected<ImportedTrack, Problems> readPathCsv(const NamedBytes& input) {
    LineReader lines(input.bytes);
    std::optional<Layout> layout;
    if (lines.next()) layout = readLayout(lines.line());
    if (!layout)
        return failure(problem({input.file, 1, 1}, "this is no path CSV",
                               "its header names time_s, x_m, y_m, height_m, qw, qx, qy, qz"));
    Reader reader(input, *layout);
    CsvRow row;
    while (lines.next()) {
        if (trimmed(lines.line()).empty()) continue;
        row.split(lines.line(), ',');
        reader.readRow(row, lines.number());
    }
    return reader.finish();
}

}  // namespace plumbline::record
