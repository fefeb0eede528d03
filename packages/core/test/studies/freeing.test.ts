import { describe, expect, it } from 'vitest';
import { assembleNetwork } from '../../src/assembly/assemble.ts';
import { portValve } from '../../src/assembly/portValve.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { planBurn } from '../../src/cycle/burnPlan.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { flowArea } from '../../src/geometry/flowArea.ts';
import { FREEINGS, type RestrictionElement } from '../../src/studies/freeing.ts';
import { bigBlock } from '../support/bigBlock.ts';

function freed(element: RestrictionElement, combination: Combination = bigBlock()): Combination | null {
  const freeing = FREEINGS.find((entry) => entry.element === element);
  return freeing?.free?.(combination) ?? null;
}

/** What sets the tuning: lengths, areas of pipes and ports, volumes, cam. */
function tuning({ intake, exhaust, induction, exhaustSystem }: Combination): unknown {
  const port = ({ portLength, portArea, lobe, centreline, rockerRatio }: Combination['intake']): unknown => [
    portLength,
    portArea,
    lobe,
    centreline,
    rockerRatio,
  ];
  const { length, lengthMultiplier, entryArea, exitArea } = induction.runner;
  const { primary, collectors } = exhaustSystem;
  return [
    port(intake),
    port(exhaust),
    induction.plenums,
    [length, lengthMultiplier, entryArea, exitArea],
    [primary.length, primary.area],
    [collectors?.groups, collectors?.length, collectors?.area, collectors?.mergeVolume],
  ];
}

describe('an element that is free', () => {
  it('is told for each element, once, in the order air takes', () => {
    const elements = FREEINGS.map(({ element }) => element);
    expect(new Set(elements).size).toBe(elements.length);
    expect([elements[0], elements[8], elements[10]]).toEqual(['air-cleaner', 'charge-heating', 'friction']);
    for (const { meaning } of FREEINGS) expect(meaning.length).toBeGreaterThan(10);
  });

  it.each(FREEINGS.filter(({ free }) => free !== undefined).map(({ element }) => [element]))(
    '%s: leaves lengths, areas of pipes, volumes and cam as they are',
    (element) => {
      const before = bigBlock();
      expect(tuning(freed(element, before) ?? before)).toEqual(tuning(before));
    },
  );

  it('has nothing to free where there is no air cleaner, or where open primaries end in the open', () => {
    const { induction, exhaustSystem } = bigBlock();
    expect(freed('air-cleaner', bigBlock({ induction: { ...induction, airCleanerArea: null } }))).toBeNull();
    expect(freed('restrictor', bigBlock())).toBeNull();
    const restrictor = { area: 1e-3, lost: 1, place: 'behind' } as const;
    expect(freed('restrictor', bigBlock({ induction: { ...induction, restrictor } }))?.induction).toEqual(
      induction,
    );
    const open = { ...exhaustSystem, collectors: null, outletArea: exhaustSystem.primary.area };
    expect(freed('collector-and-muffler', bigBlock({ exhaustSystem: open }))).toBeNull();
    const muffled = { ...open, outletArea: 0.5 * open.outletArea };
    const opened = freed('collector-and-muffler', bigBlock({ exhaustSystem: muffled }));
    expect(opened?.exhaustSystem.outletArea).toBe(exhaustSystem.primary.area);
  });

  it('passes at a small lift what the curtain could, pi D L, and higher what the smallest area of the port could', () => {
    const wide = { ...bigBlock().intake, portArea: 1.3 * bigBlock().intake.portArea };
    const { intake } = freed('intake-port', bigBlock({ intake: wide })) ?? bigBlock();
    const area = flowArea(intake.flow);
    const lift = 0.1 * intake.valveDiameter;
    expect(area(lift)).toBeCloseTo(Math.PI * intake.valveDiameter * lift, 9);
    expect(area(0.45 * intake.valveDiameter)).toBeCloseTo(0.88 * intake.portArea, 12);
    // At even lifts to half of its diameter.
    const { lift: lifts } = intake.flow;
    const step = intake.valveDiameter / (2 * lifts.length);
    expect(lifts[0]).toBeCloseTo(step, 12);
    expect(lifts[lifts.length - 1]).toBeCloseTo(intake.valveDiameter / 2, 12);
  });

  it('never passes less than was measured, though the sheet be above what geometry allows', () => {
    const { intake } = bigBlock();
    const flow = { ...intake.flow, area: intake.flow.area.map((a) => 2 * a) };
    const engine = bigBlock({ intake: { ...intake, flow } });
    const free = freed('intake-port', engine) ?? engine;
    const [before, after] = [portValve(engine, 'intake'), portValve(free, 'intake')];
    const [measured, passed] = [flowArea(flow), flowArea(free.intake.flow)];
    // To a thousandth: the cubic between the points is not the sheet's own.
    for (let lift = 0.002; lift < 0.02; lift += 0.001)
      expect(passed(lift)).toBeGreaterThanOrEqual(measured(lift) * (1 - 1e-3));
    expect([after.opens, after.closes]).toEqual([before.opens, before.closes]);
  });

  it('takes friction off the walls of runner and primary and leaves the heat they exchange', () => {
    const ductsOf = (engine: Combination) => {
      const { fuel, lambda, weather } = engine;
      const tables = buildGasTables({
        fuel,
        lambda,
        vapourPressure: weather.vapourPressure,
        pressure: weather.pressure,
      });
      const burn = planBurn({ development: 20, main: 30 }, { ca50: 8 }, 1);
      const { spec, intakeEnds, exhaustEnds } = assembleNetwork(engine, tables, 'representative', burn);
      const ductAt = (end: number) => spec.ducts[spec.ends[end].duct];
      return { runner: ductAt(intakeEnds[0]), primary: ductAt(exhaustEnds[0]) };
    };
    const before = ductsOf(bigBlock());
    const { runner } = ductsOf(freed('manifold') ?? bigBlock());
    const { primary } = ductsOf(freed('primary') ?? bigBlock());
    expect(runner.fanning).toBeCloseTo(0.02 * before.runner.fanning, 12);
    expect(primary.fanning).toBeCloseTo(0.02 * before.primary.fanning, 12);
    const heat = ({ fanning, heatMultiplier }: typeof primary): number => fanning * heatMultiplier;
    expect(heat(primary)).toBeCloseTo(heat(before.primary), 12);
    expect(heat(runner)).toBeCloseTo(heat(before.runner), 12);
  });
});
