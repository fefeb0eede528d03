import { describe, expect, it } from 'vitest';
import type { EndSpec } from '../../src/network/openEnd.ts';
import type { NodeRef } from '../../src/network/part.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec } from './networks.ts';
import { amplitude, type Heard, type Middle, sendPulse, TEMPERATURE } from './pulseBench.ts';
import { branchedNote, C, quarterWave, ringBranched, ringPair } from './ringing.ts';

const AREA = 1e-3;
const LENGTH = 3;
/** Pipes long enough to hear what rings on in the middle before their far ends answer [m]. */
const LONG = 7;
const volume = (index: number): NodeRef => ({ kind: 'volume', index });
const cell = (index: number): NodeRef => ({ kind: 'cell', index });

const R = 287;
const tables = () => idealGas({ R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 });
/** Speed of sound [m/s]. */
const c = Math.sqrt(1.4 * R * TEMPERATURE);

interface Bench {
  readonly middle: Middle;
  readonly areas?: readonly [number, number];
  readonly width?: number;
  readonly length?: number;
}

/** Watched until the far end of the second pipe answers half way along it. */
function pulse({ middle, areas = [AREA, AREA], width = 0.2, length = LENGTH }: Bench): Heard {
  const time = (1.7 * length) / c;
  return sendPulse({ tables: tables(), areas, length, cell: 0.015, width, time, middle });
}

/** The two pipes joined by nothing but a third of the same size, a cell of which stands for the joint. */
function straight(): Bench {
  return { middle: joined([AREA, AREA], 0.06) };
}

/** Pipes joined by a duct between, each end of it a small volume as wide as the pipe: a joint without loss to small waves. */
function joined(areas: readonly [number, number], length: number, more: Middle = {}): Middle {
  const [left, right] = areas;
  const size = 0.01 * Math.max(left, right);
  return {
    volumes: [
      { name: 'left joint', size: 0.01 * left },
      { name: 'right joint', size },
      ...(more.volumes ?? []),
    ],
    ducts: [ductSpec(length, [left, right], Math.max(4, Math.round(length / 0.015))), ...(more.ducts ?? [])],
    cells: more.cells ?? [],
    orifices: more.orifices ?? [],
    ends: [
      { duct: 0, at: 'right', to: volume(0), opening: { area: left } },
      { duct: 2, at: 'left', to: volume(0), opening: { area: left } },
      { duct: 2, at: 'right', to: volume(1), opening: { area: right } },
      { duct: 1, at: 'left', to: volume(1), opening: { area: right } },
      ...(more.ends ?? []),
    ],
  };
}

/** Peak that comes through and peak that comes back first, over the peak sent. */
function coefficients({ t, before, behind }: Heard): { through: number; back: number } {
  const sent = Math.max(...before);
  const passed = t[before.indexOf(sent)];
  const returned = before.filter((_, i) => t[i] > passed + 1.4 / c && t[i] < passed + 2.4 / c + 2e-3);
  const back = returned.reduce((most, p) => (Math.abs(p) > Math.abs(most) ? p : most), 0);
  return { through: Math.max(...behind) / sent, back: back / sent };
}

/** Loss of transmission [dB] by frequency: of what is sent alone, over what comes through. */
function loss(heard: Heard, alone: Heard, frequency: number): number {
  const sent = amplitude(alone.t, alone.behind, frequency);
  return 20 * Math.log10(sent / amplitude(heard.t, heard.behind, frequency));
}

describe('a small pulse in a pipe', () => {
  it('runs at the speed of sound, and passes a joint of one size whole', () => {
    const heard = pulse({ ...straight(), width: 0.4 });
    const { through, back } = coefficients(heard);
    // From a quarter of the first pipe, through the joint, to half way along the second.
    const arrives = heard.t[heard.behind.indexOf(Math.max(...heard.behind))];
    expect(Math.abs((1.25 * LENGTH + 0.08) / arrives / c - 1)).toBeLessThan(0.01);
    expect(through).toBeGreaterThan(0.98);
    // A joint is a volume of a centimetre, two of which send back a fiftieth of such a pulse.
    expect(Math.abs(back)).toBeLessThan(0.03);
  });
});

describe('a small pulse at a merge', () => {
  it.each([1, 2, 3])('of %i pipes besides its own passes 2 S / sum S and sends the rest back', (others) => {
    const more = Array.from({ length: others - 1 }, (_, i) => i + 2);
    const open = { area: AREA };
    const middle: Middle = {
      volumes: [{ name: 'merge', size: 0.01 * AREA }],
      ducts: more.map(() => ductSpec(LENGTH, [AREA, AREA], 200)),
      ends: [
        { duct: 0, at: 'right', to: volume(0), opening: open },
        { duct: 1, at: 'left', to: volume(0), opening: open },
        ...more.flatMap((duct): EndSpec[] => [
          { duct, at: 'left', to: volume(0), opening: open },
          { duct, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
        ]),
      ],
    };
    const { through, back } = coefficients(pulse({ middle, width: 0.4 }));
    expect(Math.abs(through - 2 / (others + 1))).toBeLessThan(0.02);
    expect(Math.abs(back - (1 - others) / (1 + others))).toBeLessThan(0.02);
  });
});

describe('two primaries that meet before a secondary', () => {
  it.each([0.4, 0.6, 0.75])(
    'ring at the quarter wave of both and %f m of secondary, within a fiftieth',
    (secondary) => {
      const pair = { primary: 0.215, secondary, areas: [1.32e-3, 1.66e-3], merge: 96e-6 } as const;
      const said = (quarterWave(pair) * C) / (2 * Math.PI);
      expect(Math.abs(ringPair(pair, said) / said - 1)).toBeLessThan(0.02);
    },
  );
});

describe('a closed pipe with a closed branch in its middle', () => {
  // Of what pressure gains from the faces of a cell to its branch 5 % more or less is worth 0.028 %, of what waves leave at the faces 1.2 % a swing.
  it('swings as linear acoustics have it, within 0.012 %, loses less than 2 % a swing to the cells and gains nothing', () => {
    const pipe = { arm: 0.5, branch: 0.27 } as const;
    const said = (branchedNote(pipe) * C) / (2 * Math.PI);
    const { frequency, lost } = ringBranched(pipe, 61);
    expect(Math.abs(frequency / said - 1)).toBeLessThan(1.2e-4);
    expect(lost).toBeGreaterThan(0);
    expect(lost).toBeLessThan(0.02);
  });
});

describe('loss of transmission', () => {
  let sentAlone: Heard | undefined;
  const alone = (): Heard => {
    sentAlone ??= pulse({ ...straight(), length: LONG });
    return sentAlone;
  };

  it('of a box behind a neck is that of a Helmholtz resonator, within 1 dB', () => {
    const neck = { length: 0.08, area: 0.4 * AREA };
    const size = 1.2e-3;
    const middle = joined([AREA, AREA], 0.06, {
      volumes: [{ name: 'box', size }],
      ducts: [ductSpec(neck.length, [neck.area, neck.area], 6)],
      cells: [{ duct: 2, at: 0.03 }],
      ends: [
        { duct: 3, at: 'left', to: cell(0), opening: { area: neck.area } },
        { duct: 3, at: 'right', to: volume(2), opening: { area: neck.area } },
      ],
    });
    const heard = pulse({ middle, length: LONG });
    const free = alone();
    for (const frequency of [60, 90, 220]) {
      const w = 2 * Math.PI * frequency;
      // Impedance of the neck as a duct closed by the box, over rho c / S.
      const k = w / c;
      const tan = Math.tan(k * neck.length);
      const box = (c * neck.area) / (w * size);
      const x = (tan - box) / (1 + box * tan) / neck.area;
      const said = 10 * Math.log10(1 + (1 / (2 * AREA * x)) ** 2);
      expect(Math.abs(loss(heard, free, frequency) - said), `${frequency} Hz`).toBeLessThan(1);
    }
  });
});
