/** A forecast whose speeds and spread are computed by whoever works on a queue. */
import { readFileSync } from 'node:fs';
import type { StudyJob } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { CORE, type Core } from '../../src/core.ts';
import { EXIT } from '../../src/exitCodes.ts';
import { main } from '../../src/main.ts';
import { type World, world } from '../fakeIo.ts';
import { sampleCurve } from '../sampleCurve.ts';

const minimum = new URL('../../../../examples/minimum/engine.yaml', import.meta.url);

/** A queue that answers at once. */
function queued(): { readonly core: Core; readonly sent: StudyJob[]; readonly closed: () => number } {
  const sent: StudyJob[] = [];
  let closed = 0;
  const core: Core = {
    ...CORE,
    openRunner: () => {
      throw new Error('a thread was begun here');
    },
    openQueueRunner: async () => ({
      run: async (jobs) => {
        sent.push(...jobs);
        return jobs.map(({ rpm }) => sampleCurve(rpm));
      },
      close: async () => {
        closed += 1;
      },
    }),
  };
  return { core, sent, closed: () => closed };
}

const run = async (words: readonly string[], core: Core): Promise<World & { readonly code: number }> => {
  const w = world({ files: { 'engine.yaml': readFileSync(minimum, 'utf8') } });
  return { ...w, code: await main(['forecast', 'engine.yaml', ...words], w.io, core) };
};

describe('a forecast on a queue', () => {
  it('sends each speed as a job of its own, and what its spread takes', async () => {
    const { core, sent, closed } = queued();
    const { code } = await run(['--rpm', '3000,4000,5000', '--queue', 'redis://render', '--csv'], core);
    expect(code).toBe(EXIT.ok);
    const fine = sent.filter(({ onlyCompared }) => onlyCompared !== true);
    expect(fine.map(({ rpm }) => rpm)).toEqual([[3000], [4000], [5000]]);
    expect(sent.length).toBeGreaterThan(fine.length + 15);
    expect(closed()).toBe(2);
  });

  it('sends a single speed too', async () => {
    const { core, sent } = queued();
    await run(['--rpm', '4000', '--queue', 'redis://render', '--quick'], core);
    expect(sent.map(({ rpm }) => rpm)).toEqual([[4000]]);
  });

  it('knows no threads of its own beside the queue', async () => {
    const words = ['--rpm', '4000', '--queue', 'redis://render', '--workers', '2'];
    const { code, err } = await run(words, queued().core);
    expect(code).toBe(EXIT.usage);
    expect(err()).toContain("--queue and --workers can't be used together");
  });
});
