#include "engine/page/paper.h"

namespace plumbline::page {

Size sizeOf(Paper paper) {
    switch (paper) {
        case Paper::A4:
            return {210, 297};
        case Paper::A5:
            return {148, 210};
        case Paper::Letter:
            return {8.5 * 25.4, 11 * 25.4};
        case Paper::HalfLetter:
            break;
    }
    return {5.5 * 25.4, 8.5 * 25.4};
}

std::optional<Paper> paperNamed(std::string_view name) {
    if (name == "a4") return Paper::A4;
    if (name == "a5") return Paper::A5;
    if (name == "letter") return Paper::Letter;
    if (name == "half-letter") return Paper::HalfLetter;
    return std::nullopt;
}

}  // namespace plumbline::page
