import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exportedFunctions } from '../house/publicExamples.ts';

const root = join(import.meta.dirname, '../..');
let folder = '';

/** Runs a program in the consumer's project and returns its standard output. */
function run(command: string, args: readonly string[]): string {
  return execFileSync(command, args, { cwd: join(folder, 'project'), encoding: 'utf8' });
}

function write(name: string, text: string): string {
  writeFileSync(join(folder, 'project', name), text);
  return name;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-consumer-'));
  for (const name of ['core', 'cli'])
    execFileSync('npm', ['pack', '--silent', '--pack-destination', folder, '-w', `packages/${name}`], {
      cwd: root,
    });
  const tarballs = readdirSync(folder).filter((name) => name.endsWith('.tgz'));
  mkdirSync(join(folder, 'project'));
  write('package.json', JSON.stringify({ name: 'consumer', private: true }));
  run('npm', [
    'install',
    '--silent',
    '--prefer-offline',
    '--no-audit',
    '--no-fund',
    ...tarballs.map((name) => `../${name}`),
  ]);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What every platform has and the library's own types don't name. */
const DECLARED = `declare const console: Record<'log' | 'warn' | 'error', (...words: readonly unknown[]) => void>;
declare class AbortController {
  readonly signal: core.Cancellation;
  abort(): void;
}
`;

/** The program of the guide to the library, its one function declared as the guide says for TypeScript. */
function guideInTypeScript(): string {
  const guide = readFileSync(join(root, 'docs/guide/embedding.md'), 'utf8');
  const program = /^```js\n(.*?)^```$/ms.exec(guide)?.[1] ?? '';
  const typed = /In TypeScript, write `(const good = [^`]+)`/.exec(guide)?.[1] ?? '';
  const types =
    "import type * as core from '@valvetide/core';\nimport type { Problem, Result } from '@valvetide/core';\n";
  return `${types}${DECLARED}${program.replace(/^const good = .*$/m, typed)}`;
}

describe('the installed packages', () => {
  const listing = `const names = Object.keys(core).sort();
    console.log(JSON.stringify({ names, error: new core.DomainError('bore', -1, 'positive m').message }));`;

  it('give a module the library', () => {
    const script = write('esm.mjs', `import * as core from '@valvetide/core';\n${listing}`);
    const { names, error } = JSON.parse(run('node', [script]));
    expect(names).toContain('DomainError');
    expect(error).toBe('bore must be positive m, got -1');
  });

  it('give a CommonJS script the same library', () => {
    const esm = write('esm.mjs', `import * as core from '@valvetide/core';\n${listing}`);
    const cjs = write('cjs.cjs', `const core = require('@valvetide/core');\n${listing}`);
    const strip = (text: string) =>
      JSON.parse(text).names.filter((name: string) => !['__esModule', 'module.exports'].includes(name));
    expect(strip(run('node', [cjs]))).toEqual(strip(run('node', [esm])));
  });

  it("run the README's example", () => {
    const readme = readFileSync(join(root, 'README.md'), 'utf8');
    const example = /^```js\n(.*?)^```$/ms.exec(readme)?.[1] ?? '';
    const lines = run('node', [write('readme.mjs', example)]).split('\n');
    expect(lines).toHaveLength(5);
    for (const line of lines.slice(0, 3)) expect(line).toMatch(/^\d{4} \d+\.\d+ \d+\.\d+$/);
    expect(lines[3]).toMatch(/^\d+ values were assumed$/);
  });

  it('say what a queue needs besides, and how to get it', () => {
    const program = join('node_modules', '.bin', 'valvetide');
    const { status, stderr } = spawnSync(program, ['work', '--queue', 'redis://127.0.0.1'], {
      cwd: join(folder, 'project'),
      encoding: 'utf8',
    });
    expect(stderr).toContain('npm install --ignore-scripts bullmq@6.7.0 ioredis@6.0.0');
    expect(stderr.split('\n')).toHaveLength(3);
    expect(status).toBe(4);
  });

  it('keep files outside the contents page closed', () => {
    const script = write('deep.mjs', "await import('@valvetide/core/dist/base/errors.js');");
    const { status, stderr } = spawnSync('node', [script], {
      cwd: join(folder, 'project'),
      encoding: 'utf8',
    });
    expect(status).not.toBe(0);
    expect(stderr).toContain('ERR_PACKAGE_PATH_NOT_EXPORTED');
  });

  it('type-check in a strict project that checks declarations too', () => {
    const types = join(root, 'node_modules/@types');
    write(
      'use.ts',
      "import type { Curve } from '@valvetide/core';\nexport const peak = (c: Curve): number => c.peak?.power.powerHp ?? 0;\n",
    );
    write(
      'tsconfig.json',
      JSON.stringify({
        compilerOptions: {
          strict: true,
          noEmit: true,
          module: 'nodenext',
          target: 'es2023',
          skipLibCheck: false,
          types: ['node'],
          typeRoots: [types],
        },
        files: ['use.ts'],
      }),
    );
    const tsc = join(root, 'node_modules/typescript/bin/tsc');
    const { status, stdout } = spawnSync('node', [tsc, '-p', 'tsconfig.json'], {
      cwd: join(folder, 'project'),
      encoding: 'utf8',
    });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });

  it('type-check with the oldest compiler in use, without Node and DOM, and so do the guide and every example', () => {
    const names = exportedFunctions();
    const examples = names.flatMap(({ name, examples: all }) =>
      all.map((code, i) => `export async function ${name}Example${i}(): Promise<void> {\n${code}\n}\n`),
    );
    write('job.mts', "export { runJob, type StudyJob } from '@valvetide/core/job';\n");
    write(
      'examples.mts',
      `import * as core from '@valvetide/core';
import { ${names.map(({ name }) => name).join(', ')} } from '@valvetide/core';
${DECLARED}declare const text: string;
declare const csv: string;
declare const changesText: string;
declare const shelfText: string;
declare const sheets: Readonly<Record<string, string>>;
declare const combination: core.Combination;
declare const changed: core.Combination;
declare const baseline: core.Baseline;
declare const change: core.Change;
declare const milled: core.Change;
declare const sheet: core.DynoSheet;
declare const pressures: core.PressureSheet;
declare const stock: core.DynoSheet;
declare const withMilledHead: core.DynoSheet;
declare const curve: core.Curve;
declare const signal: core.Cancellation;
declare const draw: (point: core.OperatingPoint) => void;
declare const parentPort: {
  on(name: 'message', listen: (job: core.StudyJob) => void): void;
  postMessage(curve: core.Curve): void;
};
${examples.join('')}`,
    );
    write('guide.mts', guideInTypeScript());
    write(
      'tsconfig.oldest.json',
      JSON.stringify({
        compilerOptions: {
          strict: true,
          noEmit: true,
          module: 'nodenext',
          target: 'es2022',
          lib: ['es2023'],
          skipLibCheck: false,
          types: [],
        },
        files: ['examples.mts', 'guide.mts', 'job.mts'],
      }),
    );
    const tsc = join(root, 'tools/oldest-types/node_modules/typescript/bin/tsc');
    const { status, stdout } = spawnSync('node', [tsc, '-p', 'tsconfig.oldest.json'], {
      cwd: join(folder, 'project'),
      encoding: 'utf8',
    });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });

  it('put the command on the path', () => {
    const version = run('npx', ['--no-install', 'valvetide', '--version']);
    expect(version).toMatch(/^valvetide \d+\.\d+\.\d+\n$/);
  });

  it('bring the schema that the first line of a new file names', () => {
    run('npx', ['--no-install', 'valvetide', 'init', '-o', 'schema-line.yaml']);
    const [line] = readFileSync(join(folder, 'project/schema-line.yaml'), 'utf8').split('\n');
    const schema = join(folder, 'project', line.split('$schema=')[1]);
    expect(JSON.parse(readFileSync(schema, 'utf8')).title).toBe('Combination');
  });

  it('start a file with the command and forecast it', () => {
    run('npx', ['--no-install', 'valvetide', 'init', '-o', 'engine.yaml']);
    const forecast = ['valvetide', 'forecast', 'engine.yaml', '--rpm', '4000', '--json', '--quick'];
    const curve = JSON.parse(run('npx', ['--no-install', ...forecast]));
    expect(curve.points).toHaveLength(1);
    expect(curve.points[0].rpm).toBe(4000);
    expect(curve.points[0].torqueNm).toBeGreaterThan(100);
  });

  it('set changes side by side on threads of their own, as on one', () => {
    run('npx', ['--no-install', 'valvetide', 'init', '-o', 'study.yaml']);
    write('changes.yaml', 'changes: [{ name: Advanced, add: { cam.advance: 2 deg } }]');
    const compare = [
      'valvetide',
      'compare',
      'study.yaml',
      '--changes',
      'changes.yaml',
      '--rpm',
      '4000',
      '--json',
    ];
    const onTwo = run('npx', ['--no-install', ...compare, '--workers', '2']);
    expect(JSON.parse(onTwo).entries).toHaveLength(2);
    expect(onTwo).toBe(run('npx', ['--no-install', ...compare, '--workers', '1']));
  });
});
