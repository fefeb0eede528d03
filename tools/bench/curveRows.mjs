/** Whole forecasts: a curve of 13 speeds of four engines in both fidelities, what a cell and stage cost all told, one table. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildGasTables, createSimulation, forecast, fuelNamed, readCombination } from './core.mjs';
import { measured, seconds } from './measure.mjs';

const examples = fileURLToPath(new URL('../../examples/', import.meta.url));

function engine(path) {
  const read = readCombination(readFileSync(path, 'utf8'), {
    file: path,
    sheet: (name) => readFileSync(join(dirname(path), name), 'utf8'),
  });
  if (!read.ok) throw new Error(`${path} is not read`);
  return read.value;
}

/** The examples, by their folders' names. */
function engines() {
  return readdirSync(examples, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({ name, combination: engine(join(examples, name, 'engine.yaml')) }));
}

/** Thirteen speeds up to a mean piston speed of 20 m/s, from three tenths of it. */
function speeds({ block }) {
  const top = (20 * 30) / block.stroke;
  return Array.from({ length: 13 }, (_, i) => Math.round(top * (0.3 + (0.7 * i) / 12)));
}

export async function curveRows() {
  const rows = [];
  for (const { name, combination } of engines())
    for (const fidelity of ['representative', 'all']) {
      const rpm = speeds(combination);
      const figure = await measured(() => seconds(() => forecast(combination, { rpm, fidelity })), 3);
      rows.push({ name: `13 speeds of ${name}, ${fidelity}`, unit: 's', figure });
    }
  rows.push(await cellStageRow(engines()[0]));
  const gas = { fuel: fuelNamed('pump-93'), lambda: 0.87, vapourPressure: 0, pressure: 101_325 };
  rows.push({
    name: 'table of burned and fresh gas',
    unit: 's',
    figure: await measured(() => seconds(() => buildGasTables(gas))),
  });
  return rows;
}

/** Everything a march does over the cells and stages it does it for: ducts, their ends, cylinders, stepping, events. */
async function cellStageRow({ name, combination }) {
  const [, , , , rpm] = speeds(combination);
  const once = () => {
    const simulation = createSimulation(combination, { fidelity: 'all' });
    const cells = simulation.engine.spec.ducts.reduce((sum, duct) => sum + duct.cells, 0);
    const stages = simulation.march.options.tableau.b.length;
    const taken = seconds(() => simulation.runSpeed(rpm));
    return (1e9 * taken) / (simulation.march.steps * stages * cells);
  };
  return {
    name: `a march of ${name}, all told`,
    unit: 'ns a cell and stage',
    figure: await measured(once, 3),
  };
}
