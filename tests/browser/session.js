// What the scripts here share: the browser, an open page that is watched, and how what is asked of it is told.
"use strict";
const fs = require("fs");

/// Debian's Chromium on a software driver, that draws with WebGL 2 without a graphics card.
const CHROMIUM = {
    executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
    args: ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--ignore-gpu-blocklist"],
};

const failures = [];
/// Tells whether it holds; a script goes on all the same.
function expect(what, holds) {
    console.log((holds ? "  ok    " : "  FAILED ") + what);
    if (!holds) failures.push(what);
}

/// In an empty folder, runs a script and ends with whether all of it holds.
function runIn(folder, script) {
    fs.rmSync(folder, { recursive: true, force: true });
    fs.mkdirSync(folder, { recursive: true });
    script().then(() => {
        console.log(failures.length === 0 ? "all of it holds" : `${failures.length} of it do not hold`);
        process.exit(failures.length === 0 ? 0 : 1);
    }).catch((error) => { console.error(error); process.exit(1); });
}

/// Runs in the page: the program is there, with something opened, and has nothing to say.
const isOpen = () => document.title !== "Plumbline" && document.getElementById("said").textContent === "";
const isOurs = (address) => /^(file|blob|data):/.test(address);

/// @param prepare   of the page, before it goes there
/// @param limit_ms  to open in
/// @return its context, itself, what was fetched and which errors were told meanwhile and later
async function opened(browser, file, settings, { prepare = async () => {}, limit_ms = 60000 } = {}) {
    const context = await browser.newContext(settings);
    const page = await context.newPage();
    const told = { fetched: [], errors: [] };
    page.on("request", (request) => { if (!isOurs(request.url())) told.fetched.push(request.url()); });
    page.on("pageerror", (error) => told.errors.push(error.message));
    page.on("console", (message) => { if (/GL_|rror/.test(message.text())) told.errors.push(message.text().slice(0, 200)); });
    await prepare(page);
    const begun = Date.now();
    await page.goto("file://" + file);
    await page.waitForFunction(isOpen, null, { timeout: limit_ms });
    const open_s = (Date.now() - begun) / 1000;
    await page.waitForTimeout(3000);
    return { context, page, told, open_s };
}

/// The texts that the page has put aside.
const kept = (page) => page.evaluate(() => {
    const { FS } = plumblineWindow.program;
    const below = (name) => FS.isDir(FS.stat(name).mode)
        ? FS.readdir(name).filter((one) => one !== "." && one !== "..").flatMap((one) => below(name + "/" + one)) : [name];
    return below("/kept").filter((name) => name.endsWith(".unsaved")).map((name) => FS.readFile(name, { encoding: "utf8" }));
});

module.exports = { CHROMIUM, expect, runIn, isOpen, opened, kept };
