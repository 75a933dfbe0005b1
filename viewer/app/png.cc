#include "viewer/app/png.h"

#include "engine/system/whole_file.h"

#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <stb_image_write.h>

namespace plumbline::app {

std::string writePng(const std::filesystem::path& file, const render::Image& image) {
    std::string bytes;
    const auto append = [](void* context, void* data, int size) {
        static_cast<std::string*>(context)->append(static_cast<const char*>(data),
                                                   static_cast<std::size_t>(size));
    };
    if (stbi_write_png_to_func(append, &bytes, image.width_px, image.height_px, 4,
                               image.rgba.data(), image.width_px * 4) == 0) {
        return "the picture cannot be packed";
    }
    return system::writeWholeFile(file, bytes);
}

}  // namespace plumbline::app
