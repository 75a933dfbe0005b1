// The figure shelf: every figure is flown alone from its entry, on a standard day without wind,
// with its own values and with each parameter at both ends of its range or at each of its choices.
// And the guide: its examples can be read, and what it links to is there.

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/load/load.h"
#include "engine/routine/figure_file.h"
#include "engine/system/whole_file.h"
#include "engine/text/print.h"

namespace plumbline {
namespace {

using Values = std::vector<text::ParameterValue>;

struct ShelfFigure {
    std::string name;  ///< as routines use it
    std::string toml;
    routine::FigureFile file;
};

const std::vector<ShelfFigure>& shelf() {
    static const std::vector<ShelfFigure> figures = [] {
        std::vector<ShelfFigure> all;
        const std::string folder = std::string(PLUMBLINE_ASSETS) + "/figures/";
        for (const std::string_view name : load::shelfNames()) {
            ShelfFigure figure;
            figure.name = std::string(name);
            figure.toml =
                system::readWholeFile(folder + figure.name + ".figure.toml").bytes.value_or("");
            const routine::ReadFigure read = routine::readFigureFile(figure.toml, figure.name);
            EXPECT_EQ(describe(read.problems), "");
            figure.file = read.figure;
            all.push_back(figure);
        }
        return all;
    }();
    return figures;
}

/// The demo's site with a ribbon before each place that the ribbon pass names.
const data::Site& site() {
    static const data::Site with_ribbons = [] {
        data::Site s = load::loadDemo()->site;
        s.reaction_s = 0;  // a figure alone is placed anywhere, the crowd not considered
        s.ribbons = {
            {"first", -260, 30, 60, 15}, {"second", 0, 30, 60, 15}, {"third", 250, 30, 60, 15}};
        return s;
    }();
    return with_ribbons;
}

routine::Routine alone(const ShelfFigure& figure, const Values& values) {
    const routine::ReadFigure read = routine::readFigureFile(figure.toml, figure.name, values);
    EXPECT_EQ(describe(read.problems), "");
    routine::Routine routine;
    routine.name = figure.name;
    routine.start = {-800, 30, figure.file.entry.height_m, true, figure.file.entry.speed_mps,
                     50,   1};
    routine::RoutineFigure flown;
    flown.name = read.figure.name;
    flown.elements = read.figure.elements;
    routine.figures.push_back(flown);
    return routine;
}

/// What must not be said of a figure of the shelf, one line each.
std::string faults(const ShelfFigure& figure, const Values& values) {
    static const load::Workspace demo = *load::loadDemo();
    const routine::Routine routine = alone(figure, values);
    const data::Weather standard_day;
    const fly::Solution s = fly::solve(demo.aircraft, site(), standard_day, routine);
    const path::Path path = s.samplePath(50);
    std::string said;
    for (const check::Finding& f :
         check::checkRoutine(demo.aircraft, site(), standard_day, routine, path, s.notes())) {
        // Where it is flown is the routine's business.
        if (f.grade == check::Grade::Note || f.kind == "show line" || f.kind == "box") continue;
        said += "  " + f.kind + ", " + f.element + ": " + f.what + " " + f.value + " (" + f.limit +
                ")\n";
    }
    double load_max_g = 0, load_min_g = 0, lowest_m = 1e9;
    for (const path::Sample& sample : path.samples) {
        const double load_g = -sample.specific_force_B_mps2.z / 9.80665;
        load_max_g = std::max(load_max_g, load_g);
        load_min_g = std::min(load_min_g, load_g);
        lowest_m = std::min(lowest_m, sample.position_S_m.z);
    }
    if (load_max_g > demo.aircraft.limits.load_max_g ||
        load_min_g < demo.aircraft.limits.load_min_g)
        said += "  load beyond the limits\n";
    if (lowest_m < site().floor_m) said += "  below the site's floor\n";
    return said;
}

TEST(Shelf, HoldsFortyFiguresAndEveryFileOfItsFolder) {
    std::set<std::string> files, names;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(PLUMBLINE_ASSETS) + "/figures")) {
        const std::string file = entry.path().filename().string();
        const std::size_t end = file.find(".figure.toml");
        if (end != std::string::npos) files.insert(file.substr(0, end));
    }
    std::set<std::string> built_in;
    for (const ShelfFigure& figure : shelf()) {
        built_in.insert(figure.name);
        EXPECT_TRUE(names.insert(figure.file.name).second) << figure.file.name;
        EXPECT_EQ(figure.file.about.find('\n'), std::string::npos) << figure.name;
    }
    EXPECT_EQ(files, built_in);
    EXPECT_GE(files.size(), 40U);
}

TEST(Shelf, NoTwoFiguresDifferOnlyInNumbersDirectionOrMirror) {
    std::map<std::string, std::string> seen;
    for (const ShelfFigure& figure : shelf()) {
        std::string shape = text::printFigureText(figure.file.elements);
        shape = std::regex_replace(shape, std::regex("[-+]?[0-9][0-9./ ]*"), "#");
        shape = std::regex_replace(shape, std::regex("\\b(left|right)\\b"), "SIDE");
        shape = std::regex_replace(shape, std::regex("\\b(pull|push)\\b"), "BEND");
        shape = std::regex_replace(shape, std::regex("\\brolls\\b"), "roll");
        const auto [other, fresh] = seen.emplace(shape, figure.name);
        EXPECT_TRUE(fresh) << figure.name << " is " << other->second << " with other numbers";
    }
}

TEST(Shelf, RangesReachAFifthToBothSides) {
    for (const ShelfFigure& figure : shelf()) {
        for (const routine::FigureParameter& p : figure.file.parameters) {
            if (!p.range) {
                EXPECT_GE(p.choices.size(), 2U) << figure.name << " " << p.name;
                continue;
            }
            const auto value = routine::readAnyQuantity(p.value);
            ASSERT_TRUE(value) << figure.name << " " << p.name;
            const double fifth = 0.2 * std::fabs(value->value) * (1 - 1e-9);
            EXPECT_LE(p.range->from.value, value->value - fifth) << figure.name << " " << p.name;
            EXPECT_GE(p.range->to.value, value->value + fifth) << figure.name << " " << p.name;
        }
    }
}

TEST(Shelf, EveryFigureFliesAtBothEndsOfEveryRange) {
    for (const ShelfFigure& figure : shelf()) {
        const std::string said = faults(figure, {});
        EXPECT_TRUE(said.empty()) << figure.name << " as it stands:\n" << said;
        for (const routine::FigureParameter& p : figure.file.parameters) {
            std::vector<std::string> ends = p.choices;
            if (p.range) ends = {p.range->from_words, p.range->to_words};
            for (const std::string& end : ends) {
                const std::string at_end = faults(figure, {{p.name, end, {}}});
                EXPECT_TRUE(at_end.empty())
                    << figure.name << " with " << p.name << " = " << end << ":\n"
                    << at_end;
            }
        }
    }
}

/// A routine with every figure of the shelf, each flown to its entry by a reposition.
TEST(Shelf, AllOfItIsFlownAsOneRoutine) {
    static const load::Workspace demo = *load::loadDemo();
    routine::Routine routine;
    routine.name = "All of the shelf";
    routine.start = {-800, 300, 400, true, 70, 150, 1};
    std::set<std::size_t> kinds;
    for (const ShelfFigure& figure : shelf()) {
        const routine::RoutineFigure flown = alone(figure, {}).figures.front();
        const auto number = [](double value) { return formatFixed(value, 3); };
        const std::string to_entry = "power full\nreposition to x -800 m y 300 m height " +
                                     number(figure.file.entry.height_m) +
                                     " m heading crowd-right speed " +
                                     number(figure.file.entry.speed_mps) + " m/s\n";
        routine::RoutineFigure back;
        back.name = "to " + flown.name;
        back.elements = text::parseFigureText(to_entry, "back", 1).elements;
        routine.figures.push_back(back);
        routine.figures.push_back(flown);
        for (const text::Element& e : flown.elements) kinds.insert(e.body.index());
    }
    const fly::Solution s = fly::solve(demo.aircraft, site(), data::Weather{}, routine);
    const path::Path path = s.samplePath(20);
    EXPECT_EQ(path.figures.size(), routine.figures.size());
    for (const fly::SolveNote& n : s.notes())
        EXPECT_TRUE(n.kind != fly::SolveNote::Kind::Ground &&
                    n.kind != fly::SolveNote::Kind::NeverMet)
            << routine.figures[static_cast<std::size_t>(n.figure)].name << ": " << n.what << " "
            << n.value;
    for (const path::Sample& sample : path.samples)
        ASSERT_TRUE(
            std::isfinite(glm::length(sample.position_S_m) + glm::length(sample.rate_B_radps)))
            << sample.time_s;
    // Every element of the language, but for marks that stand between.
    EXPECT_GE(kinds.size() + 1, std::variant_size_v<text::ElementBody> - 2);
}

/// Sixty figures with every element of figure text but the ribbon: flown as written.
TEST(Shelf, EveryElementIsFlownInOneRoutine) {
    const auto work = load::loadWorkspace(std::string(PLUMBLINE_TEST_DATA) +
                                          "/routines/every_element.routine.toml");
    ASSERT_TRUE(work.has_value()) << describe(work.error());
    EXPECT_EQ(work->routine.figures.size(), 60U);
    std::set<std::size_t> kinds;
    for (const routine::RoutineFigure& f : work->routine.figures)
        for (const text::Element& e : f.elements) kinds.insert(e.body.index());
    EXPECT_EQ(kinds.size() + 1, std::variant_size_v<text::ElementBody>);
    const fly::Solution s = fly::solve(work->aircraft, work->site, work->weather, work->routine);
    for (const fly::SolveNote& n : s.notes())
        EXPECT_TRUE(n.kind == fly::SolveNote::Kind::Information ||
                    n.kind == fly::SolveNote::Kind::LoadShort)
            << work->routine.figures[static_cast<std::size_t>(n.figure)].name << ": " << n.what
            << " " << n.value;
    const path::Path path = s.samplePath(50);
    EXPECT_EQ(path.figures.size(), 60U);
    for (std::size_t i = 1; i < path.samples.size(); ++i) {
        const path::Sample &a = path.samples[i - 1], &b = path.samples[i];
        ASSERT_LT(glm::length(b.position_S_m - a.position_S_m), 130 * (b.time_s - a.time_s) + 1e-6)
            << b.time_s;
        ASSERT_LT(glm::length(vectorFromRotation(glm::conjugate(a.q_SB) * b.q_SB)), 0.25)
            << b.time_s;
    }
    const auto findings = check::checkRoutine(work->aircraft, work->site, work->weather,
                                              work->routine, path, s.notes());
    EXPECT_FALSE(findings.empty());
}

/// The guide's pages by file name.
std::map<std::string, std::string> guidePages() {
    std::map<std::string, std::string> pages;
    const std::filesystem::path folder = std::string(PLUMBLINE_ASSETS) + "/guide";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".md")
            pages[entry.path().filename().string()] =
                system::readWholeFile(entry.path().string()).bytes.value_or("");
    }
    return pages;
}

TEST(Guide, EveryIndentedExampleIsFigureText) {
    int examples = 0;
    for (const auto& [name, page] : guidePages()) {
        // All other lines are left empty, so that messages name the page's line.
        std::string figure_text;
        std::istringstream lines(page);
        for (std::string line; std::getline(lines, line);) {
            const bool example = line.rfind("    ", 0) == 0;
            examples += example;
            figure_text += (example ? line : "") + "\n";
        }
        EXPECT_EQ(describe(text::parseFigureText(figure_text, name, 1).problems), "");
    }
    EXPECT_GT(examples, 40);
}

TEST(Guide, ShowsEveryFigureOfTheShelfAndLinksOnlyToWhatIsThere) {
    const auto pages = guidePages();
    for (const ShelfFigure& figure : shelf())
        EXPECT_NE(pages.at("shelf.md").find("\n## " + figure.name + "\n"), std::string::npos)
            << figure.name << ": run assets/guide/make_pictures.sh";
    const std::regex link(R"(\]\(([^)#]+)(?:#([^)]+))?\))");
    for (const auto& [name, page] : pages) {
        for (auto it = std::sregex_iterator(page.begin(), page.end(), link);
             it != std::sregex_iterator(); ++it) {
            const std::string target = (*it)[1], heading = (*it)[2];
            EXPECT_TRUE(std::filesystem::exists(std::string(PLUMBLINE_ASSETS) + "/guide/" + target))
                << name << ": " << target;
            if (target == "shelf.md" && !heading.empty()) {
                EXPECT_NE(pages.at(target).find("\n## " + heading + "\n"), std::string::npos)
                    << name << ": " << heading;
            }
        }
    }
}

}  // namespace
}  // namespace plumbline
