#include "viewer/model/prompter.h"

#include <algorithm>
#include <cmath>

namespace plumbline::model {
namespace {

using Kind = Moment::Kind;

constexpr double kSame_s = 1e-6;
/// chosen: so long after its planned time a cue can still be the one that is told
constexpr double kLate_s = 12;

/// Figure by figure, each with its cues.
Running planned(const Prompt& prompt) {
    Running out;
    std::size_t cue = 0;
    for (std::size_t i = 0; i < prompt.figures.size(); ++i) {
        const double start_s = prompt.figures[i].start_s;
        out.push_back({Kind::Figure, i, start_s, start_s, false});
        for (; cue < prompt.cues.size() && prompt.cues[cue].figure <= i; ++cue)
            out.push_back(
                {Kind::Cue, cue, prompt.cues[cue].plan_s, prompt.cues[cue].plan_s, false});
    }
    out.push_back({Kind::End, 0, prompt.duration_s, prompt.duration_s, false});
    return out;
}

std::size_t figureOf(const Prompt& prompt, const Moment& moment) {
    return moment.kind == Kind::Cue ? prompt.cues[moment.index].figure : moment.index;
}

/// From a moment to the one behind it as planned: what is not flown between them takes no time.
double gap_s(const Prompt& prompt, const Moment& from, const Moment& to) {
    if (to.kind == Kind::Cue) return to.plan_s - from.plan_s;
    const std::size_t figure = figureOf(prompt, from);
    const bool whole_end = to.kind == Kind::End && figure + 1 == prompt.figures.size();
    return (whole_end ? prompt.duration_s : prompt.figures[figure].stop_s) - from.plan_s;
}

std::optional<std::size_t> lastOf(const Running& running, Kind kind, double at_s) {
    for (std::size_t i = running.size(); i-- > 0;)
        if (running[i].kind == kind && running[i].comes_s <= at_s) return i;
    return std::nullopt;
}

std::optional<std::size_t> firstOf(const Running& running, Kind kind, double at_s) {
    for (std::size_t i = 0; i < running.size(); ++i)
        if (running[i].kind == kind && running[i].comes_s > at_s) return i;
    return std::nullopt;
}

/// A cue comes at that time, what follows as planned behind it; a figure that begins with its cue
/// goes along.
void tell(const Prompt& prompt, Running& running, std::optional<std::size_t> which, double at_s) {
    if (!which) return;
    running[*which].told = true;
    running[*which].comes_s = at_s;
    for (std::size_t i = *which + 1; i < running.size(); ++i) {
        running[i].comes_s = running[i - 1].comes_s + gap_s(prompt, running[i - 1], running[i]);
        running[i].told = false;
    }
    for (std::size_t i = *which; i-- > 0;) {
        const bool together = running[i].kind == Kind::Figure && i + 1 == *which &&
                              std::abs(running[i].plan_s - running[*which].plan_s) < kSame_s;
        running[i].comes_s = together ? at_s : std::min(running[i].comes_s, at_s);
    }
}

/// Where the next figure begins, or the end.
std::size_t endOfFigure(const Running& running, std::size_t figure) {
    std::size_t i = figure + 1;
    while (running[i].kind == Kind::Cue) ++i;
    return i;
}

void leaveOut(const Prompt& prompt, Running& running, std::optional<std::size_t> which) {
    if (!which) return;
    const std::size_t end = endOfFigure(running, *which);
    const PromptFigure& figure = prompt.figures[running[*which].index];
    for (std::size_t i = end; i < running.size(); ++i)
        running[i].comes_s -= figure.stop_s - figure.start_s;
    running.erase(running.begin() + static_cast<std::ptrdiff_t>(*which),
                  running.begin() + static_cast<std::ptrdiff_t>(end));
}

void flyAgain(const Prompt& prompt, Running& running, std::optional<std::size_t> which) {
    if (!which) return;
    const std::size_t end = endOfFigure(running, *which);
    const PromptFigure& figure = prompt.figures[running[*which].index];
    const double begins_s = running[end].comes_s;
    Running once_more(running.begin() + static_cast<std::ptrdiff_t>(*which),
                      running.begin() + static_cast<std::ptrdiff_t>(end));
    for (Moment& moment : once_more) {
        moment.comes_s = begins_s + moment.plan_s - figure.start_s;
        moment.told = false;
    }
    for (std::size_t i = end; i < running.size(); ++i)
        running[i].comes_s += figure.stop_s - figure.start_s;
    running.insert(running.begin() + static_cast<std::ptrdiff_t>(end), once_more.begin(),
                   once_more.end());
}

/// The most bytes of a text that have no more than so many words: the blanks behind a word go with
/// it.
std::size_t bytesOfWords(const std::string& text, double words) {
    std::vector<std::size_t> ends{0};
    for (std::size_t i = 1; i <= text.size(); ++i)
        if (i == text.size() || (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U)
            ends.push_back(i);
    const auto beyond = std::partition_point(ends.begin(), ends.end(), [&](std::size_t end) {
        return brief::wordsIn(std::string_view(text).substr(0, end)) <= words;
    });
    return beyond == ends.begin() ? 0 : *std::prev(beyond);
}

int whole(double words) { return static_cast<int>(std::ceil(words - 1e-9)); }

double nextCueOrEnd_s(const Running& running, std::size_t cue) {
    for (std::size_t i = cue + 1; i < running.size(); ++i)
        if (running[i].kind != Kind::Figure) return running[i].comes_s;
    return running.back().comes_s;
}

}  // namespace

std::optional<std::size_t> cueBefore(const Running& running, double at_s) {
    return lastOf(running, Kind::Cue, at_s);
}
std::optional<std::size_t> cueAfter(const Running& running, double at_s) {
    return firstOf(running, Kind::Cue, at_s);
}
std::optional<std::size_t> figureFlown(const Running& running, double at_s) {
    return lastOf(running, Kind::Figure, at_s);
}
std::optional<std::size_t> figureAfter(const Running& running, double at_s) {
    return firstOf(running, Kind::Figure, at_s);
}

std::optional<std::size_t> meantByNow(const Running& running, double at_s) {
    const std::optional<std::size_t> last = cueBefore(running, at_s),
                                     next = cueAfter(running, at_s);
    if (!last || running[*last].told) return next;
    const double late_s = at_s - running[*last].comes_s;
    const double early_s = next ? running[*next].comes_s - at_s : kLate_s;
    return late_s <= kLate_s && late_s < early_s ? last : next;
}

Running runningOf(const Prompt& prompt, std::span<const Retiming> retimings) {
    Running running = planned(prompt);
    for (const Retiming& one : retimings) {
        switch (one.kind) {
            case Retiming::Kind::Now:
                tell(prompt, running, meantByNow(running, one.at_s), one.at_s);
                break;
            case Retiming::Kind::Next:
                tell(prompt, running, cueAfter(running, one.at_s), one.at_s);
                break;
            case Retiming::Kind::Back: {
                const std::optional<std::size_t> last = cueBefore(running, one.at_s);
                if (!last) break;
                // From the first cue there is only itself to go back to.
                const std::optional<std::size_t> before = cueBefore(
                    Running(running.begin(), running.begin() + static_cast<std::ptrdiff_t>(*last)),
                    one.at_s);
                tell(prompt, running, before ? before : last, one.at_s);
                break;
            }
            case Retiming::Kind::LeaveOut:
                leaveOut(prompt, running, figureAfter(running, one.at_s));
                break;
            case Retiming::Kind::Again:
                flyAgain(prompt, running, figureFlown(running, one.at_s));
                break;
        }
    }
    return running;
}

double planTimeOf(const Running& running, double at_s) {
    if (running.empty()) return at_s;
    std::size_t next = 0;
    while (next < running.size() && running[next].comes_s <= at_s) ++next;
    if (next == 0) return std::max(0.0, at_s - running.front().comes_s + running.front().plan_s);
    const Moment& last = running[next - 1];
    const double plan_s = last.plan_s + at_s - last.comes_s;
    if (next == running.size()) return last.plan_s;
    // A figure that is flown again goes back in the plan: until then the end of this pass.
    const bool back = running[next].plan_s < last.plan_s;
    return back ? plan_s : std::min(plan_s, running[next].plan_s);
}

std::vector<PromptBlock> blocksOf(const Prompt& prompt, const Running& running,
                                  double words_per_min) {
    std::vector<PromptBlock> blocks;
    for (std::size_t i = 0; i < running.size(); ++i) {
        if (running[i].kind != Kind::Cue) continue;
        const PromptCue& cue = prompt.cues[running[i].index];
        double at_s = running[i].comes_s;
        bool first = true;
        const auto add = [&](const std::string& words, bool spoken, double pause_s) {
            const double lasts_s = spoken ? 60 * brief::wordsIn(words) / words_per_min : pause_s;
            blocks.push_back({i, first, spoken, words, at_s, at_s + lasts_s});
            at_s += lasts_s;
            first = false;
        };
        for (const brief::ScriptPart& part : cue.script.parts)
            add(part.words, part.spoken, part.pause_s);
        if (cue.script.empty() && !cue.words.empty()) add(cue.words, true, 0);
    }
    return blocks;
}

PromptPlace placeAt(const Running& running, const std::vector<PromptBlock>& blocks, double at_s,
                    double words_per_min) {
    PromptPlace place;
    const std::optional<std::size_t> next = cueAfter(running, at_s);
    place.until_next_s = (next ? running[*next] : running.back()).comes_s - at_s;
    const std::optional<std::size_t> cue = cueBefore(running, at_s);
    if (!cue) return place;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        if (blocks[i].moment > *cue) break;
        if (blocks[i].moment < *cue || blocks[i].start_s <= at_s) place.block = static_cast<int>(i);
    }
    if (place.block < 0) return place;
    const PromptBlock& now = blocks[static_cast<std::size_t>(place.block)];
    const double said = std::floor((at_s - now.start_s) * words_per_min / 60) + 1;
    // Of a cue without words there is nothing to say: what was said before is over.
    const bool over = now.moment != *cue;
    place.said = over || !now.spoken ? now.words.size() : bytesOfWords(now.words, said);
    if (over) return place;
    double left = now.spoken ? brief::wordsIn(std::string_view(now.words).substr(place.said)) : 0;
    double pauses_s = now.spoken ? 0 : std::max(0.0, now.stop_s - at_s);
    for (std::size_t i = static_cast<std::size_t>(place.block) + 1;
         i < blocks.size() && blocks[i].moment == *cue; ++i) {
        if (blocks[i].spoken) left += brief::wordsIn(blocks[i].words);
        if (!blocks[i].spoken) pauses_s += blocks[i].stop_s - blocks[i].start_s;
    }
    place.words_left = whole(left);
    place.fit = brief::wordsThatFit(place.until_next_s, pauses_s, words_per_min);
    return place;
}

std::vector<ComingCue> comingCues(const Prompt& prompt, const Running& running, double at_s,
                                  double words_per_min, std::size_t most) {
    std::vector<ComingCue> out;
    for (std::size_t i = 0; i < running.size() && out.size() < most; ++i) {
        const Moment& moment = running[i];
        if (moment.kind != Kind::Cue || moment.comes_s <= at_s) continue;
        const PromptCue& cue = prompt.cues[moment.index];
        ComingCue coming;
        coming.moment = i;
        coming.cue = moment.index;
        coming.in_s = moment.comes_s - at_s;
        coming.early_in_s = std::max(0.0, coming.in_s + cue.early_s - cue.plan_s);
        coming.late_in_s = coming.in_s + cue.late_s - cue.plan_s;
        coming.words = whole(cue.script.empty() ? brief::wordsIn(cue.words) : cue.script.words);
        coming.fit = brief::wordsThatFit(nextCueOrEnd_s(running, i) - moment.comes_s,
                                         cue.script.pauses_s, words_per_min);
        out.push_back(coming);
    }
    return out;
}

}  // namespace plumbline::model
