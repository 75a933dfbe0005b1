#include "engine/record/in_site.h"

#include <gtest/gtest.h>

#include "engine/units/units.h"

namespace plumbline::record {
namespace {

TEST(Beside, ARecordingComesIntoTheSitesAxes) {
    data::Site site;
    site.show_centre = {52 * units::kDegree_rad, 9 * units::kDegree_rad, 100};
    site.show_line_bearing_rad = 70 * units::kDegree_rad;
    record::ImportedTrack track;
    // Begins a minute of latitude north of show centre: 1854.5 m (WGS 84 there: 111.27 km a
    // degree), 20 m higher; its axes are east, north, up.
    track.origin = data::GeoPoint{52 * units::kDegree_rad + units::kDegree_rad / 60,
                                  9 * units::kDegree_rad, 120};
    track.path.show_line_bearing_rad = 90 * units::kDegree_rad;
    path::Sample sample;
    sample.velocity_S_mps = {0, 50, 0};  // to the north
    sample.q_SB = Quat(1, 0, 0, 0);
    track.path.samples.push_back(sample);
    const path::Path path = inSite(track, site);
    // North lies 70 deg to the left of the show line.
    const Vec3 at_S_m = path.samples[0].position_S_m;
    EXPECT_NEAR(at_S_m.x, 1854.5 * std::cos(70 * units::kDegree_rad), 2);
    EXPECT_NEAR(at_S_m.y, 1854.5 * std::sin(70 * units::kDegree_rad), 2);
    EXPECT_NEAR(at_S_m.z, 20, 0.5);  // less the earth's curve of 0.27 m
    const Vec3 velocity = path.samples[0].velocity_S_mps;
    EXPECT_NEAR(velocity.x, 50 * std::cos(70 * units::kDegree_rad), 1e-9);
    EXPECT_NEAR(velocity.y, 50 * std::sin(70 * units::kDegree_rad), 1e-9);
    EXPECT_NEAR(glm::length(rotate(path.samples[0].q_SB, Vec3(0, 1, 0)) - velocity / 50.0), 0,
                1e-9);
    EXPECT_EQ(path.show_line_bearing_rad, site.show_line_bearing_rad);
    // Without coordinates it is in them already.
    track.origin.reset();
    EXPECT_EQ(inSite(track, site).samples[0].position_S_m, sample.position_S_m);
}

}  // namespace
}  // namespace plumbline::record
