/** The stage of a duct, in the program and in C: a pipe of many cells, and many short pipes as engines have them. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  blockSize,
  buildGasTables,
  createDuct,
  ductGroup,
  fillDuct,
  fuelNamed,
  networkMemory,
} from './core.mjs';
import { measured, paired, seconds } from './measure.mjs';

const WALL = { fanning: 0.006, wallTemperature: 330, heatMultiplier: 1 };
const LONG = { name: 'duct stage, one pipe of 1000 cells', pipes: 1, cells: 1000, stages: 4000 };
const SHORT = { name: 'duct stage, 16 pipes of 10 cells', pipes: 16, cells: 10, stages: 25_000 };

function gas() {
  return buildGasTables({ fuel: fuelNamed('pump-93'), lambda: 0.87, vapourPressure: 0, pressure: 101_325 });
}

/** Pipes with a smooth wave in them. */
function build(tables, { pipes, cells }) {
  const profile = [
    { x: 0, area: 1.6e-3 },
    { x: 0.4, area: 1.3e-3 },
  ];
  let entries = 0;
  const take = (more) => {
    entries += more;
    return entries - more;
  };
  const vectors = 2 * pipes * (4 * cells + 1);
  const memory = networkMemory(pipes * (blockSize(cells) + 1) + 2 * tables.count + vectors);
  const ducts = Array.from({ length: pipes }, (_, i) =>
    createDuct({ name: `pipe ${i}`, profile, cells, ...WALL }, { tables, take, memory }),
  );
  const size = entries / pipes;
  const y = memory.take(entries);
  for (const duct of ducts) {
    fillDuct(duct, y, 1e5, 330, 0.05);
    for (let i = 0; i < cells; i++) {
      const wave = 1 + 0.1 * Math.sin((2 * Math.PI * i) / cells);
      for (const field of [0, 2, 3]) y[duct.offset + field * cells + i] *= wave;
      y[duct.offset + cells + i] = y[duct.offset + i] * 60 * Math.sin((2 * Math.PI * i) / cells);
    }
  }
  return { ducts, group: ductGroup(ducts, memory.enlist(ducts)), y, d: memory.take(entries), size };
}

/** Decodes and balances every pipe between walls, as often as asked; returns the sum of the first pipe's rates. */
function march({ ducts, group, y, d }, stages) {
  d.fill(0);
  for (let k = 0; k < stages; k++) {
    group.decode(y);
    for (const duct of ducts) {
      duct.left[1] = duct.p[0] * duct.faceArea[0];
      duct.right[1] = duct.p[duct.cells - 1] * duct.faceArea[duct.cells];
    }
    group.addRates(y, d);
  }
}

const sumOf = ({ d, size }) => d.subarray(0, size).reduce((sum, x) => sum + Math.abs(x), 0);

export const longDuct = async () => [await rowOf(LONG)];
export const shortDucts = async () => [await rowOf(SHORT)];

async function rowOf(one) {
  const row = { name: one.name, unit: 'ns a cell and stage' };
  return {
    ...row,
    ...(await withC(
      one,
      (set, inC) => paired(() => here(one, set), inC),
      () => here(one, build(gas(), one)),
    )),
  };
}

/** Nanoseconds of the program. */
function here(one, set) {
  return 1e9 * (seconds(() => march(set, one.stages)) / (one.stages * one.pipes * one.cells));
}

/** A figure in nanoseconds a cell and stage beside the stage of short pipes in C. */
export async function besideStageInC(once) {
  return withC(SHORT, (_, inC) => paired(once, inC), once);
}

/** What is measured beside C, or alone where no compiler is. */
async function withC(one, both, alone) {
  const folder = mkdtempSync(join(tmpdir(), 'valvetide-bench-'));
  try {
    const binary = join(folder, 'duct-stage');
    const source = fileURLToPath(new URL('./ductStage.c', import.meta.url));
    const compiled = spawnSync('cc', ['-O2', '-o', binary, source, '-lm'], { encoding: 'utf8' }).status === 0;
    if (!compiled) return { figure: await measured(alone), against: 'no C compiler here' };
    const tables = gas();
    const set = build(tables, one);
    const file = join(folder, 'input');
    writeFileSync(file, inputOf(one, tables, set));
    const inC = () => {
      const [taken, sum] = spawnSync(binary, [file], { encoding: 'utf8' }).stdout.split(' ').map(Number);
      march(set, one.stages);
      // The same work, or the ratio means nothing.
      const apart = Math.abs(sum / sumOf(set) - 1);
      if (!(apart < 1e-9)) throw new Error(`${one.name}: C gives other rates, ${apart} apart`);
      return (1e9 * taken) / (one.stages * one.pipes * one.cells);
    };
    return { ...(await both(set, inC)), against: 'the stage of a duct in C, -O2' };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the C program reads. */
function inputOf({ pipes, cells, stages }, tables, { ducts, y }) {
  const { fanning, wallTemperature, heatMultiplier } = WALL;
  const { faceArea, volume, cellArea, wallArea } = ducts[0];
  const head = [pipes, cells, stages, tables.count, tables.tMin, tables.dT, tables.freshR, tables.burnedR];
  const columns = [
    tables.freshU,
    tables.burnedU,
    faceArea,
    volume,
    cellArea,
    wallArea,
    y.slice(0, 4 * cells),
  ];
  return Buffer.concat(
    [Float64Array.from([...head, fanning, wallTemperature, heatMultiplier]), ...columns].map((column) =>
      Buffer.from(column.buffer, column.byteOffset, column.byteLength),
    ),
  );
}
