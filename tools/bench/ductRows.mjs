/** The stage of a duct, in the program and in C: a pipe of many cells, and many short pipes as engines have them. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildGasTables, createNetwork, decode, fillDuct, fuelNamed, ratesOfDecoded } from './core.mjs';
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
  const spec = Array.from({ length: pipes }, (_, i) => ({ name: `pipe ${i}`, profile, cells, ...WALL }));
  const network = createNetwork({ tables, ducts: spec });
  if (network.kernel === null) throw new Error('these pipes are not in the kernel');
  const y = network.vector();
  for (const duct of network.ducts) {
    fillDuct(duct, y, 1e5, 330, 0.05);
    for (let i = 0; i < cells; i++) {
      const wave = 1 + 0.1 * Math.sin((2 * Math.PI * i) / cells);
      for (const field of [0, 2, 3]) y[duct.offset + field * cells + i] *= wave;
      y[duct.offset + cells + i] = y[duct.offset + i] * 60 * Math.sin((2 * Math.PI * i) / cells);
    }
  }
  return { network, y, d: network.vector(), size: network.size / pipes, stages: 0 };
}

/** Decodes and balances every pipe between walls, as often as asked. */
function march(set, stages) {
  const { network, y, d } = set;
  set.stages = stages;
  for (let k = 0; k < stages; k++) {
    decode(network, 0, y);
    for (const duct of network.ducts) {
      duct.left[1] = duct.p[0] * duct.faceArea[0];
      duct.right[1] = duct.p[duct.cells - 1] * duct.faceArea[duct.cells];
    }
    ratesOfDecoded(network, y, d);
  }
}

/** Of the first pipe's rates, of all stages alike: C sums them. */
const sumOf = ({ d, size, stages }) => stages * d.subarray(0, size).reduce((sum, x) => sum + Math.abs(x), 0);

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
function inputOf({ pipes, cells, stages }, tables, { network, y }) {
  const { fanning, wallTemperature, heatMultiplier } = WALL;
  const { faceArea, volume, cellArea, wallArea } = network.ducts[0];
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
