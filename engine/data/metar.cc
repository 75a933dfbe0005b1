#include "engine/data/metar.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/base/number_text.h"
#include "engine/units/units.h"

namespace plumbline::data {
namespace {

constexpr double kWindHeight_m = 10;                     // WMO-No. 8, surface wind
constexpr double kLightWind_mps = 6 * units::kKnot_mps;  // METAR code: VRB up to 6 kt

struct Group {
    std::string_view text;
    std::int32_t column = 0;
};

bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isLetter(char c) { return c >= 'A' && c <= 'Z'; }
bool allDigits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), isDigit);
}
bool allLetters(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), isLetter);
}
bool startsWith(std::string_view text, std::string_view start) {
    return text.substr(0, start.size()) == start;
}
bool endsWith(std::string_view text, std::string_view end) {
    return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}
/// Digits only.
double numberOf(std::string_view digits) { return parseDouble(digits).value_or(0); }

std::vector<Group> split(std::string_view metar, std::int32_t column) {
    std::vector<Group> groups;
    bool within = false;
    for (std::size_t i = 0; i < metar.size(); ++i) {
        const char c = metar[i];
        const bool blank = c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '=';
        if (!blank && !within) groups.push_back({metar.substr(i, 0), column});
        if (!blank) {
            Group& group = groups.back();
            group.text = std::string_view(group.text.data(), group.text.size() + 1);
        }
        within = !blank;
        if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) ++column;
    }
    return groups;
}

/// Reads group by group; each read takes as many as it understands, none if it does not.
class MetarReader {
public:
    MetarReader(std::string_view metar, const TextPosition& start)
        : start_(start), groups_(split(metar, std::max(start.column, 1))) {}

    Expected<Weather, Problems> read();

private:
    bool atEnd() const { return at_ == groups_.size(); }
    std::string_view next() const { return atEnd() ? std::string_view() : groups_[at_].text; }

    void problem(std::string what, std::string remedy) {
        TextPosition where = start_;
        where.line = std::max(where.line, 1);
        where.column = !atEnd()           ? groups_[at_].column
                       : !groups_.empty() ? groups_.back().column
                                          : std::max(start_.column, 1);
        problems_.push_back({where, std::move(what), std::move(remedy)});
    }

    void passHead();
    bool takeWind();
    void addWind(std::string_view direction, double speed_mps);
    bool takeVisibility();
    bool takeMiles();
    bool takeCloud();
    bool takeTemperature();
    bool takePressure();
    bool takeOther();

    TextPosition start_;
    std::vector<Group> groups_;
    std::size_t at_ = 0;
    Problems problems_;
    Weather weather_;
    std::optional<CloudCover> cover_;
    bool has_wind_ = false, has_temperature_ = false, has_pressure_ = false;
};

/// METAR, COR, station, time, AUTO.
void MetarReader::passHead() {
    const auto pass = [this](auto fits) {
        if (!atEnd() && fits(next())) ++at_;
    };
    const auto corrected = [](std::string_view t) { return t == "COR"; };
    pass([](std::string_view t) { return t == "METAR" || t == "SPECI"; });
    pass(corrected);
    pass([](std::string_view t) {
        return t.size() == 4 && isLetter(t[0]) &&
               std::all_of(t.begin(), t.end(), [](char c) { return isLetter(c) || isDigit(c); }) &&
               t != "AUTO";
    });
    pass([](std::string_view t) {
        return t.size() == 7 && t[6] == 'Z' && allDigits(t.substr(0, 6));
    });
    pass(corrected);
    pass([](std::string_view t) { return t == "AUTO"; });
    pass(corrected);
}

void MetarReader::addWind(std::string_view direction, double speed_mps) {
    has_wind_ = true;
    if (direction == "VRB") {
        if (speed_mps > kLightWind_mps)
            problem(fmt::format("{}: variable wind of this strength has no direction to plan with",
                                next()),
                    "give the wind by height in a weather file");
        return;
    }
    const double from_deg = numberOf(direction);
    if (from_deg > 360)
        problem(fmt::format("{}: a direction goes up to 360", next()), "correct it");
    if (speed_mps > 0)
        weather_.wind.push_back({kWindHeight_m, from_deg * units::kDegree_rad, speed_mps});
}

bool MetarReader::takeWind() {
    std::string_view text = next();
    double unit_mps = 0;
    for (const auto& [name, factor] : {std::pair<std::string_view, double>{"KT", units::kKnot_mps},
                                       {"MPS", 1.0},
                                       {"KMH", units::kKilometrePerHour_mps}})
        if (endsWith(text, name)) {
            unit_mps = factor;
            text.remove_suffix(name.size());
        }
    if (text.size() < 5) return false;
    const std::string_view direction = text.substr(0, 3);
    std::string_view speed = text.substr(3);
    const std::size_t gust = speed.find('G');
    const std::string_view gust_speed =
        gust == std::string_view::npos ? std::string_view("00") : speed.substr(gust + 1);
    speed = speed.substr(0, gust);
    if (!(direction == "VRB" || allDigits(direction)) || !allDigits(speed) ||
        !allDigits(gust_speed) || speed.size() > 3 || speed.size() < 2)
        return false;
    if (unit_mps == 0) {
        problem(fmt::format("{} has no unit", next()), "add KT or MPS");
        unit_mps = 1;
    }
    addWind(direction, numberOf(speed) * unit_mps);
    ++at_;
    // From where to where it varies: 210V270.
    if (const std::string_view t = next();
        t.size() == 7 && t[3] == 'V' && allDigits(t.substr(0, 3)) && allDigits(t.substr(4)))
        ++at_;
    return true;
}

/// "10SM", "P6SM", "3/4SM", "M1/4SM", and "1 1/2SM" in two groups.
bool MetarReader::takeMiles() {
    double whole = 0;
    std::size_t used = 0;
    std::string_view text = next();
    if (text.size() == 1 && isDigit(text[0]) && at_ + 1 < groups_.size() &&
        endsWith(groups_[at_ + 1].text, "SM")) {
        whole = numberOf(text);
        ++used;
        text = groups_[at_ + 1].text;
    }
    if (!endsWith(text, "SM")) return false;
    text.remove_suffix(2);
    if (!text.empty() && (text[0] == 'P' || text[0] == 'M')) text.remove_prefix(1);
    const std::size_t slash = text.find('/');
    double miles = 0;
    if (slash == std::string_view::npos) {
        if (!allDigits(text)) return false;
        miles = numberOf(text);
    } else {
        const std::string_view top = text.substr(0, slash), bottom = text.substr(slash + 1);
        if (!allDigits(top) || !allDigits(bottom) || numberOf(bottom) == 0) return false;
        miles = numberOf(top) / numberOf(bottom);
    }
    weather_.visibility_m = (whole + miles) * units::kStatuteMile_m;
    at_ += used + 1;
    return true;
}

bool MetarReader::takeVisibility() {
    const std::string_view text = next();
    if (text == "CAVOK" || text == "////") {
        ++at_;
        return true;
    }
    const bool metres = text.size() >= 4 && allDigits(text.substr(0, 4)) &&
                        (text.size() == 4 || allLetters(text.substr(4)));
    if (!metres) return takeMiles();
    const double value_m = numberOf(text.substr(0, 4));
    weather_.visibility_m = value_m == 9999 ? 10000 : value_m;
    ++at_;
    // The least visibility and its direction may follow: 1200NE.
    if (const std::string_view t = next();
        t.size() > 4 && t.size() <= 6 && allDigits(t.substr(0, 4)) && allLetters(t.substr(4)))
        ++at_;
    return true;
}

bool MetarReader::takeCloud() {
    std::string_view text = next();
    for (const char* none : {"NSC", "NCD", "SKC", "CLR"})
        if (text == none) {
            ++at_;
            return true;
        }
    std::optional<CloudCover> cover;
    if (startsWith(text, "FEW")) cover = CloudCover::Few;
    if (startsWith(text, "SCT")) cover = CloudCover::Scattered;
    if (startsWith(text, "BKN")) cover = CloudCover::Broken;
    if (startsWith(text, "OVC")) cover = CloudCover::Overcast;
    std::size_t head = 3;
    if (startsWith(text, "VV")) {  // sky hidden: how far one sees straight up
        cover = CloudCover::Overcast;
        head = 2;
    }
    // A height that an automatic station could not measure is written ///.
    if (startsWith(text, "///")) {
        ++at_;
        return true;
    }
    if (!cover || text.size() < head + 3) return false;
    const std::string_view height = text.substr(head, 3), kind = text.substr(head + 3);
    if (!(kind.empty() || kind == "CB" || kind == "TCU" || kind == "///")) return false;
    if (height != "///") {
        if (!allDigits(height)) return false;
        const double base_m = std::max(numberOf(height) * 100 * units::kFoot_m, 1.0);
        // Layers come from low to high: the first from scattered on counts.
        if (!cover_ || (*cover_ == CloudCover::Few && *cover != CloudCover::Few)) {
            cover_ = cover;
            weather_.cloud_base_m = base_m;
            weather_.cloud_cover_frac = coverOf(*cover);
        }
    }
    ++at_;
    return true;
}

bool MetarReader::takeTemperature() {
    const std::string_view text = next();
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos) return false;
    const auto degrees = [](std::string_view t) -> std::optional<double> {
        const double sign = !t.empty() && t[0] == 'M' ? -1 : 1;
        if (sign < 0) t.remove_prefix(1);
        if (t.size() != 2 || !allDigits(t)) return std::nullopt;
        return sign * numberOf(t);
    };
    const std::optional<double> temperature = degrees(text.substr(0, slash));
    const std::string_view dew = text.substr(slash + 1);
    if (!temperature || !(dew.empty() || dew == "//" || dew == "XX" || degrees(dew))) return false;
    has_temperature_ = true;
    weather_.temperature_k = *temperature + units::kCelsiusZero_k;
    if (*temperature > 60)
        problem(fmt::format("{}: hotter than anywhere on Earth", text), "correct it");
    ++at_;
    return true;
}

bool MetarReader::takePressure() {
    const std::string_view text = next();
    if (text.size() != 5 || !allDigits(text.substr(1)) || (text[0] != 'Q' && text[0] != 'A'))
        return false;
    has_pressure_ = true;
    const double value = numberOf(text.substr(1));
    weather_.qnh_pa =
        text[0] == 'Q' ? value * units::kHectopascal_pa : value / 100 * units::kInchOfMercury_pa;
    if (weather_.qnh_pa < 85000 || weather_.qnh_pa > 110000)
        problem(fmt::format("{}: no such pressure at sea level", text),
                "give Q and hectopascals or A and hundredths of an inch");
    ++at_;
    return true;
}

/// Runway visual range, present weather.
bool MetarReader::takeOther() {
    std::string_view text = next();
    const bool runway = text.size() > 4 && text[0] == 'R' && isDigit(text[1]) &&
                        text.find('/') != std::string_view::npos;
    if (!text.empty() && (text[0] == '+' || text[0] == '-')) text.remove_prefix(1);
    const bool weather =
        allLetters(text) && text.size() % 2 == 0 && text.size() >= 2 && text.size() <= 8;
    if (!runway && !weather && text != "//") return false;
    ++at_;
    return true;
}

Expected<Weather, Problems> MetarReader::read() {
    passHead();
    while (!atEnd() && !has_pressure_) {
        if (next() == "RMK" || next() == "NIL") break;
        const bool taken = (!has_wind_ && takeWind()) || takeVisibility() || takeCloud() ||
                           (!has_temperature_ && takeTemperature()) || takePressure() ||
                           takeOther();
        if (taken) continue;
        problem(fmt::format("\"{}\" is no METAR group that belongs here", next()),
                "correct it or leave it out");
        ++at_;
    }
    if (groups_.empty()) {
        problem("the METAR is empty", "write it as the airfield sent it");
    } else {
        if (!has_wind_) problem("the METAR has no wind", "add it, such as 25012KT or 00000KT");
        if (!has_temperature_) problem("the METAR has no temperature", "add it, such as 19/12");
        if (!has_pressure_) problem("the METAR has no pressure", "add it, such as Q1016 or A2992");
    }
    if (!problems_.empty()) return Unexpected(std::move(problems_));
    for (const Group& group : groups_) {
        if (!weather_.name.empty()) weather_.name += ' ';
        weather_.name += group.text;
    }
    return std::move(weather_);
}

}  // namespace

double coverOf(CloudCover cover) {
    switch (cover) {
        case CloudCover::Few:
            return 1.5 / 8;
        case CloudCover::Scattered:
            return 3.5 / 8;
        case CloudCover::Broken:
            return 6.0 / 8;
        case CloudCover::Overcast:
            return 1;
    }
    return 0;
}

Expected<Weather, Problems> readMetar(std::string_view metar, const TextPosition& start) {
    return MetarReader(metar, start).read();
}

}  // namespace plumbline::data
