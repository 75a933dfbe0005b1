#!/usr/bin/env node
// How fast the page is in Debian's Chromium on a software driver: seconds to its first frame and to the first with the routine, frames a
// second while the demo plays, and the processor's time that each frame took in the page's process and in the one that draws. Other work on
// the machine makes frames fewer, hardly dearer: the times of the processor tell what a quiet machine would do.
// usage: page_speed.js PLAYWRIGHT_CORE PAGE.html [--opens N] [--seconds S] [--size 1280x720] [--profile] [--picture FILE.png]
"use strict";
const os = require("os");
const path = require("path");
const { CHROMIUM } = require("../browser/session.js");

const [core, page_file, ...options] = process.argv.slice(2);
const option = (name, usual) => (options.includes(name) ? options[options.indexOf(name) + 1] : usual);
const { chromium } = require(path.resolve(core));
const [width, height] = option("--size", "1280x720").split("x").map(Number);
const SETTLE_S = 12;  // until the quality has found its step

/// Runs in the page before anything else: notes draws and turns of the loop.
function watch() {
    const seen = (window.speedSeen = { turns: [], draws: 0, firstDraw: 0, firstShown: 0, routine: 0 });
    const { prototype } = WebGL2RenderingContext;
    const draw = prototype.drawElements;
    prototype.drawElements = function (...all) {
        if (++seen.draws === 1) seen.firstDraw = performance.now();
        return draw.apply(this, all);
    };
    // A picture is there for people when the next turn may begin.
    const frame = window.requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (turn) => frame((now) => {
        const at = performance.now();
        if (seen.firstDraw > 0 && seen.firstShown === 0) seen.firstShown = at;
        if (seen.routine === 0 && / \u2013 Plumbline$/.test(document.title)) seen.routine = at;
        turn(now);
        seen.turns.push(at);
    });
}

async function processorTimes(browser) {
    const session = await browser.newBrowserCDPSession();
    const { processInfo } = await session.send("SystemInfo.getProcessInfo");
    await session.detach();
    const times = { page: 0, draws: 0, rest: 0 };
    for (const { type, cpuTime } of processInfo) times[type === "renderer" ? "page" : type === "GPU" ? "draws" : "rest"] += cpuTime;
    return times;
}

async function open(browser) {
    const context = await browser.newContext({ viewport: { width, height } });
    const page = await context.newPage();
    await page.addInitScript(watch);
    const begin = await processorTimes(browser);
    await page.goto("file://" + path.resolve(page_file));
    await page.waitForFunction(() => window.speedSeen.routine > 0, null, { timeout: 60000, polling: 50 });
    const end = await processorTimes(browser);
    const seen = await page.evaluate(() => window.speedSeen);
    const s = (ms) => (ms / 1000).toFixed(2);
    console.log(`first frame ${s(seen.firstShown)} s, with the routine ${s(seen.routine)} s; processor ${(end.page - begin.page).toFixed(2)} s page, ` +
                `${(end.draws - begin.draws).toFixed(2)} s drawing; load ${os.loadavg()[0].toFixed(1)}`);
    return { context, page };
}

async function profile(page, seconds) {
    const session = await page.context().newCDPSession(page);
    await session.send("Profiler.enable");
    await session.send("Profiler.start");
    await page.waitForTimeout(1000 * seconds);
    const { profile: taken } = await session.send("Profiler.stop");
    const own = new Map();
    const step_ms = (taken.endTime - taken.startTime) / 1000 / taken.samples.length;
    const names = new Map(taken.nodes.map((node) => [node.id, node.callFrame.functionName || "(nameless)"]));
    for (const sample of taken.samples) own.set(names.get(sample), (own.get(names.get(sample)) || 0) + step_ms);
    for (const [name, ms] of [...own].sort((a, b) => b[1] - a[1]).slice(0, 16)) console.log(`  ${ms.toFixed(0).padStart(6)} ms  ${name}`);
}

(async () => {
    const seconds = Number(option("--seconds", 10));
    const browser = await chromium.launch(CHROMIUM);
    for (let i = Number(option("--opens", 3)); i > 1; --i) await (await open(browser)).context.close();
    const { context, page } = await open(browser);
    await page.waitForTimeout(1000 * SETTLE_S);
    const turns = () => page.evaluate(() => window.speedSeen.turns.length);
    const draws = () => page.evaluate(() => window.speedSeen.draws);
    const [turns_before, draws_before, before] = [await turns(), await draws(), await processorTimes(browser)];
    const from = Date.now();
    await page.waitForTimeout(1000 * seconds);
    const passed_s = (Date.now() - from) / 1000;
    const [frames, drawn, after] = [await turns() - turns_before, await draws() - draws_before, await processorTimes(browser)];
    const ms = (name) => ((1000 * (after[name] - before[name])) / frames).toFixed(1);
    console.log(`${(frames / passed_s).toFixed(1)} frames/s at ${width}x${height}, ${(drawn / frames).toFixed(0)} draws each; a frame's processor: ` +
                `${ms("page")} ms page, ${ms("draws")} ms drawing, ${ms("rest")} ms browser; load ${os.loadavg()[0].toFixed(1)}`);
    if (options.includes("--profile")) await profile(page, seconds);
    if (option("--picture")) await page.screenshot({ path: option("--picture") });
    await context.close();
    await browser.close();
})().catch((error) => { console.error(error); process.exit(1); });
