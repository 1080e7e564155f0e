// Twelve quantities with units, read from a file, printed in grams: with mathjs.
const fs = require('fs');
const math = require('mathjs');

const scope = new Map();
for (const line of fs.readFileSync(process.argv[2], 'utf8').trim().split('\n')) {
  const name = line.split('=')[0].trim();
  const value = math.evaluate(line, scope);
  console.log(name, value.toNumber('g').toFixed(1), 'g');
}
