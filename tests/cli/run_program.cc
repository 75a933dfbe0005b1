#include "tests/cli/run_program.h"

#include <filesystem>
#include <fstream>
#include <iterator>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>

extern char** environ;

namespace plumbline {

namespace {

std::string contentOf(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
}

}  // namespace

ProgramRun runProgram(const std::string& folder, const std::vector<std::string>& arguments) {
    // Beside the folder, so that the folder shows only what the program itself wrote.
    const std::string out_file = folder + ".stdout";
    const std::string err_file = folder + ".stderr";
    std::string program = PLUMBLINE_BINARY;
    std::vector<std::string> words = arguments;
    std::vector<char*> argv = {program.data()};
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, out_file.c_str(), O_CREAT | O_TRUNC | O_WRONLY,
                                     0600);
    posix_spawn_file_actions_addopen(&actions, 2, err_file.c_str(), O_CREAT | O_TRUNC | O_WRONLY,
                                     0600);
    posix_spawn_file_actions_addchdir_np(&actions, folder.c_str());
    pid_t pid = 0;
    ProgramRun run;
    const int failed = posix_spawn(&pid, program.c_str(), &actions, nullptr, argv.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) return run;
    int status = 0;
    waitpid(pid, &status, 0);
    if (WIFEXITED(status)) run.exit_code = WEXITSTATUS(status);
    run.out = contentOf(out_file);
    run.err = contentOf(err_file);
    std::filesystem::remove(out_file);
    std::filesystem::remove(err_file);
    return run;
}

}  // namespace plumbline
