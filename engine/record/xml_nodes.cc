#include "engine/record/xml_nodes.h"

#include <algorithm>

#include <pugixml.hpp>

#include "engine/record/text_lines.h"

namespace plumbline::record {

bool rootIs(std::string_view bytes, std::string_view name) {
    // The root stands within the first lines, after declaration and comments.
    const std::string_view head = bytes.substr(0, 4096);
    const std::size_t first = head.find_first_not_of("\xEF\xBB\xBF \t\r\n");
    if (first == std::string_view::npos || head[first] != '<') return false;
    for (std::size_t at = head.find(name, 1); at != std::string_view::npos;
         at = head.find(name, at + 1))
        if (head[at - 1] == '<' || head[at - 1] == ':') return true;
    return false;
}

std::string_view localName(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const std::size_t colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

pugi::xml_node childNamed(const pugi::xml_node& parent, std::string_view name) {
    for (const pugi::xml_node& child : parent.children())
        if (localName(child) == name) return child;
    return {};
}

TextPosition positionOf(const NamedBytes& input, std::ptrdiff_t offset) {
    if (offset < 0) return {input.file, 0, 0};
    const std::string_view before =
        input.bytes.substr(0, std::min(static_cast<std::size_t>(offset), input.bytes.size()));
    const std::size_t line_start = before.rfind('\n') + 1;
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::string_view last = before.substr(line_start);
    return {input.file, static_cast<std::int32_t>(line), columnOf(last, last.size())};
}

}  // namespace plumbline::record
