/** The guide's page of messages, made of their table. */
import { ENGINE_PROBLEMS, type Entry, FILE_PROBLEMS, SHEET_PROBLEMS, WARNINGS } from './messageTable.ts';

/** The page, from the table. */
export function messagesPage(): string {
  const table = (entries: readonly Entry[]): string =>
    `| code | what it means | what to do |\n| ---- | ------------- | ---------- |\n${entries
      .map(
        ([code, means, todo]) =>
          `| \`${code}\` | ${means.replaceAll('’', "'")} | ${todo.replaceAll('’', "'")} |\n`,
      )
      .join('')}`;
  return `# Messages

Every problem and every warning has a code that stays the same, for scripts and for this page. \`--json\` shows it; on a terminal the words
say the same, with file, line, field and a hint. A problem stops the command (exit code 3); a warning never does, unless \`--strict\` asks.

<!-- Made from tests/docs/messageTable.ts: change it there. -->

## Warnings

${table(WARNINGS)}
## Problems of combination and changes files

${table(FILE_PROBLEMS)}
## Problems of the engine described

${table(ENGINE_PROBLEMS)}
## Problems of sheets

${table(SHEET_PROBLEMS)}`;
}
