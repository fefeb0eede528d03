// Forecasting inside a program of your own: text in, plain values out. Run `npm run build` once, then
// `node examples/embed.mjs`. The library reads no file and prints nothing; both are up to you.
import { forecast, inspectCombination, marchedPoints, problemLine, readCombination } from '@valvetide/core';

/** The same engine with a compression ratio of your choice. */
const combinationText = (compression) => `
name: embedded example
engine: { cylinders: 4, bore: 3.740 in, stroke: 3.260 in }
chamber: { compression: ${compression} }
heads:
  valvesPerCylinder: 2
  intake: { valve: 1.83 in, flow: [{ lift: 0.160 in, flow: 97 cfm }, { lift: 0.320 in, flow: 168 cfm }, { lift: 0.480 in, flow: 194 cfm }] }
  exhaust: { valve: 1.49 in }
cam:
  separation: 106 deg
  intake: { at050: 233 deg, valveLift: 0.464 in }
  exhaust: { at050: 235 deg, valveLift: 0.458 in }
fuel: race-110
correction: J607
`;

function curveOf(compression) {
  const read = readCombination(combinationText(compression), { file: `${compression}:1` });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  const { band } = inspectCombination(read.value);
  const rpm = [];
  for (let speed = band.fromRpm; speed <= band.toRpm; speed += 2 * band.stepRpm) rpm.push(speed);
  return forecast(read.value, { rpm });
}

const before = curveOf(9.5);
const after = curveOf(11);
console.log(`power corrected to ${before.correction.standard}, ${before.fidelity} cylinder, hp`);
console.log('   rpm   9.5:1    11:1  change');
marchedPoints(before).forEach(({ rpm, powerHp }) => {
  const changed = marchedPoints(after).find((point) => point.rpm === rpm)?.powerHp ?? Number.NaN;
  const columns = [
    rpm,
    powerHp.toFixed(1),
    changed.toFixed(1),
    `${((changed / powerHp - 1) * 100).toFixed(1)} %`,
  ];
  console.log(columns.map((cell) => String(cell).padStart(7)).join(' '));
});
console.log(`${after.assumed.length} values were assumed; after.assumed lists them with their spreads`);
for (const warning of after.warnings) console.log(`warning: ${warning.message}`);
