#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "engine/base/nearest_word.h"
#include "engine/base/number_text.h"
#include "engine/data/table_reader.h"
#include "engine/score/score.h"

namespace plumbline::score {
namespace {

using data::TableReader;
using data::TomlValue;

constexpr auto kNotesRemedy = "write notes as D4:1, F#3+A3:2 for two together, -:1 for silence";

std::vector<std::string_view> parted(std::string_view text, std::string_view at) {
    std::vector<std::string_view> out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(at), text.size());
        if (end > 0) out.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

/// @return what is wrong with it; empty: nothing
std::string readNote(std::string_view word, Note& note) {
    const std::size_t colon = word.find(':');
    const std::string quoted = "\"" + std::string(word) + "\"";
    if (colon == std::string_view::npos) return quoted + " has no length in beats";
    const auto beats = parseDouble(word.substr(colon + 1));
    if (!beats || !(*beats > 0) || *beats > 64) return quoted + " is not 0 to 64 beats long";
    note.beats = *beats;
    const std::string_view names = word.substr(0, colon);
    if (names == "-") return "";
    for (const std::string_view name : parted(names, "+")) {
        const double pitch_hz = pitchOf(name);
        if (pitch_hz <= 0) return "\"" + std::string(name) + "\" is no note";
        note.pitches_hz.push_back(pitch_hz);
    }
    return note.pitches_hz.empty() ? quoted + " is no note" : "";
}

void readNotes(TableReader& table, Voice& voice) {
    const std::string text = table.text("notes");
    const TomlValue* const value = table.find("notes");
    if (value == nullptr) return;
    for (const std::string_view word : parted(text, " \t\r\n|")) {
        Note note;
        const std::string wrong = readNote(word, note);
        if (wrong.empty()) {
            voice.notes.push_back(std::move(note));
            continue;
        }
        table.problemAt(*value, wrong, kNotesRemedy);
        return;
    }
    if (voice.notes.empty()) table.problemAt(*value, "there are no notes", kNotesRemedy);
}

Part readPart(TableReader& table) {
    Part part;
    part.name = table.text("name");
    for (TableReader& entry : table.tables("voice")) {
        Voice voice;
        voice.sound =
            static_cast<Sound>(entry.choice("sound", {"strings", "horn", "pluck", "bass"}, 0));
        if (entry.has("loudness")) voice.loudness = entry.number("loudness", {0, 1});
        if (entry.has("side")) voice.side = entry.number("side", {-1, 1});
        readNotes(entry, voice);
        entry.finish();
        part.voices.push_back(std::move(voice));
    }
    if (part.voices.empty())
        table.problemAtKey("name", "the part has no voice", "add a [[part.voice]] with its notes");
    table.finish();
    return part;
}

void readOrder(TableReader& root, Score& score) {
    const TomlValue* const order = root.find("order");
    if (order == nullptr || order->kind != TomlValue::Kind::Array) {
        for (std::size_t i = 0; i < score.parts.size(); ++i) score.order.push_back(i);
        if (order != nullptr)
            root.problemAt(*order, "order is no list of parts", "write order = [\"opening\"]");
        return;
    }
    std::vector<std::string_view> names;
    for (const Part& part : score.parts) names.push_back(part.name);
    for (const TomlValue& item : order->items) {
        const auto found = std::find(names.begin(), names.end(), item.text);
        if (item.kind == TomlValue::Kind::Text && found != names.end()) {
            score.order.push_back(static_cast<std::size_t>(found - names.begin()));
            continue;
        }
        const std::string_view nearest = nearestWord(item.text, names);
        root.problemAt(item, "there is no part \"" + item.text + "\"",
                       nearest.empty() ? std::string("name one of its [[part]]")
                                       : "did you mean \"" + std::string(nearest) + "\"?");
    }
}

/// Of the file as a whole.
void note(Problems& problems, const std::string& file, const char* what, const char* remedy) {
    Problem problem;
    problem.where.file = file;
    problem.where.line = problem.where.column = 1;
    problem.what = what;
    problem.remedy = remedy;
    problems.push_back(std::move(problem));
}

}  // namespace

double Part::beats() const {
    double most = 0;
    for (const Voice& voice : voices) {
        double beats = 0;
        for (const Note& note : voice.notes) beats += note.beats;
        most = std::max(most, beats);
    }
    return most;
}

double Score::duration_s() const {
    double beats = 0;
    for (const std::size_t part : order) beats += parts[part].beats();
    return 60 * beats / beats_per_min;
}

double pitchOf(std::string_view name) {
    constexpr std::string_view kLetters = "CDEFGAB";
    constexpr std::array<int, 7> kSteps{0, 2, 4, 5, 7, 9, 11};  // semitones above C
    if (name.size() < 2) return 0;
    const std::size_t letter = kLetters.find(name.front());
    if (letter == std::string_view::npos) return 0;
    int step = kSteps[letter];
    name.remove_prefix(1);
    if (name.front() == '#' || name.front() == 'b') {
        step += name.front() == '#' ? 1 : -1;
        name.remove_prefix(1);
    }
    if (name.size() != 1 || name.front() < '0' || name.front() > '8') return 0;
    const int from_a4 = step - 9 + 12 * (name.front() - '4');
    return 440 * std::exp2(from_a4 / 12.0);
}

Expected<Score, Problems> readScore(std::string_view toml_text, const std::string& file) {
    const auto tree = data::parseToml(toml_text, file);
    if (!tree) return Unexpected(tree.error());
    Problems problems;
    Score score;
    TableReader root(*tree, "", file, problems);
    score.name = root.text("name", false);
    score.beats_per_min = root.number("tempo", {20, 300});
    for (TableReader& table : root.tables("part")) score.parts.push_back(readPart(table));
    if (score.parts.empty())
        note(problems, file, "there is no [[part]]", "add one with its voices");
    readOrder(root, score);
    root.finish();
    if (problems.empty() && score.duration_s() > kLongest_s)
        note(problems, file, "the piece is over an hour long", "take parts out");
    if (!problems.empty()) return Unexpected(problems);
    return score;
}

}  // namespace plumbline::score
