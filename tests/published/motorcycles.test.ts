import { describe, expect, it } from 'vitest';
import { type Motorcycle, motorcycleFile, motorcycles, ratedPower, sweptOf } from './motorcycles.ts';

describe('the table of motorcycle engines', () => {
  const engines = motorcycles();

  it('has 61 engines of one to six cylinders that are rated from 5500 to 14 500 rpm', () => {
    expect(engines).toHaveLength(61);
    expect([1, 2, 3, 4, 6].map((n) => engines.filter((e) => e.cylinders === n).length)).toEqual([
      12, 24, 5, 19, 1,
    ]);
    expect(Math.min(...engines.map((e) => e.rpm))).toBe(5500);
    expect(Math.max(...engines.map((e) => e.rpm))).toBe(14_500);
  });

  it('keeps to the rules by which rows were left out', () => {
    const bar = (e: Motorcycle): number => (ratedPower(e) * 120) / (e.rpm * sweptOf(e)) / 100;
    expect(engines.filter((e) => bar(e) > 15).map((e) => e.row)).toEqual([]);
    const legal = (e: Motorcycle, kW: number): boolean => Math.abs(ratedPower(e) / kW - 1) <= 0.02;
    expect(engines.filter((e) => legal(e, 11) || legal(e, 35)).map((e) => e.row)).toEqual([]);
    const sizes = engines.map((e) => [e.cylinders, e.bore, e.stroke, e.compression].join());
    expect(new Set(sizes).size).toBe(sizes.length);
  });

  it('writes files with a throttle a cylinder behind an airbox, and the drives', () => {
    const file = motorcycleFile(engines[0]);
    expect(file).toContain('throttle: { count: 4 }');
    expect(file).toContain('airbox: { volume: 11.03 l }');
    expect(file).toContain('accessories: true');
  });
});
