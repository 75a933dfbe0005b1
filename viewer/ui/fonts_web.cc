// A page carries its font once: that of the engine's pages.

#include "engine/page/embedded_font.h"
#include "viewer/ui/fonts.h"

namespace plumbline::ui {

std::optional<std::string_view> embeddedFont(std::string_view name) {
    return page::embeddedFont(name);
}

}  // namespace plumbline::ui
