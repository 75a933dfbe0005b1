#include "engine/text/figure_text.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"

namespace plumbline::text {
namespace {

/// The only element of a text that must be free of problems.
template <class Body>
Body parseOne(const std::string& text) {
    const ParsedText parsed = parseFigureText(text, "t", 1);
    EXPECT_EQ(describe(parsed.problems), "") << text;
    EXPECT_EQ(parsed.elements.size(), 1u) << text;
    if (parsed.elements.size() != 1) return {};
    const Body* body = std::get_if<Body>(&parsed.elements[0].body);
    EXPECT_NE(body, nullptr) << text;
    return body != nullptr ? *body : Body{};
}

TEST(FigureText, ReadsTheHammerhead) {
    const ParsedText parsed = parseFigureText(
        "line level until x -150 m\n"
        "pull to up at 6 g\n"
        "line up until 25 kt with 1/4 roll left\n"
        "pivot left\n"
        "line down 200 m with 1/4 roll right\n"
        "pull to level at 6 g          # 6 g, or what the wing gives there\n",
        "t", 1);
    EXPECT_EQ(describe(parsed.problems), "");
    ASSERT_EQ(parsed.elements.size(), 6u);
    const auto& upline = std::get<Line>(parsed.elements[2].body);
    EXPECT_EQ(upline.direction->kind, Direction::Kind::Up);
    EXPECT_EQ(upline.extent.until.kind, Condition::Kind::Speed);
    EXPECT_DOUBLE_EQ(upline.extent.until.value, 25 * 1852.0 / 3600);
    EXPECT_EQ(upline.extent.until.words, "until 25 kt");
    ASSERT_EQ(upline.rolls.parts.size(), 1u);
    EXPECT_DOUBLE_EQ(upline.rolls.parts[0].angle_rad, -M_PI / 2);
    EXPECT_EQ(parsed.elements[5].words, "pull to level at 6 g");
    EXPECT_EQ(parsed.elements[5].span.line, 6);
    EXPECT_EQ(parsed.elements[5].span.column, 1);
    EXPECT_EQ(parsed.elements[5].span.end_column, 21);
}

TEST(FigureText, ReadsDirections) {
    EXPECT_FALSE(parseOne<Line>("line 100 m").direction.has_value());
    EXPECT_TRUE(parseOne<Line>("line inverted level 100 m").direction->inverted);
    const Line down = parseOne<Line>("line inverted 45 deg down by nose 100 m");
    EXPECT_EQ(down.direction->kind, Direction::Kind::Angle);
    EXPECT_DOUBLE_EQ(down.direction->climb_rad, -45 * units::kDegree_rad);
    EXPECT_TRUE(down.direction->inverted);
    EXPECT_EQ(down.reference, LineReference::Nose);
    EXPECT_EQ(parseOne<Line>("line by path 3 s").reference, LineReference::Path);
}

TEST(FigureText, ReadsExtents) {
    EXPECT_DOUBLE_EQ(parseOne<Line>("line 400 ft").extent.distance_m, 400 * 0.3048);
    EXPECT_DOUBLE_EQ(parseOne<Line>("line 3 s").extent.duration_s, 3);
    EXPECT_EQ(parseOne<Line>("line 3 s").extent.kind, Extent::Kind::Duration);
    const Extent centre = parseOne<Line>("line until centre").extent;
    EXPECT_EQ(centre.until.kind, Condition::Kind::X);
    EXPECT_EQ(centre.until.value, 0);
    EXPECT_EQ(centre.duration_s, 0);
    const Extent capped = parseOne<Line>("line up until 60 kt or 8 s").extent;
    EXPECT_EQ(capped.kind, Extent::Kind::Until);
    EXPECT_DOUBLE_EQ(capped.duration_s, 8);
    EXPECT_EQ(parseOne<Line>("line until y 40 m").extent.until.kind, Condition::Kind::Y);
    EXPECT_EQ(parseOne<Line>("line until height 300 m").extent.until.kind, Condition::Kind::Height);
}

TEST(FigureText, ReadsRolls) {
    const Rolls rolls = parseOne<Line>(
                            "line 500 m with 1 1/2 rolls right at 360 deg/s then "
                            "4 of 8 points left pause 0.6 s at 200 deg/s at end")
                            .rolls;
    ASSERT_EQ(rolls.parts.size(), 2u);
    EXPECT_DOUBLE_EQ(rolls.parts[0].angle_rad, 3 * M_PI);
    EXPECT_DOUBLE_EQ(rolls.parts[0].rate_radps, 2 * M_PI);
    EXPECT_EQ(rolls.parts[0].points, 0);
    EXPECT_DOUBLE_EQ(rolls.parts[1].angle_rad, -M_PI);
    EXPECT_EQ(rolls.parts[1].points, 4);
    EXPECT_DOUBLE_EQ(rolls.parts[1].pause_s, 0.6);
    EXPECT_DOUBLE_EQ(rolls.parts[1].rate_radps, 200 * units::kDegree_rad);
    EXPECT_EQ(rolls.placement.kind, RollPlacement::Kind::AtEnd);
}

TEST(FigureText, ReadsWhereARollStands) {
    const auto placement = [](const std::string& words) {
        return parseOne<Line>("line 500 m with 1 roll left " + words).rolls.placement;
    };
    using Kind = RollPlacement::Kind;
    EXPECT_EQ(placement(""), (RollPlacement{Kind::Middle, 0}));
    EXPECT_EQ(placement("at start"), (RollPlacement{Kind::AtStart, 0}));
    EXPECT_EQ(placement("starting at 60 m/s"), (RollPlacement{Kind::AtSpeed, 60}));
    EXPECT_EQ(placement("starting at height 300 m"), (RollPlacement{Kind::AtHeight, 300}));
    EXPECT_EQ(placement("at height 300 m"), (RollPlacement{Kind::AtHeight, 300}));
    EXPECT_EQ(placement("starting after 80 m"), (RollPlacement{Kind::AfterDistance, 80}));
    EXPECT_EQ(placement("at 90 deg/s after 80 m"), (RollPlacement{Kind::AfterDistance, 80}));
}

TEST(FigureText, ReadsArcs) {
    const Arc up = parseOne<Arc>("pull to up at 6 g");
    EXPECT_FALSE(up.push);
    EXPECT_EQ(up.to->kind, Direction::Kind::Up);
    EXPECT_EQ(up.size, Arc::Size::Load);
    EXPECT_DOUBLE_EQ(up.load_g, 6);
    const Arc loop = parseOne<Arc>("push 360 deg radius 300 ft");
    EXPECT_TRUE(loop.push);
    EXPECT_FALSE(loop.to.has_value());
    EXPECT_DOUBLE_EQ(loop.angle_rad, 2 * M_PI);
    EXPECT_EQ(loop.size, Arc::Size::Radius);
    EXPECT_DOUBLE_EQ(loop.radius_m, 91.44);
    EXPECT_EQ(parseOne<Arc>("pull to inverted level round at 5 g").size, Arc::Size::RoundAtLoad);
    EXPECT_EQ(parseOne<Arc>("push to down tightest").size, Arc::Size::Tightest);
    EXPECT_FALSE(parseOne<Arc>("pull 360 deg radius 90 m").over_ground);
    EXPECT_TRUE(parseOne<Arc>("pull 360 deg radius 90 m over the ground").over_ground);
    EXPECT_TRUE(parseOne<Arc>("pull 360 deg round at 4 g over the ground").over_ground);
    EXPECT_EQ(parseOne<Line>("line 45 deg up over the ground 90 m").reference,
              LineReference::Ground);
}

TEST(FigureText, ReadsRollsOnAnArc) {
    const Arc barrel = parseOne<Arc>(
        "pull 360 deg radius 90 m over the ground with 1 1/2 rolls left then 2 of 4 points right");
    ASSERT_EQ(barrel.rolls.parts.size(), 2u);
    EXPECT_DOUBLE_EQ(barrel.rolls.parts[0].angle_rad, -3 * M_PI);
    EXPECT_EQ(barrel.rolls.parts[1].points, 2);
    EXPECT_DOUBLE_EQ(barrel.rolls.parts[1].angle_rad, M_PI);
    EXPECT_EQ(barrel.rolls.placement, RollPlacement{});
    EXPECT_TRUE(barrel.over_ground);
}

TEST(FigureText, ReadsFloats) {
    const Arc over = parseOne<Arc>("float to 45 deg down at 0.2 g");
    EXPECT_TRUE(over.floating);
    EXPECT_DOUBLE_EQ(over.to->climb_rad, -45 * units::kDegree_rad);
    EXPECT_DOUBLE_EQ(over.load_g, 0.2);
    const Arc outside = parseOne<Arc>("float 60 deg at -0.3 g");
    EXPECT_FALSE(outside.to.has_value());
    EXPECT_DOUBLE_EQ(outside.angle_rad, 60 * units::kDegree_rad);
    EXPECT_DOUBLE_EQ(outside.load_g, -0.3);
    EXPECT_FALSE(parseOne<Arc>("push to level at 1 g").floating);
}

TEST(FigureText, ReadsPolygons) {
    const Polygon eight = parseOne<Polygon>("push 8 sides 360 deg side 60 m at 5 g");
    EXPECT_TRUE(eight.push);
    EXPECT_EQ(eight.sides, 8);
    EXPECT_DOUBLE_EQ(eight.angle_rad, 2 * M_PI);
    EXPECT_DOUBLE_EQ(eight.side_m, 60);
    EXPECT_EQ(eight.size, ArcSize::Load);
    EXPECT_DOUBLE_EQ(eight.load_g, 5);
    const Polygon half = parseOne<Polygon>("pull 4 sides 180 deg side 200 ft radius 40 m");
    EXPECT_FALSE(half.push);
    EXPECT_DOUBLE_EQ(half.angle_rad, M_PI);
    EXPECT_DOUBLE_EQ(half.side_m, 60.96);
    EXPECT_EQ(half.size, ArcSize::Radius);
    EXPECT_DOUBLE_EQ(half.radius_m, 40);
    // Decimals are rounded to whole corners.
    EXPECT_DOUBLE_EQ(parseOne<Polygon>("pull 7 sides 154.2857143 deg side 60 m tightest").angle_rad,
                     3 * 2 * M_PI / 7);
}

TEST(FigureText, ReadsRollingTurns) {
    const RollingTurn timed =
        parseOne<RollingTurn>("turn left 360 deg in 24 s with 4 rolls outward");
    EXPECT_TRUE(timed.left);
    EXPECT_DOUBLE_EQ(timed.angle_rad, 2 * M_PI);
    EXPECT_DOUBLE_EQ(timed.duration_s.value_or(0), 24);
    EXPECT_DOUBLE_EQ(timed.rolls, 4);
    EXPECT_EQ(timed.sense, RollingTurn::Sense::Outward);
    const RollingTurn free = parseOne<RollingTurn>("turn right 90 deg with 1 3/4 rolls inward");
    EXPECT_FALSE(free.left);
    EXPECT_FALSE(free.duration_s.has_value());
    EXPECT_DOUBLE_EQ(free.rolls, 1.75);
    EXPECT_EQ(free.sense, RollingTurn::Sense::Inward);
    EXPECT_EQ(parseOne<RollingTurn>("turn left 90 deg with 2 rolls alternating").sense,
              RollingTurn::Sense::Alternating);
}

TEST(FigureText, ReadsClimbsAndWaits) {
    const Turn spiral = parseOne<Turn>("turn left 270 deg bank 60 deg to height 200 m");
    EXPECT_DOUBLE_EQ(spiral.to_height_m.value_or(0), 200);
    EXPECT_FALSE(parseOne<Turn>("turn left 270 deg bank 60 deg").to_height_m.has_value());
    EXPECT_EQ(parseOne<Climb>("climb to height 300 m"), (Climb{300, false}));
    EXPECT_EQ(parseOne<Climb>("descend to height 120 m"), (Climb{120, true}));
    EXPECT_EQ(parseOne<Wait>("wait 1 min in level turn left"), (Wait{60, true}));
    EXPECT_EQ(parseOne<Wait>("wait 30 s in level turn right"), (Wait{30, false}));
}

TEST(FigureText, ReadsRibbons) {
    EXPECT_EQ(parseOne<Ribbon>("ribbon First").name, "First");
    EXPECT_EQ(parseOne<Ribbon>("ribbon \"low one\"").name, "low one");
    EXPECT_EQ(parseOne<Ribbon>("ribbon left").name, "left");
}

TEST(FigureText, ReadsWhatIsExpected) {
    const auto facing = [](const std::string& words) {
        const Expect expect = parseOne<Expect>("expect " + words);
        return std::make_pair(expect.what, expect.way);
    };
    using What = Expect::What;
    using Way = Expect::Way;
    EXPECT_EQ(facing("heading crowd-left"), std::make_pair(What::Heading, Way::CrowdLeft));
    EXPECT_EQ(facing("heading crowd-right"), std::make_pair(What::Heading, Way::CrowdRight));
    EXPECT_EQ(facing("heading toward crowd"), std::make_pair(What::Heading, Way::TowardCrowd));
    EXPECT_EQ(facing("canopy to crowd"), std::make_pair(What::Canopy, Way::TowardCrowd));
    EXPECT_EQ(facing("canopy away from crowd"), std::make_pair(What::Canopy, Way::AwayFromCrowd));
    EXPECT_EQ(parseOne<Expect>("expect upright").attitude, Expect::Attitude::Upright);
    EXPECT_EQ(parseOne<Expect>("expect inverted").attitude, Expect::Attitude::Inverted);
    const Expect edge = parseOne<Expect>("expect knife-edge");
    EXPECT_EQ(edge.what, What::Attitude);
    EXPECT_EQ(edge.attitude, Expect::Attitude::KnifeEdge);
    const Expect high = parseOne<Expect>("expect height above 1000 ft");
    EXPECT_EQ(high.what, What::Height);
    EXPECT_TRUE(high.above);
    EXPECT_DOUBLE_EQ(high.value, 304.8);
    const Expect slow = parseOne<Expect>("expect speed below 50 m/s");
    EXPECT_EQ(slow.what, What::Speed);
    EXPECT_FALSE(slow.above);
    EXPECT_DOUBLE_EQ(slow.value, 50);
}

TEST(FigureText, ReadsTheOtherElements) {
    const Turn turn = parseOne<Turn>("turn right 270 deg bank 60 deg");
    EXPECT_FALSE(turn.left);
    EXPECT_DOUBLE_EQ(turn.angle_rad, 270 * units::kDegree_rad);
    EXPECT_DOUBLE_EQ(*turn.bank_rad, 60 * units::kDegree_rad);
    EXPECT_FALSE(parseOne<Turn>("turn left 90 deg at 4 g").bank_rad.has_value());
    EXPECT_DOUBLE_EQ(parseOne<Turn>("turn left 90 deg at 4 g").load_g, 4);

    EXPECT_EQ(parseOne<Pivot>("pivot left"), (Pivot{true, 2.2, std::nullopt}));
    EXPECT_EQ(parseOne<Pivot>("pivot right in 3 s power idle"), (Pivot{false, 3, 0.0}));
    EXPECT_EQ(parseOne<Pivot>("2 pivots left"), (Pivot{true, 2.2, std::nullopt, 2}));

    EXPECT_EQ(parseOne<Slide>("slide 180 m"), (Slide{Slide::Until::Distance, 180, std::nullopt}));
    EXPECT_EQ(parseOne<Slide>("slide 4 s power full"), (Slide{Slide::Until::Duration, 4, 1.0}));
    EXPECT_EQ(parseOne<Slide>("slide until 40 m/s").until, Slide::Until::Speed);
    EXPECT_DOUBLE_EQ(*parseOne<Slide>("slide 60 m power 25 %").power_frac, 0.25);

    EXPECT_EQ(parseOne<Fall>("fall wheels-up"), (Fall{false, 0}));
    EXPECT_DOUBLE_EQ(parseOne<Fall>("fall wheels-down tilt 3 deg").tilt_rad,
                     3 * units::kDegree_rad);

    const Reposition to = parseOne<Reposition>(
        "reposition to x -900 m y 10 m height 60 m heading crowd-left speed 80 m/s");
    EXPECT_EQ(to, (Reposition{-900, 10, 60, false, 80}));
    EXPECT_EQ(parseOne<Reposition>(
                  "reposition to speed 80 m/s heading crowd-left height 60 m y 10 m x -900 m"),
              to);

    EXPECT_EQ(parseOne<PowerSetting>("power idle").frac, 0);
    EXPECT_EQ(parseOne<PowerSetting>("power full").frac, 1);
    EXPECT_TRUE(parseOne<SmokeSwitch>("smoke on").on);
    EXPECT_EQ(parseOne<CueMark>("cue \"Grüße: 4 # of 8\"  # comment").words, "Grüße: 4 # of 8");
}

TEST(FigureText, TakesCapitalsAndGluedUnits) {
    EXPECT_EQ(parseOne<Arc>("Pull To UP at 6g"), parseOne<Arc>("pull to up at 6 g"));
    EXPECT_DOUBLE_EQ(*parseOne<Slide>("slide 60m power 25%").power_frac, 0.25);
}

TEST(FigureText, TakesEitherLineEndAndCountsLines) {
    for (const std::string end : {"\n", "\r\n"}) {
        const std::string text =
            "# first" + end + end + "  smoke on" + end + "\tpull to up" + end + "smoke off";
        const ParsedText parsed = parseFigureText(text, "f.toml", 40);
        ASSERT_EQ(parsed.elements.size(), 2u);
        EXPECT_EQ(parsed.elements[0].span.line, 42);
        EXPECT_EQ(parsed.elements[0].span.column, 3);
        EXPECT_EQ(parsed.elements[1].span.line, 44);
        ASSERT_EQ(parsed.problems.size(), 1u);
        EXPECT_EQ(parsed.problems[0].where.file, "f.toml");
        EXPECT_EQ(parsed.problems[0].where.line, 43);
        EXPECT_EQ(parsed.problems[0].where.column, 12);
    }
}

TEST(FigureText, CountsColumnsInCodePoints) {
    const ParsedText parsed = parseFigureText("cue \"Grüße €𝄞\" now", "t", 1);
    ASSERT_EQ(parsed.problems.size(), 1u);
    EXPECT_EQ(parsed.problems[0].where.column, 16);
}

TEST(FigureText, OfNothingIsNothing) {
    for (const char* text : {"", "\n", "   \n\t\r\n", "# only a comment"}) {
        const ParsedText parsed = parseFigureText(text, "t", 1);
        EXPECT_TRUE(parsed.elements.empty() && parsed.problems.empty()) << text;
    }
}

}  // namespace
}  // namespace plumbline::text
