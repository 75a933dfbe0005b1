#include "engine/cli/logs.h"

#include <cstdio>
#include <memory>

#include "engine/cli/pace.h"
#include "engine/system/parallel.h"

namespace plumbline::cli {

std::vector<record::NamedBytes> Logs::named() {
    std::vector<record::NamedBytes> out;
    for (std::size_t i = 0; i < files.size(); ++i)
        out.push_back({names[i], files[i].bytes(), [this, i] { files[i] = {}; }});
    return out;
}

Expected<Logs, Problems> openLogs(const std::vector<std::string>& names) {
    Logs logs;
    logs.names = names;
    logs.files.resize(names.size());
    Problems problems;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string reason = logs.files[i].open(names[i]);
        if (reason.empty()) continue;
        Problem problem;
        problem.where.file = names[i];
        problem.what = "this recording cannot be read: " + reason;
        problem.remedy = "check the name and the folder";
        problems.push_back(std::move(problem));
    }
    if (!problems.empty()) return Unexpected(std::move(problems));
    return logs;
}

record::Wishes wishesOf(const std::string& command) {
    record::Wishes wishes;
    // Two parts at once is what every machine has cores for; each holds some hundred megabytes.
    wishes.run = system::parallel(2);
    wishes.at_once = 2;
    wishes.progress = [command, pace = std::make_shared<Pace>(1)](double share,
                                                                  std::string_view doing) {
        if (pace->due())
            std::fprintf(stderr, "%s: %.0f %%, %.*s\n", command.c_str(), 100 * share,
                         static_cast<int>(doing.size()), doing.data());
    };
    return wishes;
}

}  // namespace plumbline::cli
