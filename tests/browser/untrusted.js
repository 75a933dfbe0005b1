// Opens pages that tests/browser/untrusted made: nothing of what they carry may run or be looked for, and the page must be there.
// usage: node untrusted.js PLAYWRIGHT VIEWER.html PAGE.html...
"use strict";
const fs = require("fs");
const path = require("path");
const { CHROMIUM } = require("./session.js");

const [playwright, viewerFile, ...pages] = process.argv.slice(2);
const { chromium } = require(path.resolve(playwright));
const kBegin = '<script type="application/json" id="carried">';

function must(holds, words) {
    if (!holds) {
        console.error(words);
        process.exitCode = 1;
    }
}

/// Text of a page without what it carries.
function frame(text) {
    const begin = text.indexOf(kBegin) + kBegin.length;
    return text.slice(0, begin) + text.slice(text.indexOf("</script>", begin));
}

/// Opens a file, waits until the program gave it a title. @return what happened meanwhile
async function open(browser, file, limit_ms) {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    const seen = { requests: [], console: [], errors: [], dialogs: 0 };
    page.on("request", (request) => seen.requests.push(request.url()));
    page.on("console", (message) => { if (message.type() === "error") seen.console.push(message.text()); });
    page.on("pageerror", (error) => seen.errors.push(error.message));
    page.on("dialog", (dialog) => { ++seen.dialogs; dialog.dismiss(); });
    await page.goto("file://" + path.resolve(file));
    await page.waitForFunction(() => document.title !== "Plumbline", null, { timeout: limit_ms }).catch(() => {});
    await page.waitForTimeout(1000);
    seen.title = await page.title();
    seen.said = await page.textContent("#said");
    seen.pwned = await page.evaluate(() => window.pwned);
    seen.elements = await page.evaluate(() => document.querySelectorAll("img, svg, iframe, object").length);
    await page.screenshot({ path: file.replace(/html$/, "png") });
    await page.close();
    return seen;
}

(async () => {
    const browser = await chromium.launch(CHROMIUM);
    const viewer = fs.readFileSync(viewerFile, "latin1");
    for (const file of pages) {
        const text = fs.readFileSync(file, "latin1");
        must(frame(text) === frame(viewer), `${file}: the viewer in it is not as it was built`);
        const seen = await open(browser, file, 60000);
        must(seen.pwned === undefined, `${file}: script ran: ${seen.pwned}`);
        must(seen.dialogs === 0 && seen.elements === 0, `${file}: ${seen.dialogs} dialogs, ${seen.elements} elements of others`);
        must(seen.console.length === 0 && seen.errors.length === 0, `${file}: ${[...seen.console, ...seen.errors].join("\n")}`);
        must(seen.requests.every((url) => /^(file|blob):/.test(url)) && seen.requests.filter((url) => url.startsWith("file:")).length === 1,
            `${file}: asked for ${seen.requests.join(" ")}`);
        must(seen.title.includes(file.startsWith("with-flight") ? "paraglider" : "window.pwned"), `${file}: the routine was not opened: "${seen.title}", "${seen.said}"`);
        console.log(`${file}: opened, nothing ran`);
    }
    // That the traps work: unescaped, the same words make elements, and only the page's policy keeps them from running.
    const trap = path.join(path.dirname(pages[0]), "trap.html");
    fs.writeFileSync(trap, viewer.replace("<body>", "<body><script>window.pwned = 1</script><img src=x onerror='window.pwned = 2'>"), "latin1");
    const caught = await open(browser, trap, 1000);
    must(caught.elements === 1 && caught.console.length > 0, "the trap is not seen");
    must(caught.pwned === undefined, "the page's policy lets others' script run");
    await browser.close();
})();
