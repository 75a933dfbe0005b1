#include "viewer/model/text_merge.h"

#include <algorithm>
#include <cstdint>
#include <vector>

namespace plumbline::model {
namespace {

using Lines = std::vector<std::string_view>;

Lines linesOf(std::string_view text) {
    Lines lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        lines.push_back(text.substr(0, end));
        text.remove_prefix(end);
    }
    return lines;
}

/// For each base line the line that it is in the other text, -1: gone. Longest common subsequence
/// of what differs.
std::vector<std::int64_t> matched(const Lines& base, const Lines& other) {
    std::vector<std::int64_t> out(base.size(), -1);
    std::size_t front = 0;
    while (front < base.size() && front < other.size() && base[front] == other[front]) {
        out[front] = static_cast<std::int64_t>(front);
        ++front;
    }
    std::size_t back = 0;
    while (back < base.size() - front && back < other.size() - front &&
           base[base.size() - 1 - back] == other[other.size() - 1 - back]) {
        out[base.size() - 1 - back] = static_cast<std::int64_t>(other.size() - 1 - back);
        ++back;
    }
    const std::size_t n = base.size() - front - back, m = other.size() - front - back;
    constexpr std::size_t kMost = 16'000'000;  // chosen: beyond, the middle counts as all changed
    if (n == 0 || m == 0 || n * m > kMost) return out;
    std::vector<std::uint16_t> length((n + 1) * (m + 1), 0);
    const auto at = [&](std::size_t i, std::size_t j) -> std::uint16_t& {
        return length[i * (m + 1) + j];
    };
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t j = m; j-- > 0;) {
            at(i, j) = base[front + i] == other[front + j]
                           ? static_cast<std::uint16_t>(at(i + 1, j + 1) + 1)
                           : std::max(at(i + 1, j), at(i, j + 1));
        }
    }
    std::size_t i = 0, j = 0;
    while (i < n && j < m) {
        if (base[front + i] == other[front + j]) {
            out[front + i++] = static_cast<std::int64_t>(front + j++);
        } else if (at(i + 1, j) >= at(i, j + 1)) {
            ++i;
        } else {
            ++j;
        }
    }
    return out;
}

void append(std::string& out, const Lines& lines, std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) out += lines[i];
}

bool same(const Lines& a, std::size_t a0, std::size_t a1, const Lines& b, std::size_t b0,
          std::size_t b1) {
    return a1 - a0 == b1 - b0 && std::equal(a.begin() + static_cast<std::ptrdiff_t>(a0),
                                            a.begin() + static_cast<std::ptrdiff_t>(a1),
                                            b.begin() + static_cast<std::ptrdiff_t>(b0));
}

}  // namespace

MergedText mergeTexts(std::string_view base_text, std::string_view mine_text,
                      std::string_view theirs_text) {
    const Lines base = linesOf(base_text), mine = linesOf(mine_text), theirs = linesOf(theirs_text);
    const std::vector<std::int64_t> in_mine = matched(base, mine);
    const std::vector<std::int64_t> in_theirs = matched(base, theirs);
    MergedText out;
    std::size_t b = 0, m = 0, t = 0;
    while (b <= base.size()) {
        // The next line that all three have; up to it one of them, or both, changed something.
        std::size_t next = b;
        while (next < base.size() && (in_mine[next] < 0 || in_theirs[next] < 0)) ++next;
        const bool end = next == base.size();
        const std::size_t m1 = end ? mine.size() : static_cast<std::size_t>(in_mine[next]);
        const std::size_t t1 = end ? theirs.size() : static_cast<std::size_t>(in_theirs[next]);
        const bool mine_as_base = same(base, b, next, mine, m, m1);
        const bool theirs_as_base = same(base, b, next, theirs, t, t1);
        if (mine_as_base && !theirs_as_base) {
            append(out.text, theirs, t, t1);
        } else {
            const bool alike = same(mine, m, m1, theirs, t, t1);
            if (!mine_as_base && !theirs_as_base && !alike) out.clash = true;
            append(out.text, mine, m, m1);
        }
        if (end) break;
        out.text += base[next];
        b = next + 1;
        m = m1 + 1;
        t = t1 + 1;
    }
    return out;
}

}  // namespace plumbline::model
