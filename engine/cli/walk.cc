// plumbline walk: the routine called out, to be walked on the ground with the hands.

#include <cstdio>

#include "engine/check/check.h"
#include "engine/check/gates.h"
#include "engine/cli/commands.h"
#include "engine/cli/options.h"
#include "engine/cli/table.h"
#include "engine/walk/calls.h"
#include "engine/walk/track.h"

namespace plumbline::cli {

namespace {

constexpr double kLongestLead_s = 10;
constexpr double kRate_hz = 50;  // chosen: the gates and the lowest points to a metre

void printCalls(const walk::Calls& calls) {
    std::vector<std::vector<std::string>> rows = {{"call", "from", "begins"}};
    for (const walk::Call& call : calls.calls) {
        rows.push_back({call.words, call.time_s < 0 ? "before" : units::formatTime(call.time_s),
                        units::formatTime(call.begins_s)});
    }
    printTable(stdout, rows);
    if (calls.left_out > 0) {
        std::printf("%zu more found no room between the others\n", calls.left_out);
    }
}

}  // namespace

int runWalk(const Arguments& arguments) {
    OptionParser parser("walk",
                        "Calls a routine out in real time, so that it can be walked on the ground "
                        "with the hands: each element a little before it begins, gates at the "
                        "tops, the lowest height of each figure. With -o as sound: spoken where "
                        "the system has espeak-ng, else as tones.",
                        "plumbline walk evening.routine.toml\n"
                        "  plumbline walk demo --lead 2s -o walk.wav");
    RoutineOptions options;
    walk::CallWishes wishes;
    std::string output, lead, voice = "en";
    bool tones = false;
    addRoutineOptions(parser.app(), options);
    parser.app()
        .add_option("-o,--output", output, "the sound, a name that ends in .wav")
        ->type_name("FILE");
    parser.app()
        .add_option("--lead", lead, "from a call's first word to what it announces, default 1.5s")
        ->type_name("TIME");
    parser.app()
        .add_option("--pace", wishes.words_a_minute, "words a minute of the voice, default 190")
        ->check(CLI::Range(80.0, 400.0));
    parser.app()
        .add_option("--voice", voice, "of espeak-ng: a language such as en or de, default en")
        ->type_name("NAME");
    parser.app().add_flag("--tones", tones, "tones, also where there is a voice");
    addUnitsOption(parser.app(), wishes.units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    if (!lead.empty()) {
        const auto lead_s = units::parseQuantity(lead, units::Dimension::Time);
        if (!lead_s) return refuse("--lead", lead_s.error().what, lead_s.error().remedy);
        if (*lead_s < 0 || *lead_s > kLongestLead_s) {
            return refuse("--lead", "\"" + lead + "\" is no lead", "give 0 s to 10 s");
        }
        wishes.lead_s = *lead_s;
    }
    if (!output.empty() && !output.ends_with(".wav")) {
        return refuse(output, "only .wav can be written", "give it a name that ends in .wav");
    }
    const Expected<variant::Flown, Problems> flown = flyRoutine(options, wishes.units);
    if (!flown) return refuse(flown.error());
    if (const int refused = refuseOverwriting(output, {options.routine})) return refused;
    printRemarks(options.routine, flown->remarks);

    const load::Workspace& workspace = flown->workspace;
    const path::Path path = flown->solution.samplePath(kRate_hz);
    const walk::Calls calls = walk::callsOf(
        workspace.routine, path,
        check::gatesOf(workspace.aircraft, workspace.site, workspace.pilot, flown->solution, path),
        wishes);
    if (!output.empty()) {
        walk::Voice speaker;
        bool spoken = false;
        if (!tones) {
            speaker = walk::systemVoice(voice, wishes.words_a_minute);
            spoken = speaker("ready").has_value();
            if (!spoken) {
                std::fprintf(stderr,
                             "plumbline: no voice \"%s\": the calls are tones; install espeak-ng "
                             "or choose another --voice\n",
                             voice.c_str());
            }
        }
        const std::string sound = walk::waveFile(
            walk::trackOf(calls, path.duration_s(), spoken ? speaker : walk::Voice()));
        if (const int failed = writeResult(output, sound)) return failed;
        std::printf("%s long, %s, the show begins after %.0f s: %s\n",
                    units::formatTime(path.duration_s() + walk::kRunIn_s).c_str(),
                    spoken ? "spoken" : "tones", walk::kRunIn_s, output.c_str());
    }
    printCalls(calls);
    std::printf("%s\n", check::caution());
    return kDone;
}

}  // namespace plumbline::cli
