import { describe, expect, it } from 'vitest';
import { html, named, trusted, unbroken } from '../../src/report/html.ts';

describe('html', () => {
  it('has one sign for a spread, which no line ends behind', () => {
    expect(html`<p>${'+2.5 +/- 0.2 %, +/-6 %'}</p>`.markup).toBe('<p>+2.5 ±\u00a00.2 %, ±6 %</p>');
  });

  it('escapes every character that markup is made of', () => {
    expect(html`<p title="${`"'`}">${'<b>&'}</p>`.markup).toBe('<p title="&quot;&#39;">&lt;b&gt;&amp;</p>');
  });

  it('puts markup and lists of markup in as they are', () => {
    expect(html`<ul>${[html`<li>${1}</li>`, html`<li>${'<'}</li>`]}${trusted('<hr>')}</ul>`.markup).toBe(
      '<ul><li>1</li><li>&lt;</li><hr></ul>',
    );
  });

  it('spells out controls and marks that turn the direction of writing', () => {
    expect(named('a\u202eb\u0000').markup).toBe('<bdi>a\\u202eb\\u0000</bdi>');
  });

  it('leaves letters of every script alone', () => {
    expect(named('محرك ۵ 引擎').markup).toBe('<bdi>محرك ۵ 引擎</bdi>');
  });
});

describe('unbroken(text)', () => {
  it('keeps a figure with its unit and its error', () =>
    expect(unbroken('gains +2.5 +/- 0.2 % at 4.6 hp or 6000 rpm in all')).toBe(
      'gains +2.5\u00a0+/-\u00a00.2\u00a0% at 4.6\u00a0hp or 6000\u00a0rpm in all',
    ));
});
