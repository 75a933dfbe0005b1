#pragma once
// Words in letters that the window's own font lacks, as a picture that somebody else sets.

#include <string>

#include <imgui.h>

#include "viewer/ui/theme.h"

namespace plumbline::ui {

class WordSetter {
public:
    struct Wish {
        std::string words;
        std::size_t said = 0;  ///< bytes of them in `ink`, the rest in `ahead`
        int size_px = 0;
        float line_px = 0, width_px = 0;
        bool strong = false;
        Colour ink = 0, ahead = 0;
        bool operator==(const Wish&) const = default;
    };
    struct Picture {
        ImTextureID texture = nullptr;  ///< null: nothing could be set
        float width_px = 0, height_px = 0;
    };
    virtual ~WordSetter() = default;
    /// Kept for the frames that follow.
    virtual Picture set(const Wish& wish) = 0;
};

}  // namespace plumbline::ui
