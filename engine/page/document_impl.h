#pragma once
// What Document is made of; for this layer's sources only.

#include <map>
#include <span>
#include <string>
#include <vector>

#include "engine/page/document.h"

// Of Cairo, as it declares them.
typedef struct _cairo cairo_t;
typedef struct _cairo_surface cairo_surface_t;
typedef struct _cairo_font_face cairo_font_face_t;

namespace plumbline::page {

inline constexpr double kPerMm = 1 / kPoint_mm;  ///< points

struct Document::Impl {
    const Fonts* fonts = nullptr;
    Size size;
    int pages = 1;
    std::string bytes;                   ///< of the file, so far
    cairo_surface_t* surface = nullptr;  ///< that is drawn on
    cairo_t* cairo = nullptr;
    bool to_look_at = false;                 ///< a recording a page, no file
    std::vector<cairo_surface_t*> recorded;  ///< the pages before `surface`
    std::map<int, cairo_font_face_t*> faces;

    Impl() = default;
    ~Impl();
    Impl(const Impl&) = delete;
    Impl& operator=(const Impl&) = delete;

    /// Draws on `surface` from here on.
    void begin();
    /// Puts the page aside and begins the next.
    void turnPage();
    cairo_font_face_t* faceOf(int font);

    void colour(const Colour& c) const;
    void trace(std::span<const Point> points, bool closed) const;
    void stroke(const Stroke& stroke) const;
};

}  // namespace plumbline::page
