#include "engine/record/ulog.h"

#include <array>
#include <cmath>
#include <map>

#include "engine/record/ulog_format.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

constexpr std::string_view kMagic("\x55\x4C\x6F\x67\x01\x12\x35", 7);
constexpr std::size_t kHeader = 16;

enum Topic { kCombined, kAttitude, kGnss, kLocal, kMag, kAir, kAirspeed, kTopics };

/// What a subscription's messages hold that is of use.
struct Subscription {
    Topic topic = kTopics;
    UlogSlot time;
    std::array<UlogSlot, 12> slot;
};

class UlogReader {
public:
    explicit UlogReader(const NamedBytes& input) : input_(input) {
        log_.kind = "ULog";
        log_.file = input.file;
    }
    Expected<FixLog, Problems> read();

private:
    void readSpan(std::size_t from, std::size_t to);
    void subscribe(std::string_view body);
    void data(std::string_view body);
    void gnss(const Subscription& s, std::string_view body, double t);
    void local(const Subscription& s, std::string_view body, double t);

    const NamedBytes& input_;
    FixLog log_;
    std::vector<Fix> local_fixes_;
    UlogFormats formats_;
    std::map<std::uint16_t, Subscription> subscriptions_;
    std::array<bool, kTopics> seen_{};
    std::array<std::uint64_t, 3> appended_{};
    std::size_t broken_ = 0, dropouts_ = 0;
    double utc_offset_s_ = NAN;
};

void UlogReader::subscribe(std::string_view body) {
    if (body.size() < 4) return;
    const auto instance = static_cast<unsigned char>(body[0]);
    const auto id = readAt<std::uint16_t>(body, 1);
    const std::string name(body.substr(3));
    if (instance != 0) return;
    Subscription s;
    s.time = formats_.find(name, "timestamp");
    const auto three = [&](std::string_view field, std::size_t first) {
        for (std::size_t i = 0; i < 3; ++i) s.slot[first + i] = formats_.find(name, field, i);
    };
    if (name == "sensor_combined") {
        s.topic = kCombined;
        three("gyro_rad", 0);
        three("accelerometer_m_s2", 3);
        three("magnetometer_ga", 6);
        s.slot[9] = formats_.find(name, "baro_alt_meter");
    } else if (name == "vehicle_attitude") {
        s.topic = kAttitude;
        for (std::size_t i = 0; i < 4; ++i) s.slot[i] = formats_.find(name, "q", i);
        if (!s.slot[3].there()) return;
    } else if (name == "vehicle_gps_position" || name == "sensor_gps") {
        s.topic = kGnss;
        s.slot[0] = formats_.find(name, "latitude_deg");
        s.slot[1] = formats_.find(name, "longitude_deg");
        s.slot[2] = formats_.find(name, "altitude_msl_m");
        if (!s.slot[0].there()) {
            s.slot[0] = formats_.find(name, "lat");
            s.slot[1] = formats_.find(name, "lon");
            s.slot[2] = formats_.find(name, "alt");
        }
        s.slot[3] = formats_.find(name, "vel_n_m_s");
        s.slot[4] = formats_.find(name, "vel_e_m_s");
        s.slot[5] = formats_.find(name, "vel_d_m_s");
        s.slot[6] = formats_.find(name, "eph");
        s.slot[7] = formats_.find(name, "epv");
        s.slot[8] = formats_.find(name, "fix_type");
        s.slot[9] = formats_.find(name, "time_utc_usec");
    } else if (name == "vehicle_local_position") {
        s.topic = kLocal;
        const std::string_view fields[] = {"x", "y", "z", "vx", "vy", "vz", "xy_valid"};
        for (std::size_t i = 0; i < std::size(fields); ++i)
            s.slot[i] = formats_.find(name, fields[i]);
    } else if (name == "vehicle_magnetometer") {
        s.topic = kMag;
        three("magnetometer_ga", 0);
    } else if (name == "vehicle_air_data") {
        s.topic = kAir;
        s.slot[0] = formats_.find(name, "baro_alt_meter");
    } else if (name == "airspeed") {
        s.topic = kAirspeed;
        s.slot[0] = formats_.find(name, "true_airspeed_m_s");
    } else {
        return;
    }
    // two topics may carry the receiver's solution: the first counts
    if (!s.time.there() || seen_[s.topic]) return;
    seen_[s.topic] = true;
    subscriptions_[id] = s;
}

void UlogReader::gnss(const Subscription& s, std::string_view body, double t) {
    const bool whole_numbers = s.slot[0].kind == 'i';  // 1e-7 deg and mm
    Fix fix;
    fix.clock_s = t;
    const double angle = (whole_numbers ? 1e-7 : 1) * units::kDegree_rad;
    fix.place = {s.slot[0].read(body) * angle, s.slot[1].read(body) * angle,
                 s.slot[2].read(body) * (whole_numbers ? 1e-3 : 1)};
    const double sum = fix.place.latitude_rad + fix.place.longitude_rad + fix.place.elevation_m;
    if (!std::isfinite(sum) || std::abs(fix.place.latitude_rad) > kPi / 2 ||
        std::abs(fix.place.longitude_rad) > kPi || std::abs(fix.place.elevation_m) > 1e5)
        return;
    if (s.slot[8].there() && s.slot[8].read(body) < 3) return;
    const Vec3 velocity(s.slot[4].read(body), s.slot[3].read(body), -s.slot[5].read(body));
    if (s.slot[5].there() && std::isfinite(velocity.x + velocity.y + velocity.z) &&
        glm::length(velocity) < 1000) {
        fix.velocity_E_mps = velocity;
        fix.has_velocity = fix.has_vertical_velocity = true;
    }
    const auto sigma = [&](std::size_t i) {
        const double v = s.slot[i].there() ? s.slot[i].read(body) : 0;
        return static_cast<float>(v > 0 && v < 1000 ? v : 0);
    };
    fix.horizontal_sigma_m = sigma(6);
    fix.vertical_sigma_m = sigma(7);
    const double utc_s = s.slot[9].there() ? s.slot[9].read(body) * 1e-6 : 0;
    // chosen: past 2010 a receiver has the time
    if (std::isnan(utc_offset_s_) && utc_s > 1262304000 && utc_s < 4e9) utc_offset_s_ = utc_s - t;
    log_.fixes.push_back(fix);
}

void UlogReader::local(const Subscription& s, std::string_view body, double t) {
    if (s.slot[6].there() && s.slot[6].read(body) == 0) return;
    Fix fix;
    fix.clock_s = t;
    fix.position_S_m = {s.slot[1].read(body), s.slot[0].read(body), -s.slot[2].read(body)};
    fix.velocity_E_mps = {s.slot[4].read(body), s.slot[3].read(body), -s.slot[5].read(body)};
    const Vec3 sum = fix.position_S_m + fix.velocity_E_mps;
    if (!std::isfinite(sum.x + sum.y + sum.z) || glm::length(fix.position_S_m) > 1e7) return;
    fix.has_velocity = fix.has_vertical_velocity = true;
    local_fixes_.push_back(fix);
}

void UlogReader::data(std::string_view body) {
    if (body.size() < 2) return;
    const auto found = subscriptions_.find(readAt<std::uint16_t>(body, 0));
    if (found == subscriptions_.end()) return;
    const Subscription& s = found->second;
    body.remove_prefix(2);
    const double t = s.time.read(body) * 1e-6;
    if (!std::isfinite(t) || t > 1e11) return;
    const auto three = [&](std::size_t first) {
        return Vec3(s.slot[first].read(body), s.slot[first + 1].read(body),
                    s.slot[first + 2].read(body));
    };
    const auto finite = [](const Vec3& v) { return std::isfinite(v.x + v.y + v.z); };
    SensorLog& to = log_.sensors;
    switch (s.topic) {
        case kCombined:
            if (s.slot[2].there() && s.slot[5].there() && finite(three(0)) && finite(three(3))) {
                to.rate_I_radps.add(t, three(0));
                to.force_I_mps2.add(t, three(3));
            }
            if (s.slot[8].there() && finite(three(6)) &&
                (to.field_I.size() == 0 || to.field_I.values.back() != three(6)))
                to.field_I.add(t, three(6));
            if (s.slot[9].there()) {
                const double h = s.slot[9].read(body);
                if (std::isfinite(h) &&
                    (to.pressure_height_m.size() == 0 || to.pressure_height_m.values.back() != h))
                    to.pressure_height_m.add(t, h);
            }
            break;
        case kAttitude: {
            const Quat q(s.slot[0].read(body), s.slot[1].read(body), s.slot[2].read(body),
                         s.slot[3].read(body));
            const double length = glm::length(q);
            // body to north-east-down, turned to east-north-up
            static const Quat kTurn(0, std::sqrt(0.5), std::sqrt(0.5), 0);
            if (length > 0.5 && length < 2) to.q_EB.add(t, kTurn * (q / length));
            break;
        }
        case kGnss:
            gnss(s, body, t);
            break;
        case kLocal:
            local(s, body, t);
            break;
        case kMag:
            if (finite(three(0))) to.field_I.add(t, three(0));
            break;
        case kAir: {
            const double h = s.slot[0].read(body);
            if (std::isfinite(h)) to.pressure_height_m.add(t, h);
            break;
        }
        case kAirspeed: {
            const double v = s.slot[0].read(body);
            if (std::isfinite(v) && v >= 0 && v < 1000) to.airspeed_mps.add(t, v);
            break;
        }
        case kTopics:
            break;
    }
}

void UlogReader::readSpan(std::size_t from, std::size_t to) {
    std::size_t at = from;
    while (at + 3 <= to) {
        const auto size = readAt<std::uint16_t>(input_.bytes, at);
        const char type = input_.bytes[at + 2];
        const std::size_t body_at = at + 3;
        if (body_at + size > to) {
            ++broken_;  // the last message is not whole
            return;
        }
        const std::string_view body = input_.bytes.substr(body_at, size);
        switch (type) {
            case 'F':
                if (!formats_.add(body)) ++broken_;
                break;
            case 'A':
                subscribe(body);
                break;
            case 'D':
                data(body);
                break;
            case 'O':
                ++dropouts_;
                break;
            case 'B':
                for (std::size_t i = 0; i < 3; ++i)
                    appended_[i] = readAt<std::uint64_t>(body, 16 + 8 * i);
                break;
            case 'I':
            case 'M':
            case 'P':
            case 'Q':
            case 'L':
            case 'C':
            case 'S':
            case 'R':
                break;
            default:
                ++broken_;
                return;  // no message: the places of all that follow are lost
        }
        at = body_at + size;
    }
}

Expected<FixLog, Problems> UlogReader::read() {
    const std::size_t size = input_.bytes.size();
    // The flag message, if any, is the first: it says where data was put at the end.
    if (size >= kHeader + 3 && input_.bytes[kHeader + 2] == 'B')
        readSpan(kHeader,
                 std::min(size, kHeader + 3 + readAt<std::uint16_t>(input_.bytes, kHeader)));
    std::vector<std::size_t> starts = {kHeader};
    for (const std::uint64_t offset : appended_)
        if (offset > starts.back() && offset < size)
            starts.push_back(static_cast<std::size_t>(offset));
    for (std::size_t i = 0; i < starts.size(); ++i)
        readSpan(starts[i], i + 1 < starts.size() ? starts[i + 1] : size);

    const auto say = [this](std::string what, std::string remedy) {
        log_.warnings.push_back(problem({input_.file, 0, 0}, std::move(what), std::move(remedy)));
    };
    if (broken_ > 0)
        say("the file ends early or has broken messages; what is whole is used",
            "copy it again from the recorder");
    if (dropouts_ > 0)
        say(std::to_string(dropouts_) + " dropouts while it was written", "use a faster card");
    if (log_.fixes.size() < 2 && local_fixes_.size() >= 2) {
        log_.fixes = std::move(local_fixes_);
        log_.geodetic = false;
        say("no satellite fixes: places are the log's own local solution",
            "heights and places count from where it was switched on");
    }
    if (!std::isnan(utc_offset_s_)) {
        log_.clock = Clock::Utc;
        const auto shift = [this](auto& times) {
            for (double& t : times) t += utc_offset_s_;
        };
        for (Fix& fix : log_.fixes) fix.clock_s += utc_offset_s_;
        SensorLog& s = log_.sensors;
        shift(s.rate_I_radps.clock_s);
        shift(s.force_I_mps2.clock_s);
        shift(s.field_I.clock_s);
        shift(s.pressure_height_m.clock_s);
        shift(s.airspeed_mps.clock_s);
        shift(s.q_EB.clock_s);
    }
    if (log_.fixes.empty() && log_.sensors.empty())
        return failure(problem({input_.file, 0, 0},
                               "this ULog file has no topic of use: neither places nor sensors",
                               "log sensor_combined, vehicle_attitude and vehicle_gps_position"),
                       log_.warnings);
    return std::move(log_);
}

}  // namespace

bool looksLikeUlog(std::string_view bytes) { return bytes.substr(0, 7) == kMagic; }

Expected<FixLog, Problems> readUlog(const NamedBytes& input) { return UlogReader(input).read(); }

}  // namespace plumbline::record
