#include "engine/sheets/tables_csv.h"

#include <cmath>

#include "engine/base/number_text.h"
#include "engine/units/units.h"

namespace plumbline::sheets {
namespace {

/// One table; cells in order, a row ended by end().
class Csv {
public:
    explicit Csv(const std::string& columns) : text_(columns + "\r\n") {}
    Csv& cell(const std::string& words) {
        if (!first_) text_ += ',';
        first_ = false;
        if (words.find_first_of(",\"\r\n") == std::string::npos) {
            text_ += words;
            return *this;
        }
        text_ += '"';
        for (const char c : words) {
            if (c == '"') text_ += '"';
            text_ += c;
        }
        text_ += '"';
        return *this;
    }
    Csv& cell(double value, int decimals) { return cell(formatFixed(value, decimals)); }
    Csv& degrees(double angle_rad) { return cell(angle_rad / units::kDegree_rad, 2); }
    /// Nothing where it is not told.
    Csv& degreesIfTold(double angle_rad) {
        return angle_rad > 0 ? degrees(angle_rad) : cell(std::string());
    }
    /// Nothing where it is not told.
    Csv& ifTold(double sigma, int decimals) {
        return sigma > 0 ? cell(sigma, decimals) : cell(std::string());
    }
    Csv& beside(const review::Beside& b, int decimals) {
        return cell(b.flown, decimals).cell(b.planned, decimals);
    }
    void end() {
        text_ += "\r\n";
        first_ = true;
    }
    std::string take() { return std::move(text_); }

private:
    std::string text_;
    bool first_ = true;
};

File figures(const review::Review& review) {
    Csv csv(
        "figure,out_of_order,again,start_s,stop_s,planned_start_s,late_s,late_sigma_s,lowest_m,"
        "planned_lowest_m,"
        "highest_m,planned_highest_m,place_sigma_m,entry_mps,planned_entry_mps,entry_sigma_mps,"
        "most_g,planned_most_g,most_sigma_g,least_g,planned_least_g,least_sigma_g,from_crowd_line_"
        "m,planned_from_crowd_line_m");
    for (const review::FigureReview& f : review.figures) {
        csv.cell(f.name).cell(f.out_of_order ? "yes" : "no").cell(f.again ? "yes" : "no");
        csv.cell(f.start_s, 2).cell(f.stop_s, 2).cell(f.planned_start_s, 2);
        csv.cell(f.late_s, 2).ifTold(f.late_sigma_s, 2);
        csv.beside(f.lowest_m, 1).beside(f.highest_m, 1);
        csv.ifTold(f.place_sigma_m, 1).beside(f.entry_mps, 1).ifTold(f.entry_sigma_mps, 2);
        csv.beside(f.most_g, 2).ifTold(f.most_sigma_g, 2);
        csv.beside(f.least_g, 2).ifTold(f.least_sigma_g, 2);
        csv.beside(f.nearest_y_m, 1).end();
    }
    for (const std::string& name : review.missing) {
        csv.cell(name).cell("not found");
        for (int i = 0; i < 22; ++i) csv.cell(std::string());
        csv.end();
    }
    return {"figures.csv", csv.take()};
}

File lines(const review::Review& review) {
    Csv csv(
        "figure,line,start_s,stop_s,true_deg,off_deg,sigma_deg,to_canopy_deg,to_right_deg,"
        "along_show_line_deg,towards_crowd_deg,steeper_deg,off_heading_right_deg,steady_deg,"
        "steady_sigma_deg,path_deg,path_sigma_deg,before_roll_m,planned_before_roll_m,after_roll_m,"
        "planned_after_roll_m,beside_roll_sigma_m,judge_sees_deg,judge_sees_true_deg,"
        "judge_sees_sigma_deg,crowd_sees_deg,crowd_sees_true_deg,crowd_sees_sigma_deg,points");
    const auto seen = [&csv](const std::optional<review::Seen>& s) {
        if (s)
            csv.degrees(s->from_vertical_rad)
                .degrees(s->true_from_vertical_rad)
                .degreesIfTold(s->sigma_rad);
        else
            csv.cell(std::string()).cell(std::string()).cell(std::string());
    };
    for (const review::Review::Line& line : review.lines) {
        const review::LineMeasure& m = line.measure;
        csv.cell(line.figure).cell(line.name).cell(m.start_s, 2).cell(m.stop_s, 2);
        csv.degrees(m.climb_rad).degrees(m.off_rad).degreesIfTold(m.sigma_rad);
        csv.degrees(m.pitch_rad).degrees(m.yaw_rad);
        if (m.vertical())
            csv.degrees(m.along_rad).degrees(m.across_rad).cell(std::string()).cell(std::string());
        else
            csv.cell(std::string()).cell(std::string()).degrees(m.along_rad).degrees(m.across_rad);
        csv.degrees(m.steady_rad).degreesIfTold(m.steady_sigma_rad);
        csv.degrees(m.path_rad).degreesIfTold(m.path_sigma_rad);
        csv.beside({m.before_roll_m, line.planned_before_roll_m}, 1);
        csv.beside({m.after_roll_m, line.planned_after_roll_m}, 1).ifTold(m.beside_roll_sigma_m, 1);
        seen(line.from_judge);
        seen(line.from_crowd);
        csv.cell(review::pointsFor(m.off_rad, review.points_for_5_deg), 1).end();
    }
    return {"lines.csv", csv.take()};
}

File loops(const review::Review& review) {
    Csv csv(
        "figure,arc,start_s,turned_deg,radius_m,planned_radius_m,radius_sigma_m,unround,"
        "planned_unround,unround_sigma,unround_as_seen,unround_as_seen_sigma");
    for (const review::Review::Arc& arc : review.arcs) {
        csv.cell(arc.figure).cell(arc.name).cell(arc.flown.start_s, 2);
        csv.degrees(arc.flown.turned_rad);
        csv.beside({arc.flown.radius_m, arc.planned.radius_m}, 1)
            .ifTold(arc.flown.radius_sigma_m, 1);
        csv.beside({arc.flown.unround, arc.planned.unround}, 3).ifTold(arc.flown.unround_sigma, 3);
        if (arc.flown.seen_unround)
            csv.cell(*arc.flown.seen_unround, 3).ifTold(arc.flown.seen_sigma, 3);
        else
            csv.cell(std::string()).cell(std::string());
        csv.end();
    }
    return {"loops.csv", csv.take()};
}

File rolls(const review::Review& review) {
    Csv csv("figure,line,start_s,flown_deg,planned_deg,sigma_deg,rate_degps,rate_sigma_degps");
    for (const review::Review::RolledLine& roll : review.rolls) {
        const review::RollMeasure& m = roll.measure;
        csv.cell(roll.figure).cell(roll.name).cell(m.start_s, 2).degrees(m.angle_rad);
        csv.degrees(m.planned_rad).degreesIfTold(m.sigma_rad).degrees(m.rate_radps);
        csv.degreesIfTold(m.rate_sigma_radps).end();
    }
    return {"rolls.csv", csv.take()};
}

File slides(const review::Review& review) {
    Csv csv(
        "figure,start_s,way_m,planned_way_m,way_sigma_m,tail_first_mps,"
        "planned_tail_first_mps,tail_first_sigma_mps");
    for (const review::SlideReview& slide : review.slides) {
        csv.cell(slide.figure).cell(slide.start_s, 2).beside(slide.way_m, 1);
        csv.ifTold(slide.way_sigma_m, 1).beside(slide.fastest_mps, 1);
        csv.ifTold(slide.fastest_sigma_mps, 2).end();
    }
    return {"slides.csv", csv.take()};
}

File pivots(const review::Review& review) {
    Csv csv("figure,start_s,half_spans,planned_half_spans,sigma");
    for (const review::Review::Pivot& pivot : review.pivots) {
        csv.cell(pivot.figure).cell(pivot.start_s, 2).beside(pivot.half_spans, 2);
        csv.ifTold(pivot.sigma, 2).end();
    }
    return {"pivots.csv", csv.take()};
}

File turnings(const review::Review& review) {
    Csv csv(
        "figure,what,start_s,turns,planned_turns,turns_sigma,height_lost_m,"
        "planned_height_lost_m,height_sigma_m,too_far_deg,heading_sigma_deg");
    for (const review::Review::Turning& t : review.turnings) {
        csv.cell(t.figure).cell(review::motionWord(t.motion)).cell(t.start_s, 2);
        csv.beside({t.flown.turns, t.planned.turns}, 2).ifTold(t.flown.turns_sigma, 2);
        csv.beside({t.flown.height_lost_m, t.planned.height_lost_m}, 1);
        csv.ifTold(t.flown.height_sigma_m, 1);
        if (t.too_far_rad)
            csv.degrees(*t.too_far_rad).degreesIfTold(t.flown.heading_sigma_rad);
        else
            csv.cell(std::string()).cell(std::string());
        csv.end();
    }
    return {"spins_and_tumbles.csv", csv.take()};
}

File tops(const review::Review& review) {
    Csv csv("figure,time_s,height_m,planned_height_m,sigma_m,gate_m");
    for (const review::TopReview& top : review.tops) {
        csv.cell(top.figure).cell(top.time_s, 2).beside(top.height_m, 1);
        csv.ifTold(top.sigma_m, 1).cell(top.gate_m, 0).end();
    }
    return {"tops.csv", csv.take()};
}

File loads(const path::Path& flight) {
    const review::LoadBook book = review::loadBookOf(flight);
    Csv csv("kind,load_or_range_g,mean_g,seconds,seconds_sigma,count");
    for (const review::LoadLevel& level : book.levels) {
        csv.cell("beyond").cell(level.load_g, 0).cell(std::string()).cell(level.beyond_s, 2);
        csv.ifTold(level.sigma_s, 2).cell(std::to_string(level.times)).end();
    }
    for (const review::Cycle& cycle : book.cycles) {
        csv.cell("cycles").cell(cycle.range, 0).cell(cycle.mean, 2);
        csv.cell(std::string()).cell(std::string());
        csv.cell(cycle.count, 1).end();
    }
    return {"loads.csv", csv.take()};
}

}  // namespace

std::vector<File> reviewTables(const Sortie& sortie) {
    const review::Review& review = *sortie.review;
    std::vector<File> files = {figures(review), lines(review),  loops(review),    rolls(review),
                               slides(review),  pivots(review), turnings(review), tops(review)};
    if (sortie.flight->known.load) files.push_back(loads(*sortie.flight));
    return files;
}

}  // namespace plumbline::sheets
