#include "engine/system/feed.h"

#include <utility>

#if defined(_WIN32)
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
#elif !defined(__EMSCRIPTEN__)
#include <array>
#include <cerrno>
#include <csignal>
#include <system_error>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>
#endif

namespace plumbline::system {

#if defined(_WIN32)

namespace {

std::wstring wide(const std::string& text) {
    const int size = MultiByteToWideChar(CP_UTF8, 0, text.c_str(), -1, nullptr, 0);
    std::wstring out(size > 0 ? static_cast<std::size_t>(size) : 1, L'\0');
    MultiByteToWideChar(CP_UTF8, 0, text.c_str(), -1, out.data(), size);
    out.resize(out.size() - 1);
    return out;
}

/// One argument as the receiving program's start-up code takes command lines apart.
std::wstring quoted(const std::wstring& argument) {
    std::wstring out = L"\"";
    std::size_t slashes = 0;
    for (const wchar_t c : argument) {
        if (c == L'"') out.append(slashes + 1, L'\\');
        slashes = c == L'\\' ? slashes + 1 : 0;
        out += c;
    }
    out.append(slashes, L'\\');
    return out + L'"';
}

}  // namespace

struct Feed::Child {
    HANDLE process = nullptr;
    HANDLE input = nullptr;
};

std::optional<Feed> Feed::start(const std::vector<std::string>& arguments, std::string& reason) {
    std::wstring line;
    for (const std::string& argument : arguments) line += quoted(wide(argument)) + L' ';
    SECURITY_ATTRIBUTES inherited{sizeof(SECURITY_ATTRIBUTES), nullptr, TRUE};
    HANDLE reads = nullptr, writes = nullptr;
    if (!CreatePipe(&reads, &writes, &inherited, 1U << 20)) {
        reason = "no pipe can be made";
        return std::nullopt;
    }
    SetHandleInformation(writes, HANDLE_FLAG_INHERIT, 0);
    STARTUPINFOW start{};
    start.cb = sizeof(start);
    start.dwFlags = STARTF_USESTDHANDLES;
    start.hStdInput = reads;
    start.hStdOutput = GetStdHandle(STD_OUTPUT_HANDLE);
    start.hStdError = GetStdHandle(STD_ERROR_HANDLE);
    PROCESS_INFORMATION made{};
    const BOOL started = CreateProcessW(nullptr, line.data(), nullptr, nullptr, TRUE, 0, nullptr,
                                        nullptr, &start, &made);
    CloseHandle(reads);
    if (!started) {
        CloseHandle(writes);
        reason = "it cannot be started";
        return std::nullopt;
    }
    CloseHandle(made.hThread);
    return Feed(std::make_unique<Child>(Child{made.hProcess, writes}));
}

bool Feed::write(std::span<const std::uint8_t> bytes) {
    while (child_ && child_->input != nullptr && !bytes.empty()) {
        constexpr std::size_t kMost = 1U << 24;
        DWORD done = 0;
        const auto part = static_cast<DWORD>(bytes.size() < kMost ? bytes.size() : kMost);
        if (!WriteFile(child_->input, bytes.data(), part, &done, nullptr)) return false;
        bytes = bytes.subspan(done);
    }
    return bytes.empty();
}

int Feed::finish() {
    if (!child_) return -1;
    CloseHandle(child_->input);
    WaitForSingleObject(child_->process, INFINITE);
    DWORD code = 0;
    const bool known = GetExitCodeProcess(child_->process, &code) != 0;
    CloseHandle(child_->process);
    child_.reset();
    return known ? static_cast<int>(code) : -1;
}

#elif defined(__EMSCRIPTEN__)

struct Feed::Child {};

std::optional<Feed> Feed::start(const std::vector<std::string>&, std::string& reason) {
    reason = "a browser starts no programs";
    return std::nullopt;
}

bool Feed::write(std::span<const std::uint8_t> bytes) { return bytes.empty(); }

int Feed::finish() {
    child_.reset();
    return -1;
}

#else

extern "C" char** environ;

struct Feed::Child {
    pid_t process = -1;
    int input = -1;
};

std::optional<Feed> Feed::start(const std::vector<std::string>& arguments, std::string& reason) {
    std::array<int, 2> ends{-1, -1};
    const auto failure = [&reason](int error) {
        reason = std::generic_category().message(error);
        return std::nullopt;
    };
    if (::pipe(ends.data()) != 0) return failure(errno);
    ::fcntl(ends[1], F_SETFD, FD_CLOEXEC);
    // A reader that goes away is an error of write(), not our end.
    std::signal(SIGPIPE, SIG_IGN);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[0], 0);
    if (ends[0] != 0) posix_spawn_file_actions_addclose(&actions, ends[0]);
    std::vector<char*> words;
    for (const std::string& argument : arguments) {
        words.push_back(const_cast<char*>(argument.c_str()));  // the call's signature; not changed
    }
    words.push_back(nullptr);
    auto child = std::make_unique<Child>();
    const int error =
        ::posix_spawnp(&child->process, words[0], &actions, nullptr, words.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    ::close(ends[0]);
    if (error != 0) {
        ::close(ends[1]);
        return failure(error);
    }
    child->input = ends[1];
    return Feed(std::move(child));
}

bool Feed::write(std::span<const std::uint8_t> bytes) {
    while (child_ && !bytes.empty()) {
        const ssize_t done = ::write(child_->input, bytes.data(), bytes.size());
        if (done >= 0) {
            bytes = bytes.subspan(static_cast<std::size_t>(done));
        } else if (errno != EINTR) {
            return false;
        }
    }
    return bytes.empty();
}

int Feed::finish() {
    if (!child_) return -1;
    ::close(child_->input);
    int status = 0;
    pid_t ended = -1;
    do {
        ended = ::waitpid(child_->process, &status, 0);
    } while (ended < 0 && errno == EINTR);
    child_.reset();
    return ended > 0 && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

#endif

Feed::Feed(std::unique_ptr<Child> child) : child_(std::move(child)) {}
Feed::Feed(Feed&&) noexcept = default;

Feed& Feed::operator=(Feed&& other) noexcept {
    if (child_) finish();
    child_ = std::move(other.child_);
    return *this;
}

Feed::~Feed() {
    if (child_) finish();
}

}  // namespace plumbline::system
