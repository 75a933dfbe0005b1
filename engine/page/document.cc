#include "engine/page/document.h"

#include <algorithm>

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <ft2build.h>
#include FT_FREETYPE_H

#include "engine/page/document_impl.h"

namespace plumbline::page {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

/// A font with all it needs. Cairo keeps fonts for a while after a document is gone, so each has a
/// library of its own and lets go of it last.
struct Face {
    std::shared_ptr<const std::string> bytes;
    FT_Library library = nullptr;
    FT_Face face = nullptr;
};
const cairo_user_data_key_t kFaceKey{};
void release(void* data) {
    auto* face = static_cast<Face*>(data);
    if (face->face) FT_Done_Face(face->face);
    if (face->library) FT_Done_FreeType(face->library);
    delete face;
}

cairo_font_face_t* makeFace(std::string_view bytes, std::shared_ptr<const std::string> owned) {
    auto* face = new Face{std::move(owned), nullptr, nullptr};
    if (FT_Init_FreeType(&face->library) != 0 ||
        FT_New_Memory_Face(face->library, reinterpret_cast<const FT_Byte*>(bytes.data()),
                           static_cast<FT_Long>(bytes.size()), 0, &face->face) != 0) {
        release(face);
        return nullptr;
    }
    cairo_font_face_t* made = cairo_ft_font_face_create_for_ft_face(face->face, FT_LOAD_NO_HINTING);
    if (cairo_font_face_set_user_data(made, &kFaceKey, face, release) != CAIRO_STATUS_SUCCESS) {
        cairo_font_face_destroy(made);
        release(face);
        return nullptr;
    }
    return made;
}

}  // namespace

Document::Impl::~Impl() {
    if (cairo) cairo_destroy(cairo);
    recorded.push_back(surface);
    for (cairo_surface_t* made : recorded) {
        if (!made) continue;
        cairo_surface_finish(made);
        cairo_surface_destroy(made);
    }
    for (const auto& [font, face] : faces)
        if (face) cairo_font_face_destroy(face);
}

void Document::Impl::colour(const Colour& c) const { cairo_set_source_rgb(cairo, c.r, c.g, c.b); }

void Document::Impl::trace(std::span<const Point> points, bool closed) const {
    cairo_new_path(cairo);
    for (const Point& p : points) cairo_line_to(cairo, p.x_mm * kPerMm, p.y_mm * kPerMm);
    if (closed) cairo_close_path(cairo);
}

void Document::Impl::stroke(const Stroke& stroke) const {
    colour(stroke.colour);
    cairo_set_line_width(cairo, stroke.width_pt);
    cairo_set_line_cap(cairo, stroke.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cairo, stroke.round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
    const double dash = stroke.dash_pt;
    cairo_set_dash(cairo, &dash, dash > 0 ? 1 : 0, 0);
    cairo_stroke(cairo);
}

cairo_font_face_t* Document::Impl::faceOf(int font) {
    const auto found = faces.find(font);
    if (found != faces.end()) return found->second;
    return faces[font] = makeFace(fonts->bytesOf(font), fonts->owned(font));
}

void Document::Impl::begin() {
    cairo = cairo_create(surface);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cairo, options);
    cairo_font_options_destroy(options);
}

Document::Document(Paper paper, const Fonts& fonts, const std::string& title)
    : impl_(std::make_unique<Impl>()) {
    Impl& d = *impl_;
    d.fonts = &fonts;
    d.size = sizeOf(paper);
    d.surface = cairo_pdf_surface_create_for_stream(append, &d.bytes, d.size.width_mm * kPerMm,
                                                    d.size.height_mm * kPerMm);
    // No time in the file: the same sheet is the same bytes.
    cairo_pdf_surface_set_metadata(d.surface, CAIRO_PDF_METADATA_CREATE_DATE, nullptr);
    cairo_pdf_surface_set_metadata(d.surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(d.surface, CAIRO_PDF_METADATA_CREATOR, "plumbline");
    d.begin();
}

Document::~Document() = default;
Document::Document(Document&&) noexcept = default;

bool Document::possible() { return true; }
Size Document::size() const { return impl_->size; }
int Document::pages() const { return impl_->pages; }

void Document::newPage() {
    if (impl_->to_look_at)
        impl_->turnPage();
    else
        cairo_show_page(impl_->cairo);
    ++impl_->pages;
}

double Document::widthOf_mm(const Text& text) const {
    double width_pt = 0;
    for (const SetLine& line : impl_->fonts->set(text, 0))
        width_pt = std::max(width_pt, line.width_pt);
    return width_pt * kPoint_mm;
}

void Document::draw(const SetLine& line, double x_pt, double y_pt) {
    Impl& d = *impl_;
    for (const GlyphRun& run : line.runs) {
        cairo_font_face_t* face = d.faceOf(run.font);
        if (!face) continue;
        d.colour(run.style.colour);
        cairo_set_font_face(d.cairo, face);
        cairo_set_font_size(d.cairo, run.style.size_pt);
        std::vector<cairo_glyph_t> glyphs;
        for (const Glyph& glyph : run.glyphs)
            glyphs.push_back({glyph.index, x_pt + glyph.x_pt, y_pt + glyph.y_pt});
        if (d.to_look_at) {  // as shapes: letters would be moved onto whole dots, each by itself
            cairo_new_path(d.cairo);
            cairo_glyph_path(d.cairo, glyphs.data(), static_cast<int>(glyphs.size()));
            cairo_fill(d.cairo);
            continue;
        }
        // With what they stand for, so that the text can be searched and copied. From left to
        // right whatever the script: readers of files turn round what runs to the left, and take
        // letters written backwards for words of one letter.
        std::vector<cairo_text_cluster_t> clusters;
        for (const GlyphRun::Cluster& cluster : run.clusters)
            clusters.push_back({cluster.bytes, cluster.glyphs});
        std::string words = run.words;
        if (run.leftward) {
            words.clear();
            std::size_t end = run.words.size();
            for (auto c = run.clusters.rbegin(); c != run.clusters.rend(); ++c) {
                end -= static_cast<std::size_t>(c->bytes);
                words.append(run.words, end, static_cast<std::size_t>(c->bytes));
            }
            std::reverse(clusters.begin(), clusters.end());
        }
        cairo_show_text_glyphs(d.cairo, words.data(), static_cast<int>(words.size()), glyphs.data(),
                               static_cast<int>(glyphs.size()), clusters.data(),
                               static_cast<int>(clusters.size()), cairo_text_cluster_flags_t{});
    }
}

namespace {

double startOf(const SetLine& line, Align align, double x_pt, double width_pt) {
    const bool right = align == Align::Right || (align == Align::Start && line.leftward);
    if (align == Align::Centre) return x_pt + 0.5 * (width_pt - line.width_pt);
    return right ? x_pt + width_pt - line.width_pt : x_pt;
}

}  // namespace

void Document::words(Point at, const Text& text, Align align) {
    for (const SetLine& line : impl_->fonts->set(text, 0))
        draw(line, startOf(line, align, at.x_mm * kPerMm, 0), at.y_mm * kPerMm);
}

double Document::paragraph(Point top_left, double width_mm, const Text& text, Align align,
                           double leading) {
    double y_pt = top_left.y_mm * kPerMm;
    for (const SetLine& line : impl_->fonts->set(text, width_mm * kPerMm)) {
        // The base line sits where the letters, as tall as they are, have equal room.
        const double height_pt = leading * line.size_pt;
        draw(line, startOf(line, align, top_left.x_mm * kPerMm, width_mm * kPerMm),
             y_pt + 0.5 * height_pt + 0.36 * line.size_pt);
        y_pt += height_pt;
    }
    return y_pt * kPoint_mm - top_left.y_mm;
}

double Document::heightOf_mm(double width_mm, const Text& text, double leading) const {
    double height_pt = 0;
    for (const SetLine& line : impl_->fonts->set(text, width_mm * kPerMm))
        height_pt += leading * line.size_pt;
    return height_pt * kPoint_mm;
}

void Document::line(Point from, Point to, const Stroke& stroke) {
    const Point points[] = {from, to};
    path(points, stroke);
}

void Document::path(std::span<const Point> points, const Stroke& stroke, bool closed) {
    if (points.size() < 2) return;
    impl_->trace(points, closed);
    impl_->stroke(stroke);
}

void Document::fill(std::span<const Point> points, Colour colour) {
    impl_->trace(points, true);
    impl_->colour(colour);
    cairo_fill(impl_->cairo);
}

void Document::fill(const Box& box, Colour colour) {
    const Point points[] = {{box.x_mm, box.y_mm},
                            {box.right_mm(), box.y_mm},
                            {box.right_mm(), box.bottom_mm()},
                            {box.x_mm, box.bottom_mm()}};
    fill(points, colour);
}

void Document::disc(Point middle, double radius_mm, Colour colour) {
    cairo_new_path(impl_->cairo);
    cairo_arc(impl_->cairo, middle.x_mm * kPerMm, middle.y_mm * kPerMm, radius_mm * kPerMm, 0,
              2 * 3.14159265358979);
    impl_->colour(colour);
    cairo_fill(impl_->cairo);
}

void Document::beginWithin(const Box& box) {
    cairo_save(impl_->cairo);
    cairo_rectangle(impl_->cairo, box.x_mm * kPerMm, box.y_mm * kPerMm, box.width_mm * kPerMm,
                    box.height_mm * kPerMm);
    cairo_clip(impl_->cairo);
}

void Document::endWithin() { cairo_restore(impl_->cairo); }

void Document::picture(const Box& box, const Picture& picture) {
    const int width = picture.width, height = picture.height;
    if (width <= 0 || height <= 0 ||
        picture.rgba.size() <
            std::size_t{4} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height))
        return;
    cairo_surface_t* image = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height);
    const int stride = cairo_image_surface_get_stride(image);
    if (unsigned char* rows = cairo_image_surface_get_data(image)) {
        const std::uint8_t* from = picture.rgba.data();
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x, from += 4) {
                // Cairo's pixels: one word, colours multiplied by the opacity.
                const auto scaled = [&](int i) {
                    return (static_cast<std::uint32_t>(from[i]) * from[3] + 127) / 255;
                };
                const std::uint32_t word = (std::uint32_t{from[3]} << 24) | (scaled(0) << 16) |
                                           (scaled(1) << 8) | scaled(2);
                reinterpret_cast<std::uint32_t*>(rows + std::ptrdiff_t{y} * stride)[x] = word;
            }
        cairo_surface_mark_dirty(image);
    }
    cairo_save(impl_->cairo);
    cairo_translate(impl_->cairo, box.x_mm * kPerMm, box.y_mm * kPerMm);
    cairo_scale(impl_->cairo, box.width_mm * kPerMm / width, box.height_mm * kPerMm / height);
    cairo_set_source_surface(impl_->cairo, image, 0, 0);
    if (impl_->to_look_at) {  // else its outermost pixels would fade out
        cairo_pattern_set_extend(cairo_get_source(impl_->cairo), CAIRO_EXTEND_PAD);
        cairo_rectangle(impl_->cairo, 0, 0, width, height);
        cairo_fill(impl_->cairo);
    } else {
        cairo_paint(impl_->cairo);
    }
    cairo_restore(impl_->cairo);
    cairo_surface_destroy(image);
}

Expected<std::string, std::string> Document::finish() {
    if (impl_->to_look_at) return Unexpected(std::string("made to be looked at, not as a file"));
    cairo_show_page(impl_->cairo);
    cairo_status_t status = cairo_status(impl_->cairo);
    cairo_surface_finish(impl_->surface);
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(impl_->surface);
    if (status != CAIRO_STATUS_SUCCESS)
        return Unexpected(std::string(cairo_status_to_string(status)));
    return std::move(impl_->bytes);
}

}  // namespace plumbline::page
