#include "engine/cli/logs.h"

#include <cstdio>
#include <memory>

#include "engine/cli/pace.h"

namespace plumbline::cli {

std::vector<record::NamedBytes> Logs::named() const {
    std::vector<record::NamedBytes> out;
    for (std::size_t i = 0; i < files.size(); ++i) out.push_back({names[i], files[i].bytes()});
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

std::function<void(double, std::string_view)> progressOn(const std::string& command) {
    return [command, pace = std::make_shared<Pace>(1)](double share, std::string_view doing) {
        if (pace->due())
            std::fprintf(stderr, "%s: %.0f %%, %.*s\n", command.c_str(), 100 * share,
                         static_cast<int>(doing.size()), doing.data());
    };
}

}  // namespace plumbline::cli
