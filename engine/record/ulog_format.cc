#include "engine/record/ulog_format.h"

#include <cmath>
#include <cstdint>

namespace plumbline::record {

namespace {

constexpr int kDeepest = 8;  // chosen: formats nest once or twice

std::size_t sizeOfType(std::string_view type) {
    if (type == "int8_t" || type == "uint8_t" || type == "bool" || type == "char") return 1;
    if (type == "int16_t" || type == "uint16_t") return 2;
    if (type == "int32_t" || type == "uint32_t" || type == "float") return 4;
    if (type == "int64_t" || type == "uint64_t" || type == "double") return 8;
    return 0;
}

}  // namespace

double UlogSlot::read(std::string_view data) const {
    if (at + size > data.size()) return std::nan("");
    switch (kind) {
        case 'f':
            return static_cast<double>(readAt<float>(data, at));
        case 'd':
            return readAt<double>(data, at);
        case 'i':
            if (size == 1) return readAt<std::int8_t>(data, at);
            if (size == 2) return readAt<std::int16_t>(data, at);
            if (size == 4) return readAt<std::int32_t>(data, at);
            return static_cast<double>(readAt<std::int64_t>(data, at));
        default:
            if (size == 1) return readAt<std::uint8_t>(data, at);
            if (size == 2) return readAt<std::uint16_t>(data, at);
            if (size == 4) return readAt<std::uint32_t>(data, at);
            return static_cast<double>(readAt<std::uint64_t>(data, at));
    }
}

std::size_t UlogFormats::sizeOf(const std::string& type, int depth) const {
    if (const std::size_t size = sizeOfType(type)) return size;
    const auto found = formats_.find(type);
    if (found == formats_.end() || depth > kDeepest) return 0;
    std::size_t sum = 0;
    for (const Field& field : found->second) {
        const std::size_t size = sizeOf(field.type, depth + 1);
        if (size == 0) return 0;
        sum += size * field.count;
    }
    return sum;
}

UlogSlot UlogFormats::find(const std::string& format, std::string_view name,
                           std::size_t index) const {
    const auto found = formats_.find(format);
    if (found == formats_.end()) return {};
    std::size_t at = 0;
    for (const Field& field : found->second) {
        const std::size_t size = sizeOf(field.type);
        if (size == 0) return {};
        if (field.name == name && index < field.count) {
            const char kind = field.type == "float"    ? 'f'
                              : field.type == "double" ? 'd'
                              : field.type[0] == 'i'   ? 'i'
                                                       : 'u';
            if (sizeOfType(field.type) == 0) return {};
            return {at + index * size, kind, size};
        }
        at += size * field.count;
    }
    return {};
}

bool UlogFormats::add(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) return false;
    std::vector<Field> fields;
    std::string_view rest = text.substr(colon + 1);
    while (!rest.empty()) {
        const std::size_t end = rest.find(';');
        const std::string_view part = rest.substr(0, end);
        const std::size_t space = part.find(' ');
        if (space != std::string_view::npos) {
            Field field{std::string(part.substr(0, space)), std::string(part.substr(space + 1)), 1};
            const std::size_t open = field.type.find('[');
            if (open != std::string::npos) {
                std::size_t count = 0;
                for (std::size_t i = open + 1; i < field.type.size() && field.type[i] != ']'; ++i)
                    if (field.type[i] >= '0' && field.type[i] <= '9' && count < 100000)
                        count = count * 10 + static_cast<std::size_t>(field.type[i] - '0');
                field.count = count;
                field.type.resize(open);
            }
            if (fields.size() < 1000) fields.push_back(std::move(field));
        }
        if (end == std::string_view::npos) break;
        rest.remove_prefix(end + 1);
    }
    formats_[std::string(text.substr(0, colon))] = std::move(fields);
    return true;
}

}  // namespace plumbline::record
