#include "viewer/scene/marks.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

constexpr glm::vec4 colourOf(int r, int g, int b, float opacity) {
    return {static_cast<float>(r) / 255.0F, static_cast<float>(g) / 255.0F,
            static_cast<float>(b) / 255.0F, opacity};
}
constexpr glm::vec4 kSaffron = colourOf(0xfa, 0xb8, 0x29, 1);
constexpr glm::vec4 kBone = colourOf(0xe6, 0xde, 0xca, 1);
constexpr glm::vec4 kBoxBone = colourOf(0xe6, 0xde, 0xca, 0.75F);
constexpr glm::vec4 kRibbon = colourOf(0xe8, 0x71, 0x3c, 1);  // the wind sock's cloth
constexpr glm::vec4 kRaspberry = colourOf(0xff, 0x6b, 0x95, 0.5F);

// chosen: how far a show line is drawn where the site gives no box, and its marks
constexpr double kShowLineHalf_m = 1000;
constexpr double kTickEach_m = 100, kTickHalf_m = 5, kCrossHalf_m = 14;

Polyline groundLine(std::vector<Vec3> points_S_m, const glm::vec4& colour) {
    Polyline line;
    line.points_S_m = std::move(points_S_m);
    line.colour = colour;
    line.on_ground = true;
    return line;
}

// chosen: a ribbon's cloth and poles that one can carry; it sags a little
constexpr float kPole_m = 0.06F, kRibbon_m = 0.08F;
constexpr double kPoleOver_m = 0.3, kSag = 0.02;

void addShowLine(double x_low_m, double x_high_m, DrawList& list) {
    Polyline line = groundLine({{x_low_m, 0, 0}, {x_high_m, 0, 0}}, kSaffron);
    line.width_m = 1;
    list.lines.push_back(line);
    const auto cross = [&](const Vec3& a, const Vec3& b) {
        Polyline mark = groundLine({a, b}, kSaffron);
        mark.width_m = 1;
        list.lines.push_back(std::move(mark));
    };
    for (double x_m = std::ceil(x_low_m / kTickEach_m) * kTickEach_m; x_m <= x_high_m;
         x_m += kTickEach_m) {
        if (std::abs(x_m) < 0.5 * kTickEach_m) continue;
        cross({x_m, -kTickHalf_m, 0}, {x_m, kTickHalf_m, 0});
    }
    cross({-kCrossHalf_m, -kCrossHalf_m, 0}, {kCrossHalf_m, kCrossHalf_m, 0});
    cross({-kCrossHalf_m, kCrossHalf_m, 0}, {kCrossHalf_m, -kCrossHalf_m, 0});
}

}  // namespace

void addSiteLines(const data::Site& site, DrawList& list) {
    const bool has_crowd = site.crowd_line_y_m < 0;
    // A recording's own place has no show: no lines are invented for it.
    if (!has_crowd && !site.box) return;
    addShowLine(site.box ? site.box->x_min_m : -kShowLineHalf_m,
                site.box ? site.box->x_max_m : kShowLineHalf_m, list);
    if (has_crowd && site.crowd_x_max_m > site.crowd_x_min_m) {
        Polyline crowd = groundLine({{site.crowd_x_min_m, site.crowd_line_y_m, 0},
                                     {site.crowd_x_max_m, site.crowd_line_y_m, 0}},
                                    kBone);
        crowd.width_m = 0.4F;
        crowd.dash_m = 12;
        list.lines.push_back(std::move(crowd));
    }
    if (site.box) {
        const data::Box& box = *site.box;
        Polyline outline = groundLine({{box.x_min_m, box.y_min_m, 0},
                                       {box.x_max_m, box.y_min_m, 0},
                                       {box.x_max_m, box.y_max_m, 0},
                                       {box.x_min_m, box.y_max_m, 0},
                                       {box.x_min_m, box.y_min_m, 0}},
                                      kBoxBone);
        outline.width_m = 0.5F;
        outline.dash_m = 5;
        list.lines.push_back(std::move(outline));
    }
}

void addRibbons(const data::Site& site, DrawList& list) {
    for (const data::Ribbon& ribbon : site.ribbons) {
        const double half_m = 0.5 * ribbon.length_m;
        const auto rod = [&](std::vector<Vec3> points_S_m, const glm::vec4& colour, float width_m) {
            Polyline line;
            line.points_S_m = std::move(points_S_m);
            line.colour = colour;
            line.width_m = width_m;
            line.round = true;
            line.width_px = 0.9F;
            list.lines.push_back(std::move(line));
        };
        for (const double side : {-1.0, 1.0}) {
            const double y_m = ribbon.y_m + side * half_m;
            rod({{ribbon.x_m, y_m, 0}, {ribbon.x_m, y_m, ribbon.height_m + kPoleOver_m}}, kBone,
                kPole_m);
        }
        std::vector<Vec3> hanging;
        constexpr int kPieces = 8;
        for (int i = 0; i <= kPieces; ++i) {
            const double along = 2.0 * i / kPieces - 1;
            const double sag_m = kSag * ribbon.length_m * (1 - along * along);
            hanging.emplace_back(ribbon.x_m, ribbon.y_m + along * half_m, ribbon.height_m - sag_m);
        }
        rod(std::move(hanging), kRibbon, kRibbon_m);
    }
}

void addFloor(const data::Site& site, DrawList& list) {
    constexpr double kPitch_m = 24, kReach_m = 260;
    const Vec3& at_S_m = list.aircraft.position_S_m;
    const double floor_m = site.floor_m;
    if (floor_m <= 0 || at_S_m.z >= 3 * floor_m || list.camera.eye_S_m.z <= floor_m) return;
    // Fades in over the highest floor's height of its range.
    const auto strength =
        static_cast<float>(std::clamp((3 * floor_m - at_S_m.z) / floor_m, 0.0, 1.0));
    const double half = std::sqrt(0.5);
    const Vec3 along_S(half, half, 0), across_S(half, -half, 0);
    // The hatch stays where it is while the aircraft moves over it.
    const double along_m = glm::dot(at_S_m, along_S), across_m = glm::dot(at_S_m, across_S);
    const auto first = static_cast<int>(std::ceil((across_m - kReach_m) / kPitch_m));
    const auto last = static_cast<int>(std::floor((across_m + kReach_m) / kPitch_m));
    for (int k = first; k <= last; ++k) {
        const double off_m = k * kPitch_m - across_m;
        const double half_chord_m = std::sqrt(std::max(kReach_m * kReach_m - off_m * off_m, 0.0));
        const Vec3 middle_S_m = along_m * along_S + k * kPitch_m * across_S + Vec3(0, 0, floor_m);
        Polyline line;
        line.points_S_m = {middle_S_m - half_chord_m * along_S,
                           middle_S_m + half_chord_m * along_S};
        line.colour = kRaspberry;
        line.colour.a *= strength;
        list.lines.push_back(std::move(line));
    }
}

void addPastThreads(const path::Path& path, double behind_s, DrawList& list) {
    constexpr double kEach_s = 2;
    for (double t = std::floor(list.time_s / kEach_s) * kEach_s;
         t >= std::max(0.0, list.time_s - behind_s); t -= kEach_s) {
        const Vec3 at_S_m = placeAt(path, t).position_S_m;
        if (at_S_m.z < 0.5) continue;
        Polyline thread;
        thread.points_S_m = {at_S_m, {at_S_m.x, at_S_m.y, 0}};
        thread.colour = kBone;
        thread.colour.a = 0.6F;
        thread.width_px = 0.8F;
        list.lines.push_back(std::move(thread));
    }
}

void addThread(DrawList& list) {
    const Vec3& at_S_m = list.aircraft.position_S_m;
    if (at_S_m.z < 0.5) return;
    const Vec3 foot_S_m(at_S_m.x, at_S_m.y, 0);
    Polyline thread;
    thread.points_S_m = {at_S_m, foot_S_m};
    thread.colour = kBone;
    thread.halo_px = 3;
    list.lines.push_back(std::move(thread));
    Bob bob;
    bob.position_S_m = foot_S_m;
    bob.colour = kSaffron;
    list.bobs.push_back(bob);
    Label label;
    // chosen: beside the thread, a little above its foot
    label.position_S_m = {at_S_m.x, at_S_m.y, 0.28 * at_S_m.z};
    label.height_m = at_S_m.z;
    list.labels.push_back(std::move(label));
}

void addNotes(const SceneSource& source, const Marks& marks, double time_s, DrawList& list) {
    constexpr std::size_t kMost = 6;  // chosen: more cover the path
    std::vector<const PathNote*> near;
    for (const auto& notes : {source.said, source.notes}) {
        if (!notes) continue;
        for (const PathNote& note : *notes) {
            const bool behind =
                marks.band && note.time_s <= time_s && note.time_s >= time_s - marks.band_behind_s;
            const bool ahead =
                marks.to_come && note.time_s > time_s && note.time_s <= time_s + marks.to_come_s;
            if (behind || ahead) near.push_back(&note);
        }
    }
    std::stable_sort(near.begin(), near.end(), [time_s](const PathNote* a, const PathNote* b) {
        return std::abs(a->time_s - time_s) < std::abs(b->time_s - time_s);
    });
    if (near.size() > kMost) near.resize(kMost);
    for (const PathNote* note : near) {
        Label label;
        label.position_S_m = placeAt(*source.path, note->time_s).position_S_m;
        label.text = note->text;
        label.quiet = note->quiet;
        label.offset_x_px = 44;
        label.offset_y_px = -10;
        label.leads = true;
        list.labels.push_back(std::move(label));
    }
}

}  // namespace plumbline::scene
