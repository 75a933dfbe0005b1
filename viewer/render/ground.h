#pragma once
// The ground: three textures of the site at three scales, painted once over several frames, and a
// coarse grid that carries light and haze.

#include <array>
#include <cstdint>
#include <string>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"
#include "viewer/render/landscape.h"

namespace plumbline::render {

class Ground {
public:
    explicit Ground(std::string& problem);

    /// Starts painting another country: a coarse picture now, the fine one over the next frames.
    void setLandscape(const Landscape& landscape, const scene::World& world, int texture_side_px);
    int pendingWork() const;
    void work();  ///< paints the next piece; needs no Frame, leaves another framebuffer bound
    void draw(const Frame& frame) const;

private:
    static constexpr int kLevels = 3;
    static constexpr int kPieces = 8;  ///< a texture is painted in so many bands

    void setAerial(const scene::GroundPicture* aerial);
    void paintBand(int level, const Target& target, int piece, int pieces) const;

    Program paint_;
    Program picture_;
    Program lit_;
    Program blades_;
    Mesh disc_;
    Mesh paint_mesh_;
    Mesh aerial_mesh_;
    Texture aerial_;  ///< the user's picture from above; empty: none
    std::array<Mesh, kLevels> grids_;
    std::array<std::size_t, kLevels> opaque_count_{};  ///< indices drawn without blending
    std::array<std::size_t, kLevels> index_count_{};
    std::array<Texture, kLevels> shown_;
    Texture next_;
    Target next_target_;
    float cloud_shadow_ = 0;
    int side_px_ = 2048;
    int pieces_ = kPieces;
    int done_ = kLevels * kPieces;
};

}  // namespace plumbline::render
