// Drops a file on a window as a file manager does: the XDND protocol, version 5 (freedesktop.org).
// Usage: drop WINDOW FILE; exit status 0 once the window has taken it.

#include <cstdio>
#include <cstdlib>
#include <string>

#include <X11/Xatom.h>
#include <X11/Xlib.h>
#include <unistd.h>

namespace {

Display* display = nullptr;
Window target = 0, source = 0;

Atom atom(const char* name) { return XInternAtom(display, name, False); }

void tell(const char* what, long b, long c, long d, long e) {
    XEvent event{};
    event.xclient.type = ClientMessage;
    event.xclient.window = target;
    event.xclient.message_type = atom(what);
    event.xclient.format = 32;
    event.xclient.data.l[0] = static_cast<long>(source);
    event.xclient.data.l[1] = b;
    event.xclient.data.l[2] = c;
    event.xclient.data.l[3] = d;
    event.xclient.data.l[4] = e;
    XSendEvent(display, target, False, NoEventMask, &event);
    XFlush(display);
}

/// The window asks for the names.
void answer(const XSelectionRequestEvent& asked, const std::string& list) {
    XChangeProperty(display, asked.requestor, asked.property, asked.target, 8, PropModeReplace,
                    reinterpret_cast<const unsigned char*>(list.data()),
                    static_cast<int>(list.size()));
    XEvent event{};
    event.xselection.type = SelectionNotify;
    event.xselection.requestor = asked.requestor;
    event.xselection.selection = asked.selection;
    event.xselection.target = asked.target;
    event.xselection.property = asked.property;
    event.xselection.time = asked.time;
    XSendEvent(display, asked.requestor, False, NoEventMask, &event);
    XFlush(display);
}

}  // namespace

int main(int argc, char** argv) {
    display = argc == 3 ? XOpenDisplay(nullptr) : nullptr;
    if (display == nullptr) {
        std::fprintf(stderr, "drop: wants WINDOW FILE and a display\n");
        return 2;
    }
    target = static_cast<Window>(std::strtoul(argv[1], nullptr, 0));
    const std::string list = "file://" + std::string(argv[2]) + "\r\n";
    source = XCreateSimpleWindow(display, DefaultRootWindow(display), 0, 0, 1, 1, 0, 0, 0);
    const Atom selection = atom("XdndSelection");
    XSetSelectionOwner(display, selection, source, CurrentTime);
    tell("XdndEnter", 5L << 24, static_cast<long>(atom("text/uri-list")), 0, 0);
    tell("XdndPosition", 0, (800L << 16) | 450, CurrentTime,
         static_cast<long>(atom("XdndActionCopy")));
    bool dropped = false;
    for (int waited_ms = 0; waited_ms < 20000; waited_ms += 20) {
        while (XPending(display) > 0) {
            XEvent event;
            XNextEvent(display, &event);
            if (event.type == SelectionRequest) answer(event.xselectionrequest, list);
            if (event.type != ClientMessage) continue;
            const Atom told = event.xclient.message_type;
            if (told == atom("XdndFinished")) return 0;
            if (told == atom("XdndStatus") && !dropped) {
                dropped = true;
                tell("XdndDrop", 0, CurrentTime, 0, 0);
            }
        }
        usleep(20000);
    }
    std::fprintf(stderr, "drop: the window did not take it\n");
    return 1;
}
