#include "viewer/model/text_buffer.h"

#include <algorithm>

namespace plumbline::model {
namespace {

bool continuesCodePoint(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

}  // namespace

bool TextBuffer::joinsLast(const TextEdit& edit) const {
    if (!typing_ || done_ == 0 || done_ != edits_.size()) return false;
    const TextEdit& last = edits_[done_ - 1];
    const bool types_on = edit.removed.empty() && edit.at == last.at + last.inserted.size();
    const bool takes_back =
        edit.inserted.empty() && last.inserted.empty() && edit.at + edit.removed.size() == last.at;
    const bool again = !edit.removed.empty() && !edit.inserted.empty() && edit.at == last.at &&
                       edit.removed == last.inserted;
    if (again) return true;
    // A new line begins a new change, so that undo goes line by line.
    return (types_on && edit.inserted != "\n") || takes_back;
}

void TextBuffer::replace(std::size_t at, std::size_t length, std::string_view inserted,
                         bool joins) {
    TextEdit edit;
    edit.at = std::min(at, text_.size());
    edit.removed = text_.substr(edit.at, length);
    edit.inserted = std::string(inserted);
    if (edit.removed == edit.inserted) return;
    text_.replace(edit.at, edit.removed.size(), edit.inserted);
    ++revision_;
    if (joins && joinsLast(edit)) {
        TextEdit& last = edits_[done_ - 1];
        if (!edit.removed.empty() && !edit.inserted.empty()) {
            last.inserted = edit.inserted;
        } else if (edit.inserted.empty()) {
            last.removed.insert(0, edit.removed);
            last.at = edit.at;
        } else {
            last.inserted += edit.inserted;
        }
        return;
    }
    edits_.resize(done_);
    edits_.push_back(std::move(edit));
    ++done_;
    typing_ = joins;
}

void TextBuffer::become(std::string_view text) {
    const std::size_t most = std::min(text.size(), text_.size());
    std::size_t front = 0;
    while (front < most && text[front] == text_[front]) ++front;
    std::size_t back = 0;
    while (back < most - front && text[text.size() - 1 - back] == text_[text_.size() - 1 - back]) {
        ++back;
    }
    replace(front, text_.size() - front - back, text.substr(front, text.size() - front - back));
}

std::optional<std::size_t> TextBuffer::undo() {
    typing_ = false;
    if (done_ == 0) return std::nullopt;
    const TextEdit& edit = edits_[--done_];
    text_.replace(edit.at, edit.inserted.size(), edit.removed);
    ++revision_;
    return edit.at + edit.removed.size();
}

std::optional<std::size_t> TextBuffer::redo() {
    typing_ = false;
    if (done_ == edits_.size()) return std::nullopt;
    const TextEdit& edit = edits_[done_++];
    text_.replace(edit.at, edit.removed.size(), edit.inserted);
    ++revision_;
    return edit.at + edit.inserted.size();
}

std::size_t codePointBefore(std::string_view text, std::size_t at) {
    at = std::min(at, text.size());
    if (at == 0) return 0;
    --at;
    while (at > 0 && continuesCodePoint(text[at])) --at;
    return at;
}

std::size_t codePointAfter(std::string_view text, std::size_t at) {
    if (at >= text.size()) return text.size();
    ++at;
    while (at < text.size() && continuesCodePoint(text[at])) ++at;
    return at;
}

std::size_t byteOf(std::string_view text, std::int32_t line, std::int32_t column) {
    std::size_t at = 0;
    for (std::int32_t i = 1; i < line; ++i) {
        const std::size_t end = text.find('\n', at);
        if (end == std::string_view::npos) return text.size();
        at = end + 1;
    }
    for (std::int32_t i = 1; i < column && at < text.size() && text[at] != '\n'; ++i) {
        at = codePointAfter(text, at);
    }
    return at;
}

}  // namespace plumbline::model
