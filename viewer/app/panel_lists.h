#pragma once
// The panels' draw lists as the renderer takes them.

#include <cstdint>
#include <string>
#include <vector>

#include "viewer/render/panel_painter.h"

struct ImDrawList;

namespace plumbline::app {

class PanelLists {
public:
    /// On failure appends a sentence to `problem`.
    explicit PanelLists(std::string& problem) : painter_(problem) {}

    /// What was drawn with the toolkit since its frame began, into the bound framebuffer.
    void drawFrame(int width_px, int height_px);
    void drawOne(const ImDrawList& list, int width_px, int height_px);

private:
    void add(const ImDrawList& list, int width_px, int height_px);
    void draw(int width_px, int height_px);

    render::PanelPainter painter_;
    std::vector<render::PanelVertex> vertices_;
    std::vector<std::uint32_t> indices_;
    std::vector<render::PanelRun> runs_;
};

}  // namespace plumbline::app
