#include "engine/variant/wish_words.h"

#include "engine/base/number_text.h"

namespace plumbline::variant {

std::vector<std::string> wishWords(const Wish& wish) {
    std::vector<std::string> words;
    const auto add = [&words](const char* option, std::string value) {
        words.emplace_back(option);
        words.push_back(std::move(value));
    };
    if (wish.show) add("--show", *wish.show);
    if (wish.ceiling_m) add("--ceiling", formatDouble(*wish.ceiling_m) + " m");
    if (wish.floor_m) add("--floor", formatDouble(*wish.floor_m) + " m");
    if (wish.mirror) words.emplace_back("--mirror");
    return words;
}

WishRead readWishWords(const std::vector<std::string>& words) {
    WishRead out;
    const auto height_m = [](const std::string& text) -> std::optional<double> {
        const auto read = units::parseQuantity(text, units::Dimension::Length);
        return read && *read > 0 ? std::optional<double>(*read) : std::nullopt;
    };
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (word == "--mirror") {
            out.wish.mirror = true;
            continue;
        }
        const bool option = word == "--show" || word == "--ceiling" || word == "--floor" ||
                            word == "--site" || word == "--weather";
        if (!option) {
            out.rest.push_back(word);
            continue;
        }
        if (++i == words.size()) break;
        const std::string& value = words[i];
        if (word == "--show") out.wish.show = value;
        if (word == "--ceiling") out.wish.ceiling_m = height_m(value);
        if (word == "--floor") out.wish.floor_m = height_m(value);
        if (word == "--site") out.overrides.site_file = value;
        if (word == "--weather") out.overrides.weather = value;
    }
    return out;
}

}  // namespace plumbline::variant
