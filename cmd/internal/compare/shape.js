// The others of the comparison, in node: JSON.parse alone, or with ajv behind it,
// compiled, for the shape alone. It reads a file as a stream, a record a line.
//
//   node shape.js parse FILE
//   node shape.js first|all FILE SCHEMAS      stop at the first error of a record, or find all
//
// It prints how many records go. NODE_PATH names the folder that ajv and
// ajv-formats are installed in.
'use strict';
const fs = require('fs');
const path = require('path');
const { StringDecoder } = require('string_decoder');

const [how, file, schemas] = process.argv.slice(2);

function compile() {
  const Ajv = require('ajv/dist/2020').default;
  const formats = require('ajv-formats').default;
  const ajv = new Ajv({ allErrors: how === 'all', strict: false });
  formats(ajv);
  for (const name of fs.readdirSync(schemas)) {
    ajv.addSchema(JSON.parse(fs.readFileSync(path.join(schemas, name), 'utf8')));
  }
  return ajv.getSchema('urn:snapgauge:schema:1.0:line');
}

const valid = how === 'parse' ? (record) => record !== null : compile();
let good = 0;
function judge(line) {
  if (line === '') return;
  let record;
  try {
    record = JSON.parse(line);
  } catch {
    return;
  }
  if (valid(record)) good++;
}

const fd = fs.openSync(file, 'r');
const chunk = Buffer.allocUnsafe(1 << 20);
const decoder = new StringDecoder('utf8');
let rest = '';
for (;;) {
  const n = fs.readSync(fd, chunk, 0, chunk.length, null);
  if (n === 0) break;
  const text = rest + decoder.write(chunk.subarray(0, n));
  let from = 0;
  for (let to; (to = text.indexOf('\n', from)) >= 0; from = to + 1) judge(text.slice(from, to));
  rest = text.slice(from);
}
judge(rest);
console.log(good);
