/** The engine of the dyno series at the speeds of the printed peaks, and what its mufflers make of it. */
import { readFileSync } from 'node:fs';
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import { editDocument } from '../../../packages/core/src/reading/editDocument.ts';
import { readDocument } from '../../../packages/core/src/reading/readDocument.ts';
import { resolveDocument } from '../../../packages/core/src/reading/resolveDocument.ts';
import { wholeForecast } from '../../../packages/core/test/forecast/wholeForecast.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';
import { FIRST, SECOND, TOO_FLAT } from './engineCases.ts';

const STATES = [
  { name: 'first state', file: 'street-350', printed: FIRST },
  { name: 'second state', file: 'street-350-second', printed: SECOND },
] as const;
/** Of an open collector. */
const COLLECTOR = '12 in';

function pointsAt({ file, printed }: (typeof STATES)[number], muffled: boolean): readonly MarchedPoint[] {
  const name = `${file}.yaml`;
  const read = readDocument(readFileSync(new URL(`../../data/engines/${name}`, import.meta.url), 'utf8'), {
    file: name,
  });
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  const document = muffled
    ? read.value
    : editDocument(
        editDocument(read.value, 'exhaust.muffler', 'open'),
        'exhaust.collector.length',
        COLLECTOR,
      );
  const resolved = resolveDocument(document, {});
  if (!resolved.ok) throw new Error(resolved.problems.map((p) => p.message).join('\n'));
  return wholeForecast(resolved.value, { rpm: [printed.torqueRpm, printed.powerRpm] }).points;
}

function rowsOf(state: (typeof STATES)[number], muffled: boolean): readonly PublishedCase[] {
  const points = once(() => pointsAt(state, muffled));
  const { name, printed } = state;
  const behind = muffled ? 'with mufflers' : 'open';
  const row = { decimals: 0, within: 0.06, relative: true, aim: true, cause: TOO_FLAT } as const;
  return [
    {
      ...row,
      what: `${name}, ${behind}: torque at ${printed.torqueRpm} rpm`,
      value: printed.torque,
      unit: 'lb-ft',
      compute: () => points()[0].torqueLbFt,
    },
    {
      ...row,
      what: `${name}, ${behind}: power at ${printed.powerRpm} rpm`,
      value: printed.power,
      unit: 'hp',
      compute: () => points()[1].powerHp,
    },
  ];
}

export const muffledCases: PublishedSource = {
  title: 'The same engine with and without its mufflers',
  source: 'the same series',
  note: `At the speeds of the printed peaks. Open, with collectors of ${COLLECTOR}, is not what was measured.`,
  cases: STATES.flatMap((state) => [...rowsOf(state, true), ...rowsOf(state, false)]),
};
