#!/usr/bin/env node
// The third journey from one mailed file: a narrator opens it the evening before, on a desk by keys and on a tablet by fingers alone;
// writes words, rehearses, prints the cue sheet; on the day goes live and re-times. Steps besides typing are counted.
// usage: journey.js PLAYWRIGHT_CORE PLUMBLINE PAGE.html FOLDER      (pictures of every step go into FOLDER; needs poppler-utils)
"use strict";
const { execFileSync } = require("child_process");
const fs = require("fs");
const path = require("path");
const { differenceOf } = require("./pictures.js");
const { CHROMIUM, expect, runIn, opened, kept } = require("./session.js");

const [core, plumbline, page_file, folder] = process.argv.slice(2).map((name) => path.resolve(name));
const { chromium } = require(core);
const WORDS = "Hold on to your hats.";

/// One file, as it comes by mail: what it was made of is gone.
function mailed() {
    const made = path.join(folder, "made");
    fs.mkdirSync(made, { recursive: true });
    const demo = path.resolve(__dirname, "../../assets/demo");
    for (const file of fs.readdirSync(demo).filter((name) => name.endsWith(".toml"))) fs.copyFileSync(path.join(demo, file), path.join(made, file));
    execFileSync(plumbline, ["brief", "demo.routine.toml", "--flights", "50", "--page", "-o", "brief"],
                 { cwd: made, env: { ...process.env, PLUMBLINE_PAGE: page_file }, stdio: ["ignore", "ignore", "inherit"] });
    const mail = path.join(folder, "mailed.html");
    fs.copyFileSync(path.join(made, "brief", "page.html"), mail);
    fs.rmSync(made, { recursive: true });
    return mail;
}

class Reader {
    constructor(tool, name, { page, context, told }) { Object.assign(this, { tool, name, page, context, told, steps: 1, shots: 0 }); }
    static async open(browser, tool, name, mail, settings) {
        // The browser's own sheet for printing would wait for an answer.
        const prepare = (page) => page.addInitScript(() => { window.prints = 0; window.print = () => { ++window.prints; }; });
        const open = await opened(browser, mail, settings, { prepare, limit_ms: 120000 });
        console.log(`${name}: open after ${open.open_s.toFixed(1)} s`);
        return new Reader(tool, name, open);
    }
    async shot(name, clip) {
        return this.page.screenshot({ clip, path: path.join(folder, `${this.name}-${String(++this.shots).padStart(2, "0")}-${name}.png`) });
    }
    async key(...keys) {
        for (const key of keys) {
            ++this.steps;
            await this.page.keyboard.press(key);
            await this.page.waitForTimeout(600);
        }
    }
    async tap(x, y) {
        ++this.steps;
        await this.page.touchscreen.tap(x, y);
        await this.page.waitForTimeout(900);
    }
    async bar(words) {
        const box = await this.page.locator(`#bar button:text-is("${words}")`).boundingBox();
        await this.tap(box.x + box.width / 2, box.y + box.height / 2);
    }
    difference(a, b) { return this.tool.evaluate(differenceOf, [a.toString("base64"), b.toString("base64")]); }
    /// Until nothing but a running clock changes there.
    async settle(ms) { await this.page.waitForTimeout(ms); }
    async kept() { return (await kept(this.page)).join("\n"); }
    /// The cue sheet as it goes to the printer, read back.
    async printed() {
        await this.page.waitForFunction(() => window.prints > 0, null, { timeout: 90000 }).catch(() => {});
        const file = path.join(folder, this.name + "-cues.pdf");
        await this.page.pdf({ path: file, format: "A4" });
        return execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" }).replace(/\s+/g, " ");
    }
    /// What holds on a desk as on a tablet.
    async end(cues) {
        expect("the cue sheet has the new words, windows, the caution", cues.includes(WORDS) && /Four-point roll/.test(cues) &&
               /0:1\d to 0:1\d/.test(cues) && /no approval to fly/.test(cues));
        const told = [...this.told.fetched, ...this.told.errors];
        expect("nothing was fetched, no error told: " + told.join("; "), told.length === 0);
        console.log(`${this.name}: ${this.steps} steps besides typing`);
        await this.context.close();
    }
}

/// Live: what is re-timed shows at the next cue, and can be taken back. The clock is held, so that nothing else changes.
async function desk(browser, tool, mail) {
    const r = await Reader.open(browser, tool, "desk", mail, { viewport: { width: 1280, height: 800 } });
    expect("it opens on the routine: " + await r.page.title(), (await r.page.title()).startsWith("Vellmoor afternoon show"));
    const first = await r.shot("opened");
    await r.settle(2000);
    expect("it plays", await r.difference(first, await r.shot("plays")) > 0.001);

    await r.key("Space", "PageDown", "PageDown", "F6", "Enter", "Control+End");
    await r.page.keyboard.type(" " + WORDS, { delay: 30 });
    await r.key("Escape");
    await r.settle(4000);
    await r.shot("words");
    expect("what is written of a cue is put aside", (await r.kept()).includes(WORDS));

    const side = { x: 840, y: 260, width: 440, height: 540 };
    await r.key("F6", "F7");
    await r.settle(8000);
    const still = await r.shot("prompter");
    await r.key("=", "Space");
    await r.settle(4000);
    await r.key("Space");
    expect("the words run in a rehearsal", await r.difference(still, await r.shot("rehearsed")) > 0.01);
    await r.key("PageUp");
    expect("a step back shows the cue as before", await r.difference(still, await r.shot("back")) < 0.01);

    await r.key("-", "Home", "Enter");
    await r.settle(3000);
    await r.key("Space");
    await r.settle(7000);  // what was said last has gone
    const held = await r.shot("held", side);
    await r.settle(2000);
    expect("a held show stands", await r.difference(held, await r.shot("still-held", side)) < 0.002);
    await r.key("x");
    const without = await r.shot("left-out", side);
    expect("a figure left out changes what comes next", await r.difference(held, without) > 0.01);
    await r.key("Backspace", "Space", "Enter");
    await r.shot("re-timed", side);
    await r.key("Space");
    await r.settle(1500);
    expect("one key re-times what comes", await r.difference(held, await r.shot("re-timed-held", side)) > 0.005);
    await r.key("Space", "Shift+Enter", "F7", "Shift+F6");
    await r.end(await r.printed());
}

/// Fingers alone; places are those of 1024 by 768, letters an eighth and an eighth larger, as tablets begin.
async function tablet(browser, tool, mail) {
    const r = await Reader.open(browser, tool, "tablet", mail, { viewport: { width: 1024, height: 768 }, deviceScaleFactor: 2, hasTouch: true });
    const TO_START = [33, 520], PLAY = [70, 520], SPEED = [342, 520];
    const sizes = await r.page.$$eval("#bar button", (all) => all.map((one) => one.getBoundingClientRect()).map(({ width, height }) => Math.min(width, height)));
    expect(`the bar's buttons are ${Math.min(...sizes)} points or more`, Math.min(...sizes) >= 40);
    await r.shot("opened");
    await r.tap(...PLAY);
    await r.tap(...TO_START);
    await r.bar("Brief");
    await r.settle(4000);
    const column = { x: 0, y: 70, width: 370, height: 380 };
    const top = await r.shot("brief", column);
    const session = await r.context.newCDPSession(r.page);
    const touch = (type, points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
    const draw = async (by) => {
        ++r.steps;
        await touch("touchStart", [[200, 260]]);
        for (let i = 1; i <= 10; ++i) await touch("touchMove", [[200, 260 + by * i / 10]]);
        await touch("touchEnd", []);
        await r.settle(1500);
    };
    await draw(-200);
    expect("a finger scrolls the cues", await r.difference(top, await r.shot("scrolled", column)) > 0.02);
    await draw(250);
    expect("and back, without doing anything else", await r.difference(top, await r.shot("back", column)) < 0.01);
    await r.tap(340, 212);
    const asked = await r.page.waitForFunction(() => document.activeElement.id === "typed", null, { timeout: 10000 }).then(() => true, () => false);
    expect("a tap on words asks for the keyboard", asked);
    await r.page.keyboard.type(" " + WORDS, { delay: 30 });
    await r.bar("Back");
    await r.settle(4000);
    await r.shot("words");
    expect("what is written of a cue is put aside", (await r.kept()).includes(WORDS));
    await r.bar("Brief");

    await r.tap(...SPEED);
    await r.tap(...PLAY);
    await r.bar("Prompter");
    await r.settle(6000);
    const runs = await r.shot("prompter");
    await r.settle(3000);
    expect("the words run in a rehearsal at twice the speed", await r.difference(runs, await r.shot("rehearsed")) > 0.01);
    const side = { x: 668, y: 240, width: 356, height: 480 };
    const LIVE = [790, 671], NOW = [790, 614], LEFT_OUT = [740, 671], HOLD = [925, 671];
    await r.tap(...LIVE);
    await r.settle(2000);
    await r.tap(...HOLD);
    await r.settle(7000);
    const held = await r.shot("held", side);
    await r.settle(2000);
    expect("a held show stands", await r.difference(held, await r.shot("still-held", side)) < 0.002);
    await r.tap(...LEFT_OUT);
    await r.settle(1000);
    const without = await r.shot("left-out", side);
    expect("a figure left out changes what comes next", await r.difference(held, without) > 0.01);
    await r.tap(...NOW);
    await r.settle(1500);
    expect("one tap re-times what comes", await r.difference(without, await r.shot("re-timed", side)) > 0.005);
    await r.bar("Prompter");
    await r.bar("Brief");
    await r.settle(3000);
    await r.tap(740, 210);
    await r.end(await r.printed());
}

runIn(folder, async () => {
    const mail = mailed();
    console.log(`mailed: one file of ${fs.statSync(mail).size} bytes`);
    const browser = await chromium.launch(CHROMIUM);
    const tool = await browser.newPage();
    await desk(browser, tool, mail);
    await tablet(browser, tool, mail);
    await browser.close();
});
