#include "engine/system/give_way.h"

#if defined(_WIN32)
#include <windows.h>
#elif defined(__linux__) && !defined(__EMSCRIPTEN__)
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>
#endif

namespace plumbline::system {

void giveWay() {
#if defined(_WIN32)
    SetThreadPriority(GetCurrentThread(), THREAD_PRIORITY_BELOW_NORMAL);
#elif defined(__linux__) && !defined(__EMSCRIPTEN__)
    constexpr int kNice = 5;  // chosen: a third of what an ordinary thread gets beside it
    // A thread is a process to the scheduler; what it begins takes its niceness over.
    static_cast<void>(setpriority(PRIO_PROCESS, static_cast<id_t>(syscall(SYS_gettid)), kNice));
#endif
}

}  // namespace plumbline::system
