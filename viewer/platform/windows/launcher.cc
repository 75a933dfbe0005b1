// plumbline-window.exe: what is clicked on, or has files dropped on it. Starts `plumbline.exe show`
// beside it without a console, and shows in a box what that would have said to one. A program of
// its own, since Windows decides by the file whether it gives a console: plumbline.exe needs one,
// as a command that waits, prints and has an exit code; one that lets its console go would flash.

#define WIN32_LEAN_AND_MEAN
#define NOMINMAX
#include <string>

#include <windows.h>

namespace {

void show(const std::wstring& what) {
    MessageBoxW(nullptr, what.c_str(), L"Plumbline", MB_OK | MB_ICONERROR);
}

std::wstring wide(const std::string& text) {
    const int length = static_cast<int>(text.size());
    std::wstring out(
        static_cast<std::size_t>(MultiByteToWideChar(CP_UTF8, 0, text.data(), length, nullptr, 0)),
        L'\0');
    MultiByteToWideChar(CP_UTF8, 0, text.data(), length, out.data(), static_cast<int>(out.size()));
    return out;
}

/// plumbline.exe in this program's own folder.
std::wstring besideUs() {
    std::wstring path(32768, L'\0');  // the longest that a path may be
    path.resize(GetModuleFileNameW(nullptr, path.data(), static_cast<DWORD>(path.size())));
    return path.substr(0, path.find_last_of(L'\\') + 1) + L"plumbline.exe";
}

/// The last of what is written into a pipe, until nobody writes any more.
std::string endOf(HANDLE pipe) {
    constexpr std::size_t kMost = 4000;  // chosen: fills a box
    std::string out;
    char block[1024];
    DWORD got = 0;
    while (ReadFile(pipe, block, sizeof(block), &got, nullptr) && got > 0) {
        out.append(block, got);
        if (out.size() > 2 * kMost) out.erase(0, out.size() - kMost);
    }
    return out;
}

}  // namespace

int WINAPI wWinMain(HINSTANCE, HINSTANCE, PWSTR files, int) {
    const std::wstring program = besideUs();
    std::wstring line = L"\"" + program + L"\" show " + files;
    SECURITY_ATTRIBUTES inherited{sizeof(SECURITY_ATTRIBUTES), nullptr, TRUE};
    HANDLE reads = nullptr, writes = nullptr;
    if (!CreatePipe(&reads, &writes, &inherited, 0)) return 70;
    SetHandleInformation(reads, HANDLE_FLAG_INHERIT, 0);
    STARTUPINFOW start{};
    start.cb = sizeof(start);
    start.dwFlags = STARTF_USESTDHANDLES;
    start.hStdOutput = writes;
    start.hStdError = writes;
    PROCESS_INFORMATION made{};
    const BOOL started = CreateProcessW(program.c_str(), line.data(), nullptr, nullptr, TRUE,
                                        CREATE_NO_WINDOW, nullptr, nullptr, &start, &made);
    CloseHandle(writes);
    if (!started) {
        show(
            L"plumbline.exe cannot be started. It belongs into the same folder as this program: "
            L"unpack the whole archive and try again.");
        return 2;
    }
    AllowSetForegroundWindow(made.dwProcessId);
    const std::string said = endOf(reads);
    WaitForSingleObject(made.hProcess, INFINITE);
    DWORD code = 0;
    GetExitCodeProcess(made.hProcess, &code);
    if (code > 1) {
        show(said.empty() ? L"Plumbline ended unexpectedly (" + std::to_wstring(code) + L")."
                          : wide(said));
    }
    return static_cast<int>(code);
}
