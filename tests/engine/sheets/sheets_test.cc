// A sortie's sheets, read back by another's reader.

#include <map>
#include <random>

#include <nlohmann/json.hpp>

#include "engine/fly/solve.h"
#include "engine/sheets/debrief.h"
#include "engine/sheets/folder.h"
#include "engine/sheets/tables_csv.h"
#include "engine/sheets/wording.h"
#include "tests/engine/page/read_back.h"

namespace plumbline::sheets {
namespace {

using test::ReadBack;

/// The demo flown 6 m too low throughout, known within 0.4 deg and 1 m.
class Sheets : public testing::Test {
protected:
    struct Flown {
        load::Workspace workspace = load::loadDemo().value();
        path::Path plan, flight;
        review::Review review;
    };
    static const Flown& flown() {
        static const Flown kFlown = [] {
            Flown f;
            const load::Workspace& w = f.workspace;
            f.plan = fly::solve(w.aircraft, w.site, w.weather, w.routine).samplePath(50);
            f.flight = f.plan;
            f.flight.origin = path::Origin::Recording;
            for (path::Sample& s : f.flight.samples) {
                s.position_S_m.z -= 6;
                s.attitude_sigma_rad = 0.0035F;
                s.position_sigma_m = 1;
            }
            f.review = review::reviewFlight(f.flight, f.plan, w.aircraft, w.site);
            return f;
        }();
        return kFlown;
    }
    static Sortie sortie() {
        Sortie s;
        s.flight = &flown().flight;
        s.plan = &flown().plan;
        s.workspace = &flown().workspace;
        s.review = &flown().review;
        s.start_utc = "2026-06-27T16:30:05Z";
        s.log_revision = "0123 abcd";
        return s;
    }
    ReadBack debriefOf(const review::Review& review) const {
        Sortie s = sortie();
        s.review = &review;
        return ReadBack(debriefPdf(s, print_).value());
    }
    page::Fonts fonts_;
    Print print_{page::Paper::A4, &fonts_};
};

TEST_F(Sheets, TheDebriefHasTwoPagesAndSaysWhatMatters) {
    const std::string bytes = debriefPdf(sortie(), print_).value();
    const ReadBack read(bytes);
    ASSERT_TRUE(read.good());
    ASSERT_EQ(read.pages(), 2);
    EXPECT_TRUE(ReadBack::sound(bytes, "plumbline_debrief.pdf"));
    const std::string revision = flown().workspace.revision();
    for (const int page : {0, 1})
        for (const std::string& words :
             {std::string("no approval to fly"), revision, std::string("0123 abcd"),
              std::string("27 June 2026, 16:30 UTC")})
            EXPECT_TRUE(read.says(page, words)) << page << " " << words;
    EXPECT_TRUE(read.says(0, "Vellmoor"));
    EXPECT_TRUE(read.says(0, "36 of 36 figures found"));
    EXPECT_TRUE(read.says(0, "6 m lower than planned"));
    EXPECT_TRUE(read.says(0, "Fly this figure 6 m higher."));
    // Where the wind blows to: from 247 to 248 deg onto a show line of 70 deg is from the crowd's
    // left.
    EXPECT_TRUE(read.says(0, "5 kt from the left, 19 \u00b0C"));
    EXPECT_TRUE(read.says(1, "page 2 of 2"));
    EXPECT_EQ(fonts_.missing(), "");
}

TEST_F(Sheets, EveryLineStandsInTheDebriefWithHowSurelyItIsKnown) {
    const ReadBack read(debriefPdf(sortie(), print_).value());
    ASSERT_GT(flown().review.lines.size(), 20U);
    // Each line has its doubt behind its angle: 0.4 deg where the nose was steady.
    std::size_t doubts = 0, steady = 0;
    for (const ReadBack::Word& word : read.words(1)) {
        const double right_mm = word.box_pt.right() * page::kPoint_mm;
        if (right_mm < 62 || right_mm > 68 || word.box_pt.top() > 615) continue;
        if (word.words.rfind("\u00b1", 0) != 0) continue;
        ++doubts;
        steady += word.words == "\u00b10.4";
    }
    EXPECT_EQ(doubts, flown().review.lines.size());
    EXPECT_GT(steady, doubts / 2);
    EXPECT_TRUE(read.says(1, "\u00b13"));  // places: see review/doubts
}

TEST_F(Sheets, SpinsTumblesAndTopsHaveTheirTables) {
    review::Review with_tops = flown().review;
    review::Review::Turning spin;
    spin.figure = with_tops.figures.front().name;
    spin.flown = {2.25, 133, 1, 0, 0.02};
    spin.planned = {2.0, 120, 0, 0, 0};
    spin.too_far_rad = 12 * kPi / 180;
    with_tops.turnings = {spin};
    for (int i = 0; i < 8; ++i) {
        review::TopReview top;
        top.figure = with_tops.figures[static_cast<std::size_t>(i)].name;
        top.height_m = {300.0 + 10 * i, 310.0 + 10 * i};
        top.gate_m = 211;
        top.sigma_m = 1;
        with_tops.tops.push_back(top);
    }
    const ReadBack read = debriefOf(with_tops);
    ASSERT_EQ(read.pages(), 2);
    EXPECT_TRUE(read.says(1, "Spins and tumbles"));
    EXPECT_TRUE(read.says(1, "133 \u00b12"));
    EXPECT_TRUE(read.says(1, "+12 \u00b13\u00b0"));  // 0.04 rad are 2.3 deg
    EXPECT_TRUE(read.says(1, "Tops by gate"));
    EXPECT_TRUE(read.says(1, "300 \u00b12"));
    EXPECT_FALSE(read.says(1, "370 \u00b12"));  // the nearest only, and it says so
    EXPECT_TRUE(read.says(1, "of 8, all as CSV"));
    EXPECT_TRUE(read.says(1, "211"));
}

TEST_F(Sheets, WhatHasNoRoomIsRankedAndSaidToBeElsewhere) {
    review::Review many = flown().review;
    ASSERT_FALSE(many.arcs.empty());
    const review::Review::Arc arc = many.arcs.front();
    many.arcs.clear();
    for (int i = 0; i < 40; ++i) {
        many.arcs.push_back(arc);
        many.arcs.back().flown.radius_m = 100 + i;
        many.arcs.back().flown.radius_sigma_m = 0.2;
        many.arcs.back().flown.unround = 0.01 * i;  // the last is the least round
    }
    const ReadBack read = debriefOf(many);
    ASSERT_EQ(read.pages(), 2);
    EXPECT_TRUE(read.says(1, "Loops least round"));
    EXPECT_TRUE(read.says(1, "of 40, all as CSV"));
    EXPECT_TRUE(read.says(1, "139 \u00b11"));
    EXPECT_FALSE(read.says(1, "100 \u00b11"));
    for (const char* title : {"Rolls furthest off", "Lowest figures"})
        EXPECT_TRUE(read.says(1, title)) << title;
}

TEST_F(Sheets, TablesWithoutRoomForTheirHeadsGoOnOnAThirdPage) {
    review::Review full = flown().review;
    const std::string figure = full.figures.front().name;
    review::Review::Turning spin;
    spin.figure = figure;
    full.turnings = {spin, spin, spin};
    full.slides = {review::SlideReview{figure, 1, {}, {}, 0, 0}};
    full.pivots = {review::Review::Pivot{figure, 1, {}, 0}};
    for (int i = 0; i < 4; ++i) {
        review::TopReview top;
        top.figure = figure;
        full.tops.push_back(top);
    }
    season::LastTimes last;
    last.figure = figure;
    last.kind = *season::measureKind("line off");
    last.points = {{0, 0, 0.01, 0.005, {}}, {1, 1000, 0.02, 0.005, {}}};
    Sortie s = sortie();
    s.review = &full;
    s.last = {last};
    const Print letter{page::Paper::Letter, &fonts_};
    const ReadBack read(debriefPdf(s, letter).value());
    for (const char* title :
         {"Loops", "Slides", "Pivots", "Spins", "Tops", "Lowest figures", "Rolls"}) {
        bool there = false;
        for (int page = 1; page < read.pages(); ++page) there = there || read.says(page, title);
        EXPECT_TRUE(there) << title;
    }
    EXPECT_TRUE(read.says(1, "page 2 of " + std::to_string(read.pages())));
}

TEST_F(Sheets, TheLastSortiesStandUnderTheLoadsWhereTheBookHasThem) {
    EXPECT_FALSE(ReadBack(debriefPdf(sortie(), print_).value()).says(1, "The last"));
    season::LastTimes last;
    last.figure = "Hammerhead";
    last.element = "line up";
    last.kind = *season::measureKind("line off");
    for (int i = 0; i < 6; ++i) last.points.push_back({i, 1000.0 * i, 0.01 * i, 0.005, {}});
    Sortie s = sortie();
    s.last = {last, last, last, last};
    const ReadBack read(debriefPdf(s, print_).value());
    ASSERT_EQ(read.pages(), 2);
    EXPECT_TRUE(read.says(1, "The last six sorties"));
    EXPECT_TRUE(read.says(1, "line up: line off"));
    EXPECT_TRUE(read.says(1, "2.9 \u00b10.6\u00b0"));  // 0.05 rad, twice 0.005
}

TEST_F(Sheets, ManyLinesGoOnOnAnotherPage) {
    review::Review many = flown().review;
    while (many.lines.size() < 90) many.lines.push_back(many.lines.front());
    const ReadBack read = debriefOf(many);
    ASSERT_EQ(read.pages(), 3);
    EXPECT_TRUE(read.says(0, "page 1 of 3"));
    EXPECT_TRUE(read.says(2, "page 3 of 3"));
}

TEST_F(Sheets, ThereIsASheetForTheCrew) {
    const auto files = sortieFiles(sortie(), print_);
    ASSERT_TRUE(files.has_value());
    const auto crew = std::find_if(files->begin(), files->end(),
                                   [](const File& f) { return f.name == "crew.pdf"; });
    ASSERT_NE(crew, files->end());
    const ReadBack read(crew->bytes);
    ASSERT_EQ(read.pages(), 1);
    for (const char* words : {"Marrel 250", "Greatest load", "Full power", "Fuel used", "VNE",
                              "ASTM E1049", "no approval to fly"})
        EXPECT_TRUE(read.says(0, words)) << words;
    const review::LoadBook book = review::loadBookOf(flown().flight);
    EXPECT_TRUE(read.says(0, number(book.most_g, 1, true) + " \u00b10.2 g"));
}

TEST_F(Sheets, TablesHaveARowForEachThingMeasured) {
    std::map<std::string, std::size_t> rows;
    for (const File& file : reviewTables(sortie())) {
        rows[file.name] =
            static_cast<std::size_t>(std::count(file.bytes.begin(), file.bytes.end(), '\n')) - 1;
        // As many cells in each row as columns.
        std::size_t commas = std::string::npos;
        std::size_t at = 0;
        for (std::size_t end = file.bytes.find("\r\n"); end != std::string::npos;
             at = end + 2, end = file.bytes.find("\r\n", at)) {
            const std::string row = file.bytes.substr(at, end - at);
            if (row.find('"') != std::string::npos) continue;
            const auto count = static_cast<std::size_t>(std::count(row.begin(), row.end(), ','));
            if (commas == std::string::npos) commas = count;
            EXPECT_EQ(count, commas) << file.name << ": " << row;
        }
    }
    EXPECT_EQ(rows["figures.csv"], flown().review.figures.size());
    EXPECT_EQ(rows["lines.csv"], flown().review.lines.size());
    EXPECT_EQ(rows["loops.csv"], flown().review.arcs.size());
    EXPECT_EQ(rows["rolls.csv"], flown().review.rolls.size());
    EXPECT_EQ(rows["slides.csv"], flown().review.slides.size());
    EXPECT_EQ(rows["pivots.csv"], flown().review.pivots.size());
    EXPECT_EQ(rows["spins_and_tumbles.csv"], flown().review.turnings.size());
    EXPECT_EQ(rows["tops.csv"], flown().review.tops.size());
    EXPECT_GT(rows["loads.csv"], 5U);
}

TEST_F(Sheets, LetterPaperHasRoomForAllOfIt) {
    const ReadBack read(debriefPdf(sortie(), {page::Paper::Letter, &fonts_}).value());
    ASSERT_EQ(read.pages(), 2);
    EXPECT_NEAR(read.size(0).width(), 612, 0.1);
    for (const int page : {0, 1})
        for (const ReadBack::Word& word : read.words(page)) {
            EXPECT_GT(word.box_pt.left(), 20) << word.words;
            EXPECT_LT(word.box_pt.right(), 612 - 20) << word.words;
            EXPECT_LT(word.box_pt.bottom(), 792 - 10) << word.words;
        }
}

TEST_F(Sheets, AFigureNamedInAnotherScriptPrintsWithItsFont) {
    Flown f = flown();
    const std::string name = "\u5782\u76f4 \u05d0\u05d1";
    f.review.remarks.front().figure = name;
    f.review.figures.front().name = name;
    Sortie s = sortie();
    s.review = &f.review;
    (void)debriefPdf(s, print_).value();
    EXPECT_EQ(fonts_.missing(), "\u05d0\u05d1\u5782\u76f4");
    page::Fonts more;
    for (const char* file : {"/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf",
                             "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"}) {
        std::ifstream stream(file, std::ios::binary);
        EXPECT_EQ(more.add({std::istreambuf_iterator<char>(stream), {}}), "") << file;
    }
    const ReadBack read(debriefPdf(s, {page::Paper::A4, &more}).value());
    EXPECT_TRUE(read.says(0, "\u5782\u76f4"));
    EXPECT_EQ(more.missing(), "");
}

TEST(Folder, AllFilesAreWrittenOrNone) {
    namespace fs = std::filesystem;
    const fs::path folder = fs::path(testing::TempDir()) / "plumbline_sheets";
    fs::remove_all(folder);
    EXPECT_TRUE(writeFiles(folder / "new", {{"a.txt", "first"}, {"b.txt", ""}}).empty());
    EXPECT_EQ(fs::file_size(folder / "new" / "a.txt"), 5U);
    EXPECT_TRUE(fs::exists(folder / "new" / "b.txt"));
    // A folder stands where the second file belongs: the first stays as it was.
    fs::remove(folder / "new" / "b.txt");
    fs::create_directories(folder / "new" / "b.txt");
    const Problems problems = writeFiles(folder / "new", {{"a.txt", "second"}, {"b.txt", "x"}});
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_NE(problems.front().what.find("b.txt"), std::string::npos);
    std::ifstream file(folder / "new" / "a.txt");
    std::string text;
    file >> text;
    EXPECT_EQ(text, "first");
    EXPECT_EQ(std::distance(fs::directory_iterator(folder / "new"), fs::directory_iterator()), 2);
    EXPECT_FALSE(writeFiles(folder / "new" / "a.txt", {{"c", "x"}}).empty());
    fs::remove_all(folder);
}

TEST(Wording, NumbersAreNoFinerThanTheyAreKnown) {
    EXPECT_EQ(within(87.24, 0.4, 1), "87.2 \u00b10.4");
    EXPECT_EQ(within(14.3, 2.1, 1), "14 \u00b13");  // never surer than it is
    EXPECT_EQ(within(-2.63, 1.44, 1, true), "\u22122.6 \u00b11.5");
    EXPECT_EQ(within(0.04, 0.3, 1, true), "0.0 \u00b10.3");
    EXPECT_EQ(within(120, 13, 1), "120 \u00b113");
    EXPECT_EQ(within(5.26, 0, 1), "5.3");
    EXPECT_EQ(number(-0.01, 1, true), "0.0");
}

TEST(Wording, DaysAreReadAndUnreadableOnesLeft) {
    EXPECT_EQ(dayAndTime("2026-06-07T16:30:05Z"), "7 June 2026, 16:30 UTC");
    EXPECT_EQ(dayOf("2026-12-31"), "31 December 2026");
    EXPECT_EQ(dayAndTime("yesterday"), "yesterday");
    EXPECT_EQ(withSigns("2.1 deg off (+- 0.3), degrees"), "2.1\u00b0 off (\u00b10.3), degrees");
}

TEST(Wording, TheWindIsToldFromTheCrowd) {
    data::Site site;
    site.show_line_bearing_rad = 70 * kPi / 180;  // crowd right is at 70 deg, behind it 160 deg
    const auto from = [&](double degrees) {
        data::Weather weather;
        weather.wind = {{10, degrees * kPi / 180, 5}};
        return windWords(weather, site, units::DisplayUnits::Aviation);
    };
    EXPECT_NE(from(70).find("from the right"), std::string::npos) << from(70);
    EXPECT_NE(from(250).find("from the left"), std::string::npos);
    EXPECT_NE(from(160).find("behind the crowd"), std::string::npos);
    EXPECT_NE(from(340).find("beyond the show line"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::sheets
