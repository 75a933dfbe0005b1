#include "engine/review/review_json.h"

#include <nlohmann/json.hpp>

#include "engine/check/check.h"
#include "engine/units/units.h"

namespace plumbline::review {

namespace {

using Json = nlohmann::ordered_json;

Json jsonOf(const review::Beside& beside) {
    return {{"flown", beside.flown}, {"planned", beside.planned}};
}

Json jsonOf(const review::Beside& beside, double sigma) {
    return {{"flown", beside.flown}, {"planned", beside.planned}, {"sigma", sigma}};
}

Json jsonOf(const std::optional<review::Seen>& seen) {
    if (!seen) return {};
    return {{"from_vertical_deg", seen->from_vertical_rad / units::kDegree_rad},
            {"true_from_vertical_deg", seen->true_from_vertical_rad / units::kDegree_rad},
            {"sigma_deg", seen->sigma_rad / units::kDegree_rad}};
}

Json jsonOf(const review::CrewSheet& sheet, const path::Known& known) {
    Json json = {{"flown_s", sheet.flown_s},
                 {"fastest_back_mps", sheet.fastest_back_mps},
                 {"fastest_back_sigma_mps", sheet.fastest_back_sigma_mps}};
    if (known.airspeed) {
        json["fastest_calibrated_mps"] = sheet.fastest_mps;
        json["fastest_calibrated_sigma_mps"] = sheet.fastest_sigma_mps;
        json["beyond_never_exceed_sigma_s"] = sheet.beyond_never_exceed_sigma_s;
        json["overspeed_sigma_s"] = sheet.overspeed_sigma_s;
        json["beyond_never_exceed_s"] = sheet.beyond_never_exceed_s;
        json["overspeed_s"] = sheet.overspeed_s;
    }
    if (known.power) json["full_power_s"] = sheet.full_power_s;
    if (known.fuel) json["fuel_kg"] = sheet.fuel_kg;
    return json;
}

Json jsonOf(const review::LoadBook& book) {
    Json levels = Json::array(), cycles = Json::array(), exposures = Json::array();
    for (const review::LoadLevel& level : book.levels)
        levels.push_back({{"load_g", level.load_g},
                          {"beyond_s", level.beyond_s},
                          {"sigma_s", level.sigma_s},
                          {"times", level.times}});
    for (const review::Cycle& cycle : book.cycles)
        cycles.push_back(
            {{"range_g", cycle.range}, {"mean_g", cycle.mean}, {"count", cycle.count}});
    for (const review::PushPull& p : book.push_pulls)
        exposures.push_back({{"time_s", p.time_s}, {"least_g", p.least_g}, {"most_g", p.most_g}});
    return {{"most_g", book.most_g},
            {"most_sigma_g", book.most_sigma_g},
            {"least_g", book.least_g},
            {"least_sigma_g", book.least_sigma_g},
            {"quickest_gain_gps", book.quickest_gps},
            {"quickest_gain_sigma_gps", book.quickest_sigma_gps},
            {"levels", levels},
            {"push_then_pull", exposures},
            {"cycles", cycles}};
}

}  // namespace

std::string reviewJson(const review::Review& review, const std::string& plan,
                       const review::CrewSheet& sheet, const review::LoadBook& book,
                       const path::Known& known) {
    Json figures = Json::array(), lines = Json::array(), rolls = Json::array(),
         slides = Json::array(), remarks = Json::array();
    for (const review::FigureReview& f : review.figures)
        figures.push_back({{"figure", f.name},
                           {"out_of_order", f.out_of_order},
                           {"start_s", f.start_s},
                           {"stop_s", f.stop_s},
                           {"planned_start_s", f.planned_start_s},
                           {"late_s", f.late_s},
                           {"late_sigma_s", f.late_sigma_s},
                           {"lowest_m", jsonOf(f.lowest_m, f.place_sigma_m)},
                           {"highest_m", jsonOf(f.highest_m, f.place_sigma_m)},
                           {"entry_mps", jsonOf(f.entry_mps, f.entry_sigma_mps)},
                           {"most_g", jsonOf(f.most_g, f.most_sigma_g)},
                           {"least_g", jsonOf(f.least_g, f.least_sigma_g)},
                           {"from_crowd_line_m", jsonOf(f.nearest_y_m, f.place_sigma_m)},
                           {"place_sigma_m", f.place_sigma_m}});
    for (const review::Review::Line& line : review.lines) {
        const review::LineMeasure& m = line.measure;
        lines.push_back({{"figure", line.figure},
                         {"line", line.name},
                         {"start_s", m.start_s},
                         {"stop_s", m.stop_s},
                         {"true_deg", m.climb_rad / units::kDegree_rad},
                         {"off_deg", m.off_rad / units::kDegree_rad},
                         {m.vertical() ? "along_show_line_deg" : "steeper_deg",
                          m.along_rad / units::kDegree_rad},
                         {m.vertical() ? "towards_crowd_deg" : "to_right_deg",
                          m.across_rad / units::kDegree_rad},
                         {"pitch_deg", m.pitch_rad / units::kDegree_rad},
                         {"yaw_deg", m.yaw_rad / units::kDegree_rad},
                         {"steady_deg", m.steady_rad / units::kDegree_rad},
                         {"steady_sigma_deg", m.steady_sigma_rad / units::kDegree_rad},
                         {"path_deg", m.path_rad / units::kDegree_rad},
                         {"path_sigma_deg", m.path_sigma_rad / units::kDegree_rad},
                         {"sigma_deg", m.sigma_rad / units::kDegree_rad},
                         {"before_roll_m", m.before_roll_m},
                         {"after_roll_m", m.after_roll_m},
                         {"beside_roll_sigma_m", m.beside_roll_sigma_m},
                         {"planned_before_roll_m", line.planned_before_roll_m},
                         {"planned_after_roll_m", line.planned_after_roll_m},
                         {"seen_from_judge", jsonOf(line.from_judge)},
                         {"seen_from_crowd", jsonOf(line.from_crowd)},
                         {"points", review::pointsFor(m.off_rad, review.points_for_5_deg)}});
    }
    for (const review::Review::RolledLine& roll : review.rolls)
        rolls.push_back({{"figure", roll.figure},
                         {"line", roll.name},
                         {"start_s", roll.measure.start_s},
                         {"flown_deg", roll.measure.angle_rad / units::kDegree_rad},
                         {"planned_deg", roll.measure.planned_rad / units::kDegree_rad},
                         {"sigma_deg", roll.measure.sigma_rad / units::kDegree_rad},
                         {"rate_degps", roll.measure.rate_radps / units::kDegree_rad},
                         {"rate_sigma_degps", roll.measure.rate_sigma_radps / units::kDegree_rad}});
    Json arcs = Json::array(), pivots = Json::array();
    for (const review::Review::Arc& arc : review.arcs)
        arcs.push_back(
            {{"figure", arc.figure},
             {"arc", arc.name},
             {"start_s", arc.flown.start_s},
             {"turned_deg", arc.flown.turned_rad / units::kDegree_rad},
             {"radius_m", jsonOf(review::Beside{arc.flown.radius_m, arc.planned.radius_m},
                                 arc.flown.radius_sigma_m)},
             {"unround", jsonOf(review::Beside{arc.flown.unround, arc.planned.unround},
                                arc.flown.unround_sigma)},
             {"unround_as_seen", arc.flown.seen_unround ? Json(*arc.flown.seen_unround) : Json()},
             {"unround_as_seen_sigma", arc.flown.seen_sigma}});
    for (const review::Review::Pivot& pivot : review.pivots)
        pivots.push_back({{"figure", pivot.figure},
                          {"start_s", pivot.start_s},
                          {"half_spans", jsonOf(pivot.half_spans, pivot.sigma)}});
    Json turnings = Json::array();
    for (const review::Review::Turning& t : review.turnings)
        turnings.push_back(
            {{"figure", t.figure},
             {"what", motionWord(t.motion)},
             {"start_s", t.start_s},
             {"turns", jsonOf(review::Beside{t.flown.turns, t.planned.turns}, t.flown.turns_sigma)},
             {"height_lost_m",
              jsonOf(review::Beside{t.flown.height_lost_m, t.planned.height_lost_m})},
             {"height_sigma_m", t.flown.height_sigma_m},
             {"too_far_deg", t.too_far_rad ? Json(*t.too_far_rad / units::kDegree_rad) : Json()},
             {"heading_sigma_deg", t.flown.heading_sigma_rad / units::kDegree_rad}});
    for (const review::SlideReview& slide : review.slides)
        slides.push_back({{"figure", slide.figure},
                          {"start_s", slide.start_s},
                          {"way_m", jsonOf(slide.way_m, slide.way_sigma_m)},
                          {"fastest_mps", jsonOf(slide.fastest_mps, slide.fastest_sigma_mps)}});
    for (const review::Remark& remark : review.remarks)
        remarks.push_back({{"weight", remark.weight},
                           {"time_s", remark.time_s},
                           {"figure", remark.figure},
                           {"what", remark.words},
                           {"advice", remark.advice}});
    Json tops = Json::array();
    for (const review::TopReview& top : review.tops)
        tops.push_back({{"figure", top.figure},
                        {"time_s", top.time_s},
                        {"height_m", jsonOf(top.height_m)},
                        {"sigma_m", top.sigma_m},
                        {"gate_m", top.gate_m}});
    const Json report = {
        {"plan", plan},
        {"looks_like_the_plan", !review.unlike_plan},
        {"figures", figures},
        {"missing", review.missing},
        {"part_flown", review.part_last > 0 ? Json{{"first_figure", review.part_first},
                                                   {"last_figure", review.part_last},
                                                   {"not_flown", review.beyond_part}}
                                            : Json()},
        {"lines", lines},
        {"rolls", rolls},
        {"slides", slides},
        {"tops", tops},
        {"arcs", arcs},
        {"pivots", pivots},
        {"spins_and_tumbles", turnings},
        {"crew", jsonOf(sheet, known)},
        {"loads", known.load ? jsonOf(book) : Json()},
        {"to_mend", remarks},
        {"notes", review.notes},
        {"caution", check::caution()}};
    // A name that is no UTF-8 is no reason to fail.
    return report.dump(2, ' ', false, Json::error_handler_t::replace);
}

std::string piecesJson(const std::vector<review::FigureReview>& figures,
                       const std::vector<review::Piece>& pieces) {
    Json list = Json::array(), named = Json::array();
    for (const review::FigureReview& figure : figures)
        named.push_back(
            {{"figure", figure.name}, {"start_s", figure.start_s}, {"stop_s", figure.stop_s}});
    for (const review::Piece& piece : pieces)
        list.push_back({{"start_s", piece.start_s},
                        {"stop_s", piece.stop_s},
                        {"motion", review::motionWord(piece.motion)},
                        {"what", review::wordsOf(piece)}});
    const Json report = {{"figures", named}, {"pieces", list}, {"caution", check::caution()}};
    return report.dump(2);
}

}  // namespace plumbline::review
