/** The guide's page of messages holds every code that the library gives, and no other. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { messageCodes } from './messageCodes.ts';
import { messagesPage } from './messagesPage.ts';
import { ENGINE_PROBLEMS, FILE_PROBLEMS, SHEET_PROBLEMS, WARNINGS } from './messageTable.ts';

const root = join(import.meta.dirname, '../..');
/** Given through a name, where no literal stands in the call. */
const THROUGH_NAMES = ['banks'];

describe('the page of messages', () => {
  const told = [...WARNINGS, ...FILE_PROBLEMS, ...ENGINE_PROBLEMS, ...SHEET_PROBLEMS].map(([code]) => code);

  it('holds every code of the sources, once', () => {
    expect([...told].sort()).toEqual([...messageCodes(root), ...THROUGH_NAMES].sort());
  });

  it('is what the table makes of it', async () => {
    await expect(messagesPage()).toMatchFileSnapshot(join(root, 'docs/guide/messages.md'));
  });
});
