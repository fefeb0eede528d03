/**
 * Random engines and named corners, each forecast and looked at; `npm run random` tries as many as asked for and writes what came
 * of them.
 */
import { appendFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CORNERS } from '../random/corners.ts';
import { examine, fileOf } from '../random/examine.ts';
import { type RandomEngine, randomEngine } from '../random/randomEngine.ts';
import { RELATIONS } from '../random/relations.ts';

const RUNS = Number(process.env['RANDOM_RUNS'] ?? 24);
const SEED = Number(process.env['RANDOM_SEED'] ?? 11);
const REPORT = process.env['RANDOM_REPORT'];

const relationName = fc.constantFrom(...Object.keys(RELATIONS));
/** A relation costs twice to four times the forecast itself: of thousands of engines one in three is looked at again. */
const relations =
  REPORT === undefined
    ? relationName.map((name) => [name])
    : fc.oneof(
        { weight: 2, arbitrary: fc.constant([]) },
        { weight: 1, arbitrary: relationName.map((name) => [name]) },
      );

/** One line of the report: what the engine is called, how it ended, and each fault on a line of its own. */
function note(name: string, engine: RandomEngine, relations: readonly string[]): readonly string[] {
  const { refused, curve, faults, seconds } = examine(
    engine,
    relations.map((relation) => RELATIONS[relation]),
  );
  if (REPORT !== undefined) {
    const record = {
      name,
      rpm: engine.rpm,
      rated: engine.ratedRpm,
      relations,
      refused,
      status: curve?.points.map(({ status }) => status) ?? [],
      codes: curve?.warnings.map(({ code }) => code) ?? [],
      seconds: Number(seconds.toFixed(1)),
      faults,
      file:
        faults.length > 0 || curve?.points.some((p) => p.status !== 'settled') ? fileOf(engine.sections) : '',
    };
    appendFileSync(REPORT, `${JSON.stringify(record)}\n`);
  }
  return faults;
}

describe('engines at the ends of what a file may say', () => {
  it.each(Object.entries(CORNERS))('%s', (name, engine) => {
    expect(note(name, engine, [])).toEqual([]);
  });
});

describe('random engines', () => {
  it('settle or say why, add up, stay within physics, and do not depend on how they are asked for', {
    timeout: 86_400_000,
  }, () => {
    let count = 0;
    fc.assert(
      fc.property(randomEngine, relations, (engine, asked) => {
        const faults = note(`engine ${++count} of seed ${SEED}`, engine, asked);
        // A report wants all of them, a test the smallest one.
        if (REPORT === undefined && faults.length > 0)
          throw new Error([...faults, fileOf(engine.sections), `at ${engine.rpm.join(', ')} rpm`].join('\n'));
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });
});
