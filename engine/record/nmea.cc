#include "engine/record/nmea.h"

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/record/clock_text.h"
#include "engine/record/text_lines.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

constexpr std::size_t kMostFields = 40;
constexpr double kDay_s = 86400;
// chosen: the satellites' week number began anew in 1999 and 2019; receivers that miss it write
// dates 1024 weeks early, and no logger of this use is older than this
constexpr double kEarliest_s = 1104537600;  // 2005-01-01

int hexDigit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return -1;
}

/// A sentence taken apart: fields without the address.
struct Sentence {
    std::string_view kind;  ///< the last three letters of the address
    std::array<std::string_view, kMostFields> field{};
    std::size_t count = 0;
    std::string_view operator[](std::size_t i) const {
        return i < count ? field[i] : std::string_view();
    }
    std::optional<double> number(std::size_t i) const { return parseDouble((*this)[i]); }
};

enum class Taken { Nothing, Good, BadChecksum };

Taken takeSentence(std::string_view line, Sentence& sentence) {
    const std::size_t start = line.find('$');
    if (start == std::string_view::npos) return Taken::Nothing;
    line.remove_prefix(start + 1);
    const std::size_t star = line.find('*');
    std::string_view body = line.substr(0, star);
    // address: talker of two letters, sentence of three; 'P' starts a maker's own
    if (body.size() < 6 || body[5] != ',' || body[0] == 'P') return Taken::Nothing;
    for (std::size_t i = 0; i < 5; ++i)
        if (body[i] < 'A' || body[i] > 'Z') return Taken::Nothing;
    if (star != std::string_view::npos) {
        if (line.size() < star + 3) return Taken::BadChecksum;
        unsigned sum = 0;
        for (const char c : body) sum ^= static_cast<unsigned char>(c);
        const int high = hexDigit(line[star + 1]), low = hexDigit(line[star + 2]);
        if (high < 0 || low < 0 || static_cast<int>(sum) != high * 16 + low)
            return Taken::BadChecksum;
    }
    sentence.kind = body.substr(2, 3);
    body.remove_prefix(6);
    sentence.count = 0;
    while (sentence.count < kMostFields) {
        const std::size_t comma = body.find(',');
        sentence.field[sentence.count++] = body.substr(0, comma);
        if (comma == std::string_view::npos) break;
        body.remove_prefix(comma + 1);
    }
    return Taken::Good;
}

/// "hhmmss.ss" as seconds of the day.
std::optional<double> timeOf(std::string_view text) {
    if (text.size() < 6) return std::nullopt;
    const std::int32_t h = digits(text.substr(0, 2)), m = digits(text.substr(2, 2));
    const auto s = parseDouble(text.substr(4));
    if (h < 0 || h > 23 || m < 0 || m > 59 || !s || *s < 0 || *s >= 61) return std::nullopt;
    return h * 3600 + m * 60 + *s;
}

/// "ddmm.mmmm" and its hemisphere.
std::optional<double> angleOf(std::string_view text, std::string_view side, char positive,
                              char negative, double most_deg) {
    const auto value = parseDouble(text);
    if (!value || *value < 0 || side.size() != 1) return std::nullopt;
    const double degrees = std::floor(*value / 100);
    const double minutes = *value - 100 * degrees;
    const double angle = degrees + minutes / 60;
    if (minutes >= 60 || angle > most_deg) return std::nullopt;
    if (side[0] != positive && side[0] != negative) return std::nullopt;
    return (side[0] == negative ? -angle : angle) * units::kDegree_rad;
}

/// Sentences of one moment belong together.
struct Epoch {
    double time_s = -1;  ///< of the day
    std::optional<earth::GeoPoint> place;
    std::optional<Vec3> velocity_E_mps;
    double horizontal_sigma_m = 0, vertical_sigma_m = 0;
    std::int32_t line = 0;
};

class NmeaReader {
public:
    explicit NmeaReader(const NamedBytes& input) : input_(input) {
        log_.kind = "NMEA";
        log_.file = input.file;
    }

    Expected<FixLog, Problems> read();

private:
    void take(const Sentence& s, std::int32_t line);
    void place(const Sentence& s, std::size_t at, std::optional<double> height, bool fixed,
               std::int32_t line);
    void motion(std::optional<double> knots, std::optional<double> track_deg);
    void meet(double time_s, std::int32_t line);
    void flush();

    const NamedBytes& input_;
    FixLog log_;
    Epoch now_;
    std::optional<double> day_s_;
    double midnight_s_ = 0, last_time_s_ = -1;
    std::int32_t sentences_ = 0, bad_ = 0, first_bad_line_ = 0, no_fix_ = 0, flat_ = 0;
    bool checked_ = false;       ///< some sentences carry a checksum
    std::int32_t cut_line_ = 0;  ///< of the last sentence, when it ends early
    bool no_height_ = false;
};

/// A sentence with another time starts another moment.
void NmeaReader::meet(double time_s, std::int32_t line) {
    if (now_.time_s == time_s) return;
    flush();
    now_ = {};
    now_.time_s = time_s;
    now_.line = line;
}

void NmeaReader::flush() {
    if (now_.time_s < 0 || !now_.place) {
        if (now_.time_s >= 0 && now_.velocity_E_mps) ++flat_;
        return;
    }
    if (!day_s_) {
        if (last_time_s_ >= 0 && now_.time_s + midnight_s_ < last_time_s_ - kDay_s / 2)
            midnight_s_ += kDay_s;
        last_time_s_ = now_.time_s + midnight_s_;
    }
    Fix fix;
    fix.clock_s = now_.time_s + midnight_s_;
    if (day_s_) {
        fix.clock_s = now_.time_s + *day_s_;
        // the day's sentence may come after midnight's first position
        if (!log_.fixes.empty() && fix.clock_s < log_.fixes.back().clock_s - kDay_s / 2)
            fix.clock_s += kDay_s;
    }
    fix.place = *now_.place;
    fix.line = now_.line;
    if (now_.velocity_E_mps) {
        fix.velocity_E_mps = *now_.velocity_E_mps;
        fix.has_velocity = true;
    }
    fix.horizontal_sigma_m = static_cast<float>(now_.horizontal_sigma_m);
    fix.vertical_sigma_m = static_cast<float>(now_.vertical_sigma_m);
    log_.fixes.push_back(fix);
}

void NmeaReader::place(const Sentence& s, std::size_t at, std::optional<double> height, bool fixed,
                       std::int32_t line) {
    const auto time_s = timeOf(s[0]);
    if (!time_s) return;
    meet(*time_s, line);
    const auto latitude = angleOf(s[at], s[at + 1], 'N', 'S', 90);
    const auto longitude = angleOf(s[at + 2], s[at + 3], 'E', 'W', 180);
    if (!fixed || !latitude || !longitude) {
        ++no_fix_;
        return;
    }
    if (!height || std::abs(*height) > 1e5) {
        no_height_ = true;
        return;
    }
    now_.place = earth::GeoPoint{*latitude, *longitude, *height};
}

void NmeaReader::motion(std::optional<double> knots, std::optional<double> track_deg) {
    if (!knots || *knots < 0 || *knots > 2000) return;
    const double track = track_deg.value_or(0) * units::kDegree_rad;
    if (!track_deg && *knots > 1) return;
    now_.velocity_E_mps = *knots * units::kKnot_mps * Vec3(std::sin(track), std::cos(track), 0);
}

void NmeaReader::take(const Sentence& s, std::int32_t line) {
    if (s.kind == "GGA") {
        const auto quality = s.number(5);
        place(s, 1, s.number(8), quality && *quality >= 1 && *quality != 6, line);
    } else if (s.kind == "GNS") {
        const bool fixed = !s[5].empty() && s[5].find_first_not_of('N') != std::string_view::npos;
        if (!now_.place || now_.time_s != timeOf(s[0])) place(s, 1, s.number(8), fixed, line);
    } else if (s.kind == "RMC") {
        if (s[1] != "A") return;
        const auto time_s = timeOf(s[0]);
        if (!time_s) return;
        meet(*time_s, line);
        motion(s.number(6), s.number(7));
        const std::string_view date = s[8];
        if (date.size() == 6) {
            const std::int32_t year = digits(date.substr(4, 2));
            const auto day =
                year < 0 ? std::nullopt
                         : secondsOfDate(year >= 80 ? 1900 + year : 2000 + year,
                                         digits(date.substr(2, 2)), digits(date.substr(0, 2)));
            if (day) day_s_ = day;
        }
    } else if (s.kind == "VTG") {
        motion(s.number(4), s.number(0));
    } else if (s.kind == "ZDA") {
        const auto day = secondsOfDate(digits(s[3]), digits(s[2]), digits(s[1]));
        if (day) day_s_ = day;
    } else if (s.kind == "GST") {
        const auto north = s.number(5), east = s.number(6), up = s.number(7);
        if (north && east && *north > 0 && *east > 0 && *north < 1000 && *east < 1000)
            now_.horizontal_sigma_m = std::sqrt((*north * *north + *east * *east) / 2);
        if (up && *up > 0 && *up < 1000) now_.vertical_sigma_m = *up;
    }
}

Expected<FixLog, Problems> NmeaReader::read() {
    LineReader lines(input_.bytes);
    Sentence sentence;
    while (lines.next()) {
        switch (takeSentence(lines.line(), sentence)) {
            case Taken::Nothing:
                continue;
            case Taken::BadChecksum:
                if (bad_++ == 0) first_bad_line_ = lines.number();
                continue;
            case Taken::Good:
                break;
        }
        // A last line without its checksum, where others have one, was cut: its numbers too.
        const std::string_view line = lines.line();
        const bool checked = line.find('*') != std::string_view::npos;
        checked_ = checked_ || checked;
        if (checked_ && !checked &&
            line.data() + line.size() == input_.bytes.data() + input_.bytes.size()) {
            cut_line_ = lines.number();
            continue;
        }
        ++sentences_;
        take(sentence, lines.number());
    }
    flush();
    // A file whose first positions come before its first date: the days are put before them.
    log_.clock = day_s_ ? Clock::Utc : Clock::TimeOfDay;
    if (day_s_) {
        double first_dated = 0;
        for (const Fix& fix : log_.fixes)
            if (fix.clock_s > 10 * kDay_s) {
                first_dated = fix.clock_s;
                break;
            }
        const double day = kDay_s * std::floor((first_dated > 0 ? first_dated : *day_s_) / kDay_s);
        for (Fix& fix : log_.fixes)
            if (fix.clock_s < 10 * kDay_s) fix.clock_s += day;
    }
    const auto say = [this](std::int32_t line, std::string what, std::string remedy) {
        log_.warnings.push_back(
            problem({input_.file, line, line > 0 ? 1 : 0}, std::move(what), std::move(remedy)));
    };
    if (bad_ > 0)
        say(first_bad_line_,
            std::to_string(bad_) + " sentences with a wrong checksum left out, the first here",
            "look at the cable or the speed of the port");
    if (cut_line_ > 0)
        say(cut_line_, "the last sentence ends early and is left out",
            "the file may have been cut short: copy it again from the recorder");
    if (no_fix_ > 0)
        say(0, std::to_string(no_fix_) + " sentences say that there was no fix",
            "expect gaps there");
    if (day_s_ && !log_.fixes.empty() && log_.fixes.front().clock_s < kEarliest_s)
        say(0,
            "the receiver's date is " + formatUtc(log_.fixes.front().clock_s).substr(0, 10) +
                "; the satellites' week may have been counted from a wrong start",
            "trust the time of day, not the date");
    if (sentences_ == 0 && bad_ > 0)
        return failure(problem(
            {input_.file, first_bad_line_, 1},
            "not one of its " + std::to_string(bad_) + " NMEA sentences has a right checksum",
            "look at the cable or the speed of the port"));
    if (log_.fixes.empty())
        return failure(
            problem({input_.file, 0, 0},
                    std::to_string(sentences_) + " NMEA sentences and no position with a height" +
                        (no_height_    ? " (heights are empty)"
                         : flat_ > 0   ? " (only positions in two dimensions)"
                         : no_fix_ > 0 ? " (the receiver had no fix)"
                                       : ""),
                    "log the sentences GGA and RMC, with satellite reception"),
            log_.warnings);
    return std::move(log_);
}

}  // namespace

bool looksLikeNmea(std::string_view bytes) {
    // chosen: logs may begin with a page of notes
    LineReader lines(bytes.substr(0, 100000));
    Sentence sentence;
    // chosen: so many that only their checksums spoil are no chance
    constexpr int kFewest = 5;
    int spoilt = 0;
    for (int i = 0; i < 200 && lines.next(); ++i) {
        const Taken taken = takeSentence(lines.line(), sentence);
        if (taken == Taken::Good || (taken == Taken::BadChecksum && ++spoilt == kFewest))
            return true;
    }
    return false;
}

Expected<FixLog, Problems> readNmea(const NamedBytes& input) { return NmeaReader(input).read(); }

}  // namespace plumbline::record
