#pragma once
// What the readers of XML files share: names without prefixes, lines of nodes.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/problem.h"
#include "engine/record/track.h"

namespace pugi {
class xml_node;
}

namespace plumbline::record {

/// True of bytes that seem to be XML with that root, prefix or not.
bool rootIs(std::string_view bytes, std::string_view name);

/// The name without its name space prefix.
std::string_view localName(const pugi::xml_node& node);

/// The first child of that local name; a null node where there is none.
pugi::xml_node childNamed(const pugi::xml_node& parent, std::string_view name);

/// Line and column of a byte; the file as a whole for a negative offset.
TextPosition positionOf(const NamedBytes& input, std::ptrdiff_t offset);

/// Line numbers for points met in the file's order, without counting from the start each time.
class LineCounter {
public:
    explicit LineCounter(std::string_view bytes) : bytes_(bytes) {}

    std::int32_t lineAt(std::ptrdiff_t offset) {
        const std::size_t to =
            std::min(static_cast<std::size_t>(std::max<std::ptrdiff_t>(offset, 0)), bytes_.size());
        for (; at_ < to; ++at_)
            if (bytes_[at_] == '\n') ++line_;
        return line_;
    }

private:
    std::string_view bytes_;
    std::size_t at_ = 0;
    std::int32_t line_ = 1;
};

}  // namespace plumbline::record
