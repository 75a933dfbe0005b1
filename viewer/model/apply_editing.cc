#include "viewer/model/apply_editing.h"

#include <algorithm>
#include <limits>

#include "viewer/model/script_text.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

int blockOf(const Model& model, int row) {
    if (row < 0) row = openRow(model);
    if (row < 0 || row >= static_cast<int>(model.rows.size())) return -1;
    return model.rows[static_cast<std::size_t>(row)].block;
}

/// What was begun and left empty is gone again.
void leaveScript(Model& model) {
    Editor& editor = model.editor;
    if (!editor.script) return;
    TextBuffer& buffer = editor.files.front().buffer;
    buffer.endTyping();
    buffer.become(withEmptyScriptRemoved(buffer.text(), editor.figure));
    buffer.endTyping();
    editor.script = false;
    editor.caret = editor.anchor = std::min(editor.caret, buffer.text().size());
}

/// The narrator's words of a figure.
void writeScript(Model& model, int row) {
    Editor& editor = model.editor;
    const int block = blockOf(model, row);
    if (block < 0) return;
    const bool there = editor.writing && editor.script && editor.figure == block;
    if (!there) leaveScript(model);
    TextBuffer& buffer = editor.files.front().buffer;
    if (!there) {
        buffer.endTyping();
        buffer.become(withScriptAdded(buffer.text(), block));
        buffer.endTyping();
    }
    editor.active = 0;
    editor.figure = block;
    editor.script = editor.writing = true;
    const TextRange range = writtenRange(editor);
    if (!there || editor.caret < range.begin || editor.caret > range.end) {
        editor.caret = editor.anchor = range.end;
    }
    model.brief.on = true;
    model.start_panel = false;
    model.clock.pause();
}

void write(Model& model, int block) {
    Editor& editor = model.editor;
    leaveScript(model);
    model.brief.on = false;  // its column has no figure text
    editor.active = 0;
    editor.figure = block;
    editor.writing = true;
    const TextRange range = writtenRange(editor);
    if (editor.caret < range.begin || editor.caret > range.end) {
        editor.caret = editor.anchor = range.begin;
    }
    editor.anchor = editor.caret;
    model.start_panel = false;
    model.clock.pause();
}

void writeFigure(Model& model, int row) {
    if (model.brief.on) {
        writeScript(model, row);
        return;
    }
    const int block = blockOf(model, row);
    if (block < 0) {
        if (row < 0) write(model, -1);
        return;
    }
    write(model, block);
}

/// Aircraft, site or weather: their text joins those that are written.
void writeFile(Model& model, int which) {
    Editor& editor = model.editor;
    if (which == 0) {
        write(model, -1);
        editor.caret = editor.anchor = 0;
        return;
    }
    if (!model.shown || !model.shown->workspace) return;
    const load::Workspace& workspace = *model.shown->workspace;
    const routine::Routine& routine = workspace.routine;
    std::error_code failed;
    if (!editor.stand_in.empty() &&
        !fs::equivalent(workspace.routine_path, editor.files.front().file, failed)) {
        model.message.text = "What the routine names is known once its text is mended";
        model.message.left_s = kMessage_s;
        return;
    }
    const std::string& name = which == 1   ? routine.aircraft_file
                              : which == 2 ? routine.site_file
                                           : routine.weather_file;
    const fs::path file = workspace.routine_path.parent_path() / name;
    if (name.empty() || name.find(".toml") == std::string::npos) {
        model.message.text = "The routine names no weather file: its line stands in the routine";
        model.message.left_s = kMessage_s;
        write(model, -1);
        return;
    }
    const int opened = openFile(editor, file);
    if (opened < 0) {
        model.message.text = file.filename().string() + " cannot be read: is it still there?";
        model.message.wrong = true;
        model.message.left_s = kMessage_s;
        return;
    }
    write(model, -1);
    editor.active = opened;
    editor.caret = editor.anchor = 0;
}

/// Changes the routine's text as a whole; the figure at `block` is the open one then.
void become(Model& model, const std::string& text, int block) {
    Editor& editor = model.editor;
    TextBuffer& buffer = editor.files.front().buffer;
    buffer.endTyping();
    buffer.become(text);
    buffer.endTyping();
    if (editor.script) editor.script = editor.writing = false;
    const std::vector<FigureBlock> blocks = figureBlocks(text);
    if (blocks.empty()) {
        editor.figure = -1;
        return;
    }
    const int last = static_cast<int>(blocks.size()) - 1;
    const FigureBlock& open = blocks[static_cast<std::size_t>(std::clamp(block, 0, last))];
    if (editor.writing) {
        editor.active = 0;
        editor.figure = std::clamp(block, 0, last);
        editor.caret = editor.anchor = open.text.begin;
    }
    editor.go_to = open.name;
}

void addFigure(Model& model, const std::string& shelf_name) {
    leaveScript(model);
    const std::string& text = model.editor.routineText();
    // Nothing open, or what is open is flown for another: at the end.
    int behind = blockOf(model, -1);
    if (behind < 0) behind = static_cast<int>(figureBlocks(text).size()) - 1;
    const std::string block = shelf_name.empty()
                                  ? "[[figure]]\nname = \"" + freeName(text, "Figure") +
                                        "\"\ntext = \"\"\"\nline level 200 m\n\"\"\"\n"
                                  : shelfBlock(text, shelf_name);
    if (block.empty()) return;
    model.start_panel = false;
    become(model, withFigureAdded(text, behind, block), behind + 1);
    write(model, behind + 1);
    model.editor.caret = model.editor.anchor = writtenRange(model.editor).begin;
}

bool applyToFigures(Model& model, const Action& action) {
    Editor& editor = model.editor;
    const std::string& text = editor.routineText();
    switch (action.kind) {
        case ActionKind::AddFigure:
            addFigure(model, action.text);
            return true;
        case ActionKind::DoubleFigure: {
            const int block = blockOf(model, action.index);
            if (block >= 0) become(model, withFigureDoubled(text, block), block + 1);
            return true;
        }
        case ActionKind::RemoveFigure: {
            const int block = blockOf(model, action.index);
            if (block >= 0) become(model, withFigureRemoved(text, block), block);
            return true;
        }
        case ActionKind::MirrorFigure: {
            const int block = blockOf(model, action.index);
            if (block >= 0) become(model, withFigureMirrored(text, block), block);
            return true;
        }
        case ActionKind::MoveFigure: {
            const int from = blockOf(model, action.index);
            const int to = blockOf(model, static_cast<int>(action.value));
            if (from >= 0 && to >= 0) become(model, withFigureMoved(text, from, to), to);
            return true;
        }
        case ActionKind::MoveFigureBy: {
            const int from = blockOf(model, -1);
            if (from >= 0 && from + action.index >= 0) {
                become(model, withFigureMoved(text, from, from + action.index),
                       from + action.index);
            }
            return true;
        }
        default:
            return false;
    }
}

bool applyToWriting(Model& model, const Action& action) {
    Editor& editor = model.editor;
    switch (action.kind) {
        case ActionKind::WriteFigure:
            writeFigure(model, action.index);
            return true;
        case ActionKind::WriteFile:
            writeFile(model, action.index);
            return true;
        case ActionKind::WriteScript:
            writeScript(model, action.index);
            return true;
        case ActionKind::StopWriting:
            leaveScript(model);
            editor.writing = false;
            editor.figure = -1;
            editor.active = 0;
            return true;
        case ActionKind::Copy:
        case ActionKind::Cut: {
            const TextRange range = selection(editor);
            if (range.begin == range.end) return true;
            model.copied = editor.text().substr(range.begin, range.end - range.begin);
            if (action.kind == ActionKind::Cut) {
                Action out;
                out.kind = ActionKind::TakeOut;
                out.index = 1;
                applyToText(editor, out);
            }
            return true;
        }
        case ActionKind::ToggleCompare:
            editor.compares = !editor.compares;
            model.message.text = !editor.compares   ? "The new path alone"
                                 : editor.changed() ? "Beside it the path as it was saved"
                                                    : "Once something is changed: beside the path "
                                                      "as it was saved";
            model.message.wrong = false;
            model.message.left_s = kMessage_s;
            return true;
        case ActionKind::ToggleMirror:
            model.variant.mirror = !model.variant.mirror;
            return true;
        case ActionKind::FlyAs:
            model.variant.show =
                action.text.empty() ? std::nullopt : std::optional<std::string>(action.text);
            model.variant.ceiling_m =
                action.value > 0 ? std::optional<double>(action.value) : std::nullopt;
            model.variant.floor_m = action.x > 0 ? std::optional<double>(action.x) : std::nullopt;
            return true;
        default:
            return applyToText(editor, action);
    }
}

}  // namespace

bool applyToEditing(Model& model, const Action& action) {
    if (!model.editor.open()) return false;
    const bool done = applyToFigures(model, action) || applyToWriting(model, action);
    if (done) refreshRows(model);
    return done;
}

namespace {

/// Figures of the plan that were not flown stand behind those before them.
void addMissingRows(Model& model) {
    const FlightReview& review = *model.shown->review;
    if (!review.plan) return;
    std::string before;
    for (const OutlineRow& planned : review.plan->outline) {
        const auto& missing = review.result.missing;
        if (std::find(missing.begin(), missing.end(), planned.name) != missing.end()) {
            SheetRow row;
            row.figure.name = planned.name;
            row.figure.start_s = row.figure.stop_s = std::numeric_limits<double>::infinity();
            const auto behind =
                std::find_if(model.rows.begin(), model.rows.end(),
                             [&before](const SheetRow& one) { return one.figure.name == before; });
            model.rows.insert(before.empty()               ? model.rows.begin()
                              : behind == model.rows.end() ? behind
                                                           : std::next(behind),
                              std::move(row));
        }
        before = planned.name;
    }
}

}  // namespace

void refreshRows(Model& model) {
    model.rows.clear();
    std::vector<bool> used;
    if (model.shown) used.resize(model.shown->outline.size(), false);
    const auto outlineOf = [&](const std::string& name) {
        if (!model.shown) return -1;
        for (std::size_t i = 0; i < used.size(); ++i) {
            if (!used[i] && model.shown->outline[i].name == name) return static_cast<int>(i);
        }
        return -1;
    };
    if (model.editor.open() && model.variant.asWritten()) {
        const std::vector<FigureBlock> blocks = figureBlocks(model.editor.routineText());
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            SheetRow row;
            row.block = static_cast<int>(i);
            row.outline = outlineOf(blocks[i].name);
            if (row.outline >= 0) {
                used[static_cast<std::size_t>(row.outline)] = true;
                row.figure = model.shown->outline[static_cast<std::size_t>(row.outline)];
            } else {
                row.figure.name = blocks[i].name;
                row.figure.start_s = row.figure.stop_s = -1;
            }
            model.rows.push_back(std::move(row));
        }
        return;
    }
    if (!model.shown) return;
    const std::vector<FigureBlock> blocks =
        model.editor.open() ? figureBlocks(model.editor.routineText()) : std::vector<FigureBlock>();
    for (std::size_t i = 0; i < model.shown->outline.size(); ++i) {
        SheetRow row;
        row.figure = model.shown->outline[i];
        row.outline = static_cast<int>(i);
        for (std::size_t b = 0; b < blocks.size(); ++b) {
            if (blocks[b].name == row.figure.name) row.block = static_cast<int>(b);
        }
        model.rows.push_back(std::move(row));
    }
    if (model.shown->review && !model.editor.open()) addMissingRows(model);
}

int openRow(const Model& model) {
    if (model.editor.writing && model.editor.figure >= 0) {
        for (std::size_t i = 0; i < model.rows.size(); ++i) {
            if (model.rows[i].block == model.editor.figure) return static_cast<int>(i);
        }
    }
    if (!model.shown) return -1;
    const std::int32_t now = rowAt(model.shown->outline, model.clock.time_s());
    for (std::size_t i = 0; i < model.rows.size(); ++i) {
        if (model.rows[i].outline == now) return static_cast<int>(i);
    }
    return -1;
}

std::string titleOf(const Model& model) {
    if (!model.editor.stand_in.empty()) {
        return model.editor.files.front().file.filename().string();
    }
    return model.shown ? model.shown->title : std::string();
}

void lookAt(const Model& model, std::string& figure, double& in_it_s) {
    figure = model.editor.go_to;
    in_it_s = 0;
    if (!figure.empty() || !model.shown) return;
    in_it_s = model.clock.time_s();
    const std::int32_t row = rowAt(model.shown->outline, in_it_s);
    if (row < 0) return;
    figure = model.shown->outline[static_cast<std::size_t>(row)].name;
    in_it_s -= model.shown->outline[static_cast<std::size_t>(row)].start_s;
}

void showLive(Model& model, LiveResult result) {
    Editor& editor = model.editor;
    if (result.number <= editor.answered && !(result.number == editor.answered && !result.draft)) {
        return;  // of a text that was open before
    }
    editor.answered = result.number;
    editor.problems = std::move(result.problems);
    if (result.draft || !result.shown) editor.solve_s = result.took_s;
    if (!result.shown) return;
    editor.wrong_s = 0;
    editor.stand_in.clear();
    const std::shared_ptr<const Shown> before = model.shown;
    const double now_s = model.clock.time_s();
    double time_s = now_s;
    // The moment stays at its place in its figure, wherever that has come to.
    if (before) {
        const std::int32_t row = rowAt(before->outline, now_s);
        if (row >= 0) {
            const OutlineRow& was = before->outline[static_cast<std::size_t>(row)];
            for (const OutlineRow& figure : result.shown->outline) {
                if (figure.name == was.name) time_s = now_s - was.start_s + figure.start_s;
            }
        }
    }
    for (const OutlineRow& figure : result.shown->outline) {
        if (!editor.go_to.empty() && figure.name == editor.go_to) {
            time_s = figure.start_s;
            editor.go_to.clear();
        }
    }
    const bool playing = model.clock.playing();
    const std::optional<Loop> loop = model.clock.loop();
    if (model.session.lanes.span_s >= model.clock.duration_s() - 0.01) {
        model.session.lanes = TimeWindow();  // all of it was in sight, and is again
    }
    model.shown = std::move(result.shown);
    model.clock.setDuration(model.shown->path().duration_s());
    model.clock.setLoop(loop && loop->stop_s <= model.clock.duration_s() ? loop : std::nullopt);
    model.clock.seek(time_s);
    if (playing) model.clock.play();
    if (!editor.saved) editor.saved = model.shown;
    model.effect = compare(*editor.saved, *model.shown);
    refreshRows(model);
}

}  // namespace plumbline::model
