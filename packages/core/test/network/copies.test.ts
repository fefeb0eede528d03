import { describe, expect, it } from 'vitest';
import {
  createFlowRecord,
  type FlowRecord,
  PASSED,
  PASSED_SIZE,
  RECALL,
  RECALL_SIZE,
  rebinned,
  recallFlow,
  recordFlow,
} from '../../src/network/copies.ts';

const BINS = new Float64Array([0, 10, 20, 720]);

type Passed = Omit<Record<keyof typeof PASSED, number>, 'sent'>;

/** The wave that was sent goes along with the pressure: a hundredth of it. */
function record(into: FlowRecord, passed: Passed): void {
  const out = new Float64Array(PASSED_SIZE);
  for (const [name, value] of Object.entries({ ...passed, sent: passed.pressure / 100 }))
    out[PASSED[name as keyof typeof PASSED]] = value;
  recordFlow(into, out);
}

/** Mass, burned mass, energy, mass drawn and mean pressure between two crank angles. */
function recalled(from: FlowRecord, start: number, end: number): number[] {
  const out = new Float64Array(RECALL_SIZE);
  out[RECALL.from] = start;
  out[RECALL.to] = end;
  recallFlow(from, out);
  expect(out[RECALL.sent]).toBeCloseTo(out[RECALL.pressure] / 100, 6);
  return [RECALL.mass, RECALL.burned, RECALL.energy, RECALL.drawn, RECALL.pressure].map((at) => out[at]);
}

/** 4 kg, a quarter of them burned, and 800 J from 0 to 20 deg at 2 bar; then 7 kg drawn from 20 to 720 deg at 1 bar. */
function filled(): FlowRecord {
  const record0 = createFlowRecord(BINS, 1e5);
  record(record0, { from: 0, to: 20, mass: 4, burned: 1, energy: 800, pressure: 2e5 });
  record(record0, { from: 20, to: 720, mass: -7, burned: -2, energy: -900, pressure: 1e5 });
  return record0;
}

describe('a record of what passed an end', () => {
  it('gives back what it was given, spread evenly over the angles it came at', () => {
    expect(recalled(filled(), 0, 20)).toEqual([4, 1, 800, 0, 2e5]);
    expect(recalled(filled(), 5, 10)).toEqual([1, 0.25, 200, 0, 2e5]);
    // Across the end of a bin: 2 of 20 deg before it, and 70 of 700 deg behind.
    expect(recalled(filled(), 18, 90)).toEqual([
      expect.closeTo(0.4, 12),
      expect.closeTo(0.1, 12),
      expect.closeTo(80, 9),
      expect.closeTo(0.7, 12),
      expect.closeTo((2 * 2e5 + 70 * 1e5) / 72, 6),
    ]);
  });

  it('keeps of gas that was drawn its mass alone', () => {
    expect(recalled(filled(), 20, 720)).toEqual([0, 0, 0, expect.closeTo(7, 12), expect.closeTo(1e5, 6)]);
  });

  it('starts a bin anew where the next cycle enters it', () => {
    const again = filled();
    record(again, { from: 720, to: 730, mass: 6, burned: 0, energy: 100, pressure: 1e5 });
    expect(recalled(again, 0, 10)).toEqual([6, 0, 100, 0, 1e5]);
    expect(recalled(again, 10, 20)).toEqual([2, 0.5, 400, 0, 2e5]);
  });

  it('holds the same amounts in other bins', () => {
    const other = rebinned(filled(), new Float64Array([0, 5, 30, 720]));
    const [mass, burned, energy, drawn] = recalled(other, 0, 720);
    expect([mass, burned, energy, drawn]).toEqual([4, 1, 800, 7].map((all) => expect.closeTo(all, 9)));
    expect(recalled(other, 0, 5)[0]).toBeCloseTo(1, 12);
  });
});
