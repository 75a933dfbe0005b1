// Letters in a browser: FreeType alone, one shape a letter, from left to right. Enough for Latin,
// Greek and Cyrillic, which is what the carried font has; all else is told by missing().

#include <algorithm>
#include <array>
#include <set>

#include <ft2build.h>
#include FT_FREETYPE_H

#include "engine/base/check.h"
#include "engine/page/embedded_font.h"
#include "engine/page/fonts.h"
#include "engine/page/utf8.h"

namespace plumbline::page {
namespace {

/// A letter with all that decides how it is set.
struct Letter {
    char32_t letter = 0;
    std::size_t span = 0;
    std::size_t byte = 0;  ///< of the text, all spans joined
    unsigned glyph = 0;
    double advance_pt = 0;
};

bool isBlank(char32_t c) { return c == ' ' || c == '\t'; }
bool isFigure(char32_t c) { return (c >= '0' && c <= '9') || c == '+' || c == 0x2212; }

}  // namespace

struct Fonts::Impl {
    struct Face {
        std::string_view bytes;
        FT_Face face = nullptr;
        double figure_width = 0;  ///< that all figures have, size 1
    };
    FT_Library library = nullptr;
    std::array<Face, 3> faces;  ///< in the order of Weight
    mutable std::set<char32_t> missing;

    Impl() {
        PL_EXPECT(FT_Init_FreeType(&library) == 0);
        // The page carries no bolder weight than the second.
        constexpr std::array<const char*, 3> kFiles{"Inter-Regular.otf", "Inter-SemiBold.otf",
                                                    "Inter-SemiBold.otf"};
        for (std::size_t i = 0; i < faces.size(); ++i) {
            Face& face = faces[i];
            face.bytes = embeddedFont(kFiles[i]).value_or(std::string_view());
            PL_EXPECT(
                FT_New_Memory_Face(library, reinterpret_cast<const FT_Byte*>(face.bytes.data()),
                                   static_cast<FT_Long>(face.bytes.size()), 0, &face.face) == 0);
            for (char32_t figure = '0'; figure <= '9'; ++figure)
                face.figure_width = std::max(face.figure_width,
                                             widthOf(face, FT_Get_Char_Index(face.face, figure)));
        }
    }
    ~Impl() {
        for (const Face& face : faces) FT_Done_Face(face.face);
        FT_Done_FreeType(library);
    }
    Impl(const Impl&) = delete;
    Impl& operator=(const Impl&) = delete;

    /// Of size 1.
    static double widthOf(const Face& face, unsigned glyph) {
        if (FT_Load_Glyph(face.face, glyph, FT_LOAD_NO_SCALE) != 0) return 0;
        return static_cast<double>(face.face->glyph->metrics.horiAdvance) / face.face->units_per_EM;
    }

    void shape(Letter& letter, const Style& style) const {
        const Face& face = faces[static_cast<std::size_t>(style.weight)];
        letter.glyph = FT_Get_Char_Index(face.face, letter.letter);
        if (letter.glyph == 0 && letter.letter > ' ') missing.insert(letter.letter);
        letter.advance_pt = style.size_pt * (isFigure(letter.letter) ? face.figure_width
                                                                     : widthOf(face, letter.glyph));
    }
};

namespace {

class Lines {
public:
    Lines(const Text& text, double width_pt, std::vector<SetLine>& out)
        : text_(text), width_pt_(width_pt), out_(out) {}

    void add(const Letter& letter) { letters_.push_back(letter); }
    bool empty() const { return letters_.empty(); }

    void endParagraph(std::size_t span, std::size_t byte) {
        if (letters_.empty()) {
            SetLine line;
            line.begin = byte;
            line.size_pt = text_[span].style.size_pt;
            out_.push_back(std::move(line));
        }
        for (std::size_t begin = 0; begin < letters_.size();) {
            const std::size_t end = width_pt_ > 0 ? endOfLine(begin) : letters_.size();
            out_.push_back(lineOf(begin, end));
            begin = end;
            while (begin < letters_.size() && isBlank(letters_[begin].letter)) ++begin;
        }
        letters_.clear();
    }

private:
    bool mayBegin(std::size_t i) const {
        const char32_t before = letters_[i - 1].letter, now = letters_[i].letter;
        if (isBlank(now)) return false;
        const bool after_hyphen = (before == '-' || before == 0x2010) && i >= 2 &&
                                  !isBlank(letters_[i - 2].letter) && now > '9';
        return isBlank(before) || after_hyphen;
    }

    std::size_t endOfLine(std::size_t begin) const {
        constexpr double kRounding_pt = 1e-6;
        double sum = 0, blanks = 0;
        std::size_t last_break = begin;
        for (std::size_t i = begin; i < letters_.size(); ++i) {
            if (i > begin && mayBegin(i)) last_break = i;
            if (isBlank(letters_[i].letter)) {  // blanks at the end take no room
                blanks += letters_[i].advance_pt;
                continue;
            }
            sum += blanks + letters_[i].advance_pt;
            blanks = 0;
            if (sum > width_pt_ + kRounding_pt && i > begin)
                return last_break > begin ? last_break : i;  // a word longer than the line is cut
        }
        return letters_.size();
    }

    SetLine lineOf(std::size_t begin, std::size_t end) const {
        SetLine line;
        line.begin = letters_[begin].byte;
        while (end > begin + 1 && isBlank(letters_[end - 1].letter)) --end;
        for (std::size_t i = begin; i < end; ++i) {
            const Letter& letter = letters_[i];
            const Style& style = text_[letter.span].style;
            line.size_pt = std::max(line.size_pt, style.size_pt);
            if (i == begin || letter.span != letters_[i - 1].span) {
                GlyphRun run;
                run.font = static_cast<int>(style.weight);
                run.style = style;
                run.begin = letter.byte;
                run.left_pt = line.width_pt;
                line.runs.push_back(std::move(run));
            }
            GlyphRun& run = line.runs.back();
            const std::size_t size = run.words.size();
            appendUtf8(run.words, letter.letter);
            run.clusters.push_back({static_cast<int>(run.words.size() - size), 1});
            run.glyphs.push_back({letter.glyph, line.width_pt, 0});
            line.width_pt += letter.advance_pt;
            run.right_pt = line.width_pt;
        }
        return line;
    }

    const Text& text_;
    double width_pt_;
    std::vector<SetLine>& out_;
    std::vector<Letter> letters_;
};

}  // namespace

Fonts::Fonts() : impl_(std::make_unique<Impl>()) {}
Fonts::~Fonts() = default;
Fonts::Fonts(Fonts&&) noexcept = default;
Fonts& Fonts::operator=(Fonts&&) noexcept = default;

std::string Fonts::add(std::string) {
    return "a page in a browser has Latin, Greek and Cyrillic letters only; the program on a "
           "computer takes fonts";
}

std::vector<SetLine> Fonts::set(const Text& text, double width_pt) const {
    std::vector<SetLine> out;
    Lines lines(text, width_pt, out);
    std::size_t before = 0;  // bytes of the spans before
    for (std::size_t span = 0; span < text.size(); ++span) {
        for (const Utf8Letter& l : lettersOf(text[span].words)) {
            Letter letter;
            letter.letter = l.letter;
            letter.span = span;
            letter.byte = before + static_cast<std::size_t>(l.at);
            if (l.letter == '\n') {
                lines.endParagraph(span, letter.byte);
                continue;
            }
            if (letter.letter < ' ') letter.letter = ' ';
            impl_->shape(letter, text[span].style);
            lines.add(letter);
        }
        before += text[span].words.size();
    }
    if (!lines.empty()) lines.endParagraph(0, before);
    return out;
}

std::string Fonts::missing() const {
    std::string out;
    for (const char32_t letter : impl_->missing) appendUtf8(out, letter);
    return out;
}

std::shared_ptr<const std::string> Fonts::owned(int) const { return nullptr; }
std::string_view Fonts::bytesOf(int font) const {
    return impl_->faces[static_cast<std::size_t>(font)].bytes;
}
int Fonts::count() const { return static_cast<int>(impl_->faces.size()); }

}  // namespace plumbline::page
