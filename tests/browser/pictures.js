// What the scripts here ask of screenshots. Each function is run inside a browser's page, which can read pictures; it stands alone.
"use strict";

/// Number of different colours, of 32 steps a channel.
async function coloursOf(file) {
    const image = await createImageBitmap(new Blob([Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0))]));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext("2d");
    context.drawImage(image, 0, 0);
    const seen = new Set();
    const { data } = context.getImageData(0, 0, image.width, image.height);
    for (let i = 0; i < data.length; i += 4) seen.add((data[i] >> 3 << 10) | (data[i + 1] >> 3 << 5) | (data[i + 2] >> 3));
    return seen.size;
}

/// How much two pictures differ: share of pixels with a channel off by more than 24; -1: not of one size.
async function differenceOf(files) {
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
}

module.exports = { coloursOf, differenceOf };
