// Plots of trends, read back by another's reader.

#include "engine/season/trend_plot.h"

#include "tests/engine/page/read_back.h"

namespace plumbline {
namespace {

using season::Trend;

Trend trendOf(const std::string& figure, const std::string& measure, double first, double step) {
    Trend t;
    t.figure = figure;
    t.kind = *season::measureKind(measure);
    for (int i = 0; i < 6; ++i)
        t.points.push_back({i + 1, 1255737600.0 + i * 86400, first + i * step, 0.005, {}});
    t.course = season::Course::Better;
    t.fit = season::Fit{first, step, 0, 0};
    return t;
}

TEST(SeasonPlots, TellWhatTheyShow) {
    std::vector<Trend> trends(11, trendOf("Hammerhead", "line off", 0.2, -0.02));
    trends.back().figure = "The last <one> & only";
    const page::Fonts fonts;
    const auto pdf =
        season::trendsPdf(trends, units::DisplayUnits::Aviation, page::Paper::A4, fonts);
    ASSERT_TRUE(pdf);
    const test::ReadBack read(*pdf);
    ASSERT_TRUE(read.good());
    EXPECT_EQ(read.pages(), 2);  // ten to a page
    EXPECT_TRUE(read.says(0, "Hammerhead: line off")) << read.text(0);
    EXPECT_TRUE(read.says(0, "11.5 deg"));  // 0.2 rad
    EXPECT_TRUE(read.says(0, "2009-10-17"));
    EXPECT_TRUE(read.says(0, "2009-10-22, 6 times: better")) << read.text(0);
    EXPECT_TRUE(read.says(1, "The last <one> & only"));
    EXPECT_TRUE(test::ReadBack::sound(*pdf, "plumbline_trends.pdf"));

    const std::string svg = season::trendsSvg(trends, units::DisplayUnits::Aviation);
    EXPECT_NE(svg.find(">The last &lt;one> &amp; only: line off<"), std::string::npos);
    std::size_t discs = 0;
    for (std::size_t at = 0; (at = svg.find("<circle", at)) != svg.npos; ++at) ++discs;
    EXPECT_EQ(discs, 66U);
}

TEST(SeasonPlots, StandWhereTheNumbersSay) {
    // 0 and 100 m at the ends: the disc of 50 m half-way between them.
    Trend t = trendOf("Loop", "radius", 0, 0);
    t.points = {{1, 0, 0, {}, {}}, {2, 86400, 50, {}, {}}, {3, 172800, 100, {}, {}}};
    const std::string svg = season::trendsSvg(std::vector{t}, units::DisplayUnits::Metric);
    std::vector<double> x, y;
    for (std::size_t at = 0; (at = svg.find("<circle cx=\"", at)) != svg.npos; ++at) {
        x.push_back(std::stod(svg.substr(at + 12)));
        y.push_back(std::stod(svg.substr(svg.find("cy=\"", at) + 4)));
    }
    ASSERT_EQ(x.size(), 3U);
    EXPECT_NEAR(x[1], 0.5 * (x[0] + x[2]), 0.002);
    EXPECT_NEAR(y[1], 0.5 * (y[0] + y[2]), 0.002);
    EXPECT_GT(y[0], y[2]);  // more is higher
}

}  // namespace
}  // namespace plumbline
