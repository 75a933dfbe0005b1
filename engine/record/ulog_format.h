#pragma once
// The formats that a ULog file declares for its messages, and numbers out of them.

#include <cstring>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace plumbline::record {

template <class T>
T readAt(std::string_view bytes, std::size_t at) {
    T value{};
    if (at + sizeof(T) <= bytes.size()) std::memcpy(&value, bytes.data() + at, sizeof(T));
    return value;
}

/// Where in a message a number stands.
struct UlogSlot {
    std::size_t at = 0;
    char kind = 0;  ///< f float, d double, i signed, u unsigned
    std::size_t size = 0;

    bool there() const { return size > 0; }
    /// NaN where the message is too short.
    double read(std::string_view data) const;
};

class UlogFormats {
public:
    /// A format message: "name:type[count] field;type field;". False when it is none.
    bool add(std::string_view text);
    /// A field of a format, or nothing there.
    UlogSlot find(const std::string& format, std::string_view field, std::size_t index = 0) const;

private:
    struct Field {
        std::string type, name;
        std::size_t count = 1;
    };
    std::size_t sizeOf(const std::string& type, int depth = 0) const;

    std::map<std::string, std::vector<Field>> formats_;
};

}  // namespace plumbline::record
