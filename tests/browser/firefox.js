#!/usr/bin/env node
// The page in Debian's Firefox, worked through its own remote protocol (Marionette: a TCP socket, each message its length, a colon, JSON).
// Firefox must draw what Chromium draws of the same moment, and do what is clicked and typed. On a screen of its own in memory: without
// any it has no WebGL.
// usage: firefox.js PLAYWRIGHT_CORE PAGE.html FOLDER      (pictures go into FOLDER; needs xvfb)
"use strict";
const { spawn } = require("child_process");
const fs = require("fs");
const net = require("net");
const path = require("path");
const { coloursOf, differenceOf } = require("./pictures.js");
const { CHROMIUM, expect, runIn, isOpen, opened } = require("./session.js");

const [core, page_file, folder] = process.argv.slice(2).map((name) => path.resolve(name));
const { chromium } = require(core);
const WIDTH = 1280, HEIGHT = 720;

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/// A Firefox of its own, with nothing of the person's.
class Firefox {
    async start(profile) {
        fs.mkdirSync(profile, { recursive: true });
        // A port that was free a moment ago.
        const port = await new Promise((done) => {
            const server = net.createServer().listen(0, "127.0.0.1", () => {
                const { port } = server.address();
                server.close(() => done(port));
            });
        });
        fs.writeFileSync(path.join(profile, "user.js"), Object.entries({
            "marionette.port": port, "webgl.force-enabled": true, "layout.css.prefers-color-scheme.content-override": 1,
            "datareporting.policy.dataSubmissionEnabled": false, "app.update.enabled": false, "browser.shell.checkDefaultBrowser": false,
            "network.captive-portal-service.enabled": false, "network.connectivity-service.enabled": false,
        }).map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`).join(""));
        this.screen = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", "1400x900x24"], { stdio: ["ignore", "ignore", "ignore", "pipe"] });
        const display = await new Promise((done, failed) => {
            this.screen.on("error", failed);
            this.screen.stdio[3].once("data", (number) => done(":" + number.toString().trim()));
        });
        this.process = spawn(process.env.FIREFOX || "/usr/bin/firefox-esr",
            ["--no-remote", "--marionette", "--profile", profile, "about:blank"],
            { stdio: "ignore", env: { ...process.env, HOME: profile, DISPLAY: display, LIBGL_ALWAYS_SOFTWARE: "1" } });
        for (let i = 0; !this.socket; ++i) {
            await pause(250);
            if (i > 240) throw new Error("Firefox does not answer");
            this.socket = await new Promise((done) => {
                const socket = net.connect(port, "127.0.0.1", () => done(socket)).on("error", () => done(null));
            });
        }
        this.waiting = new Map();
        this.number = 0;
        let rest = Buffer.alloc(0);
        this.socket.on("data", (more) => {
            rest = Buffer.concat([rest, more]);
            for (;;) {
                const colon = rest.indexOf(":");
                const length = colon < 0 ? 0 : +rest.toString("latin1", 0, colon);
                if (colon < 0 || rest.length < colon + 1 + length) return;
                const told = JSON.parse(rest.toString("utf8", colon + 1, colon + 1 + length));
                rest = rest.subarray(colon + 1 + length);
                if (!Array.isArray(told)) continue;  // its greeting
                const [, number, error, result] = told;
                const { done, failed } = this.waiting.get(number);
                this.waiting.delete(number);
                if (error) failed(new Error(`${error.error}: ${error.message}`));
                else done(result);
            }
        });
        await this.ask("WebDriver:NewSession", { capabilities: { alwaysMatch: {} } });
    }
    ask(command, wish = {}) {
        const text = JSON.stringify([0, ++this.number, command, wish]);
        return new Promise((done, failed) => {
            this.waiting.set(this.number, { done, failed });
            this.socket.write(Buffer.byteLength(text) + ":" + text);
        });
    }
    async run(script, ...args) { return (await this.ask("WebDriver:ExecuteScript", { script, args })).value; }
    async until(what, script, limit_ms) {
        for (const end = Date.now() + limit_ms; !await this.run(script); await pause(200))
            if (Date.now() > end) throw new Error(`Firefox: ${what}; it says: ${await this.run("return document.getElementById('said').textContent")}`);
    }
    async shot() { return Buffer.from((await this.ask("WebDriver:TakeScreenshot", { full: false })).value, "base64"); }
    press(...keys) {
        const actions = keys.flatMap((value) => [{ type: "keyDown", value }, { type: "keyUp", value }, { type: "pause", duration: 60 }]);
        return this.ask("WebDriver:PerformActions", { actions: [{ type: "key", id: "keys", actions }] });
    }
    click(x, y) {
        return this.ask("WebDriver:PerformActions", { actions: [{ type: "pointer", id: "mouse", parameters: { pointerType: "mouse" }, actions: [
            { type: "pointerMove", x, y, duration: 0 }, { type: "pointerDown", button: 0 }, { type: "pause", duration: 60 },
            { type: "pointerUp", button: 0 }] }] });
    }
    stop() {
        if (this.socket) this.socket.destroy();
        if (this.process) this.process.kill();
        this.screen.kill();
    }
}

runIn(folder, async () => {
    const keep = (name, picture) => fs.writeFileSync(path.join(folder, name + ".png"), picture);
    const chrome = await chromium.launch(CHROMIUM);
    const tool = await chrome.newPage();
    const difference = async (a, b) => tool.evaluate(differenceOf, [a.toString("base64"), b.toString("base64")]);
    const fox = new Firefox();
    try {
        await fox.start(path.join(folder, "profile"));
        await fox.ask("WebDriver:SetWindowRect", { width: WIDTH, height: HEIGHT });
        await fox.ask("WebDriver:Navigate", { url: "file://" + page_file });
        await fox.until("the page does not open", `return (${isOpen})()`, 180000);
        await pause(3000);
        const start = await fox.shot();
        keep("start", start);
        const colours = await tool.evaluate(coloursOf, start.toString("base64"));
        expect(`a picture of many colours (${colours})`, colours > 300);
        await fox.click(300, 190);
        await pause(2000);
        const HOME = "\uE011";
        await fox.press(" ", HOME);
        await pause(6000);
        const crowd = await fox.shot();
        keep("crowd", crowd);
        expect("a click closes the start panel", await difference(start, crowd) > 0.05);

        const [width, height] = await fox.run("return [innerWidth, innerHeight]");
        const { page, context } = await opened(chrome, page_file, { viewport: { width, height }, colorScheme: "light" }, { limit_ms: 90000 });
        await page.mouse.click(300, 190);
        await page.waitForTimeout(2000);
        await page.keyboard.press(" ");
        await page.keyboard.press("Home");
        await page.waitForTimeout(6000);
        const same = await page.screenshot({ path: path.join(folder, "crowd-in-chromium.png") });
        const share = await difference(crowd, same);
        expect(`Firefox draws what Chromium draws (${(100 * share).toFixed(1)} % of the pixels differ)`, share >= 0 && share < 0.15);
        await context.close();

        await fox.press("6");
        await pause(2500);
        const free = await fox.shot();
        keep("free", free);
        expect("a key changes the view", await difference(crowd, free) > 0.05);
        const fetched = await fox.run("return performance.getEntriesByType('resource').map((one) => one.name).filter((name) => !/^(file|blob|data):/.test(name))");
        expect("nothing was fetched: " + fetched.join(" "), fetched.length === 0);
    } finally {
        fox.stop();
        await chrome.close();
    }
});
