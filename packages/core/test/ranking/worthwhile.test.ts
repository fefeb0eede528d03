import { describe, expect, it } from 'vitest';
import { type Candidate, type Link, worthOf } from '../../src/ranking/worthwhile.ts';

const candidate = (name: string, gainPct: number, more: Partial<Candidate> = {}): Candidate => ({
  name,
  gainPct,
  chanceOfGain: null,
  against: null,
  enabledBy: null,
  ...more,
});
const helps = (interactionPct: number): Link => ({ a: 'cam', b: 'heads', interactionPct, verdict: 'helps' });

/** ChangeWorth of the smaller change, the dyno telling 1 %. */
function heads(gainPct: number, links: readonly Link[] = [], more: Partial<Candidate> = {}) {
  const worth = worthOf([candidate('cam', 5), candidate('heads', gainPct, more)], links, 1).get('heads');
  if (worth === undefined) throw new Error('not among them');
  return worth;
}

describe('a change alone', () => {
  it('is worth having above a tenth of a percent', () => {
    expect(heads(0.11).isWorthwhile).toBe(true);
    expect(heads(0.1).isWorthwhile).toBe(false);
  });

  it('that is likelier to be none is worth a test from half a percent on', () => {
    expect(heads(0.49, [], { chanceOfGain: 0.49 }).isWorthwhile).toBe(false);
    expect(heads(0.51, [], { chanceOfGain: 0.49 }).isWorthwhile).toBe(true);
    expect(heads(0.49, [], { chanceOfGain: 0.5 }).isWorthwhile).toBe(true);
  });

  it('is worth nothing with something against it', () => {
    expect(heads(4, [], { against: 'breaks a limit' }).isWorthwhile).toBe(false);
  });
});

describe('a change that a larger one helps', () => {
  it('is expected with it where it is too small to tell alone and gains a quarter of itself or more', () => {
    const { unlock, expectedPct } = heads(0.4, [helps(0.1)]);
    expect(unlock?.first).toBe('cam');
    expect(expectedPct).toBeCloseTo(0.5, 12);
    expect(heads(-0.4, [helps(0.6)])).toMatchObject({ isWorthwhile: true });
  });

  it('stands alone where the dyno tells it by itself', () => {
    expect(heads(1, [helps(0.5)])).toMatchObject({ unlock: null, expectedPct: 1 });
  });

  it('stands alone where the help is less than a quarter of it', () => {
    expect(heads(0.4, [helps(0.09)])).toMatchObject({ unlock: null, expectedPct: 0.4 });
  });

  it('stands alone where the two hinder each other, or the larger one loses', () => {
    expect(heads(0.4, [{ ...helps(0.3), verdict: 'hinders' }]).unlock).toBeNull();
    const both = worthOf([candidate('cam', -0.1), candidate('heads', -0.3)], [helps(0.5)], 1);
    expect(both.get('heads')?.unlock).toBeNull();
  });
});

describe('a change that breaks a limit alone', () => {
  const fuel = candidate('fuel', 0);
  const domes = candidate('domes', 9, { against: 'asks for 92 octane', enabledBy: 'fuel' });
  const together: Link = { a: 'domes', b: 'fuel', interactionPct: 0.7, verdict: 'independent' };

  it('is worth having beside the one that bears it, which is then worth having too', () => {
    const worths = worthOf([domes, fuel], [together], 1);
    expect(worths.get('domes')).toMatchObject({ isWorthwhile: true, unlock: { first: 'fuel' } });
    expect(worths.get('domes')?.expectedPct).toBeCloseTo(9.7, 12);
    expect(worths.get('fuel')).toMatchObject({ isWorthwhile: true, enables: 'domes', expectedPct: 0 });
  });

  it('is left where nothing bears it, and so is what would have borne it for nothing', () => {
    const worths = worthOf([{ ...domes, enabledBy: null }, fuel], [together], 1);
    expect(worths.get('domes')?.isWorthwhile).toBe(false);
    expect(worths.get('fuel')?.isWorthwhile).toBe(false);
    const small = worthOf([{ ...domes, gainPct: -1 }, fuel], [together], 1);
    expect([small.get('domes')?.isWorthwhile, small.get('fuel')?.isWorthwhile]).toEqual([false, false]);
  });
});
