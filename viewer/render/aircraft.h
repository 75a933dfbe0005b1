#pragma once
// The aircraft: lit model with moving parts, its shadow on the ground, the view from the seat.

#include <string>

#include "viewer/render/aircraft_model.h"
#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"

namespace plumbline::render {

class AircraftPainter {
public:
    explicit AircraftPainter(std::string& problem);

    void setModel(AircraftModel model);

    /// Fills the off-screen pictures that draw() and drawShadow() need: silhouette from the sun,
    /// supersampled tile when the aircraft is small. Leaves another framebuffer bound.
    void prepare(const Frame& frame, const scene::AircraftPose& pose);
    /// On the ground, depth test off.
    void drawShadow(const Frame& frame, const scene::AircraftPose& pose);
    /// From outside, depth test on. Call right after prepare() for this pose.
    void draw(const Frame& frame, const scene::AircraftPose& pose) const;
    /// From the pilot's eye, over everything else: clears the depth of the picture.
    void drawCockpit(const Frame& frame, const scene::AircraftPose& pose) const;

private:
    struct Loaded {
        AircraftModel model;
        Mesh mesh;
    };
    enum class Pass { Outside, Inside, Silhouette };
    struct Tile {
        bool used = false;
        glm::vec2 corner_px{0};  ///< lower left, in the picture
        float side_px = 0;
        float depth = 0;  ///< of the aircraft's middle, normalised device
    };

    const Loaded& loadedFor(const scene::AircraftPose& pose) const;
    void drawParts(const Frame& frame, const scene::AircraftPose& pose, const glm::mat4& clip,
                   Pass pass) const;
    Tile tileFor(const Frame& frame, const scene::AircraftPose& pose) const;
    bool silhouetteHolds(const Frame& frame, const scene::AircraftPose& pose);

    Program solid_;
    Program matt_;
    Program flat_;
    Program tile_;
    Program shadow_;
    Loaded aircraft_;
    Loaded marker_;
    Mesh quad_;
    Mesh shadow_quad_;
    Texture tile_colour_;
    Target tile_target_;
    Texture shadow_map_;
    Target shadow_target_;
    Tile tile_place_;
    /// What the silhouette was drawn of.
    struct {
        const Loaded* loaded = nullptr;  ///< null: not drawn
        glm::dquat q_SB{1, 0, 0, 0};
        glm::vec3 sun{0};
        double span_m = 0;
    } silhouette_;
};

}  // namespace plumbline::render
