// Pages to be looked at. Each is a recording of what was drawn, so that it can be painted at
// whatever size the window asks for without setting its words anew.

#include <algorithm>
#include <cmath>

#include <cairo.h>

#include "engine/page/document_impl.h"

namespace plumbline::page {
namespace {

/// chosen: 64 megapixels, a page at 500 dots an inch four times over; more is a mistake
constexpr double kMostDots = 64e6;

cairo_surface_t* recording(Size size) {
    const cairo_rectangle_t extents{0, 0, size.width_mm * kPerMm, size.height_mm * kPerMm};
    return cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents);
}

/// From Cairo's pixels: one word, colours multiplied by the opacity.
Picture readOut(cairo_surface_t* image, int width, int height) {
    Picture out{width, height, {}};
    const unsigned char* rows = cairo_image_surface_get_data(image);
    if (!rows) return {};
    const int stride = cairo_image_surface_get_stride(image);
    out.rgba.resize(std::size_t{4} * static_cast<std::size_t>(width) *
                    static_cast<std::size_t>(height));
    std::uint8_t* to = out.rgba.data();
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x, to += 4) {
            const std::uint32_t word =
                reinterpret_cast<const std::uint32_t*>(rows + std::ptrdiff_t{y} * stride)[x];
            const std::uint32_t opacity = word >> 24;
            const auto plain = [&](int shift) {
                const std::uint32_t value = (word >> shift) & 255;
                if (opacity == 255 || opacity == 0) return static_cast<std::uint8_t>(value);
                return static_cast<std::uint8_t>(
                    std::min(255U, (value * 255 + opacity / 2) / opacity));
            };
            to[0] = plain(16);
            to[1] = plain(8);
            to[2] = plain(0);
            to[3] = static_cast<std::uint8_t>(opacity);
        }
    return out;
}

}  // namespace

void Document::Impl::turnPage() {
    cairo_destroy(cairo);
    recorded.push_back(surface);
    surface = recording(size);
    begin();
}

Document::Document(Size size, const Fonts& fonts) : impl_(std::make_unique<Impl>()) {
    Impl& d = *impl_;
    d.fonts = &fonts;
    d.size = size;
    d.to_look_at = true;
    d.surface = recording(size);
    d.begin();
}

Picture Document::pictureOf(int page, const Painting& painting) const {
    const Impl& d = *impl_;
    if (!d.to_look_at || page < 0 || page >= d.pages) return {};
    const auto index = static_cast<std::size_t>(page);
    cairo_surface_t* from = index < d.recorded.size() ? d.recorded[index] : d.surface;
    const Box part = painting.part.value_or(Box{0, 0, d.size.width_mm, d.size.height_mm});
    const double dots = painting.dots_per_mm;
    const double width = std::ceil(part.width_mm * dots - 1e-6);
    const double height = std::ceil(part.height_mm * dots - 1e-6);
    if (!(width >= 1 && height >= 1 && width * height <= kMostDots)) return {};
    cairo_surface_t* image = cairo_image_surface_create(
        CAIRO_FORMAT_ARGB32, static_cast<int>(width), static_cast<int>(height));
    cairo_t* cairo = cairo_create(image);
    if (painting.ground) {
        const Colour& ground = *painting.ground;
        cairo_set_source_rgb(cairo, ground.r, ground.g, ground.b);
        cairo_paint(cairo);
    }
    cairo_scale(cairo, dots * kPoint_mm, dots * kPoint_mm);
    cairo_translate(cairo, -part.x_mm * kPerMm, -part.y_mm * kPerMm);
    cairo_set_source_surface(cairo, from, 0, 0);
    cairo_paint(cairo);
    Picture out;
    if (cairo_status(cairo) == CAIRO_STATUS_SUCCESS) {
        cairo_surface_flush(image);
        out = readOut(image, static_cast<int>(width), static_cast<int>(height));
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(image);
    return out;
}

}  // namespace plumbline::page
