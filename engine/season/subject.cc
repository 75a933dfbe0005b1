#include "engine/season/subject.h"

#include <utility>

#include "engine/base/fingerprint.h"

namespace plumbline::season {

Subject aboutRoutine(std::string name) { return {Subject::Kind::Routine, std::move(name)}; }

Subject aboutSortie(std::span<const std::string_view> files) {
    return {Subject::Kind::Sortie, sortieKey(files)};
}

std::string sortieKey(std::span<const std::string_view> files) {
    std::uint64_t sum = 0;
    for (const std::string_view file : files) {
        Fingerprint print;
        print.add(file);
        sum += print.value();
    }
    std::string digits(16, '0');
    for (std::size_t i = 16; i-- > 0; sum >>= 4U) digits[i] = "0123456789abcdef"[sum & 15U];
    return digits;
}

}  // namespace plumbline::season
