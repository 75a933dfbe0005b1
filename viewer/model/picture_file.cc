#include "viewer/model/picture_file.h"

#include <climits>
#include <cstring>

#include "engine/system/whole_file.h"

#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_JPEG
#define STBI_ONLY_PNG
#define STBI_NO_STDIO
#include <stb_image.h>

namespace plumbline::model {

std::shared_ptr<const scene::GroundPicture> readAerial(const data::AerialPicture& aerial,
                                                       std::string& reason) {
    constexpr int kMost_px = 8192;  // chosen: what every driver takes as a texture
    const system::ReadFile read = system::readWholeFile(aerial.file);
    if (!read.bytes) {
        reason = read.reason;
        return nullptr;
    }
    if (read.bytes->size() > INT_MAX) {
        reason = "it is too large";
        return nullptr;
    }
    const auto* bytes = reinterpret_cast<const stbi_uc*>(read.bytes->data());
    const int size = static_cast<int>(read.bytes->size());
    int width = 0, height = 0, channels = 0;
    if (stbi_info_from_memory(bytes, size, &width, &height, &channels) == 0) {
        reason = "it is no JPEG or PNG picture";
        return nullptr;
    }
    if (width > kMost_px || height > kMost_px) {
        reason = "it is larger than 8192 pixels on a side: make it smaller";
        return nullptr;
    }
    stbi_uc* pixels = stbi_load_from_memory(bytes, size, &width, &height, &channels, 4);
    if (pixels == nullptr) {
        reason = "it is damaged";
        return nullptr;
    }
    auto picture = std::make_shared<scene::GroundPicture>();
    picture->width_px = width;
    picture->height_px = height;
    picture->rgba.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
    std::memcpy(picture->rgba.data(), pixels, picture->rgba.size());
    stbi_image_free(pixels);
    picture->top_left_S_m = aerial.top_left_S_m;
    picture->top_right_S_m = aerial.top_right_S_m;
    picture->bottom_left_S_m = aerial.bottom_left_S_m;
    return picture;
}

}  // namespace plumbline::model
