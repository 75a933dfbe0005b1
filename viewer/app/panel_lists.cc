#include "viewer/app/panel_lists.h"

#include <algorithm>
#include <cstddef>
#include <cstring>

#include <imgui.h>

namespace plumbline::app {
namespace {

static_assert(sizeof(ImDrawVert) == sizeof(render::PanelVertex));
static_assert(offsetof(ImDrawVert, pos) == offsetof(render::PanelVertex, x_px));
static_assert(offsetof(ImDrawVert, uv) == offsetof(render::PanelVertex, u));
static_assert(offsetof(ImDrawVert, col) == offsetof(render::PanelVertex, rgba));

/// True when what lies inside the run's rectangle is all of it.
bool allInside(const std::vector<render::PanelVertex>& vertices,
               const std::vector<std::uint32_t>& indices, const render::PanelRun& run) {
    const auto left = static_cast<float>(run.left_px), top = static_cast<float>(run.top_px);
    const auto right = static_cast<float>(run.right_px), bottom = static_cast<float>(run.bottom_px);
    for (std::size_t i = run.first_index; i < run.first_index + run.index_count; ++i) {
        const render::PanelVertex& v = vertices[indices[i]];
        if (v.x_px < left || v.x_px > right || v.y_px < top || v.y_px > bottom) return false;
    }
    return true;
}

bool sameState(const render::PanelRun& a, const render::PanelRun& b) {
    return a.texture == b.texture && a.left_px == b.left_px && a.top_px == b.top_px &&
           a.right_px == b.right_px && a.bottom_px == b.bottom_px;
}

}  // namespace

void PanelLists::add(const ImDrawList& list, int width_px, int height_px) {
    const std::size_t first_vertex = vertices_.size();
    vertices_.resize(first_vertex + static_cast<std::size_t>(list.VtxBuffer.Size));
    if (list.VtxBuffer.Size > 0) {
        std::memcpy(static_cast<void*>(vertices_.data() + first_vertex), list.VtxBuffer.Data,
                    static_cast<std::size_t>(list.VtxBuffer.Size) * sizeof(ImDrawVert));
    }
    for (const ImDrawCmd& command : list.CmdBuffer) {
        render::PanelRun run;
        run.left_px = std::max(0, static_cast<int>(command.ClipRect.x));
        run.top_px = std::max(0, static_cast<int>(command.ClipRect.y));
        run.right_px = std::min(width_px, static_cast<int>(command.ClipRect.z));
        run.bottom_px = std::min(height_px, static_cast<int>(command.ClipRect.w));
        run.texture =
            static_cast<std::uint32_t>(reinterpret_cast<std::intptr_t>(command.GetTexID()));
        run.first_index = indices_.size();
        run.index_count = command.ElemCount;
        const bool inside = run.right_px > run.left_px && run.bottom_px > run.top_px;
        if (!inside || command.ElemCount == 0 || command.UserCallback != nullptr) continue;
        const ImDrawIdx* const from = list.IdxBuffer.Data + command.IdxOffset;
        const auto base = static_cast<std::uint32_t>(first_vertex + command.VtxOffset);
        for (unsigned int i = 0; i < command.ElemCount; ++i) indices_.push_back(base + from[i]);
        // Runs that nothing is cut off from go together: a driver without a graphics card has a
        // tenth of a millisecond of its own for each.
        if (allInside(vertices_, indices_, run)) {
            run.left_px = run.top_px = 0;
            run.right_px = width_px;
            run.bottom_px = height_px;
        }
        if (!runs_.empty() && sameState(runs_.back(), run)) {
            runs_.back().index_count += run.index_count;
        } else {
            runs_.push_back(run);
        }
    }
}

void PanelLists::draw(int width_px, int height_px) {
    painter_.draw(vertices_, indices_, runs_, width_px, height_px);
    vertices_.clear();
    indices_.clear();
    runs_.clear();
}

void PanelLists::drawFrame(int width_px, int height_px) {
    const ImDrawData* const data = ImGui::GetDrawData();
    if (data == nullptr) return;
    for (int i = 0; i < data->CmdListsCount; ++i) add(*data->CmdLists[i], width_px, height_px);
    draw(width_px, height_px);
}

void PanelLists::drawOne(const ImDrawList& list, int width_px, int height_px) {
    add(list, width_px, height_px);
    draw(width_px, height_px);
}

}  // namespace plumbline::app
