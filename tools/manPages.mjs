/** Writes the pages of the manual into the package of the command. Needs a build first. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { COMMANDS } from '../packages/cli/dist/commandList.js';
import { manPages } from '../packages/cli/dist/render/manPage.js';

const cli = fileURLToPath(new URL('../packages/cli', import.meta.url));
const folder = join(cli, 'man');
const { version } = JSON.parse(readFileSync(join(cli, 'package.json'), 'utf8'));
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder);
for (const [name, text] of Object.entries(manPages(COMMANDS, version)))
  writeFileSync(join(folder, name), text);
