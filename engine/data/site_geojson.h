#pragma once
// Outlines of a site drawn on a map.

#include <string>
#include <string_view>

#include "engine/base/problem.h"
#include "engine/data/site.h"

namespace plumbline::data {

/// Adds the features of a GeoJSON file (WGS 84) to a site, projected onto its axes. Each feature
/// says what it is by properties.kind; features without a kind are passed over:
///
///     obstacle   Polygon; properties name and top ("12 m" above show centre); holes are filled
///     box        Polygon; property top; becomes the smallest box along the show line round it
///     crowd      LineString or Polygon; the crowd line goes along its point nearest the show line
///
/// @param file  for problems, which name the feature by number and name
/// @return every problem; the site is changed only when there is none
/// @errors not JSON, no feature collection, unknown kind, wrong geometry, a place that is none,
///   missing or wrong top, farther than 20 km from show centre
/// @source RFC 7946
Problems readSiteOutlines(std::string_view geojson_text, const std::string& file, Site& site);

}  // namespace plumbline::data
