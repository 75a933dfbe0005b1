#!/usr/bin/env node
// The page worked in as its readers do: looked at, clicked, tapped, typed in, given a file, loaded again; in Debian's Chromium on a
// software driver, from file://. Asks that nothing is fetched, that no error is told, and that each thing done is seen to be done.
// usage: page.js PLAYWRIGHT_CORE PAGE.html FOLDER      (pictures of every step go into FOLDER)
"use strict";
const fs = require("fs");
const path = require("path");

const [core, page_file, folder] = process.argv.slice(2).map((name) => path.resolve(name));
const { chromium } = require(core);
const DATA = path.resolve(__dirname, "../data");
const SOFTWARE = ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--ignore-gpu-blocklist"];
const LARGEST_BYTES = 2000000;

const failures = [];
function expect(what, holds) {
    console.log((holds ? "  ok    " : "  FAILED ") + what);
    if (!holds) failures.push(what);
}

/// How much two pictures differ: share of pixels with a channel off by more than 24; -1: not of one size.
async function difference(tool, a, b) {
    return tool.evaluate(async (files) => {
        const pixels = [];
        for (const file of files) {
            const bytes = Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0));
            const image = await createImageBitmap(new Blob([bytes]));
            const canvas = new OffscreenCanvas(image.width, image.height);
            const context = canvas.getContext("2d");
            context.drawImage(image, 0, 0);
            pixels.push(context.getImageData(0, 0, image.width, image.height));
        }
        const [one, two] = pixels;
        if (one.width !== two.width || one.height !== two.height) return -1;
        let off = 0;
        for (let i = 0; i < one.data.length; i += 4)
            if ([0, 1, 2].some((c) => Math.abs(one.data[i + c] - two.data[i + c]) > 24)) ++off;
        return off / (one.width * one.height);
    }, [a.toString("base64"), b.toString("base64")]);
}

async function opened(browser, settings) {
    const context = await browser.newContext(settings);
    const page = await context.newPage();
    const told = { fetched: [], errors: [] };
    page.on("request", (request) => { if (!/^(file|blob|data):/.test(request.url())) told.fetched.push(request.url()); });
    page.on("pageerror", (error) => told.errors.push(error.message));
    page.on("console", (message) => { if (/GL_|rror/.test(message.text())) told.errors.push(message.text().slice(0, 200)); });
    await page.goto("file://" + page_file);
    await page.waitForFunction(() => document.title !== "Plumbline" && document.getElementById("said").textContent === "", null,
                               { timeout: 60000 });
    await page.waitForTimeout(3000);
    return { context, page, told };
}

let shot_number = 0;
async function shot(page, name) {
    return page.screenshot({ path: path.join(folder, `${String(++shot_number).padStart(2, "0")}-${name}.png`) });
}
async function press(page, ...keys) {
    for (const key of keys) {
        await page.keyboard.press(key);
        await page.waitForTimeout(400);
    }
}
const kept = (page) => page.evaluate(() => {
    const { FS } = plumblineWindow.program;
    const below = (name) => FS.isDir(FS.stat(name).mode)
        ? FS.readdir(name).filter((one) => one !== "." && one !== "..").flatMap((one) => below(name + "/" + one)) : [name];
    return below("/kept").filter((name) => name.endsWith(".unsaved")).map((name) => FS.readFile(name, { encoding: "utf8" }));
});

async function desk(browser, tool) {
    console.log("a desk: mouse and keys, 1280 by 800");
    const { context, page, told } = await opened(browser, { viewport: { width: 1280, height: 800 }, acceptDownloads: true });
    const start = await shot(page, "start");
    const colours = await tool.evaluate(async (file) => {
        const image = await createImageBitmap(new Blob([Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0))]));
        const canvas = new OffscreenCanvas(image.width, image.height);
        const context = canvas.getContext("2d");
        context.drawImage(image, 0, 0);
        const seen = new Set();
        const { data } = context.getImageData(0, 0, image.width, image.height);
        for (let i = 0; i < data.length; i += 4) seen.add((data[i] >> 3 << 10) | (data[i + 1] >> 3 << 5) | (data[i + 2] >> 3));
        return seen.size;
    }, start.toString("base64"));
    expect(`a picture of many colours (${colours})`, colours > 300);

    await page.mouse.click(300, 190);  // look through the demo
    await page.waitForTimeout(1500);
    expect("a click closes the start panel", await difference(tool, start, await shot(page, "demo")) > 0.05);
    const crowd = await shot(page, "crowd");
    await press(page, "2");
    await page.waitForTimeout(1500);
    expect("a key changes the view", await difference(tool, crowd, await shot(page, "judge")) > 0.05);

    await press(page, "Control+n", "F4");
    await page.keyboard.type("hammerhead", { delay: 30 });
    await press(page, "Enter", "Control+Enter", "Control+End");
    const before = await shot(page, "one-figure");
    await page.keyboard.type("pull to up at 6 g", { delay: 30 });
    await press(page, "Enter");
    await page.keyboard.type("line up until 60 kt", { delay: 30 });
    await page.waitForTimeout(2500);
    expect("typing changes the path", await difference(tool, before, await shot(page, "typed")) > 0.01);
    expect("what is typed is put aside", (await kept(page)).some((text) => text.includes("line up until 60 kt")));

    const saved = page.waitForEvent("download", { timeout: 20000 });
    await press(page, "Control+s");
    await page.keyboard.type("evening", { delay: 30 });
    await press(page, "Enter");
    const download = await saved;
    const text = fs.readFileSync(await download.path(), "utf8");
    expect(`saving downloads the text (${download.suggestedFilename()})`,
           download.suggestedFilename() === "evening.routine.toml" && text.includes("line up until 60 kt") && /hammerhead/i.test(text));

    await press(page, "Control+End");
    await page.keyboard.type(" # once more", { delay: 30 });
    await page.waitForTimeout(3000);
    await page.reload();
    await page.waitForFunction(() => document.getElementById("said").textContent === "" && plumblineWindow.program, null, { timeout: 60000 });
    await page.waitForTimeout(3000);
    await shot(page, "loaded-again");
    expect("unsaved text is there after loading again", (await kept(page)).some((one) => one.includes("# once more")));

    const igc = fs.readdirSync(path.join(DATA, "tracks")).find((name) => name.endsWith(".igc"));
    const without = await shot(page, "before-the-recording");
    await page.evaluate(({ name, bytes }) => {
        const data = new DataTransfer();
        data.items.add(new File([Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0))], name));
        document.getElementById("picture").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    }, { name: igc, bytes: fs.readFileSync(path.join(DATA, "tracks", igc)).toString("base64") });
    await page.waitForTimeout(6000);
    expect(`a dropped recording is shown (${igc})`, await difference(tool, without, await shot(page, "recording")) > 0.02);
    expect("nothing was fetched: " + told.fetched.join(" "), told.fetched.length === 0);
    expect("no error was told: " + told.errors.join("; "), told.errors.length === 0);
    await context.close();
}

async function tablet(browser, tool) {
    console.log("a tablet: fingers, 1024 by 768, two pixels a point");
    const { context, page, told } = await opened(browser, {
        viewport: { width: 1024, height: 768 }, deviceScaleFactor: 2, hasTouch: true, colorScheme: "light" });
    const start = await shot(page, "tablet-start");
    await page.touchscreen.tap(240, 190);
    await page.waitForTimeout(2500);
    const demo = await shot(page, "tablet-demo");
    expect("a tap closes the start panel", await difference(tool, start, demo) > 0.05);
    const session = await context.newCDPSession(page);
    const touch = (type, points) => session.send("Input.dispatchTouchEvent",
        { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
    await press(page, "6");
    const free = await shot(page, "tablet-free");
    await touch("touchStart", [[500, 250]]);
    for (let i = 1; i <= 10; ++i) await touch("touchMove", [[500 + 15 * i, 250 + 4 * i]]);
    await touch("touchEnd", []);
    await page.waitForTimeout(1500);
    const turned = await shot(page, "tablet-turned");
    expect("a finger turns the picture", await difference(tool, free, turned) > 0.05);
    await touch("touchStart", [[450, 250], [550, 250]]);
    for (let i = 1; i <= 10; ++i) await touch("touchMove", [[450 - 10 * i, 250], [550 + 10 * i, 250]]);
    await touch("touchEnd", []);
    await page.waitForTimeout(1500);
    expect("two fingers bring it nearer", await difference(tool, turned, await shot(page, "tablet-nearer")) > 0.02);
    expect("nothing was fetched: " + told.fetched.join(" "), told.fetched.length === 0);
    expect("no error was told: " + told.errors.join("; "), told.errors.length === 0);
    await context.close();
}

(async () => {
    fs.rmSync(folder, { recursive: true, force: true });
    fs.mkdirSync(folder, { recursive: true });
    const html = fs.readFileSync(page_file, "utf8");
    expect(`the page is small (${html.length} bytes)`, html.length < LARGEST_BYTES);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html);
    expect("its policy lets nothing in", policy !== null && policy[1].includes("default-src 'none'") && !/https?:|\*|unsafe-inline'? *;? *script/.test(policy[1]));
    const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: SOFTWARE });
    const tool = await browser.newPage();
    await desk(browser, tool);
    await tablet(browser, tool);
    await browser.close();
    console.log(failures.length === 0 ? "all of it holds" : `${failures.length} of it do not hold`);
    process.exit(failures.length === 0 ? 0 : 1);
})().catch((error) => { console.error(error); process.exit(1); });
