#include "engine/out/flight_glb.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/check/check.h"
#include "engine/out/gltf_document.h"
#include "engine/out/gltf_frames.h"
#include "engine/out/gltf_model.h"
#include "engine/out/gltf_motion.h"
#include "engine/out/gltf_shapes.h"
#include "engine/units/units.h"

namespace plumbline::out {

namespace {

using Json = nlohmann::json;

class Scene {
public:
    Scene(const Flight& flight, MotionKeys keys, GltfModel model)
        : flight_(flight),
          path_(*flight.path),
          keys_(std::move(keys)),
          model_(std::move(model)),
          document_(model_.document) {}

    std::string write() {
        addMotion();
        GltfShapes shapes(document_);
        roots_.push_back(shapes.addPath(path_, keys_, model_.span_m, flight_.title));
        if (flight_.site) {
            roots_.push_back(shapes.addGround(*flight_.site));
            roots_.push_back(shapes.addCrowdCamera(*flight_.site));
        }
        document_.json["scenes"] = Json::array();
        document_.json["scenes"].push_back({{"name", flight_.title}, {"nodes", roots_}});
        document_.json["scene"] = 0;
        Json& asset = document_.json["asset"];
        asset["version"] = "2.0";
        asset["generator"] = "Plumbline";
        Json extras = {
            {"title", flight_.title},
            {"caution", check::caution()},
            {"axes", "metres; origin at show centre, x to crowd right, y up, z towards the crowd"},
            {"animation_within_m", kGlbPlace_m},
            {"animation_within_deg", kGlbAttitude_rad / units::kDegree_rad},
            {"computed", path_.origin == path::Origin::Plan}};
        if (!flight_.site)
            extras["axes"] = "metres; origin where the recording begins, x east, y up, z south";
        asset["extras"] = std::move(extras);
        return document_.toGlb();
    }

private:
    int addTimes(const std::vector<std::size_t>& samples) {
        std::vector<float> times_s;
        for (const std::size_t i : samples)
            times_s.push_back(static_cast<float>(path_.samples[i].time_s));
        return document_.addFloats(times_s, GltfType::Scalar, false);
    }

    void addChannel(int node, const char* property, int times, int values, const char* between) {
        Json& samplers = animation_["samplers"];
        animation_["channels"].push_back(
            {{"sampler", samplers.size()}, {"target", {{"node", node}, {"path", property}}}});
        samplers.push_back({{"input", times}, {"output", values}, {"interpolation", between}});
    }

    /// The node that flies, with the aircraft, a mark for when its attitude is not known, or both.
    void addMotion() {
        animation_ = {{"name", "flight"}, {"channels", Json::array()}, {"samplers", Json::array()}};
        const bool ever_shown = !keys_.attitudes.empty();
        const bool ever_hidden = !keys_.shown_first || !keys_.changes.empty();
        std::vector<int> carried;
        if (ever_shown) carried.push_back(addAircraft());
        if (ever_hidden) carried.push_back(addMark());
        if (ever_shown && ever_hidden) addChanges(carried[0], carried[1]);
        const Vec3 start = sceneFromSite(path_.samples.front().position_S_m);
        const int flying = document_.add("nodes", {{"name", "flight"},
                                                   {"children", carried},
                                                   {"translation", {start.x, start.y, start.z}}});
        if (keys_.places.size() > 1) {
            std::vector<float> places;
            for (const std::size_t i : keys_.places)
                appendPoint(places, sceneFromSite(path_.samples[i].position_S_m));
            addChannel(flying, "translation", addTimes(keys_.places),
                       document_.addFloats(places, GltfType::Vec3, false), "LINEAR");
        }
        // Before the model's own, so that it is the one that a viewer plays.
        if (!animation_["channels"].empty()) {
            Json& animations = document_.json["animations"];
            if (!animations.is_array()) animations = Json::array();
            animations.insert(animations.begin(), animation_);
        }
        roots_.push_back(flying);
    }

    int addAircraft() {
        std::vector<float> rotations;
        Quat last(1, 0, 0, 0);
        for (const std::size_t i : keys_.attitudes) {
            Quat q = glm::normalize(modelRotation(path_.samples[i].q_SB));
            if (glm::dot(q, last) < 0) q = -q;  // the short way round, whatever a viewer does
            last = q;
            for (const double part : {q.x, q.y, q.z, q.w})
                rotations.push_back(static_cast<float>(part));
        }
        const int node = document_.add(
            "nodes", {{"name", "aircraft"},
                      {"children", {model_.node}},
                      {"rotation", {rotations[0], rotations[1], rotations[2], rotations[3]}}});
        addChannel(node, "rotation", addTimes(keys_.attitudes),
                   document_.addFloats(rotations, GltfType::Vec4, false), "LINEAR");
        return node;
    }

    int addMark() {
        GltfShapes shapes(document_);
        // chosen: about as large as the aircraft it stands for
        return shapes.addMark(keys_.attitudes.empty() ? 4 : 0.3 * model_.span_m);
    }

    /// Which of the two is seen: a size of nothing hides (glTF 2.0, section 3.5.2).
    void addChanges(int aircraft, int mark) {
        std::vector<std::size_t> at = {0};
        std::vector<bool> shown = {keys_.shown_first};
        bool now = keys_.shown_first;
        const auto time = [this](std::size_t i) {
            return static_cast<float>(path_.samples[i].time_s);
        };
        for (const std::size_t change : keys_.changes) {
            now = !now;
            if (!(time(change) > time(at.back()))) {
                shown.back() = now;
                continue;
            }
            at.push_back(change);
            shown.push_back(now);
        }
        std::vector<float> of_aircraft, of_mark;
        for (const bool is : shown) {
            of_aircraft.insert(of_aircraft.end(), 3, is ? 1.0F : 0.0F);
            of_mark.insert(of_mark.end(), 3, is ? 0.0F : 1.0F);
        }
        const int times = addTimes(at);
        addChannel(aircraft, "scale", times,
                   document_.addFloats(of_aircraft, GltfType::Vec3, false), "STEP");
        addChannel(mark, "scale", times, document_.addFloats(of_mark, GltfType::Vec3, false),
                   "STEP");
    }

    const Flight& flight_;
    const path::Path& path_;
    const MotionKeys keys_;
    GltfModel model_;
    GltfDocument& document_;
    Json animation_;
    std::vector<int> roots_;
};

}  // namespace

Expected<std::string, std::string> flightGlb(const Flight& flight, const load::FileSource& files) {
    MotionKeys keys = motionKeys(*flight.path, kGlbPlace_m, kGlbAttitude_rad);
    GltfModel model;
    if (!keys.attitudes.empty()) {
        Expected<GltfModel, std::string> read = readGltfModel(flight.model, files);
        if (!read) return Unexpected<std::string>(read.error());
        model = std::move(*read);
    }
    return Scene(flight, std::move(keys), std::move(model)).write();
}

}  // namespace plumbline::out
