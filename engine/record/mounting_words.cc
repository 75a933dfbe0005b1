#include <array>
#include <cctype>
#include <string>
#include <vector>

#include "engine/record/wishes.h"

namespace plumbline::record {

namespace {

std::vector<std::string> wordsOf(std::string_view text) {
    std::vector<std::string> words;
    bool open = false;
    for (const char c : text) {
        const bool letter = std::isalpha(static_cast<unsigned char>(c)) != 0;
        if (letter && !open) words.emplace_back();
        if (letter)
            words.back() += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        else if (c != ' ' && c != ',')
            words.emplace_back("?");
        open = letter;
    }
    return words;
}

std::optional<Vec3> directionOf(const std::string& word) {
    struct Named {
        const char* name;
        Vec3 direction_B;
    };
    static const std::array<Named, 6> all = {{{"forward", {1, 0, 0}},
                                              {"back", {-1, 0, 0}},
                                              {"right", {0, 1, 0}},
                                              {"left", {0, -1, 0}},
                                              {"down", {0, 0, 1}},
                                              {"up", {0, 0, -1}}}};
    for (const Named& named : all)
        if (word == named.name) return named.direction_B;
    return std::nullopt;
}

}  // namespace

std::optional<Quat> readMounting(std::string_view text) {
    const std::vector<std::string> words = wordsOf(text);
    if (words.size() != 4) return std::nullopt;
    std::array<std::optional<Vec3>, 3> axis_B;
    for (std::size_t i = 0; i < 4; i += 2) {
        if (words[i].size() != 1 || words[i][0] < 'x' || words[i][0] > 'z') return std::nullopt;
        const std::optional<Vec3> direction_B = directionOf(words[i + 1]);
        auto& slot = axis_B[static_cast<std::size_t>(words[i][0] - 'x')];
        if (!direction_B || slot) return std::nullopt;
        slot = direction_B;
    }
    for (std::size_t i = 0; i < 3; ++i) {  // the third from the two, right-handed
        const auto& next = axis_B[(i + 1) % 3];
        const auto& last = axis_B[(i + 2) % 3];
        if (!axis_B[i]) axis_B[i] = glm::cross(*next, *last);
    }
    if (glm::length(*axis_B[0]) < 0.5 || glm::length(*axis_B[1]) < 0.5 ||
        glm::length(*axis_B[2]) < 0.5)
        return std::nullopt;
    return quatFromAxes(*axis_B[0], *axis_B[1], *axis_B[2]);
}

}  // namespace plumbline::record
