// The sheets made and read back by another's reader (Poppler), their structure looked at by qpdf.

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/brief/brief.h"
#include "engine/brief/narration.h"
#include "engine/brief/outline.h"
#include "engine/brief/small_picture.h"
#include "engine/earth/magnetic.h"
#include "engine/units/units.h"
#include "tests/engine/page/read_back.h"
#include "tests/engine/variant/trial_workspace.h"

namespace plumbline::brief {
namespace {

using test::ReadBack;

const char* const kThree = R"(
[[figure]]
name = "Run in"
narration = "Out of the west."
text = """
smoke on
line level 900 m
smoke off
"""
[[figure]]
name = "Loop"
narration = "One two three four five six seven eight nine ten, and forty more [silence 5 s] to say."
text = """
pull 360 deg at 4 g
line level 100 m
"""
[[figure]]
name = "Last pass"
text = """
cue "watch the wing"
line level 200 m with 1/2 roll left
"""
)";

variant::Flown flownOf(load::Workspace workspace) {
    auto flown = variant::fly(std::move(workspace), {});
    EXPECT_TRUE(flown);
    return std::move(flown).value();
}

load::Workspace threeFigures() {
    load::Workspace workspace = variant::test::trialWorkspace("75 m/s", kThree);
    workspace.site.show_time_utc = "2026-06-27T16:30:00Z";
    return workspace;
}

load::Workspace manyFigures(int count) {
    std::string text;
    for (int i = 0; i < count; ++i)
        text += "[[figure]]\nname = \"Pass number " + std::to_string(i + 1) +
                "\"\ntext = \"line level 150 m\"\n";
    return variant::test::trialWorkspace("75 m/s", text);
}

Wishes few() {
    Wishes wishes;
    wishes.flights = 20;
    return wishes;
}

struct Made {
    std::map<std::string, std::string> bytes;
    std::map<std::string, int> pages;
    std::vector<std::string> remarks;
    std::string all;  ///< text of all pages of all sheets
};

Made make(const variant::Flown& flown, const Wishes& wishes, const page::Fonts& fonts = {}) {
    Made made;
    auto brief = makeBrief(flown, fonts, wishes);
    EXPECT_TRUE(brief);
    if (!brief) return made;
    for (const Sheet& sheet : brief->sheets) {
        made.bytes[sheet.file] = sheet.bytes;
        made.pages[sheet.file] = sheet.pages;
    }
    made.remarks = brief->remarks;
    return made;
}

/// Of all pages, a single blank between words.
std::string textOf(const std::string& bytes) {
    const ReadBack read(bytes);
    std::string text;
    for (int page = 0; page < read.pages(); ++page) text += read.text(page) + " ";
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n' || c == '\r';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

bool says(const std::string& bytes, const std::string& words) {
    return textOf(bytes).find(words) != std::string::npos;
}

/// Nothing on any page lies on something else: the boxes of words do not meet.
void expectNothingOnTop(const std::string& file, const std::string& bytes) {
    const ReadBack read(bytes);
    for (int page = 0; page < read.pages(); ++page) {
        const std::vector<ReadBack::Word> words = read.words(page);
        for (std::size_t i = 0; i < words.size(); ++i) {
            const poppler::rectf& a = words[i].box_pt;
            EXPECT_GE(a.left(), 20) << file << ": " << words[i].words;
            EXPECT_LE(a.right(), read.size(page).width() - 20) << file << ": " << words[i].words;
            EXPECT_LE(a.bottom(), read.size(page).height() - 15) << file;
            for (std::size_t j = i + 1; j < words.size(); ++j) {
                const poppler::rectf& b = words[j].box_pt;
                // The box is higher than the letters: ascent and descent of the font.
                const double over = std::min(a.right(), b.right()) - std::max(a.left(), b.left());
                const double deep = std::min(a.bottom(), b.bottom()) - std::max(a.top(), b.top());
                EXPECT_FALSE(over > 1 && deep > 0.45 * a.height())
                    << file << ": " << words[i].words << " on " << words[j].words;
            }
        }
    }
}

TEST(Brief, EverySheetTellsDaySiteWeatherRevisionAndCaution) {
    const variant::Flown flown = flownOf(threeFigures());
    const Made made = make(flown, few());
    ASSERT_EQ(made.bytes.size(), 3U);
    for (const auto& [file, bytes] : made.bytes) {
        const ReadBack read(bytes);
        EXPECT_TRUE(ReadBack::sound(bytes, "plumbline_brief_" + file)) << file;
        EXPECT_EQ(read.pages(), made.pages.at(file));
        for (int page = 0; page < read.pages(); ++page) {
            EXPECT_TRUE(read.says(page, flown.workspace.site.name)) << file;
            EXPECT_TRUE(read.says(page, "27 June 2026, 16:30 UTC")) << file;
            EXPECT_TRUE(read.says(page, "QNH")) << file;
            EXPECT_TRUE(read.says(page, "rev " + flown.workspace.revision())) << file;
            EXPECT_TRUE(read.says(page, "no approval")) << file;
            EXPECT_TRUE(read.says(page, "page " + std::to_string(page + 1) + " of")) << file;
        }
    }
}

TEST(Brief, PapersAreTheOnesAskedFor) {
    const variant::Flown flown = flownOf(threeFigures());
    Wishes wishes = few();
    // ISO 216 and ANSI Y14.1, in points.
    const Made a = make(flown, wishes);
    EXPECT_NEAR(ReadBack(a.bytes.at("card.pdf")).size(0).width(), 419.5, 0.1);
    EXPECT_NEAR(ReadBack(a.bytes.at("cues.pdf")).size(0).height(), 841.9, 0.1);
    wishes.letter = true;
    const Made letter = make(flown, wishes);
    EXPECT_NEAR(ReadBack(letter.bytes.at("card.pdf")).size(0).width(), 396, 0.1);
    EXPECT_NEAR(ReadBack(letter.bytes.at("director.pdf")).size(0).height(), 792, 0.1);
}

TEST(Brief, TheSameRoutineMakesTheSameBytes) {
    const variant::Flown flown = flownOf(threeFigures());
    EXPECT_EQ(make(flown, few()).bytes, make(flown, few()).bytes);
}

// Sizes are stated in card.h and head.h: what is read in flight at least 10.2 pt (a long name 8.2),
// gates 12.5 pt, nothing below 7 pt.
TEST(Brief, TheCardIsLegibleAtTheLengthOfAnArm) {
    const Made made = make(flownOf(threeFigures()), few());
    const std::string& bytes = made.bytes.at("card.pdf");
    std::vector<char> data(bytes.begin(), bytes.end());
    const std::unique_ptr<poppler::document> document(
        poppler::document::load_from_raw_data(data.data(), static_cast<int>(data.size())));
    const std::unique_ptr<poppler::page> page(document->create_page(0));
    double name_pt = 0, gate_pt = 0, least_pt = 100;
    for (const poppler::text_box& box : page->text_list(poppler::page::text_list_include_font)) {
        const poppler::byte_array utf8 = box.text().to_utf8();
        const std::string word(utf8.begin(), utf8.end());
        const double size_pt = box.get_font_size();
        least_pt = std::min(least_pt, size_pt);
        if (word == "Loop") name_pt = size_pt;
        if (size_pt > 12 && word.find_first_not_of("0123456789") == std::string::npos)
            gate_pt = size_pt;
    }
    EXPECT_GE(least_pt, 6.99);
    EXPECT_GE(name_pt, 10.19);
    EXPECT_GE(gate_pt, 12.49);
}

TEST(Brief, SixtyFiguresAndThreeAreSpreadOverTheirPages) {
    const Made sixty = make(flownOf(manyFigures(60)), few());
    const ReadBack card(sixty.bytes.at("card.pdf"));
    ASSERT_EQ(card.pages(), 3);
    for (int i = 1; i <= 60; ++i)
        EXPECT_TRUE(card.says((i - 1) / 20, "Pass number " + std::to_string(i))) << i;
    EXPECT_EQ(sixty.pages.at("director.pdf"), 1);
    for (int i = 1; i <= 60; ++i)
        EXPECT_TRUE(says(sixty.bytes.at("director.pdf"), "Pass number " + std::to_string(i))) << i;
    const Made three = make(flownOf(threeFigures()), few());
    EXPECT_EQ(three.pages.at("card.pdf"), 1);
    EXPECT_EQ(three.pages.at("cues.pdf"), 1);
    const Made eighteen = make(flownOf(manyFigures(18)), few());
    EXPECT_EQ(eighteen.pages.at("card.pdf"), 1);
}

TEST(Brief, WordsDoNotRunIntoEachOther) {
    for (const auto& [file, bytes] : make(flownOf(manyFigures(60)), few()).bytes)
        expectNothingOnTop(file, bytes);
    for (const auto& [file, bytes] : make(flownOf(threeFigures()), few()).bytes)
        expectNothingOnTop(file, bytes);
}

// Sixty figures of every kind, some of them kilometres away: invented, in tests/data.
TEST(Brief, RealRoutinesOfSixtyFiguresReadOnBothPapers) {
    for (const char* name : {"every_element", "sixty"}) {
        auto workspace = load::loadWorkspace(std::string(PLUMBLINE_TEST_DATA) + "/routines/" +
                                             name + ".routine.toml");
        ASSERT_TRUE(workspace) << describe(workspace.error());
        const variant::Flown flown = flownOf(std::move(workspace).value());
        Wishes wishes;
        wishes.flights = 0;  // windows change nothing here
        for (const bool letter : {false, true}) {
            wishes.letter = letter;
            const Made made = make(flown, wishes);
            EXPECT_EQ(made.pages.at("card.pdf"), 3) << name;
            EXPECT_EQ(made.pages.at("director.pdf"), 1) << name;
            expectNothingOnTop(name, made.bytes.at("card.pdf"));
        }
    }
}

// A dive that gathers speed for a loop with eight sides: the loop is what the picture shows.
TEST(Brief, SmallPicturesLeaveOutTheWayThere) {
    const variant::Flown flown = flownOf(variant::test::trialWorkspace("75 m/s", R"(
[[figure]]
name = "Up"
text = """
climb to height 700 m
"""
[[figure]]
name = "Loop below"
text = """
push to 20 deg down at 0.5 g
line 20 deg down 900 m
pull to level at 3 g
line level 200 m
pull 8 sides 360 deg side 40 m at 5 g
"""
)"));
    const Outline outline = outlineOf(flown, units::DisplayUnits::Aviation);
    ASSERT_EQ(outline.acts.size(), 2U);
    const Act& act = outline.acts[1];
    ASSERT_GT(act.top_m - act.lowest_m, 200);
    const page::Fonts fonts;
    page::Document document(page::Size{30, 10}, fonts);
    drawSmallPicture(document, {0, 0, 30, 10}, outline.path, act.start_s, act.stop_s,
                     outline.span_m);
    constexpr double kDotsPerMm = 10;
    const page::Picture picture = document.pictureOf(0, {.dots_per_mm = kDotsPerMm});
    int first = picture.width, last = 0;
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            if (picture.rgba[static_cast<std::size_t>(4 * (y * picture.width + x))] > 128) continue;
            first = std::min(first, x);
            last = std::max(last, x);
        }
    // With the dive and the run-in it would be more than four times as wide as high.
    EXPECT_LT((last - first) / kDotsPerMm, 18);
    EXPECT_GT((last - first) / kDotsPerMm, 6);
}

// What is looked at is what is printed: means of squares, drawn by Poppler and by us.
TEST(Brief, PagesToLookAtAreThoseOfTheFiles) {
    const variant::Flown flown = flownOf(threeFigures());
    const Wishes wishes = few();
    const page::Fonts fonts;
    Content content;
    content.outline = outlineOf(flown, wishes.units);
    content.narration = narrate(flown, content.outline, timeCues(flown, wishes), wishes);
    const auto brief = makeBrief(flown, content, fonts, wishes);
    ASSERT_TRUE(brief);
    constexpr double kDotsPerMm = 4;
    for (const SheetKind kind : kSheetKinds) {
        const page::Document pages = pagesOf(kind, flown, content, fonts, wishes);
        const Sheet& sheet = brief->sheets[static_cast<std::size_t>(kind)];
        EXPECT_EQ(sheet.file, fileOf(kind));
        ASSERT_EQ(pages.pages(), sheet.pages);
        const ReadBack::Grey grey = ReadBack(sheet.bytes).drawn(0, kDotsPerMm * 25.4);
        const page::Picture picture = pages.pictureOf(0, {.dots_per_mm = kDotsPerMm});
        ASSERT_NEAR(picture.width, grey.width, 1);
        ASSERT_NEAR(picture.height, grey.height, 1);
        const int side = static_cast<int>(3 * kDotsPerMm);
        double apart = 0;
        int inked = 0;
        for (int top = 0; top + side < std::min(picture.height, grey.height); top += side)
            for (int left = 0; left + side < std::min(picture.width, grey.width); left += side) {
                double ours = 0, theirs = 0;
                for (int y = top; y < top + side; ++y)
                    for (int x = left; x < left + side; ++x) {
                        const std::uint8_t* p =
                            picture.rgba.data() +
                            std::size_t{4} * static_cast<std::size_t>(y * picture.width + x);
                        ours += (30 * p[0] + 59 * p[1] + 11 * p[2]) / 100.0;
                        theirs += grey.at(x, y);
                    }
                const double dots = side * side;
                if (theirs / dots > 253 && ours / dots > 253) continue;
                ++inked;
                apart += std::abs(ours - theirs) / dots;
                // Poppler makes thin lines and bands at least a dot wide.
                EXPECT_LT(std::abs(ours - theirs) / dots, 255 / 3.0)
                    << sheet.file << " " << left << ", " << top;
            }
        EXPECT_GT(inked, 200) << sheet.file;
        EXPECT_LT(apart / inked, 6) << sheet.file;
    }
}

TEST(Brief, TheDirectorReadsRadioAndEmergenciesOfTheSite) {
    load::Workspace workspace = threeFigures();
    workspace.site.radio = {"119.005 MHz", "", "Trial, running in", "Stop, stop", ""};
    workspace.site.emergency = {"climb ahead", "", "", "stewards"};
    const Made made = make(flownOf(workspace), few());
    for (const char* words : {"119.005 MHz", "Trial, running in", "Stop, stop", "climb ahead",
                              "stewards", "Spare frequency"})
        EXPECT_TRUE(says(made.bytes.at("director.pdf"), words)) << words;
    EXPECT_TRUE(says(made.bytes.at("card.pdf"), "Break-off climb ahead"));
    expectNothingOnTop("director.pdf", made.bytes.at("director.pdf"));
}

TEST(Brief, WhatIsToBeDoneInAnEmergencyIsSaidWhole) {
    load::Workspace workspace = threeFigures();
    workspace.site.emergency.break_off = "climb ahead";
    for (int i = 0; i < 20; ++i) workspace.site.emergency.break_off += " word" + std::to_string(i);
    workspace.site.emergency.crowd = workspace.site.emergency.break_off + " at last";
    const Made made = make(flownOf(workspace), few());
    for (const char* words : {"word3", "word19", "at last"})
        EXPECT_TRUE(says(made.bytes.at("director.pdf"), words)) << words;
    EXPECT_EQ(made.pages.at("director.pdf"), 1);
    expectNothingOnTop("director.pdf", made.bytes.at("director.pdf"));
}

// NOAA's test value of 2025.0 at 59 S, 8 W: declination -15.75 deg (at 39 km, which changes it by
// less than the whole degree shown).
TEST(Brief, HeadingsAreMagneticBesideTrue) {
    load::Workspace workspace = threeFigures();
    workspace.site.show_time_utc = "2025-01-01T00:00:00Z";
    workspace.site.show_centre = {-59 * units::kDegree_rad, -8 * units::kDegree_rad, 0};
    workspace.site.show_line_bearing_rad = 70 * units::kDegree_rad;
    const Outline outline = outlineOf(flownOf(workspace), units::DisplayUnits::Aviation);
    ASSERT_TRUE(outline.declination_rad.has_value());
    EXPECT_NEAR(*outline.declination_rad / units::kDegree_rad, -15.75, 0.25);
    EXPECT_EQ(bearingWords(outline, 70 * units::kDegree_rad, true), "086\u00b0");
    EXPECT_EQ(bearingWords(outline, 70 * units::kDegree_rad, false), "070\u00b0");
    const Made made = make(flownOf(workspace), few());
    EXPECT_TRUE(says(made.bytes.at("card.pdf"), "086\u00b0"));
    EXPECT_TRUE(says(made.bytes.at("card.pdf"), "070\u00b0 true"));
    EXPECT_TRUE(says(made.bytes.at("card.pdf"), "2025 to 2030"));
}

TEST(Brief, OutsideTheModelsYearsHeadingsAreTrueAndSaySo) {
    load::Workspace workspace = threeFigures();
    workspace.site.show_time_utc = "2031-06-27T16:30:00Z";
    const Made made = make(flownOf(workspace), few());
    EXPECT_TRUE(says(made.bytes.at("card.pdf"), "heading true"));
    ASSERT_FALSE(made.remarks.empty());
    EXPECT_NE(made.remarks[0].find("2025 to 2030"), std::string::npos) << made.remarks[0];
    workspace.site.show_time_utc = "";
    const Made dayless = make(flownOf(workspace), few());
    EXPECT_TRUE(says(dayless.bytes.at("director.pdf"), "day not given"));
    EXPECT_TRUE(says(dayless.bytes.at("card.pdf"), "heading true"));
}

// A pilot without errors comes when the plan does. The trial begins at x -700 m, y 50 m, 100 m up,
// the crowd line is at y -150 m: 735 m from its middle, heard 2.2 s later at 340.3 m/s (ICAO Doc
// 7488, 15 degC); 900 m at 75 m/s are 12 s, a little less as it gains speed.
TEST(Brief, CuesStandWhereThePlanIs) {
    load::Workspace workspace = threeFigures();
    workspace.pilot.spread = {.entry_speed_mps = 0,
                              .load_g = 0,
                              .timing_s = 0,
                              .heading_rad = 0,
                              .along_m = 0,
                              .across_m = 0,
                              .height_m = 0,
                              .wind_mps = 0,
                              .temperature_k = 0,
                              .mass_kg = 0,
                              .power_frac = 0,
                              .roll_rate_frac = 0,
                              .reaction_s = 0,
                              .left_frac = 1};
    const variant::Flown flown = flownOf(workspace);
    const Outline outline = outlineOf(flown, units::DisplayUnits::Metric);
    Wishes wishes = few();
    wishes.units = units::DisplayUnits::Metric;
    const Narration narration = narrate(flown, outline, timeCues(flown, wishes), wishes);
    ASSERT_EQ(narration.cues.size(), 3U);
    for (const Cue& cue : narration.cues) {
        EXPECT_NEAR(cue.early_s, cue.time_s, 0.1);
        EXPECT_NEAR(cue.late_s, cue.time_s, 0.1);
    }
    EXPECT_EQ(narration.cues[0].time_s, 0);
    EXPECT_GT(narration.cues[1].time_s, 10);
    EXPECT_LT(narration.cues[1].time_s, 12);
    EXPECT_EQ(narration.cues[2].words, "watch the wing");
    EXPECT_EQ(narration.cues[0].look,
              "Look far left, low, 750\u00a0m off; heard 2\u00a0s late. 270\u00a0km/h at "
              "100\u00a0m.");
    EXPECT_EQ(narration.cues[1].beats, std::vector<std::string>{"silence 5 s"});
    // Smoke is on for the whole run in, which is level and as low as anything.
    EXPECT_EQ(narration.cues[0].beats, (std::vector<std::string>{"low", "smoke"}));
    // An ordinary pilot has a window.
    workspace.pilot.spread = {};
    const Narration wide =
        narrate(flownOf(workspace), outline, timeCues(flownOf(workspace), wishes), wishes);
    EXPECT_GT(wide.cues[2].late_s - wide.cues[2].early_s, 0.5);
}

TEST(Brief, WhatIsUnsafeStandsOnEverySheet) {
    const Made safe = make(flownOf(threeFigures()), few());
    EXPECT_FALSE(says(safe.bytes.at("card.pdf"), "unsafe or worse"));
    load::Workspace workspace = variant::test::trialWorkspace("75 m/s", R"(
[[figure]]
name = "Into the ground"
text = """
push to 30 deg down at 1 g
line 30 deg down 900 m
"""
[[figure]]
name = "Never flown"
text = "line level 100 m"
)");
    const Made made = make(flownOf(workspace), few());
    for (const auto& [file, bytes] : made.bytes) {
        EXPECT_TRUE(says(bytes, "1 figure is not flown")) << file;
        EXPECT_TRUE(says(bytes, "unsafe or worse")) << file;
        EXPECT_TRUE(says(bytes, "see plumbline check")) << file;
    }
}

TEST(Brief, LongNamesAreShortenedNotLaidOverOthers) {
    load::Workspace workspace = threeFigures();
    const std::string name(90, 'n');
    workspace.site.name = "Site " + name;
    workspace.routine.name = "Routine " + name;
    workspace.routine.figures[1].name = "Figure " + name;
    const Made made = make(flownOf(workspace), few());
    for (const auto& [file, bytes] : made.bytes) expectNothingOnTop(file, bytes);
    EXPECT_TRUE(says(made.bytes.at("card.pdf"), "\u2026"));
}

TEST(Brief, CuesTellWhenWhatAndHowMuchFits) {
    const Made made = make(flownOf(threeFigures()), few());
    const std::string& cues = made.bytes.at("cues.pdf");
    // 900 m at 75 m/s are 12 s: the loop comes at 0:12, where nothing was flown before that could
    // have made it early. 11 s of speech at 140 a minute are 25 words.
    EXPECT_TRUE(says(cues, "Out of the west."));
    EXPECT_TRUE(says(cues, "140 words a minute"));
    EXPECT_TRUE(says(cues, "watch the wing"));
    EXPECT_TRUE(says(cues, "silence 5 s"));
    EXPECT_TRUE(says(cues, "smoke"));
    EXPECT_TRUE(says(cues, "late"));
    EXPECT_TRUE(says(cues, "20 of") || says(cues, "of 20 flights"));
}

TEST(Brief, AScriptThatIsTooLongIsSaid) {
    load::Workspace workspace = threeFigures();
    // 12 s until the loop: 25 words fit at 140 a minute, whatever the last second of the run.
    std::string words;
    for (int i = 0; i < 60; ++i) words += "word ";
    workspace.routine.figures[0].narration = words;
    const Made made = make(flownOf(workspace), few());
    EXPECT_TRUE(says(made.bytes.at("cues.pdf"), "too many"));
    const auto told = std::find_if(made.remarks.begin(), made.remarks.end(), [](const auto& r) {
        return r.find("Run in: the narration is 3") != std::string::npos;
    });
    EXPECT_NE(told, made.remarks.end());
    // Spoken at 300 a minute it is 12 s, and a breath is wanted.
    Wishes fast = few();
    fast.words_per_min = 300;
    workspace.routine.figures[0].narration = words.substr(0, 5 * 50);
    EXPECT_FALSE(says(make(flownOf(workspace), fast).bytes.at("cues.pdf"), "too many"));
}

TEST(Brief, MusicIsNamedWithItsBeginning) {
    load::Workspace workspace = threeFigures();
    workspace.routine.music_file = "evening.ogg";
    workspace.routine.music_start_s = 12;
    EXPECT_TRUE(
        says(make(flownOf(workspace), few()).bytes.at("cues.pdf"), "evening.ogg begins at 0:12"));
}

// Debian's fonts-dejavu-core and fonts-droid-fallback.
TEST(Brief, OtherScriptsAreSetRight) {
    load::Workspace workspace = threeFigures();
    workspace.routine.figures[0].narration = "Größe, Füße, Übermut.";
    workspace.routine.figures[1].narration =
        "\u0623\u0631\u0628\u0639 \u0646\u0642\u0627\u0637 4 \u0645\u0631\u0627\u062a";
    workspace.routine.figures[2].narration = "\u307e\u3063\u3059\u3050\u4e0a\u3078";
    page::Fonts fonts;
    for (const char* file : {"/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
                             "/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf"}) {
        std::ifstream in(file, std::ios::binary);
        EXPECT_EQ(fonts.add({std::istreambuf_iterator<char>(in), {}}), "") << file;
    }
    const Made made = make(flownOf(workspace), few(), fonts);
    const std::string& cues = made.bytes.at("cues.pdf");
    EXPECT_TRUE(ReadBack::sound(cues, "plumbline_brief_scripts.pdf"));
    for (const char* words : {"Größe, Füße, Übermut.", "\u0623\u0631\u0628\u0639",
                              "\u0646\u0642\u0627\u0637", "\u307e\u3063\u3059\u3050\u4e0a\u3078"})
        EXPECT_TRUE(says(cues, words)) << words;
    // Arabic runs to the left: the first word stands right of the second. Poppler gives the letters
    // of its single words as they are seen, from left to right.
    double first = 0, second = 1e9;
    for (const ReadBack::Word& word : ReadBack(cues).words(0)) {
        if (word.words == "\u0639\u0628\u0631\u0623") first = word.box_pt.left();
        if (word.words == "\u0637\u0627\u0642\u0646") second = word.box_pt.left();
    }
    EXPECT_GT(first, second);
    EXPECT_TRUE(made.remarks.empty()) << made.remarks.front();
    const std::vector<std::string> embedded = ReadBack(cues).embeddedFonts();
    for (const char* font : {"Inter", "DejaVuSans", "DroidSansFallback"})
        EXPECT_TRUE(std::any_of(embedded.begin(), embedded.end(), [&](const std::string& name) {
            return name.find(font) != std::string::npos;
        })) << font;
    // Captions have them as they were written.
    const auto brief = makeBrief(flownOf(workspace), fonts, few());
    ASSERT_TRUE(brief);
    for (const TextFile& captions : brief->captions)
        for (std::size_t i = 0; i < 3; ++i)
            EXPECT_NE(captions.text.find(workspace.routine.figures[i].narration), std::string::npos)
                << captions.file << " " << i;
    // Without the fonts it is said which letters are missing.
    const Made without = make(flownOf(workspace), few());
    ASSERT_EQ(without.remarks.size(), 1U);
    EXPECT_NE(without.remarks[0].find("--font"), std::string::npos);
}

TEST(Brief, NotesSayWhatIsRolledAndTurned) {
    const variant::Flown flown = flownOf(variant::test::trialWorkspace("75 m/s", R"(
[[figure]]
name = "Hammerhead"
text = """
pull to up at 5 g
line up until 30 kt with 1/4 roll left
pivot left power 25 %
power idle
line down until height 220 m with 1/2 roll right
power full
pull to level at 5 g
"""
[[figure]]
name = "Circle"
text = "turn left 360 deg bank 60 deg"
[[figure]]
name = "Loop"
text = "pull 360 deg radius 115 m"
[[figure]]
name = "Rolls"
text = "line level 400 m with 1 1/2 rolls right at start"
)"));
    const Outline outline = outlineOf(flown, units::DisplayUnits::Aviation);
    ASSERT_EQ(outline.acts.size(), 4U);
    EXPECT_EQ(outline.acts[0].note, "\u00bc roll left up; pivot left; \u00bd roll right down");
    EXPECT_EQ(outline.acts[3].note, "1\u00bd rolls right");
    EXPECT_EQ(outline.acts[1].note, "turn left 360\u00b0 bank 60\u00b0");
    EXPECT_EQ(outline.acts[2].note, "pull 360\u00b0 radius 115 m");
    // The start that the trial has: 75 m/s.
    EXPECT_NEAR(outline.acts[0].entry_mps, 75, 1e-6);
    EXPECT_TRUE(outline.acts[0].to_right);
    ASSERT_TRUE(outline.acts[0].gate.has_value());
    EXPECT_TRUE(outline.acts[0].gate->vertical);
}

TEST(Brief, DaysAreWritten) {
    EXPECT_EQ(dayWords("2026-06-27T16:30:00Z"), "27 June 2026, 16:30 UTC");
    EXPECT_EQ(dayWords("2024-02-29T23:59:59+02:00"), "29 February 2024, 21:59 UTC");
    EXPECT_EQ(dayWords("1969-12-31T00:05:00Z"), "31 December 1969, 00:05 UTC");
    EXPECT_EQ(dayWords("soon"), "");
}

}  // namespace
}  // namespace plumbline::brief
