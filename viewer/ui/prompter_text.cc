// The prompter's words: what was said, what is said now, what comes.

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/number_text.h"
#include "viewer/model/word_picture.h"
#include "viewer/ui/prompter_parts.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/word_setter.h"

namespace plumbline::ui {
namespace {

/// Sizes beside that of the words said now, as the design has them at 56.
constexpr float kBefore = 32.0F / 56, kAfter = 36.0F / 56, kBoxed = 28.0F / 56;
constexpr float kLeading = 72.0F / 56;
/// Of a line, in heights of its letters: 36 letters.
constexpr float kMeasure = 18.5F;
constexpr float kSide = 56;  ///< left and right of the words, units

Type typeOf(float size, Weight weight) {
    Type type;
    type.size = static_cast<int>(std::lround(size));
    type.line = static_cast<int>(std::lround(size * kLeading));
    type.weight = weight;
    return type;
}

/// The column from top to bottom.
class Column {
public:
    Column(const Canvas& canvas, const model::Model& model, const PromptNow& now,
           const Rect& region, bool alone, WordSetter* setter)
        : c_(canvas),
          theme_(canvas.theme()),
          model_(model),
          now_(now),
          region_(region),
          alone_(alone),
          setter_(setter),
          size_(promptSize(region.width / canvas.scale(), model.session.prompt_size)),
          left_(region.x + canvas.px(kSide)),
          right_(region.right() - canvas.px(kSide)) {
        width_ = std::min(right_ - left_, c_.px(kMeasure * static_cast<float>(size_)));
    }

    void draw() {
        // In light the quiet words need the paler ground.
        c_.fill(region_, theme_.light ? theme_.surface : theme_.under);
        head();
        foot();
        const float top = region_.y + c_.px(88);
        bottom_ = region_.bottom() - c_.px(88);
        const Clip clip(c_, Rect{region_.x, top, region_.width, bottom_ - top});
        words(top, bottom_);
    }

private:
    const model::PromptBlock& block(int i) const {
        return now_.blocks[static_cast<std::size_t>(i)];
    }

    void head() {
        const model::Prompter& prompter = model_.prompter;
        const float y = region_.y + c_.px(30);
        std::string right = ui::wholeText(model_.session.words_per_min) + " words a minute";
        if (prompter.live) {
            right = std::string(prompter.held ? "Held at " : "Live ") +
                    timeText(std::floor(now_.time_s)) + ", " + right;
        } else {
            const double speed = model_.clock.speed();
            right = timeText(now_.time_s) + " at " + formatDouble(speed) + "\u00d7, " + right;
        }
        const float from = c_.textRight(right_, y, kSubhead, theme_.ink2, right);
        c_.textClipped(left_, y, from - c_.px(24), kSubhead, theme_.ink2,
                       prompter.prompt ? prompter.prompt->title : model_.shown->title);
    }

    /// What is left to say against what can be said.
    void foot() {
        const float y = region_.bottom() - c_.px(48);
        c_.across(left_, right_, region_.bottom() - c_.px(76), theme_.line);
        if (!model_.prompter.prompt || now_.place.block < 0) return;
        const int left = now_.place.words_left, fit = now_.place.fit;
        const bool too_many = left > fit;
        float x = left_;
        if (too_many) {
            c_.mark(Mark::Open, x + c_.px(8), y + c_.px(9), theme_.alarm, 14);
            x += c_.px(24);
        }
        x = c_.text(x, y, kHead, theme_.ink,
                    std::to_string(left) + (left == 1 ? " word left, " : " words left, ") +
                        std::to_string(fit) + (fit == 1 ? " fits" : " fit"));
        const Rect bar{x + c_.px(16), y + c_.px(7), c_.px(220), c_.px(6)};
        c_.fill(bar, theme_.line);
        const float share =
            fit > 0
                ? std::min(1.0F, static_cast<float>(left) / static_cast<float>(std::max(fit, 1)))
                : (left > 0 ? 1.0F : 0.0F);
        c_.fill(Rect{bar.x, bar.y, std::round(bar.width * share), bar.height},
                too_many ? theme_.alarm : theme_.ink);
        if (alone_) return;
        const char* keys = model_.prompter.live ? "Enter: this cue is now. Space holds"
                                                : "Page down: next cue. Enter: live from here";
        if (right_ - c_.textWidth(kNote, keys) > bar.right() + c_.px(16))
            c_.textRight(right_, y + c_.px(2), kNote, theme_.ink3, keys);
    }

    /// @return height; draws unless `draw` is false. Of a box with an instruction likewise.
    float boxed(float y, const model::PromptBlock& what, float size, bool now, bool draw) const {
        const Type type = typeOf(size, Weight::SemiBold);
        const std::string words = withCapital(what.words);
        const float height = c_.lineHeight(type) + c_.px(20);
        if (!draw || y + height > bottom_) return height;
        const float width = std::min(width_, c_.textWidth(type, words) + c_.px(32));
        const Rect box{left_, y, width, height};
        const Colour colour = now ? theme_.ink : theme_.edge;
        c_.frame(box, colour);
        c_.frame(Rect{box.x + 1, box.y + 1, box.width - 2, box.height - 2}, colour);
        c_.textClipped(box.x + c_.px(16), y + c_.px(10), box.right(), type,
                       now ? theme_.ink : theme_.ink2, words);
        const double rest_s = what.stop_s - now_.time_s;
        if (now && rest_s > 0) {
            c_.text(box.right() + c_.px(14), y + c_.px(10) + (c_.lineHeight(type) - c_.px(20)) / 2,
                    kSubhead, theme_.ink2, ui::wholeText(std::ceil(rest_s)) + "\u2009s left");
        }
        return height;
    }

    /// Of letters that the window's font lacks; nothing where it has all.
    std::optional<WordSetter::Picture> setElsewhere(const std::string& words, const Type& type,
                                                    std::size_t said, Colour ink,
                                                    Colour ahead) const {
        if (setter_ == nullptr || !model::needsSetting(words)) return std::nullopt;
        WordSetter::Wish wish;
        wish.words = words;
        wish.said = said;
        wish.size_px = static_cast<int>(c_.px(static_cast<float>(type.size)));
        wish.line_px = c_.lineHeight(type);
        wish.width_px = width_;
        wish.strong = type.weight == Weight::SemiBold;
        wish.ink = ink;
        wish.ahead = ahead;
        const WordSetter::Picture set = setter_->set(wish);
        return set.texture == nullptr ? std::nullopt : std::optional(set);
    }

    /// Lines in two colours. @param most_lines  the last so many; 0: all
    float lines(float y, const std::string& words, const Type& type, std::size_t said, Colour ink,
                Colour ahead, std::size_t most_lines, bool draw) const {
        if (const auto set = setElsewhere(words, type, said, ink, ahead)) {
            if (draw)
                c_.list()->AddImage(set->texture, ImVec2(left_, y),
                                    ImVec2(left_ + set->width_px, y + set->height_px));
            return set->height_px;
        }
        std::vector<TextLine> all = linesOf(c_, type, width_, words);
        if (most_lines > 0 && all.size() > most_lines)
            all.erase(all.begin(), all.end() - static_cast<std::ptrdiff_t>(most_lines));
        const float line = c_.lineHeight(type);
        if (draw) {
            float at = y;
            for (const TextLine& one : all) {
                if (at + line > bottom_) break;  // no half lines
                const std::size_t cut = std::clamp(said, one.from, one.to);
                const std::string_view text(words);
                const float x =
                    c_.text(left_, at, type, ink, text.substr(one.from, cut - one.from));
                c_.text(x, at, type, ahead, text.substr(cut, one.to - cut));
                at += line;
            }
        }
        return line * static_cast<float>(all.size());
    }

    float other(float y, const model::PromptBlock& what, bool before, bool draw) const {
        const float size = static_cast<float>(size_) * (before ? kBefore : kAfter);
        if (!what.spoken) return boxed(y, what, static_cast<float>(size_) * kBoxed, false, draw);
        const Colour colour = before ? theme_.ink3 : theme_.ink2;
        return lines(y, what.words, typeOf(size, Weight::Regular), what.words.size(), colour,
                     colour, before ? 2 : 0, draw);
    }

    /// Bytes up to which words were said, in lines of the words said now.
    float heightOfSaid(const std::string& words, const Type& type) const {
        if (model::needsSetting(words)) return 0;
        float height = 0;
        for (const TextLine& one : linesOf(c_, type, width_, words)) {
            height += c_.lineHeight(type);
            if (now_.place.said <= one.to) break;
        }
        return height;
    }

    void words(float top, float bottom) {
        const float gap = c_.px(0.55F * static_cast<float>(size_));
        if (!model_.prompter.prompt) {
            c_.text(left_, top, kSubhead, theme_.ink2, "The cues are being timed");
            return;
        }
        if (now_.blocks.empty()) {
            c_.paragraph(left_, top, width_, kSubhead, theme_.ink2,
                         "No figure has narration or a cue yet: write them in the routine's text, "
                         "narration = \"what is said\"");
            return;
        }
        const int current = now_.place.block;
        // What was said last keeps its place, so that the words said now are always looked for at
        // the same height.
        const float said_lines =
            2 * c_.lineHeight(typeOf(static_cast<float>(size_) * kBefore, Weight::Regular));
        float y = top + said_lines + gap;
        if (current < 0) {
            c_.text(left_, y - c_.px(34), kSubhead, theme_.ink2,
                    "First words in " + timeText(std::ceil(now_.place.until_next_s)));
        } else {
            const model::PromptBlock& now = block(current);
            const Type type = typeOf(static_cast<float>(size_), Weight::SemiBold);
            if (now.spoken) {
                const float room = 0.72F * (bottom - y);
                y -= std::max(0.0F, heightOfSaid(now.words, type) - room);
            }
            if (current > 0) {
                const float before = other(0, block(current - 1), true, false);
                other(y - gap - before, block(current - 1), true, true);
            }
            const float height =
                now.spoken
                    ? lines(y, now.words, type, now_.place.said, theme_.ink, theme_.ink3, 0, true)
                    : boxed(y, now, static_cast<float>(size_) * 0.8F, true, true);
            c_.fill(Rect{region_.x, y, c_.px(6), height}, theme_.fill);
            if (theme_.light) c_.down(region_.x + c_.px(6), y, y + height, theme_.now);
            y += height + gap;
        }
        for (int i = current + 1; i < static_cast<int>(now_.blocks.size()) && y < bottom; ++i) {
            // A new cue is told by its time, so that a pause is expected.
            const float least = c_.px(26) + 1.3F * static_cast<float>(size_) * c_.scale();
            if (y + least > bottom) break;
            if (block(i).first && (current >= 0 || i > 0)) {
                const double in_s = block(i).start_s - now_.time_s;
                c_.text(left_, y, kSubhead, theme_.ink2,
                        "in " + timeText(std::max(0.0, std::ceil(in_s))) + ", " + figureOf(i));
                y += c_.px(26);
            }
            y += other(y, block(i), false, true) + 0.7F * gap;
        }
    }

    std::string figureOf(int i) const {
        const model::Prompt& prompt = *model_.prompter.prompt;
        const model::Moment& cue = now_.running[block(i).moment];
        return prompt.figures[prompt.cues[cue.index].figure].name;
    }

    const Canvas& c_;
    const Theme& theme_;
    const model::Model& model_;
    const PromptNow& now_;
    Rect region_;
    bool alone_;
    WordSetter* setter_;
    int size_;
    float left_, right_, width_ = 0, bottom_ = 0;
};

}  // namespace

void drawPromptText(const Canvas& canvas, const model::Model& model, const PromptNow& now,
                    const Rect& region, bool alone, WordSetter* setter) {
    Column(canvas, model, now, region, alone, setter).draw();
}

}  // namespace plumbline::ui
