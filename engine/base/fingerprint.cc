#include "engine/base/fingerprint.h"

namespace plumbline {

std::string Fingerprint::words() const {
    const std::uint64_t folded = value_ ^ (value_ >> 32);
    std::string out;
    for (int digit = 7; digit >= 0; --digit) {
        out += "0123456789abcdef"[(folded >> (4 * digit)) & 15];
        if (digit == 4) out += ' ';
    }
    return out;
}

}  // namespace plumbline
