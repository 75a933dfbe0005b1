#pragma once
// A text that is being edited: every change can be undone, back to the text it began with.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plumbline::model {

/// One change: these bytes were taken out here and those put in.
struct TextEdit {
    std::size_t at = 0;
    std::string removed, inserted;
};

/// Only differences are kept, so a thousand changes cost what was typed.
class TextBuffer {
public:
    explicit TextBuffer(std::string text = {}) : text_(std::move(text)) {}

    const std::string& text() const { return text_; }
    /// Another number for every change, also for those undone.
    std::uint64_t revision() const { return revision_; }

    /// Puts `inserted` in place of `length` bytes. What is not there cannot be taken out.
    /// @param joins  goes together with the change before where the two touch (typing), or where it
    ///   takes the place of what that put in (a number that is dragged)
    void replace(std::size_t at, std::size_t length, std::string_view inserted, bool joins = false);
    /// Makes the text another one, as one change of the part that differs.
    void become(std::string_view text);
    /// The next change stands alone, also when it is typed on.
    void endTyping() { typing_ = false; }

    bool canUndo() const { return done_ > 0; }
    bool canRedo() const { return done_ < edits_.size(); }
    /// @return where the change was: its end
    std::optional<std::size_t> undo();
    std::optional<std::size_t> redo();

private:
    bool joinsLast(const TextEdit& edit) const;

    std::string text_;
    std::vector<TextEdit> edits_;
    std::size_t done_ = 0;  ///< of the edits; those behind can be redone
    bool typing_ = false;
    std::uint64_t revision_ = 0;
};

/// The first byte of the code point that ends before `at`, the first behind the one at `at`.
std::size_t codePointBefore(std::string_view text, std::size_t at);
std::size_t codePointAfter(std::string_view text, std::size_t at);

/// Byte of a place of a Problem; the text's end where there is none such.
/// @param line, column  from 1; columns count code points
std::size_t byteOf(std::string_view text, std::int32_t line, std::int32_t column);

}  // namespace plumbline::model
