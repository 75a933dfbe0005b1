#include "engine/record/column_names.h"

#include <algorithm>
#include <vector>

namespace plumbline::record {

namespace {

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// Lower case, signs that units need in plain letters, an index as the axis it counts.
std::string plain(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    replaceAll(out, "\xC2\xB0", "deg");  // degree sign
    replaceAll(out, "\xC2\xB5", "u");    // micro sign
    replaceAll(out, "\xCE\xBC", "u");    // Greek mu
    replaceAll(out, "\xC2\xB2", "2");    // superscript two
    replaceAll(out, "\xB0", "deg");      // degree sign in Latin-1
    replaceAll(out, "[0]", "_x");
    replaceAll(out, "[1]", "_y");
    replaceAll(out, "[2]", "_z");
    return out;
}

/// Letters and digits stay, everything between them becomes one '_'.
std::string joinedWords(std::string_view text) {
    std::string words;
    bool gap = false;
    for (const char c : text) {
        const bool part = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (part && gap && !words.empty()) words += '_';
        gap = !part;
        if (part) words += c;
    }
    return words;
}

/// Splits a known unit of up to three words off the end.
ColumnName withoutUnit(const std::string& words) {
    std::size_t at = words.size();
    ColumnName best{words, ""};
    for (int taken = 0; taken < 3 && at > 0; ++taken) {
        at = words.rfind('_', at - 1);
        if (at == std::string::npos || at == 0) break;
        const std::string unit = words.substr(at + 1);
        // the longest that is one: "m_s" is a speed and not seconds
        if (isColumnUnit(unit)) best = {words.substr(0, at), unit};
    }
    return best;
}

struct QuantityRow {
    Quantity quantity;
    UnitKind kind;
    std::string_view name;
    /// Names it goes by, words run together, the most telling first.
    std::string_view names;
};

constexpr QuantityRow kQuantities[] = {
    {Quantity::Time, UnitKind::Time, "time",
     "time utctime utc gpstime datetime dateandtime timestamp timeofday t seconds elapsed "
     "elapsedtime "
     "clock timeutc timestampsample timeusec tow ts msec millis"},
    {Quantity::Date, UnitKind::None, "date", "date utcdate gpsdate day"},
    {Quantity::Latitude, UnitKind::Angle, "latitude", "latitude lat"},
    {Quantity::Longitude, UnitKind::Angle, "longitude", "longitude lon lng long"},
    {Quantity::Altitude, UnitKind::Length, "altitude",
     "altitude alt altitudemsl altmsl elevation ele height hmsl altgps heightmsl"},
    {Quantity::X, UnitKind::Length, "x", "x east easting xeast posx positionx"},
    {Quantity::Y, UnitKind::Length, "y", "y north northing ynorth posy positiony"},
    {Quantity::Z, UnitKind::Length, "z", "z up zup posz positionz"},
    {Quantity::North, UnitKind::Speed, "velocity north",
     "velocitynorth northvelocity vn veln vnorth velnorth speednorth northspeed velnms"},
    {Quantity::East, UnitKind::Speed, "velocity east",
     "velocityeast eastvelocity ve vele veast veleast speedeast eastspeed velems"},
    {Quantity::Down, UnitKind::Speed, "velocity down",
     "velocitydown downvelocity vd veld vdown veldown speeddown veldms"},
    {Quantity::Up, UnitKind::Speed, "velocity up",
     "velocityup upvelocity vu velu vup velup verticalspeed climbrate vspeed vs"},
    {Quantity::GroundSpeed, UnitKind::Speed, "ground speed",
     "groundspeed gs speedoverground sog speed gspeed"},
    {Quantity::Track, UnitKind::Angle, "track",
     "track course courseoverground cog groundtrack trk coursetrue"},
    {Quantity::RateX, UnitKind::Rate, "rate x",
     "gyrox gyrx gyroscopex ratex angularvelocityx angularratex omegax wx gx rollrate xgyro "
     "angratex p turnratex gyroradx xrate"},
    {Quantity::RateY, UnitKind::Rate, "rate y",
     "gyroy gyry gyroscopey ratey angularvelocityy angularratey omegay wy gy pitchrate ygyro "
     "angratey q turnratey gyrorady yrate"},
    {Quantity::RateZ, UnitKind::Rate, "rate z",
     "gyroz gyrz gyroscopez ratez angularvelocityz angularratez omegaz wz gz yawrate zgyro "
     "angratez r turnratez gyroradz zrate"},
    {Quantity::ForceX, UnitKind::Force, "force x",
     "accelerometerx accelx accx accelerationx specificforcex ax xaccel xacc xacceleration fx "
     "forcex"},
    {Quantity::ForceY, UnitKind::Force, "force y",
     "accelerometery accely accy accelerationy specificforcey ay yaccel yacc yacceleration fy "
     "forcey"},
    {Quantity::ForceZ, UnitKind::Force, "force z",
     "accelerometerz accelz accz accelerationz specificforcez az zaccel zacc zacceleration fz "
     "forcez"},
    {Quantity::FieldX, UnitKind::Field, "field x",
     "magnetometerx magx magneticfieldx magnx mx xmag fieldx magfieldx"},
    {Quantity::FieldY, UnitKind::Field, "field y",
     "magnetometery magy magneticfieldy magny my ymag fieldy magfieldy"},
    {Quantity::FieldZ, UnitKind::Field, "field z",
     "magnetometerz magz magneticfieldz magnz mz zmag fieldz magfieldz"},
    {Quantity::Pressure, UnitKind::Pressure, "pressure",
     "staticpressure pressure static baropressure barometricpressure pstatic baro press"},
    {Quantity::PressureHeight, UnitKind::Length, "pressure height",
     "pressurealtitude pressureheight baroaltitude baroheight baroalt pressurealt "
     "barometricaltitude "
     "hbaro baroaltmeter altbaro hbaroagl baroalt1013 palt"},
    {Quantity::Airspeed, UnitKind::Speed, "airspeed", "trueairspeed tas airspeedtrue airspeed"},
    {Quantity::IndicatedAirspeed, UnitKind::Speed, "indicated airspeed",
     "indicatedairspeed ias calibratedairspeed cas airspeedindicated"},
    {Quantity::Roll, UnitKind::Angle, "roll", "roll rollangle bank bankangle attroll phi"},
    {Quantity::Pitch, UnitKind::Angle, "pitch", "pitch pitchangle attpitch theta"},
    {Quantity::Heading, UnitKind::Angle, "heading",
     "heading yaw yawangle trueheading headingtrue attyaw hdg psi"},
    {Quantity::Qw, UnitKind::None, "qw", "qw q0 quatw quaternionw attqw"},
    {Quantity::Qx, UnitKind::None, "qx", "qx q1 quatx quaternionx attqx"},
    {Quantity::Qy, UnitKind::None, "qy", "qy q2 quaty quaterniony attqy"},
    {Quantity::Qz, UnitKind::None, "qz", "qz q3 quatz quaternionz attqz"},
    {Quantity::HorizontalSigma, UnitKind::Length, "horizontal sigma",
     "hacc horizontalaccuracy eph epx hsigma horizontalsigma poshacc"},
    {Quantity::VerticalSigma, UnitKind::Length, "vertical sigma",
     "vacc verticalaccuracy epv vsigma verticalsigma posvacc"},
};

const QuantityRow& rowOf(Quantity quantity) {
    return kQuantities[static_cast<std::size_t>(quantity)];
}

struct Name {
    std::string_view text;
    Quantity quantity;
    int rank;
};

/// All names of all quantities, in alphabetical order.
const std::vector<Name>& sortedNames() {
    static const std::vector<Name> names = [] {
        std::vector<Name> all;
        for (const QuantityRow& row : kQuantities) {
            int rank = 0;
            for (std::size_t from = 0; from < row.names.size(); ++rank) {
                const std::size_t to = std::min(row.names.find(' ', from), row.names.size());
                all.push_back({row.names.substr(from, to - from), row.quantity, rank});
                from = to + 1;
            }
        }
        std::sort(all.begin(), all.end(),
                  [](const Name& a, const Name& b) { return a.text < b.text; });
        return all;
    }();
    return names;
}

/// Words that say where a number comes from, not what it is.
bool isOrigin(std::string_view word) {
    constexpr std::string_view kOrigins[] = {"imu",    "gps",  "gnss", "sensor", "raw",
                                             "logger", "data", "body", "ekf",    "ins",
                                             "nav",    "adc",  "ahrs"};
    return std::find(std::begin(kOrigins), std::end(kOrigins), word) != std::end(kOrigins);
}

}  // namespace

ColumnName columnName(std::string_view header_cell) {
    const std::string text = plain(header_cell);
    const std::size_t open = text.find_first_of("([{");
    if (open != std::string::npos) {
        const std::size_t close = text.find_first_of(")]}", open);
        const std::string unit = joinedWords(std::string_view(text).substr(
            open, close == std::string::npos ? std::string::npos : close - open));
        std::string words = joinedWords(std::string_view(text).substr(0, open));
        if (close != std::string::npos) {
            const std::string rest = joinedWords(std::string_view(text).substr(close));
            if (!rest.empty()) words += "_" + rest;
        }
        return {words, isColumnUnit(unit) ? unit : ""};
    }
    const std::string words = joinedWords(text);
    const ColumnName name = withoutUnit(words);
    if (!name.unit.empty()) return name;
    // "accel_m_s2_x": the unit before the axis
    if (words.size() > 2 && words[words.size() - 2] == '_' &&
        std::string_view("xyz").find(words.back()) != std::string_view::npos) {
        const ColumnName inner = withoutUnit(words.substr(0, words.size() - 2));
        if (!inner.unit.empty()) return {inner.words + "_" + words.back(), inner.unit};
    }
    return name;
}

UnitKind unitKind(Quantity quantity) { return rowOf(quantity).kind; }
std::string_view quantityName(Quantity quantity) { return rowOf(quantity).name; }

std::optional<Quantity> quantityNamed(std::string_view name) {
    for (const QuantityRow& row : kQuantities)
        if (row.name == name) return row.quantity;
    return std::nullopt;
}

std::optional<Recognised> recognise(const ColumnName& name) {
    std::string run;
    std::size_t at = 0;
    while (at <= name.words.size()) {
        const std::size_t end = std::min(name.words.find('_', at), name.words.size());
        const std::string_view word = std::string_view(name.words).substr(at, end - at);
        if (!isOrigin(word)) run += word;
        at = end + 1;
    }
    if (run.empty()) return std::nullopt;
    std::optional<Recognised> best;
    const auto& names = sortedNames();
    auto at_name =
        std::lower_bound(names.begin(), names.end(), std::string_view(run),
                         [](const Name& one, std::string_view text) { return one.text < text; });
    for (; at_name != names.end() && at_name->text == run; ++at_name) {
        const QuantityRow& row = rowOf(at_name->quantity);
        // A known unit of another kind means another quantity: "gx (g)" is no rate.
        const bool fits =
            name.unit.empty() || row.kind == UnitKind::None || unitValue(row.kind, name.unit) > 0;
        if (fits && (!best || at_name->rank < best->rank))
            best = Recognised{at_name->quantity, at_name->rank};
    }
    return best;
}

}  // namespace plumbline::record
