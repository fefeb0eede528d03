import { describe, expect, it } from 'vitest';
import { page } from '../../src/report/page.ts';

const of = (answer: string): string => page({ subject: 'sample', answer, basis: [], body: [], foot: [] });

describe('the head of a page', () => {
  it('is the answer alone; what would be more and breaks a limit follows in smaller type', () => {
    const text = of(
      'Best over 3000 to 6000 rpm: Mufflers, +8.2 hp. More, but Domes, +16.0 hp, breaks a limit',
    );
    expect(text).toContain('<p class="answer">Best over 3000 to 6000\u00a0rpm: Mufflers, +8.2\u00a0hp</p>');
    expect(text).toContain('<p class="beyond">More, but Domes, +16.0\u00a0hp, breaks a limit</p>');
  });

  it('is the whole answer where there is no more', () => {
    const text = of('Peak 429 lb-ft at 5000 rpm');
    expect(text).toContain('<p class="answer">Peak 429\u00a0lb-ft at 5000\u00a0rpm</p>');
    expect(text).not.toContain('class="beyond"');
  });
});
