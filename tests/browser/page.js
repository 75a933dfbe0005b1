#!/usr/bin/env node
// The page worked in as its readers do: looked at, clicked, tapped, typed in, given a file, loaded again; in Debian's Chromium on a
// software driver, from file://. Asks that nothing is fetched, that no error is told, and that each thing done is seen to be done.
// usage: page.js PLAYWRIGHT_CORE PAGE.html FOLDER      (pictures of every step go into FOLDER)
"use strict";
const fs = require("fs");
const path = require("path");
const { coloursOf, differenceOf } = require("./pictures.js");
const { CHROMIUM, expect, runIn, opened, kept } = require("./session.js");

const [core, page_file, folder] = process.argv.slice(2).map((name) => path.resolve(name));
const { chromium } = require(core);
const DATA = path.resolve(__dirname, "../data");
const LARGEST_BYTES = 2000000;

const ROUTINE = `name = "Dropped in"
aircraft = "sample.aircraft.toml"
site = "sample.site.toml"
weather = "sample.weather.toml"
[start]
x = "-600 m"
y = "50 m"
height = "200 m"
heading = "crowd-right"
speed = "75 m/s"
fuel = "40 l"
[[figure]]
name = "Over"
text = """
line until x 100 m
pull to up at 4 g
line up until 60 kt
"""
`;

const difference = (tool, a, b) => tool.evaluate(differenceOf, [a.toString("base64"), b.toString("base64")]);

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
/// Files dropped together on the picture.
async function drop(page, ...files) {
    await page.evaluate((files) => {
        const data = new DataTransfer();
        for (const { name, bytes } of files)
            data.items.add(new File([Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0))], name));
        document.getElementById("picture").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    }, files.map((file) => ({ name: path.basename(file), bytes: fs.readFileSync(file).toString("base64") })));
}
async function desk(browser, tool) {
    console.log("a desk: mouse and keys, 1280 by 800");
    const { context, page, told } = await opened(browser, page_file, { viewport: { width: 1280, height: 800 }, acceptDownloads: true });
    const start = await shot(page, "start");
    const colours = await tool.evaluate(coloursOf, start.toString("base64"));
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

    const saved = [];
    page.on("download", (download) => saved.push(download));
    await press(page, "Control+s");
    await page.keyboard.type("evening", { delay: 30 });
    await press(page, "Enter");
    for (const end = Date.now() + 30000; saved.length < 3 && Date.now() < end;) await page.waitForTimeout(200);
    await page.waitForTimeout(1000);
    const names = saved.map((download) => download.suggestedFilename());
    const text = saved.length === 0 ? "" : fs.readFileSync(await saved[0].path(), "utf8");
    expect(`saving downloads the text first, then the files that it names (${names.join(", ")})`,
           names[0] === "evening.routine.toml" && text.includes("line up until 60 kt") && /hammerhead/i.test(text) &&
           ["aircraft", "site"].every((kind) => names.some((name) => name.endsWith(`.${kind}.toml`))));

    await press(page, "Control+End");
    await page.keyboard.type(" # once more", { delay: 30 });
    await page.waitForTimeout(3000);
    await page.reload();
    await page.waitForFunction(() => document.getElementById("said").textContent === "" && plumblineWindow.program, null, { timeout: 60000 });
    await page.waitForTimeout(3000);
    await shot(page, "loaded-again");
    expect("unsaved text is there after loading again", (await kept(page)).some((one) => one.includes("# once more")));

    const routine = path.join(folder, "dropped.routine.toml");
    fs.writeFileSync(routine, ROUTINE);
    await drop(page, ...["aircraft", "site", "weather"].map((kind) => path.join(DATA, "files", `sample.${kind}.toml`)), routine);
    await page.waitForFunction(() => document.title.includes("Dropped in"), null, { timeout: 30000 }).catch(() => {});
    await page.waitForTimeout(1000);
    await shot(page, "dropped-routine");
    expect("a dropped routine is opened with the aircraft and the site dropped beside it: " + await page.title(), (await page.title()).includes("Dropped in"));
    const igc = fs.readdirSync(path.join(DATA, "tracks")).find((name) => name.endsWith(".igc"));
    const without = await shot(page, "before-the-recording");
    await drop(page, path.join(DATA, "tracks", igc));
    await page.waitForFunction((name) => document.title.includes(name), igc.replace(".igc", ""), { timeout: 30000 }).catch(() => {});
    await page.waitForTimeout(3000);
    expect(`a dropped recording is shown (${igc})`, await difference(tool, without, await shot(page, "recording")) > 0.02);
    expect("its title tells of it: " + await page.title(), (await page.title()).includes(igc.replace(".igc", "")));
    await page.waitForTimeout(2000);
    expect(`what was dropped is not given back (${saved.length} files saved)`, saved.length === names.length);
    expect("nothing was fetched: " + told.fetched.join(" "), told.fetched.length === 0);
    expect("no error was told: " + told.errors.join("; "), told.errors.length === 0);
    await context.close();
}

/// Who has the system dark gets dark panels, who has it light light ones.
async function dark(browser, tool) {
    console.log("light and dark");
    const mean = async (colorScheme) => {
        const { context, page } = await opened(browser, page_file, { viewport: { width: 1280, height: 800 }, colorScheme });
        const panel = await page.screenshot({ clip: { x: 0, y: 400, width: 40, height: 100 } });
        await shot(page, colorScheme);
        await context.close();
        return tool.evaluate(async (file) => {
            const image = await createImageBitmap(new Blob([Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0))]));
            const context = new OffscreenCanvas(image.width, image.height).getContext("2d");
            context.drawImage(image, 0, 0);
            const { data } = context.getImageData(0, 0, image.width, image.height);
            return data.reduce((sum, value, i) => sum + (i % 4 === 3 ? 0 : value), 0) / (data.length * 3 / 4);
        }, panel.toString("base64"));
    };
    const [light, night] = [await mean("light"), await mean("dark")];
    expect(`panels as the system has them: ${light.toFixed(0)} and ${night.toFixed(0)} of 255`, light > 180 && night < 70);
}

async function tablet(browser, tool) {
    console.log("a tablet: fingers, 1024 by 768, two pixels a point");
    const { context, page, told } = await opened(browser, page_file, {
        viewport: { width: 1024, height: 768 }, deviceScaleFactor: 2, hasTouch: true, colorScheme: "light" });
    const start = await shot(page, "tablet-start");
    const [pixels, points] = await page.evaluate(() => { const { width, clientWidth } = document.getElementById("picture"); return [width, clientWidth]; });
    expect(`drawn with every pixel (${pixels} on ${points} points)`, pixels === 2 * points);
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
    await page.locator("#bar button", { hasText: "Find" }).tap();
    await page.waitForTimeout(1500);
    const list = await shot(page, "tablet-list");
    await page.locator("#bar button", { hasText: "Keyboard" }).tap();
    expect("a button brings the keyboard", await page.evaluate(() => document.activeElement.id) === "typed");
    await page.keyboard.type("judge", { delay: 30 });
    await page.waitForTimeout(1500);
    expect("what is typed there narrows the list", await difference(tool, list, await shot(page, "tablet-narrowed")) > 0.005);
    await page.locator("#bar button", { hasText: "Back" }).tap();
    const chooser = page.waitForEvent("filechooser", { timeout: 20000 });
    await page.locator("#bar button", { hasText: "Files" }).tap();
    await (await chooser).setFiles([path.join(DATA, "tracks", "paraglider.igc")]);
    await page.waitForFunction(() => document.title.includes("paraglider"), null, { timeout: 30000 }).catch(() => {});
    await shot(page, "tablet-chosen");
    expect("a file chosen from the device is opened: " + await page.title(), (await page.title()).includes("paraglider"));
    expect("nothing was fetched: " + told.fetched.join(" "), told.fetched.length === 0);
    expect("no error was told: " + told.errors.join("; "), told.errors.length === 0);
    await context.close();
}

/// Without WebGL 2 there is no picture: the page must say so.
async function without_drawing() {
    console.log("a browser that cannot draw");
    const browser = await chromium.launch({ ...CHROMIUM, args: ["--no-sandbox", "--disable-gpu", "--disable-3d-apis"] });
    const page = await browser.newPage();
    await page.goto("file://" + page_file);
    await page.waitForFunction(() => /WebGL 2/.test(document.getElementById("said").textContent), null, { timeout: 30000 }).catch(() => {});
    const said = await page.textContent("#said");
    expect("it says so: " + said, said.includes("WebGL 2") && await page.isVisible("#said"));
    await browser.close();
}

runIn(folder, async () => {
    const html = fs.readFileSync(page_file, "utf8");
    expect(`the page is small (${html.length} bytes)`, html.length < LARGEST_BYTES);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html);
    expect("its policy lets nothing in", policy !== null && policy[1].includes("default-src 'none'") && !/https?:|\*|unsafe-inline'? *;? *script/.test(policy[1]));
    const browser = await chromium.launch(CHROMIUM);
    const tool = await browser.newPage();
    await desk(browser, tool);
    await tablet(browser, tool);
    await dark(browser, tool);
    await browser.close();
    await without_drawing();
});
