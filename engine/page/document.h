#pragma once
// A document of pages, made in memory and read out as PDF or as pictures: the only place that knows
// Cairo.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "engine/page/fonts.h"
#include "engine/page/paper.h"
#include "engine/page/text.h"

namespace plumbline::page {

/// A picture of pixels, rows from above, each pixel red, green, blue, opacity.
struct Picture {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgba;
};

/// How a page is painted into a picture.
struct Painting {
    double dots_per_mm = 4;
    std::optional<Box> part = std::nullopt;  ///< of the page; nothing: all of it
    std::optional<Colour> ground = kPaper;   ///< nothing: what is not drawn on lets through
};

class Document {
public:
    /// @param title  what readers of the file show
    Document(Paper paper, const Fonts& fonts, const std::string& title);
    /// Pages to be looked at: the same calls draw the same, `pictureOf` paints it. No file.
    Document(Size size, const Fonts& fonts);
    ~Document();
    Document(Document&&) noexcept;

    /// False in a browser, where documents have no pages and nothing is drawn.
    static bool possible();

    Size size() const;
    int pages() const;
    /// What is drawn from here on goes to a new page; the first is there.
    void newPage();

    // ---- words ----
    double widthOf_mm(const Text& text) const;
    /// One line with its base line at y.
    /// @param x_mm  its left end, middle or right end, as it is aligned
    void words(Point at, const Text& text, Align align = Align::Left);
    /// Lines from the top of a box of that width.
    /// @param leading  distance of base lines over the size of the letters
    /// @return the height they took
    double paragraph(Point top_left, double width_mm, const Text& text, Align align = Align::Start,
                     double leading = 1.36);
    /// That height, without drawing.
    double heightOf_mm(double width_mm, const Text& text, double leading = 1.36) const;

    // ---- shapes ----
    void line(Point from, Point to, const Stroke& stroke);
    void path(std::span<const Point> points, const Stroke& stroke, bool closed = false);
    void fill(std::span<const Point> points, Colour colour);
    void fill(const Box& box, Colour colour);
    void disc(Point middle, double radius_mm, Colour colour);
    /// Shapes drawn until the end of `drawing` are cut off at the box.
    template <class Draw>
    void within(const Box& box, Draw drawing) {
        beginWithin(box);
        drawing();
        endWithin();
    }
    /// Fills the box.
    void picture(const Box& box, const Picture& picture);

    /// The file's bytes: the same for the same calls. Draws no more after it.
    /// @errors what Cairo says
    Expected<std::string, std::string> finish();

    /// A page as it is now, of a document to be looked at, at any size and again at another. One
    /// thread at a time.
    /// @param page  from 0
    /// @return empty where there is no such page or no memory for it
    Picture pictureOf(int page, const Painting& painting) const;

private:
    void beginWithin(const Box& box);
    void endWithin();
    void draw(const SetLine& line, double x_pt, double y_pt);
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace plumbline::page
