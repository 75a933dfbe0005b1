#include "viewer/model/stand_in.h"

#include <set>
#include <utility>

#include "engine/system/whole_file.h"
#include "viewer/model/routine_blocks.h"
#include "viewer/model/shown_routine.h"
#include "viewer/model/text_buffer.h"

namespace plumbline::model {
namespace {

/// Takes the figures out that problems lie in, from the last to the first.
/// @return their names; empty: no problem lies in a figure
std::vector<std::string> takeOutWrong(std::string& text, const std::filesystem::path& file,
                                      const Problems& problems) {
    const std::vector<FigureBlock> blocks = figureBlocks(text);
    std::set<int> wrong;
    for (const Problem& problem : problems) {
        if (problem.where.file != file.generic_string() || problem.where.line < 1) continue;
        const int block = blockAt(blocks, byteOf(text, problem.where.line, problem.where.column));
        if (block >= 0) wrong.insert(block);
    }
    std::vector<std::string> names;
    for (auto block = wrong.rbegin(); block != wrong.rend(); ++block) {
        names.insert(names.begin(), blocks[static_cast<std::size_t>(*block)].name);
        text = withFigureRemoved(text, *block);
    }
    return names;
}

std::string listed(const std::vector<std::string>& names) {
    std::string words;
    for (const std::string& name : names) words += (words.empty() ? "" : ", ") + name;
    return words;
}

std::shared_ptr<const Shown> flown(load::Workspace workspace, std::uint64_t revision) {
    auto made = variant::fly(std::move(workspace), {});
    if (!made) return nullptr;
    auto path = std::make_shared<path::Path>(made->solution.samplePath(kSampleRate_hz));
    if (path->samples.empty()) return nullptr;
    return showRoutine(std::move(*made), std::move(path), revision, nullptr);
}

}  // namespace

StandIn standInFor(const std::filesystem::path& file, const load::Overrides& overrides,
                   const Problems& problems, std::uint64_t revision) {
    StandIn out;
    const system::ReadFile read = system::readWholeFile(file);
    if (!read.bytes) return out;
    std::string text = *read.bytes;
    const load::FileSource files = [&](const std::filesystem::path& wanted) {
        return wanted == file ? system::ReadFile{text, ""} : load::diskFiles()(wanted);
    };
    Problems left = problems;
    std::vector<std::string> without;
    constexpr int kRounds = 4;  // chosen: what is left may turn out wrong in its turn
    for (int round = 0; round < kRounds && !out.shown; ++round) {
        const std::vector<std::string> names = takeOutWrong(text, file, left);
        if (names.empty()) break;
        without.insert(without.end(), names.begin(), names.end());
        auto loaded = load::loadWorkspace(file, overrides, files);
        if (loaded) {
            out.shown = flown(std::move(loaded).value(), revision);
            out.words = "Shown without what is wrong in it: " + listed(without);
            break;
        }
        left = loaded.error();
    }
    if (out.shown) return out;
    if (auto demo = load::loadDemo()) out.shown = flown(std::move(demo).value(), revision);
    out.words = "Nothing of this routine can be flown yet: the demo is shown";
    return out;
}

}  // namespace plumbline::model
