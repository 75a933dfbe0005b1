#include "engine/out/path_csv.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <string_view>

#include "engine/base/number_text.h"
#include "engine/units/units.h"

namespace plumbline::out {

namespace {

constexpr std::string_view kHeader =
    "time_s,x_m,y_m,height_m,qw,qx,qy,qz,airspeed_mps,groundspeed_mps,pitch_deg,roll_deg,"
    "heading_deg,aoa_deg,sideslip_deg,normal_g,lateral_g,axial_g,power_frac,mass_kg,figure,element,"
    "velocity_x_mps,velocity_y_mps,velocity_z_mps,roll_rate_dps,pitch_rate_dps,yaw_rate_dps,"
    "fuel_kg,element_number,smoke";
constexpr std::string_view kKnownHeader = ",attitude_known,bank_known";
constexpr std::string_view kPlaceHeader = ",place_known";
constexpr std::string_view kSigmaHeader = ",attitude_sigma_deg,position_sigma_m";
constexpr int kSigmaDecimals = 3;

// Decimals. chosen: fine enough that a reader who differentiates rows 0.01 s apart twice sees the
// model and not the rounding; finer than any of it is known.
constexpr int kTimeDecimals = 9;
constexpr int kLengthDecimals = 7;
constexpr int kQuaternionDecimals = 10;
constexpr int kDecimals = 6;

constexpr double kDegrees = 1 / units::kDegree_rad;

/// Rounded to so many decimals, without trailing zeros. A path has millions of numbers, and those
/// that fit an integer when scaled (all but absurd ones) are written ten times faster that way than
/// by the general routine.
void appendFixed(std::string& out, double value, int decimals) {
    constexpr double kLargestExact = 9007199254740992.0;  // 2^53
    double scale = 1;
    for (int i = 0; i < decimals; ++i) scale *= 10;
    const double scaled = std::abs(value) * scale;
    if (!(scaled < kLargestExact)) {
        out += formatFixed(value, decimals);
        return;
    }
    auto digits = static_cast<std::uint64_t>(scaled + 0.5);
    if (digits != 0 && value < 0) out += '-';
    while (decimals > 0 && digits % 10 == 0) {
        digits /= 10;
        --decimals;
    }
    std::array<char, 32> text{};
    std::size_t at = text.size();
    for (int i = 0; digits != 0 || i <= decimals; ++i) {
        if (i == decimals && decimals > 0) text[--at] = '.';
        text[--at] = static_cast<char>('0' + digits % 10);
        digits /= 10;
    }
    out.append(text.data() + at, text.size() - at);
}

class Row {
public:
    explicit Row(std::string& out) : out_(out) {}

    /// A number without its trailing zeros; an empty cell when it is not known.
    void number(double value, int decimals, bool known = true) {
        separate();
        if (known) appendFixed(out_, value, decimals);
    }
    void flag(bool value) {
        separate();
        out_ += value ? '1' : '0';
    }
    /// Text, quoted where CSV (RFC 4180) needs it.
    void words(std::string_view text) {
        separate();
        if (text.find_first_of(",\"\r\n") == std::string_view::npos) {
            out_ += text;
            return;
        }
        out_ += '"';
        for (const char c : text) {
            if (c == '"') out_ += '"';
            out_ += c;
        }
        out_ += '"';
    }
    void vector(const Vec3& v, double scale, int decimals, bool known = true) {
        number(v.x * scale, decimals, known);
        number(v.y * scale, decimals, known);
        number(v.z * scale, decimals, known);
    }

private:
    void separate() {
        if (!first_) out_ += ',';
        first_ = false;
    }

    std::string& out_;
    bool first_ = true;
};

}  // namespace

/// Writes the rows one after the other: sign of the quaternion and heading carry over.
class PathCsvPieces::Writer {
public:
    Writer(const path::Path& path, std::string& out)
        : path_(path),
          out_(out),
          marks_bank_(!path.known.attitude || !path.known.bank),
          held_heading_rad_(path.show_line_bearing_rad) {
        out_ += kHeader;
        if (marks_bank_) out_ += kKnownHeader;
        if (!path.known.place) out_ += kPlaceHeader;
        for (const path::Sample& sample : path.samples)
            tells_sigma_ |= sample.attitude_sigma_rad > 0 || sample.position_sigma_m > 0;
        if (tells_sigma_) out_ += kSigmaHeader;
        out_ += '\n';
    }

    void write(const path::Sample& s) {
        Row row(out_);
        row.number(s.time_s + path_.clock_offset_s, kTimeDecimals);
        row.vector(s.position_S_m, 1, kLengthDecimals);
        writeAttitudeAndSpeed(row, s);
        const bool incidence = path_.known.airspeed && path_.known.incidence;
        row.number(s.aoa_rad * kDegrees, kDecimals, incidence);
        row.number(s.sideslip_rad * kDegrees, kDecimals, incidence);
        const LoadFactors load = loadFactors(s.specific_force_B_mps2);
        row.number(load.normal_g, kDecimals, path_.known.load);
        // Which way a load acts in the aircraft is known only with its bank.
        row.number(load.lateral_g, kDecimals,
                   path_.known.load && path_.known.bank && path_.known.side_load);
        row.number(load.axial_g, kDecimals, path_.known.load);
        row.number(s.power_frac, kDecimals, path_.known.power);
        row.number(s.mass_kg, kDecimals, path_.known.fuel);
        writeLabels(row, s);
        row.vector(s.velocity_S_mps, 1, kDecimals);
        row.vector(s.rate_B_radps, kDegrees, kDecimals);
        row.number(s.fuel_kg, kDecimals, path_.known.fuel);
        row.number(s.element + 1, 0, s.element >= 0);
        row.flag(path::smokeAt(path_, s.time_s));
        if (marks_bank_) {
            row.flag(path_.known.attitude);
            row.flag(path_.known.bank);
        }
        if (!path_.known.place) row.flag(false);
        if (tells_sigma_) {
            const double attitude_deg = static_cast<double>(s.attitude_sigma_rad) * kDegrees;
            const double position_m = static_cast<double>(s.position_sigma_m);
            row.number(attitude_deg, kSigmaDecimals, attitude_deg > 0);
            row.number(position_m, kSigmaDecimals, position_m > 0);
        }
        out_ += '\n';
    }

private:
    void writeAttitudeAndSpeed(Row& row, const path::Sample& s) {
        Quat q_SB = s.q_SB;
        if (has_last_ && glm::dot(q_SB, last_q_SB_) < 0) q_SB = -q_SB;
        last_q_SB_ = q_SB;
        has_last_ = true;
        const AttitudeAngles angles =
            attitudeAngles(q_SB, path_.show_line_bearing_rad, held_heading_rad_);
        held_heading_rad_ = angles.heading_rad;
        row.number(q_SB.w, kQuaternionDecimals);
        row.number(q_SB.x, kQuaternionDecimals);
        row.number(q_SB.y, kQuaternionDecimals);
        row.number(q_SB.z, kQuaternionDecimals);
        row.number(s.airspeed_mps, kDecimals, path_.known.airspeed);
        row.number(glm::length(Vec3(s.velocity_S_mps.x, s.velocity_S_mps.y, 0)), kDecimals);
        row.number(angles.pitch_rad * kDegrees, kDecimals);
        row.number(angles.roll_rad * kDegrees, kDecimals);
        row.number(angles.heading_rad * kDegrees, kDecimals);
    }

    void writeLabels(Row& row, const path::Sample& s) {
        const bool known = s.element >= 0 && s.element < std::ssize(path_.elements);
        const path::Element* element = known ? &path_.elements[std::size_t(s.element)] : nullptr;
        const bool in_figure =
            known && element->figure >= 0 && element->figure < std::ssize(path_.figures);
        row.words(in_figure ? std::string_view(path_.figures[std::size_t(element->figure)].name)
                            : std::string_view());
        row.words(known ? std::string_view(element->label) : std::string_view());
    }

    const path::Path& path_;
    std::string& out_;
    const bool marks_bank_;
    bool tells_sigma_ = false;
    bool has_last_ = false;
    Quat last_q_SB_{1, 0, 0, 0};
    double held_heading_rad_;
};

PathCsvPieces::PathCsvPieces(const path::Path& path)
    : path_(path), writer_(std::make_unique<Writer>(path, piece_)) {}

PathCsvPieces::~PathCsvPieces() = default;

std::string_view PathCsvPieces::next() {
    constexpr std::size_t kPiece = std::size_t{1} << 20;
    if (begun_) piece_.clear();  // else the header is in it
    begun_ = true;
    for (; row_ < path_.samples.size() && piece_.size() < kPiece; ++row_)
        writer_->write(path_.samples[row_]);
    return piece_;
}

std::string pathCsv(const path::Path& path) {
    std::string text;
    text.reserve(path.samples.size() * 300 + 1000);
    PathCsvPieces pieces(path);
    for (std::string_view piece = pieces.next(); !piece.empty(); piece = pieces.next())
        text += piece;
    return text;
}

}  // namespace plumbline::out
