import { describe, expect, it } from 'vitest';
import { CORE } from '../../src/core.ts';
import { aboutOf } from '../../src/report/about.ts';
import { page } from '../../src/report/page.ts';

const shown = (text: string): string =>
  page({
    subject: 'six',
    about: aboutOf({ text, file: 'engine.yaml' }, CORE),
    answer: '',
    basis: [],
    body: [],
    foot: [],
  });

describe('what a page says of the job', () => {
  it('is the job, the customer and the notes of the file, as text', () => {
    const found = shown('job: 1238\ncustomer: <b>Tern</b>\nnotes: |\n  First line.\n\n  Second paragraph.\n');
    expect(found).toContain('<span><bdi>Job 1238</bdi></span>');
    expect(found).toContain('<bdi>&lt;b&gt;Tern&lt;/b&gt;</bdi>');
    expect(found.match(/<p><bdi>/g)).toHaveLength(2);
  });

  it('is nothing where the file has none of them', () => {
    const found = shown('name: six\n');
    expect(found).not.toContain('class="job"');
    expect(found).not.toContain('id="notes"');
  });
});
