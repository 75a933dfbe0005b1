#include "viewer/scene/build.h"

#include <algorithm>
#include <cmath>

#include "viewer/scene/band.h"
#include "viewer/scene/marks.h"
#include "viewer/scene/panel.h"
#include "viewer/scene/pose.h"
#include "viewer/scene/safety.h"
#include "viewer/scene/sighting.h"
#include "viewer/scene/smoke.h"

namespace plumbline::scene {

namespace {

// chosen: at a picture 720 high
constexpr double kMapBand_px = 6, kMapAircraft_px = 38;

void addAircraft(const SceneSource& source, const ViewSettings& view, const Marks& marks,
                 DrawList& list) {
    const data::Site& site = source.world->site;
    list.aircraft = poseAt(*source.path, *source.aircraft, list.time_s);
    list.aircraft.cockpit = view.view == View::Cockpit;
    // On the map a true band is a hair and a true aircraft a speck: both get a least size there.
    const double map_px_m = list.camera.orthographic ? 2 * list.camera.half_height_m / 720 : 0;
    const double band_m = std::max(list.aircraft.span_m, kMapBand_px * map_px_m);
    addBands(source, marks, list.time_s, band_m, list);
    if (source.ghost) addGhost(source, marks, list.time_s, band_m, list);
    if (marks.smoke) addSmoke(source, list.time_s, list);
    if (marks.floor) addFloor(site, list);
    // From the cockpit and straight from above there is no thread to be seen.
    const bool thread_seen = view.view != View::Cockpit && view.view != View::Map;
    if (marks.more_threads && thread_seen) addPastThreads(*source.path, marks.band_behind_s, list);
    if (marks.thread && thread_seen) addThread(list);
    if (marks.gates && source.gates && !list.aircraft.cockpit)
        addGates(*source.gates, list.time_s, list);
    if (marks.reach && source.glide)
        addReach(*source.glide, path::sampleAt(*source.path, list.time_s), list);
    if (source.fan && !list.aircraft.cockpit) addFan(*source.fan, *source.path, list.time_s, list);
    if ((source.notes || source.said) && !list.aircraft.cockpit)
        addNotes(source, marks, list.time_s, list);
    if (list.aircraft.cockpit) addPanel(source, marks, list.time_s, list);
    if (marks.sighting && list.aircraft.cockpit) addSighting(source, view, list.time_s, list);
    list.aircraft.span_m = std::max(list.aircraft.span_m, kMapAircraft_px * map_px_m);
}

}  // namespace

DrawList buildDrawList(const SceneSource& source, const ViewSettings& view, const Marks& marks,
                       double time_s, int width_px, int height_px) {
    SceneSource whole = source;
    if (!whole.path) whole.path = std::make_shared<const path::Path>();
    if (!whole.aircraft) whole.aircraft = std::make_shared<const data::Aircraft>();
    if (!whole.world) whole.world = makeWorld({}, {}, 0);
    if (!whole.shape) whole.shape = makeShape(*whole.path);

    DrawList list;
    list.world = whole.world;
    list.time_s = std::isfinite(time_s)
                      ? std::clamp(time_s, 0.0, std::max(whole.path->duration_s(), 0.0))
                      : 0.0;
    const data::Site& site = whole.world->site;
    const double aspect = static_cast<double>(std::max(width_px, 1)) / std::max(height_px, 1);
    list.camera = cameraAt(view, *whole.path, site, *whole.aircraft, list.time_s, aspect);
    list.show_aircraft = !whole.path->samples.empty();
    list.show_crowd = site.crowd_line_y_m < 0;
    if (marks.lines) addSiteLines(site, list);
    addRibbons(site, list);
    if (list.show_aircraft) addAircraft(whole, view, marks, list);
    return list;
}

}  // namespace plumbline::scene
