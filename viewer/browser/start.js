// Unpacks the program that the page carries, gives it the files that came with the page and those that
// were kept here before, and starts it.
(async () => {
    const element = (id) => document.getElementById(id);
    const said = element("said");
    const say = (words) => { said.textContent = words; said.hidden = words === ""; };
    const bytesOf = (base64) => {
        const letters = atob(base64);
        const bytes = new Uint8Array(letters.length);
        // By hand: a loop over two million letters takes a hundredth of what Uint8Array.from takes.
        for (let i = 0; i < letters.length; ++i) bytes[i] = letters.charCodeAt(i);
        return bytes;
    };
    const unpacked = async (id) => {
        const bytes = bytesOf(element(id).textContent);
        element(id).textContent = "";
        const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
        return new Uint8Array(await new Response(stream).arrayBuffer());
    };
    try {
        if (!("DecompressionStream" in window) || !("WebAssembly" in window)) {
            say("This browser is too old for the page: update it, or open the page in another one.");
            return;
        }
        const [wasm, code] = await Promise.all([unpacked("program"), unpacked("code")]);
        const url = URL.createObjectURL(new Blob([code], { type: "text/javascript" }));
        await new Promise((loaded, failed) => {
            const script = document.createElement("script");
            script.onload = loaded;
            script.onerror = () => failed(new Error("the program cannot be read"));
            script.src = url;
            document.head.append(script);
        });
        URL.revokeObjectURL(url);
        const carried = JSON.parse(element("carried").textContent);
        let told = "";
        const program = await plumblineProgram({
            printErr: (words) => { told = words; console.warn(words); },
            canvas: element("picture"),
            plumblineWindow,
            wasmBinary: wasm,
            onAbort: () => say("The program has stopped. What was typed is kept: load the page again."),
        });
        plumblineWindow.program = program;
        const { FS, IDBFS } = program;
        for (const folder of ["/files", "/kept"]) FS.mkdir(folder);
        FS.mount(IDBFS, {}, "/kept");
        // What is kept here is not needed to go on without.
        await new Promise((done) => FS.syncfs(true, () => done()));
        FS.chdir("/files");
        for (const file of carried.files || []) {
            const path = "/files/" + file.name;
            FS.createPath("/", path.slice(0, path.lastIndexOf("/")), true, true);
            FS.writeFile(path, bytesOf(file.bytes));
        }
        say("");
        const files = (carried.open || []).map((name) => "/files/" + name);
        // It goes on turning; it ends at once only where it cannot begin.
        if (program.callMain([...(carried.options || []), ...files])) say("The page cannot be shown: " + told.replace(/^plumbline: /, "") + ".");
    } catch (error) {
        say("The page cannot be shown: " + (error && error.message ? error.message : error) +
            ". It needs WebGL 2; try another browser.");
    }
})();
