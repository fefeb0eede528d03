/** Whole forecasts: a curve of 13 speeds of each example in both fidelities, and the table of gas that each begins with. */
import { buildGasTables, forecast, fuelNamed } from './core.mjs';
import { engines, thirteenSpeeds } from './engines.mjs';
import { besideArithmetic, seconds } from './measure.mjs';

/** The small ones, a six and an eight: what the others tell is the same. */
const SHOWN = 4;

export async function curveRows() {
  const rows = [];
  const shown = engines().sort((a, b) => b.combination.block.cylinders - a.combination.block.cylinders);
  for (const { name, combination } of shown.slice(0, SHOWN))
    for (const fidelity of ['representative', 'all']) {
      const rpm = thirteenSpeeds(combination);
      const once = () => seconds(() => forecast(combination, { rpm, fidelity }));
      // What the first fidelity warms serves the second.
      const beside = await besideArithmetic(once, 2, fidelity === 'representative');
      rows.push({ name: `13 speeds of ${name}, ${fidelity}`, unit: 's', ...beside });
    }
  const gas = { fuel: fuelNamed('pump-93'), lambda: 0.87, vapourPressure: 0, pressure: 101_325 };
  const once = () => seconds(() => buildGasTables(gas));
  rows.push({ name: 'table of burned and fresh gas', unit: 's', ...(await besideArithmetic(once)) });
  return rows;
}
