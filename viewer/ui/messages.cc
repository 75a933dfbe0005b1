// What the program has to say: one thing at a time, top centre of the picture, in words.

#include <algorithm>
#include <cmath>

#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

/// Where messages may stand: beside the chooser when there is room, else below the captions.
struct Place {
    float centre = 0;
    float top = 0;
    float widest = 0;
};

Place placeOf(const PanelInput& in) {
    const Canvas& c = in.canvas;
    const Rect& picture = in.layout.picture;
    Place place;
    place.centre = picture.x + picture.width / 2;
    // Beside the tabs only where the widest sentence leaves the last one free.
    place.top = c.px(picture.width > c.px(1420) ? 12 : 96);
    place.widest = std::min(picture.width - c.px(24), c.px(460));
    if (!in.model.shown) place.top = picture.height * 0.36F;
    return place;
}

void drawSentence(const PanelInput& in, const std::string& words, bool wrong) {
    const Canvas& c = in.canvas;
    const Place place = placeOf(in);
    const float mark = wrong ? c.px(22) : 0;
    const float width = std::min(place.widest, c.textWidth(kNote, words) + mark + c.px(28));
    const float inner = width - mark - c.px(24);
    const float height = c.paragraph(0, 0, inner, kNote, 0, words, false) + c.px(12);
    const Rect box{std::round(place.centre - width / 2), place.top, width, height};
    c.fill(box, c.theme().veil);
    if (wrong) c.mark(Mark::Filled, box.x + c.px(18), box.y + c.px(14), c.theme().alarm, 11);
    c.paragraph(box.x + c.px(12) + mark, box.y + c.px(6), inner, kNote, c.theme().ink, words);
}

/// Why a file could not be opened: every problem with its place and remedy, as far as there is
/// room.
void drawProblems(const PanelInput& in, UiState& state) {
    constexpr std::size_t kShown = 6;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Place place = placeOf(in);
    const float width = std::min(in.layout.picture.width - c.px(24), c.px(560));
    const float inner = width - c.px(60);
    const Problems& problems = in.model.problems;
    const std::string head = in.model.opening_name + " cannot be opened";
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < std::min(kShown, problems.size()); ++i) {
        Problem shown = problems[i];
        // The name without its folders: they are the person's own and fill the line.
        const std::size_t slash = shown.where.file.find_last_of('/');
        if (slash != std::string::npos) shown.where.file.erase(0, slash + 1);
        lines.push_back(describe(shown));
    }
    if (problems.size() > kShown) {
        lines.push_back("and " + std::to_string(problems.size() - kShown) +
                        " more; plumbline check prints them all");
    }
    float height = c.px(12 + 20 + 6 + 10 + 18);
    for (const std::string& line : lines) {
        height += c.paragraph(0, 0, inner, kNote, 0, line, false) + c.px(4);
    }
    const Rect box{std::round(place.centre - width / 2), place.top, width, height};
    const Press pressed = press("problems", box);
    if (pressed.hovered) state.wants_hand = true;
    if (pressed.clicked) in.actions.push(ActionKind::DismissMessage);
    c.fill(box, theme.raised);
    c.frame(box, theme.line);
    c.fill(Rect{box.x, box.y, c.px(3), box.height}, theme.alarm);
    c.mark(Mark::Filled, box.x + c.px(24), box.y + c.px(22), theme.alarm, 12);
    const float x = box.x + c.px(42);
    float y = box.y + c.px(12);
    c.textClipped(x, y, box.right() - c.px(12), kHead, theme.ink, head);
    y += c.px(26);
    for (const std::string& line : lines) {
        y += c.paragraph(x, y, inner, kNote, theme.ink2, line) + c.px(4);
    }
    c.text(x, y + c.px(2), kSmall, theme.ink3,
           in.model.shown ? "Esc or a click closes this; what was open stays open"
                          : "Drop another file on the window");
}

/// Something only the person can decide: the sentence, and a line to click for each answer.
void drawQuestion(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const model::Question& question = in.model.question;
    const Place place = placeOf(in);
    const float width = std::min(in.layout.picture.width - c.px(24), c.px(460));
    const float inner = width - c.px(36);
    const float text = c.paragraph(0, 0, inner, kBody, 0, question.text, false);
    const float row_height = c.px(30);
    const Rect box{std::round(place.centre - width / 2), place.top, width,
                   text + c.px(28) + row_height * static_cast<float>(question.choices.size())};
    float y = box.y + c.px(20) + text;
    std::vector<Rect> rows;
    std::vector<bool> hovered;
    for (std::size_t i = 0; i < question.choices.size(); ++i) {
        rows.push_back(Rect{box.x + c.px(3), y, width - c.px(3), row_height});
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("answer", rows.back());
        ImGui::PopID();
        hovered.push_back(pressed.hovered);
        if (pressed.hovered) state.wants_hand = true;
        if (pressed.clicked) in.actions.push(question.choices[i].action);
        y += row_height;
    }
    press("question", box);
    c.fill(box, theme.raised);
    c.frame(box, theme.line);
    c.fill(Rect{box.x, box.y, c.px(3), box.height}, theme.fill);
    c.paragraph(box.x + c.px(18), box.y + c.px(12), inner, kBody, theme.ink, question.text);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (hovered[i]) c.fill(rows[i], theme.line);
        c.text(box.x + c.px(18), rows[i].y + c.px(6), kStrong, theme.now, std::to_string(i + 1));
        c.textClipped(box.x + c.px(40), rows[i].y + c.px(6), box.right() - c.px(12), kName,
                      theme.ink, question.choices[i].words);
    }
}

/// The path shown is not the text's: since when, and where to look.
void drawStale(const PanelInput& in) {
    const model::Editor& editor = in.model.editor;
    const Problem& problem = editor.problems.front();
    std::string words = editor.stand_in;
    if (words.empty()) {
        words = "Path shown is the last one that could be flown, " +
                std::to_string(static_cast<int>(editor.wrong_s)) + " s ago";
    }
    // What stands in the text open is told there.
    const auto byte = model::byteOfProblem(editor, problem);
    const model::TextRange range = model::writtenRange(editor);
    if (!editor.writing || !byte || *byte < range.begin || *byte > range.end) {
        Problem shown = problem;
        shown.where.file = std::filesystem::path(shown.where.file).filename().string();
        words += ". " + describe(shown);
    }
    drawSentence(in, words, true);
}

void drawOpening(const PanelInput& in) {
    const Canvas& c = in.canvas;
    constexpr double kQuiet_s = 0.15;
    constexpr double kWords_s = 2;
    if (in.model.opening_s < kQuiet_s && in.model.shown) return;
    const Rect& picture = in.layout.picture;
    // Of a routine it is not known how long it takes: the line nears the edge, never reaches it.
    const model::OpenProgress& progress = in.model.opening_progress;
    const double done = progress.share > 0 ? progress.share : 1 - 1 / (1 + in.model.opening_s);
    c.fill(Rect{picture.x, picture.y, picture.width * static_cast<float>(done), c.px(2)},
           c.theme().now);
    if (in.model.opening_s > kWords_s || !in.model.shown) {
        std::string words = "Reading and flying " + in.model.opening_name;
        if (!progress.doing.empty()) {
            words = in.model.opening_name + ": " + progress.doing;
            if (progress.share > 0) {
                words += ", " + std::to_string(std::lround(100 * progress.share)) + " %";
            }
        }
        drawSentence(in, words, false);
    }
}

}  // namespace

void drawMessages(const PanelInput& in, UiState& state) {
    if (in.model.list.kind != model::ListKind::None) return;  // one thing at a time
    if (in.model.opening) {
        drawOpening(in);
    } else if (!in.model.question.choices.empty()) {
        drawQuestion(in, state);
    } else if (!in.model.problems.empty()) {
        drawProblems(in, state);
    } else if (in.model.editor.wrong_s > 1.5) {  // chosen: not while a word is being typed
        drawStale(in);
    } else if (!in.model.message.text.empty()) {
        drawSentence(in, in.model.message.text, in.model.message.wrong);
    } else if (!in.model.shown) {
        drawSentence(in,
                     "Drop a routine or a recording on the window; Ctrl O opens one, Ctrl N begins "
                     "a new one",
                     false);
    }
}

}  // namespace plumbline::ui
