#pragma once
// The texts that are open for writing: routine, aircraft, site, weather. The text is the single
// truth; every gesture is a change of it.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/problem.h"
#include "engine/path/path.h"
#include "viewer/model/actions.h"
#include "viewer/model/routine_blocks.h"
#include "viewer/model/text_buffer.h"

namespace plumbline::model {

struct Shown;

struct EditedFile {
    std::filesystem::path file;
    TextBuffer buffer;
    std::string base;  ///< what the file holds, as far as we know

    bool changed() const { return buffer.text() != base; }
};

struct Editor {
    std::vector<EditedFile> files;  ///< empty: nothing to write; the routine first
    bool built_in = false;          ///< the demo or a new routine: no file of its own yet
    int active = 0;                 ///< of the files, being written
    bool writing = false;           ///< keys go into the text
    int figure = -1;                ///< block that is written; -1: the file as a whole
    bool script = false;            ///< of that block the narrator's words, not its text
    std::size_t caret = 0, anchor = 0;
    std::uint64_t asked = 0;     ///< wish that the solver has
    std::uint64_t answered = 0;  ///< and the newest that came back
    Problems problems;           ///< of the newest text that was tried
    double wrong_s = 0;          ///< for how long the path shown has not been the text's
    double solve_s = 0;          ///< the newest took
    /// While the text was never flown: what is shown in place of its path. Empty: it was.
    std::string stand_in;
    std::string go_to;                         ///< figure to show as soon as it is flown
    std::shared_ptr<const Shown> saved;        ///< as it was when opened or written last
    std::shared_ptr<const path::Path> beside;  ///< opened beside it; null: none
    std::string beside_title;
    bool compares = false;  ///< the path as saved is drawn beside the new one

    bool open() const { return !files.empty(); }
    const std::string& text() const {
        return files[static_cast<std::size_t>(active)].buffer.text();
    }
    TextBuffer& buffer() { return files[static_cast<std::size_t>(active)].buffer; }
    const std::string& routineText() const { return files.front().buffer.text(); }
    bool changed() const;
};

/// Bytes that can be written now: the figure's text or the whole file.
TextRange writtenRange(const Editor& editor);
TextRange selection(const Editor& editor);

/// Begins with a text. @param built_in  it has no file of its own
void beginEditing(Editor& editor, const std::filesystem::path& file, std::string text,
                  bool built_in);

/// What a file holds now; of a built-in routine, the program's own. Nothing: it cannot be read.
std::optional<std::string> textOnDisk(const Editor& editor, const std::filesystem::path& file);
/// Adds a file to those that are written, as it is now. @return its index; -1: it cannot be read
int openFile(Editor& editor, const std::filesystem::path& file);

/// What the words typed so far could become: trade words, at the caret.
std::vector<std::string> offersAt(const Editor& editor);

/// Applies what changes texts or the caret. @return false: not an action of the editor
bool applyToText(Editor& editor, const Action& action);

/// A routine with one line, to begin from nothing.
std::string newRoutineText();

/// Line and column of a problem as a byte of the active text; nothing when it lies elsewhere.
std::optional<std::size_t> byteOfProblem(const Editor& editor, const Problem& problem);

/// Another number for every state of the texts and of what is drawn beside them; never 0.
std::uint64_t textState(const Editor& editor);

}  // namespace plumbline::model
