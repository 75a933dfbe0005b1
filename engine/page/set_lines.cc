// Text to lines: fonts, scripts and directions first, then breaks, then each line's order.

#include <algorithm>
#include <map>

#include <fribidi.h>
#include <hb.h>

#include "engine/page/fonts_impl.h"
#include "engine/page/line_breaks.h"
#include "engine/page/utf8.h"

namespace plumbline::page {
namespace {

/// A letter with all that decides how it is set.
struct Letter {
    char32_t letter = 0;
    int span = 0;
    std::size_t byte = 0;  ///< of the text, all spans joined
    int font = 0;
    hb_script_t script = HB_SCRIPT_COMMON;
    FriBidiLevel level = 0;
    bool break_before = false;  ///< a line may begin here
    double advance_pt = 0;      ///< of what it begins
};

bool isBlank(char32_t c) {
    return c == ' ' || c == '\t' || (c >= 0x2000 && c <= 0x200a && c != 0x2007);
}

/// Blanks and format marks come out of any font.
bool needsNoShape(char32_t c) {
    return c <= ' ' || c == 0xa0 || (c >= 0x2000 && c <= 0x200f) || (c >= 0x2028 && c <= 0x202f) ||
           (c >= 0x2060 && c <= 0x206f) || c == 0xfeff || (c >= 0xfe00 && c <= 0xfe0f);
}

bool isIdeograph(hb_script_t script) {
    return script == HB_SCRIPT_HAN || script == HB_SCRIPT_HIRAGANA ||
           script == HB_SCRIPT_KATAKANA || script == HB_SCRIPT_HANGUL;
}

class Setter {
public:
    Setter(const Text& text, const std::vector<ShapingFont>& fonts, std::set<char32_t>& missing)
        : text_(text), fonts_(fonts), missing_(missing) {}

    void add(char32_t letter, int span, std::size_t byte) {
        letters_.push_back({letter, span, byte, 0, HB_SCRIPT_COMMON, 0, false, 0});
    }
    bool empty() const { return letters_.empty(); }

    template <class FontFor>
    std::vector<SetLine> lines(double width_pt, FontFor fontFor) {
        codes_.clear();
        for (const Letter& l : letters_) codes_.push_back(l.letter);
        chooseFonts(fontFor);
        chooseScripts();
        chooseLevels();
        markBreaks();
        std::vector<SetLine> out;
        if (width_pt > 0) measure();
        for (std::size_t begin = 0; begin < letters_.size();) {
            const std::size_t end = width_pt > 0 ? endOfLine(begin, width_pt) : letters_.size();
            out.push_back(lineOf(begin, end));
            begin = end;
            while (begin < letters_.size() && isBlank(letters_[begin].letter)) ++begin;
        }
        letters_.clear();
        return out;
    }
    SetLine emptyLine(int span, std::size_t byte) const {
        SetLine line;
        line.begin = byte;
        line.size_pt = text_[static_cast<std::size_t>(span)].style.size_pt;
        return line;
    }

private:
    const Style& styleOf(const Letter& letter) const {
        return text_[static_cast<std::size_t>(letter.span)].style;
    }

    template <class FontFor>
    void chooseFonts(FontFor fontFor) {
        int before = -1;
        for (Letter& l : letters_) {
            const Style& style = styleOf(l);
            const hb_unicode_general_category_t kind =
                hb_unicode_general_category(hb_unicode_funcs_get_default(), l.letter);
            const bool joins = needsNoShape(l.letter) ||
                               kind == HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK ||
                               kind == HB_UNICODE_GENERAL_CATEGORY_SPACING_MARK;
            const bool before_has =
                before >= kEmbedded &&
                (needsNoShape(l.letter) || fonts_[static_cast<std::size_t>(before)].has(l.letter));
            if (joins && before_has) {
                l.font = before;
                continue;
            }
            l.font = needsNoShape(l.letter) ? static_cast<int>(style.weight)
                                            : fontFor(l.letter, style.weight);
            if (l.font < 0) {
                missing_.insert(l.letter);
                l.font = static_cast<int>(style.weight);
            }
            before = l.font;
        }
    }

    void chooseScripts() {
        hb_unicode_funcs_t* unicode = hb_unicode_funcs_get_default();
        const auto own = [](hb_script_t s) {
            return s != HB_SCRIPT_COMMON && s != HB_SCRIPT_INHERITED && s != HB_SCRIPT_UNKNOWN;
        };
        hb_script_t last = HB_SCRIPT_LATIN;
        // What is common to all scripts goes with what is before it, at the start with what
        // follows.
        for (const Letter& l : letters_) {
            const hb_script_t s = hb_unicode_script(unicode, l.letter);
            if (!own(s)) continue;
            last = s;
            break;
        }
        for (Letter& l : letters_) {
            const hb_script_t s = hb_unicode_script(unicode, l.letter);
            if (own(s)) last = s;
            l.script = last;
        }
    }

    void chooseLevels() {
        const auto count = static_cast<FriBidiStrIndex>(letters_.size());
        std::vector<FriBidiCharType> types(letters_.size());
        std::vector<FriBidiBracketType> brackets(letters_.size());
        std::vector<FriBidiLevel> levels(letters_.size());
        fribidi_get_bidi_types(codes_.data(), count, types.data());
        fribidi_get_bracket_types(codes_.data(), count, types.data(), brackets.data());
        FriBidiParType base = FRIBIDI_PAR_ON;
        if (fribidi_get_par_embedding_levels_ex(types.data(), brackets.data(), count, &base,
                                                levels.data()) == 0)
            return;
        leftward_ = FRIBIDI_IS_RTL(base);
        for (std::size_t i = 0; i < letters_.size(); ++i) letters_[i].level = levels[i];
    }

    void markBreaks() {
        for (std::size_t i = 1; i < letters_.size(); ++i) {
            const Letter &a = letters_[i - 1], &b = letters_[i];
            if (isBlank(b.letter)) continue;
            const bool after_blank = isBlank(a.letter);
            const bool after_hyphen = (a.letter == '-' || a.letter == 0x2010) && i >= 2 &&
                                      !isBlank(letters_[i - 2].letter) && b.letter > '9';
            const bool between =
                (isIdeograph(hb_unicode_script(hb_unicode_funcs_get_default(), b.letter)) ||
                 isIdeograph(hb_unicode_script(hb_unicode_funcs_get_default(), a.letter))) &&
                !staysWithTheOneBefore(b.letter) && !staysWithTheOneAfter(a.letter);
            letters_[i].break_before = after_blank || after_hyphen || between;
        }
    }

    /// The same in all that decides a run's shape.
    static bool together(const Letter& a, const Letter& b) {
        return a.span == b.span && a.font == b.font && a.script == b.script && a.level == b.level;
    }
    std::size_t endOfRun(std::size_t begin, std::size_t end) const {
        std::size_t i = begin + 1;
        while (i < end && together(letters_[begin], letters_[i])) ++i;
        return i;
    }

    /// Shapes letters that go together; the caller destroys the buffer.
    hb_buffer_t* shape(std::size_t begin, std::size_t end) const {
        hb_buffer_t* buffer = hb_buffer_create();
        hb_buffer_add_codepoints(buffer, codes_.data(), static_cast<int>(codes_.size()),
                                 static_cast<unsigned>(begin), static_cast<int>(end - begin));
        hb_buffer_set_direction(
            buffer, letters_[begin].level % 2 == 1 ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
        hb_buffer_set_script(buffer, letters_[begin].script);
        hb_buffer_set_language(buffer, hb_language_from_string("en", 2));
        hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_GRAPHEMES);
        const ShapingFont& font = fonts_[static_cast<std::size_t>(letters_[begin].font)];
        // Figures of one width; and the embedded font would turn "->" and "4x4" into other signs.
        const hb_feature_t features[] = {
            {HB_TAG('t', 'n', 'u', 'm'), 1, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END},
            {HB_TAG('c', 'a', 'l', 't'), 0, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END}};
        hb_shape(font.font.get(), buffer, features, font.embedded ? 2 : 1);
        return buffer;
    }

    void measure() {
        for (std::size_t begin = 0; begin < letters_.size();) {
            const std::size_t end = endOfRun(begin, letters_.size());
            hb_buffer_t* buffer = shape(begin, end);
            unsigned count = 0;
            const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
            const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(buffer, &count);
            const double scale = fonts_[static_cast<std::size_t>(letters_[begin].font)].per_unit *
                                 styleOf(letters_[begin]).size_pt;
            for (unsigned g = 0; g < count; ++g)
                letters_[infos[g].cluster].advance_pt += places[g].x_advance * scale;
            hb_buffer_destroy(buffer);
            begin = end;
        }
    }

    std::size_t endOfLine(std::size_t begin, double width_pt) const {
        constexpr double kRounding_pt = 1e-6;
        double sum = 0, blanks = 0;
        std::size_t last_break = begin;
        for (std::size_t i = begin; i < letters_.size(); ++i) {
            const Letter& l = letters_[i];
            if (i > begin && l.break_before) last_break = i;
            if (isBlank(l.letter)) {  // blanks at the end take no room
                blanks += l.advance_pt;
                continue;
            }
            sum += blanks + l.advance_pt;
            blanks = 0;
            if (sum > width_pt + kRounding_pt && i > begin)
                return last_break > begin ? last_break : i;  // a word longer than the line is cut
        }
        return letters_.size();
    }

    SetLine lineOf(std::size_t begin, std::size_t end) {
        SetLine line;
        line.begin = letters_[begin].byte;
        line.leftward = leftward_;
        for (std::size_t i = begin; i < end; ++i)
            line.size_pt = std::max(line.size_pt, styleOf(letters_[i]).size_pt);
        while (end > begin + 1 && isBlank(letters_[end - 1].letter)) --end;
        // Runs in reading order, then turned round from the highest level down (UAX #9, L2).
        std::vector<std::pair<std::size_t, std::size_t>> runs;
        int highest = 0, lowest_odd = 255;
        for (std::size_t i = begin; i < end;) {
            const std::size_t stop = endOfRun(i, end);
            runs.emplace_back(i, stop);
            const int level = letters_[i].level;
            highest = std::max(highest, level);
            if (level % 2 == 1) lowest_odd = std::min(lowest_odd, level);
            i = stop;
        }
        for (int level = highest; level >= lowest_odd; --level)
            for (std::size_t i = 0; i < runs.size();) {
                const auto inside = [&](std::size_t k) {
                    return letters_[runs[k].first].level >= level;
                };
                if (!inside(i)) {
                    ++i;
                    continue;
                }
                std::size_t stop = i;
                while (stop < runs.size() && inside(stop)) ++stop;
                std::reverse(runs.begin() + static_cast<std::ptrdiff_t>(i),
                             runs.begin() + static_cast<std::ptrdiff_t>(stop));
                i = stop;
            }
        for (const auto& [from, to] : runs) line.runs.push_back(runOf(from, to, line.width_pt));
        return line;
    }

    GlyphRun runOf(std::size_t begin, std::size_t end, double& x_pt) const {
        GlyphRun run;
        run.font = letters_[begin].font;
        run.style = styleOf(letters_[begin]);
        run.leftward = letters_[begin].level % 2 == 1;
        run.begin = letters_[begin].byte;
        run.left_pt = x_pt;
        hb_buffer_t* buffer = shape(begin, end);
        unsigned count = 0;
        const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
        const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(buffer, &count);
        const double scale =
            fonts_[static_cast<std::size_t>(run.font)].per_unit * run.style.size_pt;
        std::map<std::size_t, int> glyphs_at;  // by the letter that a cluster begins with
        for (unsigned g = 0; g < count; ++g) {
            run.glyphs.push_back({infos[g].codepoint, x_pt + places[g].x_offset * scale,
                                  -places[g].y_offset * scale});
            x_pt += places[g].x_advance * scale;
            ++glyphs_at[infos[g].cluster];
        }
        run.right_pt = x_pt;
        hb_buffer_destroy(buffer);
        for (auto at = glyphs_at.begin(); at != glyphs_at.end(); ++at) {
            const auto next = std::next(at);
            const std::size_t stop = next == glyphs_at.end() ? end : next->first;
            const std::size_t size = run.words.size();
            for (std::size_t i = at->first; i < stop; ++i)
                appendUtf8(run.words, letters_[i].letter);
            run.clusters.push_back({static_cast<int>(run.words.size() - size), at->second});
        }
        return run;
    }

    const Text& text_;
    const std::vector<ShapingFont>& fonts_;
    std::set<char32_t>& missing_;
    std::vector<Letter> letters_;
    std::vector<std::uint32_t> codes_;  // the letters alone
    bool leftward_ = false;
};

}  // namespace

std::vector<SetLine> Fonts::set(const Text& text, double width_pt) const {
    std::vector<SetLine> out;
    Setter setter(text, impl_->fonts, impl_->missing);
    const auto fontFor = [this](char32_t letter, Weight weight) {
        return impl_->fontFor(letter, weight);
    };
    const auto endParagraph = [&](int span, std::size_t byte) {
        if (setter.empty()) {
            out.push_back(setter.emptyLine(span, byte));
            return;
        }
        for (SetLine& line : setter.lines(width_pt, fontFor)) out.push_back(std::move(line));
    };
    std::size_t before = 0;  // bytes of the spans before
    for (std::size_t span = 0; span < text.size(); ++span) {
        for (const Utf8Letter& l : lettersOf(text[span].words)) {
            const std::size_t byte = before + static_cast<std::size_t>(l.at);
            if (l.letter == '\n')
                endParagraph(static_cast<int>(span), byte);
            else
                setter.add(l.letter < ' ' ? ' ' : l.letter, static_cast<int>(span), byte);
        }
        before += text[span].words.size();
    }
    if (!setter.empty()) endParagraph(0, before);
    return out;
}

}  // namespace plumbline::page
