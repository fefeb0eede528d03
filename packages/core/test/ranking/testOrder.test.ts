import { describe, expect, it } from 'vitest';
import { accessOf } from '../../src/changes/access.ts';
import { type TestPlan, testOrder } from '../../src/ranking/testOrder.ts';
import type { TestCandidate, TestStep } from '../../src/ranking/testSteps.ts';
import type { Link } from '../../src/ranking/worthwhile.ts';

const candidate = (name: string, gainPct: number, more: Partial<TestCandidate> = {}): TestCandidate => ({
  name,
  gainPct,
  chanceOfGain: gainPct > 0 ? 0.95 : 0.1,
  access: 'on the stand',
  reversible: true,
  hours: 2,
  insteadOf: null,
  tieGroup: 1,
  pulls: 3,
  cost: 100,
  against: null,
  enabledBy: null,
  ...more,
});

const DYNO = { resolvablePct: 0.8, pulls: 3 };

const order = (candidates: readonly TestCandidate[], links: readonly Link[] = []): readonly string[] =>
  everyStep(testOrder(candidates, links, DYNO)).map(({ action, change }) => change ?? action);

const everyStep = ({ steps, beyond, leave }: TestPlan): readonly TestStep[] => [
  ...steps,
  ...beyond,
  ...leave,
];

describe('testOrder(candidates, links, options)', () => {
  it('tests what comes off again on the stand before what needs the engine apart', () => {
    const list = [
      candidate('pistons', 4, { access: 'engine apart', reversible: false }),
      candidate('heads', 6, { access: 'heads off', reversible: false }),
      candidate('spacer', 1),
      candidate('manifold', 3, { access: 'manifold off' }),
    ];
    expect(order(list).filter((step) => step !== 'baseline')).toEqual([
      'spacer',
      'manifold',
      'heads',
      'pistons',
    ]);
  });

  it('tests the quick before the slow, and the larger gain first where the work is the same', () => {
    const list = [
      candidate('slow', 5, { hours: 6 }),
      candidate('small', 1, { hours: 1 }),
      candidate('large', 2, { hours: 1 }),
      candidate('unstated', 9, { hours: null }),
    ];
    expect(order(list).filter((step) => step !== 'baseline')).toEqual(['large', 'small', 'slow', 'unstated']);
  });

  it('says of each step what work it is, whether it comes off again, and what it shares', () => {
    const list = [
      candidate('jets', 3, { access: 'settings' }),
      candidate('cam', 4, { access: 'heads off', reversible: false }),
      candidate('heads', 6, { access: 'heads off', reversible: false }),
    ];
    const why = (name: string): string | undefined =>
      everyStep(testOrder(list, [], DYNO)).find(({ change }) => change === name)?.why;
    expect(why('jets')).toBe('a setting, comes off again');
    expect(why('heads')).toBe('heads off, stays on');
    expect(why('cam')).toBe('heads off, stays on, shares the tear-down of heads');
  });

  it('leaves what no dyno would show, and says how many pulls would where some would', () => {
    const list = [
      candidate('large', 4),
      candidate('faint', 0.3, { pulls: null }),
      candidate('small', 0.3, { pulls: 40 }),
    ];
    const { leave, beyond, steps } = testOrder(list, [], DYNO);
    const all = [...steps, ...beyond, ...leave];
    const why = (name: string): string | undefined => all.find(({ change }) => change === name)?.why;
    expect(why('faint')).toBe('too small for this dyno');
    expect(why('small')).toBe('40 pulls a side would show it');
  });

  it('pulls a baseline before, between and after', () => {
    const { steps } = testOrder([candidate('a', 2), candidate('b', 1)], [], DYNO);
    expect(steps.map(({ action }) => action)).toEqual(['baseline', 'test', 'baseline', 'test', 'baseline']);
    expect(steps[2].why).toContain('a off again');
  });

  it('takes what can not come off for the new baseline', () => {
    const { steps } = testOrder([candidate('mill', 2, { reversible: false })], [], DYNO);
    expect(steps[2].why).toContain('new baseline');
  });

  it('puts a change after the one that makes it worthwhile, and expects it with that one on', () => {
    const list = [
      candidate('carburetor', 2.7, { hours: 2 }),
      candidate('rocker', 0.3, { hours: 1, pulls: null }),
    ];
    const link: Link = { a: 'carburetor', b: 'rocker', interactionPct: 0.9, verdict: 'helps' };
    const { steps } = testOrder(list, [link], DYNO);
    const tests = steps.filter(({ action }) => action === 'test');
    expect(tests.map(({ change }) => change)).toEqual(['carburetor', 'rocker']);
    expect(tests[1].expectedGainPct).toBeCloseTo(1.2, 12);
    expect(tests[1].why).toContain('once carburetor is on');
    expect(steps.find(({ action }, i) => action === 'baseline' && i === 2)?.why).toContain(
      'carburetor stays on',
    );
  });

  it('leaves alone what hinders or is independent', () => {
    const list = [candidate('a', 2.7), candidate('b', 0.9, { hours: 1 })];
    const link: Link = { a: 'a', b: 'b', interactionPct: -0.9, verdict: 'hinders' };
    expect(order(list, [link]).filter((step) => step !== 'baseline')).toEqual(['b', 'a']);
  });

  it('says that tests share a tear-down', () => {
    const deep = { access: 'heads off', reversible: false } as const;
    const tests = testOrder([candidate('port', 3, deep), candidate('mill', 2, deep)], [], DYNO).steps.filter(
      ({ action }) => action === 'test',
    );
    expect(tests[1].why).toContain('shares the tear-down of port');
  });

  it('stops before what the dyno can not tell, and leaves what is likelier to lose', () => {
    const list = [
      candidate('faint', 0.4, { pulls: 13 }),
      candidate('sure', 2),
      candidate('loser', -1),
      candidate('nothing', 0.05),
    ];
    const { steps, stop, beyond, leave } = testOrder(list, [], DYNO);
    expect(steps.map(({ action, change }) => change ?? action)).toEqual(['baseline', 'sure', 'baseline']);
    expect(stop).toContain('0.8 %');
    expect(beyond.map(({ change, why }) => [change, why])).toEqual([
      ['faint', '13 pulls a side would show it'],
    ]);
    expect(leave.map(({ change, why }) => [change, why])).toEqual([
      ['nothing', 'too little to gain'],
      ['loser', 'more likely to lose than to gain'],
    ]);
  });

  it('adds up pulls, hours and money of the steps, and of nothing behind the stop', () => {
    const list = [
      candidate('a', 2, { hours: 4, cost: 300 }),
      candidate('b', 1, { hours: 1.5, cost: 50 }),
      candidate('faint', 0.4, { hours: 100, cost: 5000 }),
    ];
    // Five sets of three pulls at ten minutes each: 2.5 hours.
    expect(testOrder(list, [], DYNO).bill).toEqual({ pulls: 15, fittingHours: 5.5, cellHours: 8, cost: 350 });
    expect(testOrder([candidate('a', 2, { hours: null })], [], DYNO).bill.cellHours).toBeNull();
  });

  it('leaves what is forbidden or not modelled, and says why', () => {
    const list = [candidate('domed', 7, { against: 'asks for 98 octane' }), candidate('sure', 2)];
    const { steps, leave } = testOrder(list, [], DYNO);
    expect(steps.some(({ change }) => change === 'domed')).toBe(false);
    expect(leave).toMatchObject([{ change: 'domed', why: 'asks for 98 octane' }]);
  });

  it('tests a beaten rival that the best set has, since a budget may bear no other', () => {
    const heads = (name: string, gain: number, tieGroup: number): TestCandidate =>
      candidate(name, gain, { insteadOf: 'heads', tieGroup });
    const plan = testOrder([heads('dear', 5, 1), heads('cheap', 2, 2)], [], { ...DYNO, bestSet: ['cheap'] });
    expect(plan.steps.find(({ change }) => change === 'cheap')).toMatchObject({ inBestSet: true });
    expect(plan.steps.find(({ change }) => change === 'dear')).toMatchObject({ inBestSet: false });
    expect(plan.leave).toEqual([]);
  });

  it('of changes that exclude each other tests the best, and others only where the order is not settled', () => {
    const heads = (name: string, gain: number, tieGroup: number): TestCandidate =>
      candidate(name, gain, { insteadOf: 'heads', tieGroup });
    const steps = everyStep(testOrder([heads('x', 5, 1), heads('y', 4.8, 1), heads('z', 2, 2)], [], DYNO));
    const actions = Object.fromEntries(steps.map(({ action, change }) => [change ?? '', action]));
    expect(actions).toMatchObject({ x: 'test', y: 'test', z: 'leave' });
    expect(steps.find(({ change }) => change === 'z')?.why).toContain('x in its place');
  });

  it('does not depend on the order the changes are given in', () => {
    const list = [candidate('a', 2), candidate('b', 2), candidate('c', 0.2), candidate('d', -2)];
    expect(order([...list].reverse())).toEqual(order(list));
  });

  it('mentions every change once', () => {
    const list = [
      candidate('a', 2),
      candidate('b', 0.2),
      candidate('c', -2),
      candidate('d', 3, { insteadOf: 'x' }),
    ];
    expect(
      order(list)
        .filter((step) => step.length === 1)
        .sort(),
    ).toEqual(['a', 'b', 'c', 'd']);
  });
});

describe('accessOf(change)', () => {
  const access = (...paths: string[]): string =>
    accessOf({ edits: paths.map((path) => ({ kind: 'set', path, value: 1 })) });

  it('is as deep as the deepest of the edits', () => {
    expect(access('burn.ca50')).toBe('settings');
    expect(access('induction.carburetor.rating')).toBe('on the stand');
    expect(access('induction.manifold', 'exhaust.primary.length')).toBe('manifold off');
    expect(access('cam.advance')).toBe('manifold off');
    expect(access('cam.intake.at050')).toBe('cam out');
    expect(access('cam.intake.at050', 'chamber.volume')).toBe('heads off');
    expect(access('heads.intake.valve', 'engine.stroke')).toBe('engine apart');
  });

  it('puts what bears a change behind what makes it worthwhile, and the change behind both', () => {
    const list = [
      candidate('domes', 9, { access: 'settings', against: 'asks for 92 octane', enabledBy: 'fuel' }),
      candidate('fuel', 0.1),
      candidate('carburetor', 5, { access: 'manifold off' }),
    ];
    const bears = { a: 'domes', b: 'fuel', interactionPct: 0.5, verdict: 'independent' } as const;
    const helps = { a: 'carburetor', b: 'fuel', interactionPct: 1, verdict: 'helps' } as const;
    expect(order(list, [bears, helps]).filter((step) => step !== 'baseline')).toEqual([
      'carburetor',
      'fuel',
      'domes',
    ]);
  });

  it('puts what bears a change before it, however little that gains itself', () => {
    const list = [
      candidate('domes', 9, { access: 'heads off', against: 'asks for 92 octane', enabledBy: 'fuel' }),
      candidate('fuel', 0, { access: 'settings' }),
    ];
    const pair = { a: 'domes', b: 'fuel', interactionPct: 0.5, verdict: 'independent' } as const;
    const { steps, leave } = testOrder(list, [pair], { resolvablePct: 1, pulls: 3 });
    const tests = steps.filter(({ action }) => action === 'test');
    expect(tests.map(({ change }) => change)).toEqual(['fuel', 'domes']);
    expect(tests[0].why).toContain('domes needs it');
    expect(tests[1].why).toContain('allowed once fuel is on');
    expect(tests[1].expectedGainPct).toBeCloseTo(9.5, 12);
    expect(leave).toEqual([]);
  });

  it('fits what only makes room for another directly before it, its pulls the baseline of that other', () => {
    const list = [
      candidate('domes', 9, { access: 'heads off', against: 'asks for 92 octane', enabledBy: 'fuel' }),
      candidate('fuel', 0, { access: 'settings' }),
      candidate('mufflers', 4),
    ];
    const pair = { a: 'domes', b: 'fuel', interactionPct: 0.5, verdict: 'independent' } as const;
    expect(order(list, [pair])).toEqual(['baseline', 'mufflers', 'baseline', 'fuel', 'domes', 'baseline']);
  });
});
