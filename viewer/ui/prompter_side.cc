// Right of the prompter's words: the crowd's view, the next cue and its window, the cues behind it,
// what the narrator can say of a show that runs otherwise.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/ui/prompter_parts.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;
using model::PrompterDo;

constexpr float kColumnInset = 20;  ///< left and right of what stands in the column, units
constexpr double kScale_s = 24;
constexpr double kAtCue_s = 0.02;  ///< who steps to a cue is in its figure, whatever the last bit
constexpr std::size_t kAhead = 5;
constexpr const char* kNowWords = "Now: re-time from here";
constexpr Type kCountDown{72, 64, Weight::SemiBold};
constexpr Type kNextName{28, 32, Weight::SemiBold};
/// Windows that lack room: one line less.
constexpr Type kSmallCountDown{48, 48, Weight::SemiBold};

class Side {
public:
    Side(const PanelInput& in, UiState& state, const PromptNow& now, const PrompterLayout& layout)
        : in_(in),
          c_(in.canvas),
          theme_(in.canvas.theme()),
          model_(in.model),
          state_(state),
          now_(now),
          region_(layout.side),
          picture_(layout.picture),
          left_(layout.side.x + in.canvas.px(kColumnInset)),
          right_(layout.side.right() - in.canvas.px(kColumnInset)) {}

    void draw() {
        c_.fill(Rect{region_.x, picture_.bottom(), region_.width, region_.height - picture_.height},
                theme_.surface);
        c_.down(region_.x, region_.y, region_.bottom(), theme_.line);
        pictureCaption();
        const float buttons_top = buttons();
        if (!model_.prompter.prompt) return;
        const model::Prompt& prompt = *model_.prompter.prompt;
        const std::vector<model::ComingCue> coming = model::comingCues(
            prompt, now_.running, now_.time_s, model_.session.words_per_min, kAhead + 1);
        float y = picture_.bottom() + c_.px(16);
        if (coming.empty()) {
            c_.text(left_, y, kNextName, theme_.ink, "No more cues");
            return;
        }
        y = nextCue(coming.front(), y);
        y = windows(coming, y);
        rows(coming, y, buttons_top);
    }

private:
    const model::Prompt& prompt() const { return *model_.prompter.prompt; }
    const std::string& figureOf(const model::ComingCue& cue) const {
        return prompt().figures[prompt().cues[cue.cue].figure].name;
    }
    /// "smoke, low": what belongs to a cue besides words.
    std::string beatsOf(const model::ComingCue& cue) const {
        std::string out;
        for (const std::string& beat : prompt().cues[cue.cue].beats)
            out += (out.empty() ? "" : ", ") + beat;
        return out;
    }

    void pictureCaption() {
        const std::int32_t row =
            model::rowAt(model_.shown->outline, model_.clock.time_s() + kAtCue_s);
        if (row < 0) return;
        const std::string number = std::to_string(row + 1);
        const std::string& name = model_.shown->outline[static_cast<std::size_t>(row)].name;
        const float width = c_.textWidth(kHead, number) + c_.textWidth(kHead, name) + c_.px(32);
        const Rect box{picture_.x, picture_.bottom() - c_.px(30), width, c_.px(30)};
        c_.fill(box, theme_.veil);
        const float x = c_.text(box.x + c_.px(12), box.y + c_.px(5), kHead, theme_.now, number);
        c_.text(x + c_.px(8), box.y + c_.px(5), kHead, theme_.ink, name);
    }

    float nextCue(const model::ComingCue& cue, float y) {
        const bool low = region_.height < c_.px(800);
        const Type& count = low ? kSmallCountDown : kCountDown;
        const float unit =
            c_.textRight(right_, y + c_.lineHeight(count) - c_.px(24), kSubhead, theme_.ink2, "s");
        const std::string left = wholeText(std::ceil(std::max(0.0, cue.in_s)));
        const float x = c_.textRight(unit - c_.px(6), y, count, theme_.ink, left);
        c_.text(left_, y, kNote, theme_.ink2, "Next cue");
        std::string name = figureOf(cue);
        if (c_.textWidth(kNextName, name) <= x - c_.px(12) - left_) {
            c_.text(left_, y + c_.px(16), kNextName, theme_.ink, name);
        } else {
            c_.textClipped(left_, y + c_.px(20), x - c_.px(12), kValue, theme_.ink, name);
        }
        if (!low)
            c_.textClipped(left_, y + c_.px(50), x - c_.px(12), kNote, theme_.ink2,
                           withCapital(beatsOf(cue)));
        return y + c_.lineHeight(count) + c_.px(low ? 6 : 10);
    }

    /// Where the next cues may come within the scale; the sooner it is, the surer it reads.
    float windows(const std::vector<model::ComingCue>& coming, float y) {
        const auto at = [&](double in_s) {
            return left_ +
                   (right_ - left_) * static_cast<float>(std::clamp(in_s / kScale_s, 0.0, 1.0));
        };
        const bool known = prompt().windows;
        bool first = true;
        for (const model::ComingCue& cue : coming) {
            if (cue.early_in_s >= kScale_s) continue;
            const Colour colour = first ? theme_.fill : theme_.edge;
            const float from = at(cue.early_in_s), to = at(cue.late_in_s);
            if (known)
                c_.fill(Rect{from, y, std::max(1.0F, to - from), c_.px(12)}, faded(colour, 0.4));
            if (cue.in_s <= kScale_s)
                c_.fill(Rect{std::round(at(cue.in_s)) - 1, y - c_.px(3), c_.px(2), c_.px(18)},
                        first ? theme_.now : theme_.ink);
            first = false;
        }
        const float ruler = y + c_.px(18);
        for (int s = 0; s <= static_cast<int>(kScale_s); ++s) {
            const float x = std::round(at(s));
            c_.down(x, ruler, ruler + c_.px(s % 5 == 0 ? 6 : 3), theme_.edge);
        }
        c_.text(left_, ruler + c_.px(7), kSmall, theme_.ink2, "now");
        for (const int s : {10, 20})
            c_.text(at(s) - c_.px(10), ruler + c_.px(7), kSmall, theme_.ink2,
                    std::to_string(s) + "\u2009s");
        y = ruler + c_.px(26);
        const model::ComingCue& next = coming.front();
        std::string words = "Its window is being flown";
        if (known) {
            const std::string early = wholeText(std::floor(next.early_in_s));
            const std::string late = wholeText(std::ceil(next.late_in_s));
            words = "Comes in " + early + " to " + late +
                    "\u2009s; the shaded band holds 9 of 10 flights.";
            if (model_.prompter.live && !model_.prompter.retimings.empty())
                words = "In " + early + " to " + late +
                        "\u2009s; the band is as wide as from the first call.";
        }
        c_.textClipped(left_, y, right_, kNote, theme_.ink2, words);
        return y + c_.px(24);
    }

    void rows(const std::vector<model::ComingCue>& coming, float y, float bottom) {
        const float height = c_.px(36);
        const bool pictures = region_.width > c_.px(420);
        for (std::size_t i = 1; i < coming.size() && y + height <= bottom; ++i) {
            const model::ComingCue& cue = coming[i];
            const float middle = y + height / 2;
            c_.across(left_, right_, y, theme_.line);
            c_.text(left_, middle - c_.px(12), kValue, theme_.ink,
                    timeText(std::max(0.0, std::ceil(cue.in_s))));
            float x = left_ + c_.px(68);
            const std::size_t figure = prompt().cues[cue.cue].figure;
            if (pictures && figure < state_.ribbons.size()) {
                drawRibbon(c_, state_.ribbons[figure], x + c_.px(20), middle, 0.9F);
                x += c_.px(52);
            }
            const float words_from = fits(cue, middle);
            const float name_end = x + c_.textWidth(kName, figureOf(cue));
            c_.textClipped(x, middle - c_.px(9), words_from, kName, theme_.ink, figureOf(cue));
            c_.textClipped(name_end + c_.px(14), middle - c_.px(8), words_from, kNote, theme_.ink2,
                           beatsOf(cue));
            y += height;
        }
        c_.across(left_, right_, y, theme_.line);
    }

    /// "18 words fit", or what is too many; @return where it begins.
    float fits(const model::ComingCue& cue, float middle) const {
        const float y = middle - c_.px(8);
        if (cue.words <= cue.fit)
            return c_.textRight(right_, y, kNote, theme_.ink2,
                                cue.words == 0 ? std::string("no words")
                                               : std::to_string(cue.words) + " of " +
                                                     std::to_string(cue.fit) + " words") -
                   c_.px(12);
        const float x =
            c_.textRight(right_, y, kNote, theme_.ink,
                         std::to_string(cue.words) + ", only " + std::to_string(cue.fit) + " fit");
        c_.mark(Mark::Open, x - c_.px(14), middle, theme_.alarm, 11);
        return x - c_.px(30);
    }

    bool button(const char* id, float& x, float y, const std::string& words, bool filled,
                const char* hint) {
        const float width = c_.textWidth(filled ? kStrong : kBody, words) + c_.px(28);
        const Rect box{x, y, std::min(width, right_ - x), c_.px(38)};
        const Press pressed = press(id, box);
        if (pressed.hovered) {
            state_.wants_hand = true;
            state_.hint = hint;
        }
        if (filled) {
            c_.fill(box, theme_.fill);
            if (theme_.light) c_.frame(box, theme_.now);
        } else {
            if (pressed.hovered) c_.fill(box, pressed.held ? theme_.line : theme_.raised);
            c_.frame(box, theme_.edge);
        }
        c_.textClipped(box.x + c_.px(14), y + c_.px(10), box.right() - c_.px(6),
                       filled ? kStrong : kBody, filled ? theme_.on_fill : theme_.ink, words);
        x = box.right() + c_.px(8);
        return pressed.clicked;
    }
    void push(PrompterDo what) {
        in_.actions.pushIndex(ActionKind::Prompter, static_cast<int>(what));
    }
    /// What a re-timing would mean now: names are said before the key is pressed.
    std::string named(std::optional<std::size_t> moment, const char* nothing) const {
        if (!moment) return nothing;
        const model::Moment& what = now_.running[*moment];
        const std::size_t figure =
            what.kind == model::Moment::Kind::Cue ? prompt().cues[what.index].figure : what.index;
        return prompt().figures[figure].name;
    }

    /// @return what must end above
    float buttons() {
        const model::Prompter& prompter = model_.prompter;
        const bool live = prompter.live && prompter.prompt;
        const float y = region_.bottom() - c_.px(58);
        float x = left_, top = y;
        if (!live) {
            const bool begins = model_.clock.time_s() < 1;
            if (button("prompt live", x, y,
                       begins ? "Live: the first call is now" : "Live from this moment on", true,
                       "The show's own clock runs from here (Enter)"))
                push(PrompterDo::Live);
        } else {
            // Narrow columns have the great one in a row of its own.
            float wide = c_.textWidth(kStrong, kNowWords) - c_.px(8);
            for (const char* words : {"Left out", "Again", "Go on"})
                wide += c_.textWidth(kBody, words);
            wide += c_.px(4 * 36);
            if (left_ + wide > right_) top -= c_.px(46);
            if (button("prompt now", x, top, kNowWords, true, "The cue is happening now (Enter)"))
                push(PrompterDo::Now);
            if (top < y) x = left_;
            if (button("prompt out", x, y, "Left out", false, "The next figure is not flown (X)"))
                push(PrompterDo::LeaveOut);
            if (button("prompt again", x, y, "Again", false, "This figure is flown once more (A)"))
                push(PrompterDo::Again);
            if (x + c_.px(64) < right_ &&
                button("prompt hold", x, y, prompter.held ? "Go on" : "Hold", false,
                       "The show's clock stands (Space)"))
                push(PrompterDo::Hold);
        }
        // Two quiet lines: what the buttons mean now, or what was just said.
        float line = top - c_.px(44);
        if (!model_.message.text.empty()) {
            c_.textClipped(left_, line + c_.px(18), right_, kNote, theme_.ink, model_.message.text);
            if (live) c_.textClipped(left_, line, right_, kNote, theme_.ink2, meaning());
            return line - c_.px(4);
        }
        if (live) {
            c_.textClipped(left_, line, right_, kNote, theme_.ink2, meaning());
            const std::string out =
                "Left out: " + named(model::figureAfter(now_.running, now_.time_s), "nothing") +
                ". Again: " + named(model::figureFlown(now_.running, now_.time_s), "nothing") +
                (prompter.retimings.empty() ? "" : ". Backspace takes back");
            c_.textClipped(left_, line + c_.px(18), right_, kNote, theme_.ink2, out);
            return line - c_.px(4);
        }
        std::string words = "Rehearsal. W: the words in a second window";
        if (model_.music) words = musicWords();
        c_.textClipped(left_, line + c_.px(18), right_, kNote, theme_.ink2, words);
        return line + c_.px(14);
    }
    std::string meaning() const {
        return "Now means: " +
               named(model::meantByNow(now_.running, now_.time_s), "nothing follows");
    }
    std::string musicWords() const {
        return model_.session.music_off ? "Rehearsal, music off (M)" : "Rehearsal with the music";
    }

    const PanelInput& in_;
    const Canvas& c_;
    const Theme& theme_;
    const model::Model& model_;
    UiState& state_;
    const PromptNow& now_;
    Rect region_, picture_;
    float left_, right_;
};

}  // namespace

void drawPromptSide(const PanelInput& in, UiState& state, const PromptNow& now,
                    const PrompterLayout& layout) {
    Side(in, state, now, layout).draw();
}

}  // namespace plumbline::ui
