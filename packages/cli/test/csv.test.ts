import { describe, expect, it } from 'vitest';
import { csv } from '../src/render/csv.ts';

describe('a cell of a CSV', () => {
  it.each([
    ['=HYPERLINK("http://x","y")', '"\'=HYPERLINK(""http://x"",""y"")"'],
    ['+cmd', "'+cmd"],
    ['-1+2', "'-1+2"],
    ['@SUM(A1)', "'@SUM(A1)"],
    [' =1+1', "' =1+1"],
    ['|calc', "'|calc"],
    ['-', "'-"],
    ['\t=1', '\\u0009=1'],
  ])('that a spreadsheet would calculate is text: %s', (name, cell) => {
    expect(csv([[name]])).toBe(`${cell}\r\n`);
  });

  it.each([['-2 deg'], ['+1.5 in'], ['Carburetor 1250'], ['28 in'], ['a-b=c'], ['']])(
    'that is no formula stays as it is: %s',
    (name) => expect(csv([[name]])).toBe(`${name}\r\n`),
  );

  it('that is a number stays a number', () => expect(csv([[-1.5, true]])).toBe('-1.5,true\r\n'));

  it('has no escape and no direction characters, and no line of its own', () => {
    expect(csv([['\u001b[31mred\u202e back\nnext\u2028']])).toBe(
      '\\u001b[31mred\\u202e back\\u000anext\\u2028\r\n',
    );
  });
});
