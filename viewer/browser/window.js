// The browser's window: input, sizes, files that are brought, sound. All of it goes to the program as events (window_web.cc, whose
// enumerations the numbers here follow). The program's own script calls it (library.js); emscripten's tools do not read this file.
"use strict";
const plumblineWindow = {
    program: null,
    canvas: null,
    typed: null,
    wantsText: false,
    turnsToKeyboard: 0,
    clipboard: "",
    ratio: 1,
    touches: new Map(),
    spread: 0,
    KIND: { keyDown: 0, keyUp: 1, character: 2, move: 3, down: 4, up: 5, scroll: 6, focus: 7, resize: 8, drop: 9 },
    NAMED: {
        Escape: 128, Enter: 129, Tab: 130, Backspace: 131, Insert: 132, Delete: 133, ArrowRight: 134, ArrowLeft: 135,
        ArrowDown: 136, ArrowUp: 137, PageUp: 138, PageDown: 139, Home: 140, End: 141, Shift: 180, Control: 181, Alt: 182, Meta: 183,
    },

    keyOf(event) {
        const { NAMED } = plumblineWindow;
        if (event.key === "Enter" && event.code === "NumpadEnter") return 142;
        if (event.key in NAMED) return NAMED[event.key] + (event.location === 2 && NAMED[event.key] >= 180 ? 4 : 0);
        const f = /^F([0-9]{1,2})$/.exec(event.key);
        if (f && +f[1] >= 1 && +f[1] <= 12) return 159 + +f[1];
        // With Shift the sign printed above is reported; the key is meant. Letters as the layout has them.
        if (/^[a-z]$/i.test(event.key)) return event.key.toUpperCase().charCodeAt(0);
        const digit = /^(?:Digit|Numpad)([0-9])$/.exec(event.code);
        if (digit) return digit[1].charCodeAt(0);
        const signs = { Space: 32, Quote: 39, Comma: 44, Minus: 45, Period: 46, Slash: 47, Semicolon: 59, Equal: 61,
                        BracketLeft: 91, Backslash: 92, BracketRight: 93, Backquote: 96 };
        return event.code in signs ? signs[event.code] : 0;
    },
    modifiers(event) {
        return (event.shiftKey ? 1 : 0) | (event.ctrlKey ? 2 : 0) | (event.altKey ? 4 : 0) | (event.metaKey ? 8 : 0);
    },
    send(kind, code, x, y, sx, sy, modifiers, repeated) {
        plumblineWindow.program._plumbline_event(kind, code, x || 0, y || 0, sx || 0, sy || 0, modifiers || 0, repeated ? 1 : 0);
    },
    sendText(text) {
        for (const letter of text) {
            const code = letter.codePointAt(0);
            if (code >= 32 && code !== 127) plumblineWindow.send(plumblineWindow.KIND.character, code);
        }
    },
    tap(key, modifiers) {
        const { KIND, send } = plumblineWindow;
        send(KIND.keyDown, key, 0, 0, 0, 0, modifiers);
        send(KIND.keyUp, key, 0, 0, 0, 0, modifiers);
    },
    /// The pointer's place in pixels of the canvas.
    place(event) {
        const box = plumblineWindow.canvas.getBoundingClientRect();
        const ratio = plumblineWindow.ratio;
        return [(event.clientX - box.left) * ratio, (event.clientY - box.top) * ratio];
    },
    measure() {
        const { canvas, KIND, send } = plumblineWindow;
        plumblineWindow.ratio = window.devicePixelRatio || 1;
        const width = Math.max(1, Math.round(canvas.clientWidth * plumblineWindow.ratio));
        const height = Math.max(1, Math.round(canvas.clientHeight * plumblineWindow.ratio));
        if (canvas.width !== width || canvas.height !== height) {
            canvas.width = width;
            canvas.height = height;
            send(KIND.resize, 0);
        }
    },
    /// The place of typing; only where there are keys without it does a soft keyboard stay away.
    focusText() {
        const { typed } = plumblineWindow;
        typed.value = "\u00b7";
        typed.focus({ preventScroll: true });
        typed.setSelectionRange(1, 1);
    },
    async takeFiles(files) {
        const { KIND, program, send } = plumblineWindow;
        const brought = await Promise.all(files.map(async (file) => ({
            // The folder is ours; a name is only a name.
            path: "/files/" + (file.name.replace(/[\/\\\0]/g, "_") || "file"),
            bytes: new Uint8Array(await file.arrayBuffer()),
        })));
        // From here on without a pause, in which the program would take them for its own.
        for (const { path, bytes } of brought) {
            program.FS.writeFile(path, bytes);
            program.ccall("plumbline_brought", null, ["string"], [path]);
        }
        // Aircraft, site, weather lie beside the routine that names them; only if none is brought they are told of.
        const opened = brought.filter(({ path }) => !path.endsWith(".toml") || path.endsWith(".routine.toml"));
        for (const { path } of opened) program.ccall("plumbline_dropped", null, ["string"], [path]);
        if (opened.length === 0) {
            for (const { path } of brought) program.ccall("plumbline_at_hand", null, ["string"], [path]);
            return;
        }
        send(KIND.drop, 0);
    },
    listenToKeys() {
        const { KIND, send, typed } = plumblineWindow;
        const coarse = window.matchMedia("(pointer: coarse)").matches;
        window.addEventListener("keydown", (event) => {
            if (event.isComposing || event.keyCode === 229) return;
            const command = event.ctrlKey || event.metaKey;
            const letter = event.key.length === 1 ? event.key.toLowerCase() : event.key;
            // The browser's own: its tools, its size of letters, a new load, the address.
            if (command && /^[-+0rltw]$/.test(letter)) return;
            if (event.key === "F12" || (command && event.shiftKey && letter === "i")) return;
            if (command && letter === "v") return;  // the paste event brings the text
            if (document.activeElement !== typed && !coarse) plumblineWindow.focusText();
            send(KIND.keyDown, plumblineWindow.keyOf(event), 0, 0, 0, 0, plumblineWindow.modifiers(event) & (event.metaKey ? ~8 : ~0) |
                 (event.metaKey ? 2 : 0), event.repeat);
            const types = event.key.length === 1 && !command;
            if (types && document.activeElement !== typed) plumblineWindow.sendText(event.key);
            if (!types) event.preventDefault();
        });
        window.addEventListener("keyup", (event) => {
            send(KIND.keyUp, plumblineWindow.keyOf(event), 0, 0, 0, 0, plumblineWindow.modifiers(event));
        });
        typed.addEventListener("beforeinput", (event) => {
            if (event.isComposing) return;
            const kind = event.inputType;
            if (kind === "insertFromPaste") {
                // the paste event has it
            } else if (kind.startsWith("insert") && event.data) {
                plumblineWindow.sendText(event.data);
            } else if (kind === "insertLineBreak" || kind === "insertParagraph") {
                if (coarse) plumblineWindow.tap(129, 0);
            } else if (kind === "deleteContentBackward" && coarse) {
                plumblineWindow.tap(131, 0);
            }
            event.preventDefault();
        });
        typed.addEventListener("compositionend", (event) => {
            plumblineWindow.sendText(event.data || "");
            plumblineWindow.focusText();
        });
        document.addEventListener("paste", (event) => {
            plumblineWindow.clipboard = event.clipboardData ? event.clipboardData.getData("text/plain") : "";
            plumblineWindow.tap(86, 2);
            event.preventDefault();
        });
        if (!coarse) plumblineWindow.focusText();
    },
    /// One finger as the mouse it stands for. Down on what scrolls it waits: a tap presses, a way up or down scrolls, one across or a
    /// moment's rest begins to drag.
    finger: {
        state: "none",  // waits, holds, scrolls
        from: [0, 0],
        off: [0, 0],
        last_y: 0,
        timer: 0,
        begin() {
            const { finger, KIND, send } = plumblineWindow;
            finger.state = "holds";
            send(KIND.move, 0, ...finger.from);
            send(KIND.down, 0, ...finger.from);
        },
        down(x, y) {
            const { finger, program, ratio } = plumblineWindow;
            const LEAST = 40, REST_MS = 400;  // chosen: points that a finger hits well; as long as systems take for a long press
            const least = LEAST * ratio;
            finger.from = [program._plumbline_meant_x(x, y, least), program._plumbline_meant_y(x, y, least)];
            finger.off = [finger.from[0] - x, finger.from[1] - y];
            finger.last_y = y;
            if (program._plumbline_scrolls(x, y) === 0) {
                finger.begin();
                return;
            }
            finger.state = "waits";
            plumblineWindow.send(plumblineWindow.KIND.move, 0, ...finger.from);
            finger.timer = setTimeout(() => { if (finger.state === "waits") finger.begin(); }, REST_MS);
        },
        move(x, y) {
            const { finger, KIND, ratio, send } = plumblineWindow;
            const at = [x + finger.off[0], y + finger.off[1]];
            if (finger.state === "waits") {
                const across = Math.abs(at[0] - finger.from[0]), along = Math.abs(at[1] - finger.from[1]);
                const STILL = 10 * ratio;  // chosen: what a resting finger wanders
                if (Math.max(across, along) < STILL) return;
                clearTimeout(finger.timer);
                if (across > along) finger.begin();
                else finger.state = "scrolls";
            }
            if (finger.state === "holds") send(KIND.move, 0, ...at);
            if (finger.state !== "scrolls") return;
            const NOTCH = 60 * ratio;  // chosen: about what panels move for one of a wheel
            send(KIND.move, 0, ...finger.from);
            send(KIND.scroll, 0, ...finger.from, 0, (y - finger.last_y) / NOTCH);
            finger.last_y = y;
        },
        up(x, y) {
            const { finger, KIND, send } = plumblineWindow;
            clearTimeout(finger.timer);
            if (finger.state === "waits") finger.begin();
            if (finger.state === "holds") {
                send(KIND.up, 0, x + finger.off[0], y + finger.off[1]);
                plumblineWindow.showKeyboard();
            }
            finger.state = "none";
            send(KIND.move, 0, -1e4, -1e4);  // no finger hovers
        },
        /// Another finger came.
        leave() {
            const { finger, KIND, send } = plumblineWindow;
            clearTimeout(finger.timer);
            if (finger.state === "holds") send(KIND.up, 0, -1e6, -1e6);  // nowhere: neither a click nor a drag
            finger.state = "none";
        },
    },
    listenToPointer() {
        const { canvas, finger, KIND, send, touches } = plumblineWindow;
        const button = (event) => [0, 2, 1, 3, 4][event.button] || 0;
        const pair = () => {
            const [a, b] = [...touches.values()];
            return { x: (a[0] + b[0]) / 2, y: (a[1] + b[1]) / 2, spread: Math.hypot(a[0] - b[0], a[1] - b[1]) };
        };
        canvas.addEventListener("pointerdown", (event) => {
            const [x, y] = plumblineWindow.place(event);
            canvas.setPointerCapture(event.pointerId);
            event.preventDefault();
            if (event.pointerType === "touch") {
                touches.set(event.pointerId, [x, y]);
                if (touches.size === 1) finger.down(x, y);
                if (touches.size === 2) {
                    finger.leave();  // what one finger began is let go
                    plumblineWindow.spread = pair().spread;
                }
                return;
            }
            if (document.activeElement !== plumblineWindow.typed) plumblineWindow.focusText();
            send(KIND.move, 0, x, y);
            send(KIND.down, button(event), x, y, 0, 0, plumblineWindow.modifiers(event));
        });
        canvas.addEventListener("pointermove", (event) => {
            const [x, y] = plumblineWindow.place(event);
            if (event.pointerType !== "touch") {
                send(KIND.move, 0, x, y);
                return;
            }
            if (!touches.has(event.pointerId)) return;
            touches.set(event.pointerId, [x, y]);
            if (touches.size === 1) finger.move(x, y);
            if (touches.size !== 2) return;
            const now = pair();
            const before = plumblineWindow.spread;
            if (now.spread > 1 && before > 1) {
                send(KIND.move, 0, now.x, now.y);
                // A notch of a wheel is a tenth more or less.
                send(KIND.scroll, 0, now.x, now.y, 0, Math.log(now.spread / before) / Math.log(1.1));
            }
            plumblineWindow.spread = now.spread;
        });
        const end = (event) => {
            const [x, y] = plumblineWindow.place(event);
            if (event.pointerType !== "touch") {
                send(KIND.up, button(event), x, y, 0, 0, plumblineWindow.modifiers(event));
                return;
            }
            const alone = touches.size === 1;
            touches.delete(event.pointerId);
            if (alone) finger.up(x, y);
        };
        canvas.addEventListener("pointerup", end);
        canvas.addEventListener("pointercancel", end);
        canvas.addEventListener("pointerleave", (event) => {
            if (event.pointerType === "mouse" && event.buttons === 0) send(KIND.move, 0, -1e4, -1e4);
        });
        canvas.addEventListener("wheel", (event) => {
            const [x, y] = plumblineWindow.place(event);
            const notch = [100, 3, 1][event.deltaMode];
            send(KIND.scroll, 0, x, y, -event.deltaX / notch, -event.deltaY / notch);
            event.preventDefault();
        }, { passive: false });
        canvas.addEventListener("contextmenu", (event) => event.preventDefault());
    },
    /// After a tap: the soft keyboard comes where text is wanted and goes elsewhere, once the program has seen press and release in
    /// turns of their own and said so in one more.
    showKeyboard() { plumblineWindow.turnsToKeyboard = 4; },
    /// Told by the program in each turn.
    hearsText(wanted) {
        plumblineWindow.wantsText = wanted;
        if (plumblineWindow.turnsToKeyboard === 0 || --plumblineWindow.turnsToKeyboard > 0) return;
        if (wanted) plumblineWindow.focusText();
        else plumblineWindow.typed.blur();
    },
    /// What tablets have no keys for.
    listenToBar() {
        for (const button of document.querySelectorAll("#bar button")) {
            button.addEventListener("pointerdown", (event) => event.preventDefault());  // the place of typing keeps its focus
            button.addEventListener("click", () => {
                const { does, key, modifiers } = button.dataset;
                if (does === "files") document.getElementById("chosen").click();
                else if (does === "keyboard") plumblineWindow.focusText();
                else plumblineWindow.tap(+key, +(modifiers || 0));
            });
        }
    },
    listen() {
        const { KIND, send } = plumblineWindow;
        plumblineWindow.canvas = document.getElementById("picture");
        plumblineWindow.typed = document.getElementById("typed");
        plumblineWindow.listenToPointer();
        plumblineWindow.listenToKeys();
        plumblineWindow.listenToBar();
        for (const kind of ["pointerup", "keydown"]) window.addEventListener(kind, () => plumblineWindow.wakeSound());
        window.addEventListener("blur", () => send(KIND.focus, 0));
        window.addEventListener("focus", () => send(KIND.focus, 1));
        window.addEventListener("dragover", (event) => event.preventDefault());
        window.addEventListener("drop", (event) => {
            event.preventDefault();
            if (event.dataTransfer) plumblineWindow.takeFiles([...event.dataTransfer.files]);
        });
        const chosen = document.getElementById("chosen");
        chosen.addEventListener("change", () => {
            plumblineWindow.takeFiles([...chosen.files]);
            chosen.value = "";
        });
        plumblineWindow.measure();
    },
    fullScreen(on) {
        const page = document.documentElement;
        const change = on ? page.requestFullscreen && page.requestFullscreen() : document.fullscreenElement && document.exitFullscreen();
        if (change && change.catch) change.catch(() => {});
    },
    copy(words) {
        plumblineWindow.clipboard = words;
        if (navigator.clipboard && navigator.clipboard.writeText) navigator.clipboard.writeText(words).catch(() => {});
    },
    /// A file that was written goes where the browser puts what is saved.
    offer(name, bytes) {
        const link = document.createElement("a");
        link.href = URL.createObjectURL(new Blob([bytes]));
        link.download = name;
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    },
    /// The browser's print sheet shows this instead of the picture (page.html). Whoever wrote the words of the routine: they come
    /// escaped, and the page's policy runs nothing that stands in them.
    print(html) {
        document.getElementById("printed").innerHTML = html;
        window.print();
    },
    sound: null,
    /// @return the rate in hertz; 0: no sound
    soundBegin(frames) {
        const Context = window.AudioContext || window.webkitAudioContext;
        if (!Context) return 0;
        const context = new Context();
        const source = context.createScriptProcessor(frames, 0, 2);
        source.onaudioprocess = (event) => {
            const { program } = plumblineWindow;
            const from = program._plumbline_sound() >> 2;
            const [left, right] = [0, 1].map((side) => event.outputBuffer.getChannelData(side));
            for (let i = 0; i < frames; ++i) {
                left[i] = program.HEAPF32[from + 2 * i];
                right[i] = program.HEAPF32[from + 2 * i + 1];
            }
        };
        source.connect(context.destination);
        plumblineWindow.sound = { context, source };
        return context.sampleRate;
    },
    soundEnd() {
        const { sound } = plumblineWindow;
        if (!sound) return;
        sound.source.disconnect();
        sound.context.close();
        plumblineWindow.sound = null;
    },
    /// Browsers let a page sound only after somebody did something in it.
    wakeSound() {
        const { sound } = plumblineWindow;
        if (sound && sound.context.state === "suspended") sound.context.resume();
    },
};
