#pragma once
// A short mark of a text: two prints that carry the same one were made of the same bytes.

#include <cstdint>
#include <string>
#include <string_view>

namespace plumbline {

/// FNV-1a of 64 bits. Tells changes apart, guards against no intent.
/// @source Fowler, Noll, Vo, IETF draft-eastlake-fnv
class Fingerprint {
public:
    void add(std::string_view bytes) {
        for (const char byte : bytes)
            value_ = (value_ ^ static_cast<unsigned char>(byte)) * std::uint64_t{0x100000001b3};
    }
    std::uint64_t value() const { return value_; }
    /// Eight digits to compare by eye: "4c1e 90b7".
    std::string words() const;

private:
    std::uint64_t value_ = 0xcbf29ce484222325;
};

}  // namespace plumbline
