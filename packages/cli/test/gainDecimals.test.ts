import { describe, expect, it } from 'vitest';
import { gainDecimals } from '../src/render/gainDecimals.ts';

describe('decimals of gains in percent', () => {
  it('are one, and two only where a spread is below a tenth of a percent', () => {
    expect(gainDecimals([{ sigmaPct: 1.38 }, { sigmaPct: 0.1 }])).toBe(1);
    expect(gainDecimals([{ sigmaPct: 1.38 }, { sigmaPct: 0.09 }])).toBe(2);
  });

  it('are one where nothing is known of the spread', () => {
    expect(gainDecimals([{ sigmaPct: null }])).toBe(1);
    expect(gainDecimals([])).toBe(1);
  });
});
