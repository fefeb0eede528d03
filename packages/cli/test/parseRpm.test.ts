import { describe, expect, it } from 'vitest';
import { parseRpm, parseSpeeds } from '../src/input/parseRpm.ts';
import { editDistance, suggest } from '../src/suggest.ts';

describe('parseRpm(text)', () => {
  it.each([
    ['3000:5000:1000', [3000, 4000, 5000]],
    ['3000:5200:1000', [3000, 4000, 5000]],
    ['3000:3000:500', [3000]],
    ['1000:1001:0.1', Array.from({ length: 11 }, (_, i) => 1000 + i * 0.1)],
    ['5000, 3000,5000', [3000, 5000]],
    ['4250.5', [4250.5]],
  ])('reads %s', (text, expected) => expect(parseRpm(text)).toEqual(expected));

  it.each([
    ['', 'is not a plain number'],
    ['3000:5000', 'from:to:step'],
    ['3000:5000:0', 'the step must be above 0'],
    ['3000:5000:-500', 'is not a plain number'],
    ['5000:3000:500', 'must end above its start'],
    ['1e3:5000:500', 'is not a plain number'],
    ['NaN:5000:500', 'is not a plain number'],
    ['0:5000:500', '0 rpm is outside'],
    ['3000:99000:1000', 'is outside'],
    ['1000:9000:1', 'more than 400 points'],
    ['3000,,4000', 'is not a plain number'],
  ])('refuses "%s"', (text, reason) => expect(() => parseRpm(text)).toThrow(reason));
});

describe('parseSpeeds(texts)', () => {
  it('adds the speeds of one list to those of another', () => {
    expect(parseSpeeds(['3000:5000:1000', '4500,3000'])).toEqual([3000, 4000, 4500, 5000]);
    expect(parseSpeeds([])).toBeUndefined();
  });

  it('counts them together', () => {
    expect(() => parseSpeeds(['1000:4000:10', '5000:8000:10'])).toThrow('more than 400 points');
  });
});

describe('suggest(word, candidates)', () => {
  const commands = ['forecast', 'inspect', 'init', 'schema'];
  it.each([
    ['forcast', 'forecast'],
    ['forceast', 'forecast'],
    ['INSPECT', 'inspect'],
    ['shcema', 'schema'],
    ['inti', 'init'],
  ])('takes %s for %s', (word, near) => expect(suggest(word, commands)).toBe(near));

  it.each(['brew', 'x', 'torque', ''])('has nothing for "%s"', (word) =>
    expect(suggest(word, commands)).toBeUndefined(),
  );

  it('counts a swap of neighbours as one edit', () => {
    expect(editDistance('lift', 'lfit')).toBe(1);
    expect(editDistance('kitten', 'sitting')).toBe(3);
    expect(editDistance('', 'abc')).toBe(3);
  });
});
