/** What each command writes with --json keeps to the schema that is published for it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { CORE } from '../../packages/cli/src/core.ts';
import { main } from '../../packages/cli/src/main.ts';
import { json } from '../../packages/cli/src/render/json.ts';
import { type Results, resultOf } from '../../packages/cli/src/results.ts';
import { world } from '../../packages/cli/test/fakeIo.ts';
import { samplePressures } from '../../packages/cli/test/report/samplePressures.ts';
import { sampleBacktest, sampleCalibration } from '../../packages/cli/test/report/sampleStudies.ts';
import { studyCore } from '../../packages/cli/test/studies.ts';

const root = join(import.meta.dirname, '../..');
const example = (path: string): string => readFileSync(join(root, 'examples', path), 'utf8');

const files = {
  'engine.yaml': example('minimum/engine.yaml'),
  'changes.yaml': `
changes:
  - { name: Longer, scale: { exhaust.primary.length: 1.1 }, cost: 60, hours: 1 }
  - { name: Domed, add: { chamber.compression: 4 }, reversible: false }
`,
  'shelf.yaml': `
groups:
  - name: Pistons
    choices:
      - { name: Milled, add: { chamber.compression: 0.5 }, cost: 300, hours: 12 }
ranges:
  - { name: Primary, field: exhaust.primary.length, from: 30 in, to: 34 in, step: 2 in, cost: 500, hours: 4 }
`,
  'pulls.csv': example('hill-climb/pulls.csv'),
  'after.csv': example('hill-climb/pulls-mufflers.csv'),
};
const SPEEDS = ['--rpm', '3000:5000:1000'];

/** The command line of each, run on invented forecasts. */
const LINES: Readonly<Partial<Record<keyof Results, readonly string[]>>> = {
  inspect: ['engine.yaml'],
  compare: ['engine.yaml', '--changes', 'changes.yaml', ...SPEEDS],
  sweep: ['engine.yaml', '--vary', 'chamber.compression=8,9.5,99', ...SPEEDS],
  rank: ['engine.yaml', '--changes', 'changes.yaml', ...SPEEDS],
  choose: ['engine.yaml', '--shelf', 'shelf.yaml', '--band', '3000:5000'],
  restrictions: ['engine.yaml', ...SPEEDS],
  pulls: ['pulls.csv', 'after.csv'],
};

interface Node {
  readonly type?: unknown;
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly additionalProperties?: unknown;
}

/** The schema with every object closed, so that a field it does not name is seen. */
function closed(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(closed);
  if (typeof node !== 'object' || node === null) return node;
  const { properties, additionalProperties }: Node = node;
  const inner = Object.fromEntries(Object.entries(node).map(([key, value]) => [key, closed(value)]));
  return properties !== undefined &&
    typeof properties === 'object' &&
    additionalProperties === undefined &&
    'required' in node
    ? { ...inner, additionalProperties: false }
    : inner;
}

function faults(command: keyof Results, text: string): readonly string[] {
  const schema: unknown = JSON.parse(
    readFileSync(join(root, 'packages/core/schema', `${command}-result.schema.json`), 'utf8'),
  );
  const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true });
  const validate = ajv.compile(closed(schema) as object);
  validate(JSON.parse(text));
  return (validate.errors ?? []).map(
    ({ instancePath, message, params }) => `${instancePath} ${message} ${JSON.stringify(params)}`,
  );
}

describe('results as JSON', () => {
  it.each(Object.entries(LINES))('of %s keep to their schema, and say so', async (command, words) => {
    const w = world({ files });
    expect(await main([command, ...words, '--json'], w.io, studyCore()), w.err()).toBe(0);
    expect(JSON.parse(w.out())).toMatchObject({ command, schemaVersion: 1, program: { name: 'valvetide' } });
    expect(faults(command as keyof Results, w.out()).slice(0, 5)).toEqual([]);
  });

  it('of forecast keep to theirs, with band, sheet and spread', async () => {
    const w = world({ files });
    const words = ['forecast', 'engine.yaml', '--rpm', '3000,4500', '--band', '3000:4500', '--workers', '1'];
    const core = { ...CORE, openRunner: studyCore().openRunner };
    expect(await main([...words, '--json'], w.io, core), w.err()).toBe(0);
    expect(JSON.parse(w.out())).toMatchObject({ command: 'forecast', band: { fromRpm: 3000 }, spread: {} });
    expect(faults('forecast', w.out()).slice(0, 5)).toEqual([]);
  });

  it('of calibrate and backtest keep to theirs', () => {
    expect(faults('calibrate', json(resultOf('calibrate', sampleCalibration())))).toEqual([]);
    expect(faults('backtest', json(resultOf('backtest', sampleBacktest())))).toEqual([]);
  });

  it('of pressures keep to theirs', () => {
    expect(faults('pressures', json(resultOf('pressures', samplePressures())))).toEqual([]);
  });

  it('with a field that the schema does not name, or without one that it does, do not', () => {
    const { outcome: _, ...rest } = sampleCalibration();
    const broken = { ...resultOf('calibrate', sampleCalibration()), surprise: 1 };
    expect(faults('calibrate', json(broken))).toHaveLength(1);
    expect(faults('calibrate', json({ command: 'calibrate', ...rest }))).toHaveLength(1);
  });
});
