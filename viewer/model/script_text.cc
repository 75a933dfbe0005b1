#include "viewer/model/script_text.h"

#include <algorithm>

namespace plumbline::model {
namespace {

constexpr std::string_view kOpenDouble = "\u201c", kCloseDouble = "\u201d";
constexpr std::string_view kOpenSingle = "\u2018", kCloseSingle = "\u2019";

bool opens(std::string_view before) {
    if (before.empty()) return true;
    const char last = before.back();
    return last == ' ' || last == '\n' || last == '(' || last == '[';
}

const FigureBlock* blockOf(const std::vector<FigureBlock>& blocks, int index) {
    if (index < 0 || index >= static_cast<int>(blocks.size())) return nullptr;
    return &blocks[static_cast<std::size_t>(index)];
}

}  // namespace

std::string scriptWords(std::string_view routine_text, const FigureBlock& block) {
    if (!block.has_script) return {};
    const std::string_view raw =
        routine_text.substr(block.script.begin, block.script.end - block.script.begin);
    if (block.script_quotes.empty() || block.script_quotes[0] != '"') return std::string(raw);
    std::string out;
    for (std::size_t i = 0; i < raw.size(); ++i) {
        if (raw[i] != '\\' || i + 1 >= raw.size()) {
            out += raw[i];
            continue;
        }
        const char next = raw[++i];
        if (next == '"' || next == '\\') {
            out += next;
        } else {
            out += ' ';  // a line end, a tab, one that goes on below: between words
        }
    }
    return out;
}

std::string asScript(std::string_view typed, const FigureBlock& block, std::string_view before) {
    const bool one_line = block.script_quotes.size() == 1;
    const bool literal = !block.script_quotes.empty() && block.script_quotes[0] == '\'';
    std::string out, so_far(before.substr(before.size() - std::min<std::size_t>(before.size(), 1)));
    for (const char c : typed) {
        const bool opening = opens(out.empty() ? std::string_view(so_far) : std::string_view(out));
        if (c == '\n' || c == '\t') {
            out += one_line || c == '\t' ? ' ' : c;
        } else if (c == '\r' || (c == '\\' && !literal)) {
            continue;
        } else if (c == '"') {
            out += opening ? kOpenDouble : kCloseDouble;
        } else if (c == '\'' && literal) {
            out += opening ? kOpenSingle : kCloseSingle;
        } else {
            out += c;
        }
    }
    return out;
}

std::string withScriptAdded(std::string_view routine_text, int index) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    std::string out(routine_text);
    const FigureBlock* block = blockOf(blocks, index);
    if (block == nullptr || block->has_script) return out;
    const std::size_t at = block->script.begin;
    std::string line = "narration = \"\"\n";
    if (at > 0 && out[at - 1] != '\n') line.insert(0, 1, '\n');
    return out.insert(at, line);
}

std::string withEmptyScriptRemoved(std::string_view routine_text, int index) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    std::string out(routine_text);
    const FigureBlock* block = blockOf(blocks, index);
    if (block == nullptr || !block->has_script || block->script_quotes.size() != 1) return out;
    const std::string words = scriptWords(routine_text, *block);
    if (words.find_first_not_of(' ') != std::string::npos) return out;
    const std::size_t begin = out.rfind('\n', block->script.begin);
    const std::size_t first = begin == std::string::npos ? 0 : begin + 1;
    const std::size_t end = out.find('\n', block->script.end);
    // A remark behind it is somebody's.
    const std::string rest =
        out.substr(block->script.end + 1, std::min(end, out.size()) - block->script.end - 1);
    if (rest.find('#') != std::string::npos) return out;
    return out.erase(first, end == std::string::npos ? std::string::npos : end + 1 - first);
}

}  // namespace plumbline::model
