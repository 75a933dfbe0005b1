#include "engine/out/viewer_page.h"

#include <algorithm>
#include <utility>

#include "engine/load/carried.h"
#include "engine/out/page_file.h"
#include "engine/system/program_file.h"
#include "engine/variant/wish_words.h"

namespace plumbline::out {
namespace {

namespace fs = std::filesystem;

constexpr const char* kVariable = "PLUMBLINE_PAGE";
constexpr const char* kViewer = "plumbline.html";

Problems problemOf(std::string file, std::string what, std::string remedy) {
    Problem problem;
    problem.where.file = std::move(file);
    problem.what = std::move(what);
    problem.remedy = std::move(remedy);
    return {std::move(problem)};
}

/// Where it may lie, the likeliest first.
std::vector<fs::path> places() {
    const fs::path named = system::fileFromEnvironment(kVariable);
    if (!named.empty()) return {named};
    const fs::path folder = system::programFile().parent_path();
    if (folder.empty()) return {};
    return {folder / kViewer, folder.parent_path() / "share" / "plumbline" / kViewer,
            folder.parent_path().parent_path() / "page" / "bin" / kViewer};
}

/// A name that no other file of the page has.
std::string freeName(const PageContent& content, const std::string& wanted) {
    std::string name = wanted;
    const auto taken = [&] {
        return std::any_of(content.files.begin(), content.files.end(),
                           [&](const load::Carried::File& file) { return file.name == name; });
    };
    for (int i = 2; taken(); ++i) name = std::to_string(i) + "-" + wanted;
    return name;
}

Expected<load::Carried, Problems> carriedOf(const PageWish& wish) {
    if (!wish.routine.empty()) return load::filesToCarry(wish.routine, wish.overrides, wish.files);
    // The page has the demo, but beside recordings it is to be named.
    if (wish.logs.empty()) return load::demoFilesToCarry(wish.overrides);
    return load::filesToCarry("demo/demo.routine.toml", wish.overrides, load::builtInFiles());
}

Problems addLogs(const PageWish& wish, PageContent& content) {
    for (const fs::path& log : wish.logs) {
        system::ReadFile file = system::readWholeFile(log);
        if (!file.bytes)
            return problemOf(log.generic_string(), "this recording cannot be read: " + file.reason,
                             "check the name and the folder");
        const std::string name = freeName(content, log.filename().generic_string());
        content.files.push_back({name, std::move(*file.bytes)});
        content.open.push_back(name);
    }
    return {};
}

}  // namespace

Expected<std::string, Problems> viewerForBrowsers() {
    std::string looked;
    for (const fs::path& place : places()) {
        system::ReadFile file = system::readWholeFile(place);
        if (file.bytes) return std::move(*file.bytes);
        looked += (looked.empty() ? "looked for " : ", ") + place.generic_string();
    }
    return Unexpected(problemOf(kPageName, "the viewer for browsers is not installed",
                                "build it (third_party/web_page.sh of the source), or name "
                                "it by the variable PLUMBLINE_PAGE; " +
                                    looked));
}

Expected<ViewerPage, Problems> makeViewerPage(std::string_view viewer, const PageWish& wish) {
    auto carried = carriedOf(wish);
    if (!carried) return Unexpected(std::move(carried).error());
    PageContent content;
    content.files = std::move(carried->files);
    content.options = variant::wishWords(wish.variant);
    if (!carried->routine.empty()) content.open.push_back(carried->routine);
    const auto addOption = [&](const char* option, const std::string& value) {
        if (!value.empty()) content.options.insert(content.options.end(), {option, value});
    };
    addOption("--site", carried->site);
    addOption("--weather", carried->weather);
    if (Problems problems = addLogs(wish, content); !problems.empty())
        return Unexpected(std::move(problems));
    std::size_t bytes = 0;
    for (const load::Carried::File& file : content.files) bytes += file.bytes.size();
    if (bytes > kGreatestLoad_bytes)
        return Unexpected(problemOf(
            kPageName, "its files have " + std::to_string(bytes >> 20U) + " MB, too much for mail",
            "12 MB are carried: give a shorter recording, or one that was exported thinner"));
    std::optional<std::string> html = pageWith(viewer, content);
    if (!html)
        return Unexpected(problemOf(kPageName, "the viewer for browsers is none of this program's",
                                    "build or install it anew"));
    return ViewerPage{std::move(*html), content.files.size(), std::move(carried->left_out)};
}

}  // namespace plumbline::out
