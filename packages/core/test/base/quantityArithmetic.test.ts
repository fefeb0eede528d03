/** Sums and multiples of what a file says, in its own unit; what can't be is told as a builder would say it. */
import { describe, expect, it } from 'vitest';
import { eachScaled, eachSum, scaled, sum } from '../../src/base/quantityArithmetic.ts';

describe('sum(value, amount)', () => {
  it.each([
    ['28 in', '1 in', '29 in'],
    ['28 in', '25.4 mm', '29 in'],
    ['230 deg', '-4 deg', '226 deg'],
    [9.5, 0.5, 10],
    ['9.5:1', 0.5, 10],
    ['20 m/s', '196.85039370 ft/min', '21 m/s'],
    ['60 degF', '10 K', '78 degF'],
  ])('of %s and %s is %s', (value, amount, whole) => {
    expect(sum(value, amount)).toEqual({ ok: true, value: whole });
  });

  it.each([
    [9.5, '1 in', "is the plain number 9.5: add a plain number, not '1 in'"],
    ['28 in', 2, "is '28 in': add an amount with its unit, not 2"],
    ['28 in', '2 deg', "is '28 in', to which '2 deg' can't be added"],
    ['single-plane', '2 deg', "is no number to start from: 'single-plane'"],
    [[1, 2], 1, 'is no number to start from: a list'],
    [{ volume: '1 l' }, 1, 'is no number to start from: fields'],
    [true, 1, 'is no number to start from: true'],
    [null, 1, 'is no number to start from: null'],
  ])('of %j and %j is told', (value, amount, message) => {
    expect(sum(value, amount)).toEqual({ ok: false, message });
  });
});

describe('scaled(value, factor)', () => {
  it.each([
    ['30 in', 1.1, '33 in'],
    ['300 K', 1.1, '330 K'],
    [0.85, 2, 1.7],
  ])('of %s by %d is %s', (value, factor, product) => {
    expect(scaled(value, factor)).toEqual({ ok: true, value: product });
  });

  it('of degrees that count from no true zero is told', () => {
    expect(scaled('60 degF', 2)).toEqual({
      ok: false,
      message: "can't be scaled: '60 degF' counts from no true zero; add to it instead",
    });
  });

  it.each([[[1]], [{}], [false], ['x']])('of %j is told', (value) => {
    expect(scaled(value, 2).ok).toBe(false);
  });
});

describe('values by speed', () => {
  const table = { '3000 rpm': '20 deg', '6000 rpm': '30 deg' };

  it('are added to and scaled one by one', () => {
    expect(eachSum(table, '2 deg')).toEqual({
      ok: true,
      value: { '3000 rpm': '22 deg', '6000 rpm': '32 deg' },
    });
    expect(eachScaled(table, 2)).toEqual({ ok: true, value: { '3000 rpm': '40 deg', '6000 rpm': '60 deg' } });
  });

  it('are refused where one of them can not be', () => {
    expect(eachSum({ ...table, '7000 rpm': 'late' }, '2 deg').ok).toBe(false);
  });
});
