#pragma once
// The sky: dome, clouds painted once, two far ridges, the sun.

#include <cstdint>
#include <string>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"

namespace plumbline::render {

class Sky {
public:
    explicit Sky(std::string& problem);

    /// Starts painting the clouds of another day; none are shown until they are ready.
    void setWorld(const scene::World& world, int cloud_side_px);
    int pendingWork() const { return kPieces - done_; }
    void work();  ///< paints the next piece with the current Frame block; leaves another
                  ///< framebuffer bound
    void draw(const Frame& frame) const;

private:
    static constexpr int kPainted = 16;
    static constexpr int kPieces = kPainted + 1;  ///< the last one smooths them

    void finish();

    Program dome_;
    Program clouds_;
    Program shapes_;
    Program smooth_;
    Program ridge_;
    Program sun_;
    Mesh dome_mesh_;
    Mesh ridge_mesh_;
    Mesh quad_;
    Texture shape_map_;  ///< tiles: cumulus height, detail, cirrus
    Texture cloud_map_;  ///< upper half sphere on a paraboloid, premultiplied
    Texture next_map_;
    Target next_target_;
    float cover_ = 0;
    float base_m_ = 1200;
    int side_px_ = 1008;
    int done_ = kPieces;
};

}  // namespace plumbline::render
