// The functions that the program calls: window_web.cc, audio_web.cc, main.cc.
mergeInto(LibraryManager.library, {
    plumbline_listen: function () { Module.plumblineWindow.listen(); },
    plumbline_measure: function () { Module.plumblineWindow.measure(); },
    plumbline_width: function () { return Module.plumblineWindow.canvas.width; },
    plumbline_height: function () { return Module.plumblineWindow.canvas.height; },
    plumbline_ratio: function () { return Module.plumblineWindow.ratio; },
    plumbline_title: function (text) { document.title = UTF8ToString(text); },
    plumbline_cursor: function (shape) {
        Module.plumblineWindow.canvas.style.cursor = ["default", "text", "pointer", "ew-resize", "ns-resize", "crosshair"][shape];
    },
    plumbline_full_screen: function (on) { Module.plumblineWindow.fullScreen(on !== 0); },
    plumbline_is_full_screen: function () { return document.fullscreenElement ? 1 : 0; },
    plumbline_copy: function (text) { Module.plumblineWindow.copy(UTF8ToString(text)); },
    plumbline_clipboard: function () {
        const size = lengthBytesUTF8(Module.plumblineWindow.clipboard) + 1;
        const text = _malloc(size);
        stringToUTF8(Module.plumblineWindow.clipboard, text, size);
        return text;
    },
    plumbline_wants_text: function (wanted) { Module.plumblineWindow.hearsText(wanted !== 0); },
    plumbline_light: function () { return window.matchMedia("(prefers-color-scheme: light)").matches ? 1 : 0; },
    plumbline_coarse: function () { return window.matchMedia("(pointer: coarse)").matches ? 1 : 0; },
    plumbline_offer: function (name, bytes, size) {
        Module.plumblineWindow.offer(UTF8ToString(name), HEAPU8.slice(bytes, bytes + size));
    },
    plumbline_print: function (html) { Module.plumblineWindow.print(UTF8ToString(html)); },
    plumbline_keep: function () { FS.syncfs(false, function () {}); },
    plumbline_keep__deps: ["$FS"],
    plumbline_sound_begin: function (frames) { return Module.plumblineWindow.soundBegin(frames); },
    plumbline_sound_end: function () { Module.plumblineWindow.soundEnd(); },
});
