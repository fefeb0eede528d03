// A results file into a table: what `valvetide compare ... --json -o results.json` wrote, without the library.
// `node examples/results-table.mjs results.json` prints a line for each combination and speed, ready for a spreadsheet or a database.
import { readFileSync } from 'node:fs';

const result = JSON.parse(readFileSync(process.argv[2] ?? 0, 'utf8'));
// Each result says which command wrote it and which version of its shape it has.
if (result.command !== 'compare' || result.schemaVersion !== 1)
  throw new Error(`this reads results of compare, version 1; got ${result.command}, ${result.schemaVersion}`);

const rows = result.entries.flatMap(({ name, curve, gain, breaches }) =>
  (curve?.points ?? []).map((point, i) => ({
    combination: name,
    rpm: point.rpm,
    // A speed that was lost has its reason and no figures.
    torqueNm: point.torqueNm ?? null,
    powerKw: point.powerKw ?? null,
    gainPct: gain?.byRpm[i].torquePct ?? null,
    allowed: breaches.length === 0,
  })),
);

const shown = (value) => (typeof value === 'number' ? String(Number(value.toFixed(2))) : (value ?? ''));
const [first] = rows;
if (first === undefined) throw new Error('the results hold no curve');
console.log(Object.keys(first).join('\t'));
for (const row of rows) console.log(Object.values(row).map(shown).join('\t'));
