#include "engine/brief/script.h"

#include <algorithm>
#include <cmath>

#include "engine/page/utf8.h"
#include "engine/units/quantity.h"

namespace plumbline::brief {
namespace {

bool isBlank(char32_t letter) {
    return letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r' ||
           letter == 0x00a0 || letter == 0x3000;
}

/// Ideographs and kana, which stand without blanks (Unicode 15, blocks 3040..30FF, 3400..9FFF,
/// F900..FAFF, 20000..3FFFF).
bool isSign(char32_t l) {
    return (l >= 0x3040 && l <= 0x30ff) || (l >= 0x3400 && l <= 0x9fff) ||
           (l >= 0xf900 && l <= 0xfaff) || (l >= 0x20000 && l <= 0x3ffff);
}

/// What makes a word of letters: anything but the punctuation of ASCII, of Latin-1, general
/// punctuation and that of ideographs.
bool isWordLetter(char32_t l) {
    if (l < 0x80) return (l >= '0' && l <= '9') || (l >= 'a' && l <= 'z') || (l >= 'A' && l <= 'Z');
    return l >= 0x00c0 && !(l >= 0x2000 && l <= 0x206f) && !(l >= 0x3000 && l <= 0x303f) &&
           !(l >= 0xff00 && l <= 0xff0f) && l != 0x060c && l != 0x061b && l != 0x061f;
}

std::string trimmed(std::string_view text) {
    const std::size_t from = text.find_first_not_of(" \t\r\n");
    if (from == std::string_view::npos) return "";
    return std::string(text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1));
}

/// The time that ends an instruction: its last word, or its last two.
double timeAtEnd_s(const std::string& words) {
    std::size_t at = words.size();
    for (int i = 0; i < 2 && at != std::string::npos && at > 0; ++i) {
        at = words.find_last_of(' ', at - 1);
        const std::string last = at == std::string::npos ? words : words.substr(at + 1);
        const auto time_s = units::parseQuantity(last, units::Dimension::Time);
        if (time_s && *time_s > 0) return *time_s;
    }
    return 0;
}

}  // namespace

double wordsIn(std::string_view text) {
    double words = 0;
    bool in_word = false;
    for (const page::Utf8Letter& l : page::lettersOf(text)) {
        if (isSign(l.letter)) {
            words += 1 / kSignsPerWord;
            in_word = false;
        } else if (isBlank(l.letter)) {
            in_word = false;
        } else if (!in_word && isWordLetter(l.letter)) {
            words += 1;
            in_word = true;
        }
    }
    return words;
}

Script readScript(std::string_view narration) {
    Script script;
    while (!narration.empty()) {
        const bool instruction = narration[0] == '[';
        const std::size_t to = narration.find(instruction ? ']' : '[');
        std::string words = trimmed(narration.substr(instruction, to - instruction));
        if (to == std::string_view::npos)
            narration = {};
        else
            narration.remove_prefix(to + instruction);
        if (words.empty()) continue;
        const double pause_s = instruction ? timeAtEnd_s(words) : 0;
        script.pauses_s += pause_s;
        if (!instruction) script.words += wordsIn(words);
        script.parts.push_back({std::move(words), !instruction, pause_s});
    }
    return script;
}

int wordsThatFit(double time_s, double pauses_s, double words_per_min) {
    const double free_s = time_s - kBreath_s - pauses_s;
    return std::max(0, static_cast<int>(std::floor(free_s * words_per_min / 60)));
}

}  // namespace plumbline::brief
