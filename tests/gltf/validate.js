// node validate.js VALIDATOR FILE...: what Khronos' glTF validator says; ends with 1 when it has an error or a warning.
const fs = require('fs');
const [folder, ...files] = process.argv.slice(2);
const validator = require(folder);

async function look(file) {
    const report = await validator.validateBytes(new Uint8Array(fs.readFileSync(file)), {maxIssues: 20});
    const {numErrors, numWarnings, numInfos, messages} = report.issues;
    console.log(`${file}: ${numErrors} errors, ${numWarnings} warnings, ${numInfos} notes, ` +
                `${report.info.totalTriangleCount} triangles, ${report.info.animationCount} animations`);
    for (const message of messages) console.log(`    ${message.pointer}: ${message.code}: ${message.message}`);
    return numErrors + numWarnings === 0;
}

(async () => {
    let good = files.length > 0;
    for (const file of files) good = await look(file) && good;
    // The validator must find what is wrong.
    const cut = await validator.validateBytes(new Uint8Array(fs.readFileSync(files[0])).slice(0, 2000)).catch(() => null);
    if (cut !== null && cut.issues.numErrors === 0) good = false;
    process.exit(good ? 0 : 1);
})();
