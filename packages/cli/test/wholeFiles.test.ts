/** Reading and writing on a real disk: what is no file, what is too large, and that nothing is half written. */
import { execFileSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { readRegularFile, readStream } from '../src/input/readRegularFile.ts';
import type { Io } from '../src/io.ts';
import { main } from '../src/main.ts';
import { writeWhole } from '../src/output/writeWhole.ts';
import { processIo } from '../src/processIo.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-files-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string): string => join(folder, name);

describe('reading', () => {
  it.each([
    ['a device that never ends', () => '/dev/zero', 'NOT_REGULAR'],
    [
      'a pipe that nobody writes to',
      () => {
        execFileSync('mkfifo', [at('pipe')]);
        return at('pipe');
      },
      'NOT_REGULAR',
    ],
    [
      'fifty megabytes',
      () => {
        writeFileSync(at('large'), 'x');
        truncateSync(at('large'), 50_000_000);
        return at('large');
      },
      'TOO_LARGE',
    ],
    ['a folder', () => folder, 'EISDIR'],
    ['nothing', () => at('none'), 'ENOENT'],
  ])('refuses %s', (_what, make, code) => {
    const path = make();
    // Where a device were read it would be too large, and a pipe would never come.
    expect(() => readRegularFile(path)).toThrow(expect.objectContaining({ code }));
  });

  it('gives the text of a file, and of one that grows while it is read', () => {
    writeFileSync(at('a'), 'drei Zylinder, 4,5 l: größer');
    expect(readRegularFile(at('a'))).toBe('drei Zylinder, 4,5 l: größer');
  });

  it('gives the text of a file in UTF-16, either way round, as spreadsheets write their Unicode', async () => {
    const little = Buffer.from('\uFEFFlift in\tintake cfm, größer', 'utf16le');
    writeFileSync(at('little'), little);
    writeFileSync(at('big'), Buffer.from(little).swap16());
    expect(readRegularFile(at('little'))).toBe('lift in\tintake cfm, größer');
    expect(readRegularFile(at('big'))).toBe('lift in\tintake cfm, größer');
    async function* halves(): AsyncGenerator<Buffer> {
      yield little.subarray(0, 7);
      yield little.subarray(7);
    }
    expect(await readStream(halves())).toBe('lift in\tintake cfm, größer');
  });

  it('takes no more of standard input than any sheet has', async () => {
    async function* endless(): AsyncGenerator<Buffer> {
      for (;;) yield Buffer.alloc(1_000_000, 'x');
    }
    await expect(readStream(endless())).rejects.toMatchObject({ code: 'TOO_LARGE' });
    async function* two(): AsyncGenerator<string> {
      yield 'engine: ';
      yield '{}';
    }
    expect(await readStream(two())).toBe('engine: {}');
  });
});

/** The real disk, with streams that remember. */
function onDisk(): { io: Io; err: () => string } {
  const said = { err: '' };
  const stream = (put: (text: string) => void) => ({ write: put, isTTY: false, columns: undefined });
  const io: Io = {
    ...processIo(),
    stdout: stream(() => {}),
    stderr: stream((text) => {
      said.err += text;
    }),
    signal: undefined,
  };
  return { io, err: () => said.err };
}

describe('a combination that names a sheet', () => {
  const engine = (sheet: string): string =>
    `engine: { bore: 4 in, stroke: 3.48 in, cylinders: 8 }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 2, flow: ${sheet} }\n`;

  const inspected = async (sheet: string): Promise<[number, string]> => {
    mkdirSync(at('shop'), { recursive: true });
    writeFileSync(at('shop/engine.yaml'), engine(sheet));
    const { io, err } = onDisk();
    const code = await main(['inspect', at('shop/engine.yaml')], io);
    return [code, err().replaceAll(`${folder}/`, '')];
  };

  it.each([['/dev/zero'], ['/etc/hostname'], ['"C:\\\\secret.csv"']])(
    'by a place of one machine is told so, and %s is not read',
    async (sheet) => {
      const [code, said] = await inspected(sheet);
      expect(code).toBe(EXIT.input);
      expect(said).toMatch(/^shop\/engine\.yaml:3:32 heads\.flow names '.*', a place of one machine alone/u);
    },
  );

  it.each([['../secret.csv'], ['a/../../secret.csv']])(
    'outside its folder and the one the command runs in is told so, and %s is not read',
    async (sheet) => {
      writeFileSync(at('secret.csv'), 'secret words\n');
      expect(await inspected(sheet)).toEqual([
        EXIT.file,
        'secret.csv: is not read: it lies outside the folder of its file and the one the command runs in\n',
      ]);
    },
  );

  it('through a link that leads out of the folder is told so', async () => {
    writeFileSync(at('secret.csv'), 'secret words\n');
    mkdirSync(at('shop'));
    symlinkSync('../secret.csv', at('shop/flow.csv'));
    const [code, said] = await inspected('flow.csv');
    expect([code, said]).toEqual([
      EXIT.file,
      'shop/flow.csv: is not read: it lies outside the folder of its file and the one the command runs in\n',
    ]);
  });

  it('that is a folder or a pipe is told so', async () => {
    mkdirSync(at('shop/flow.csv'), { recursive: true });
    expect(await inspected('flow.csv')).toEqual([
      EXIT.file,
      "shop/flow.csv: can't be read (it is a directory)\n",
    ]);
    execFileSync('mkfifo', [at('shop/pipe.csv')]);
    expect((await inspected('pipe.csv'))[1]).toContain("can't be read (it is a pipe or a device");
  });
});

describe('writing', () => {
  const parts = (): string[] => readdirSync(folder).filter((name) => name.includes('.part'));

  it('makes a new file, and leaves one that is there unless it may replace it', () => {
    writeWhole(at('a'), 'new', 'keep');
    expect(() => writeWhole(at('a'), 'newer', 'keep')).toThrow(expect.objectContaining({ code: 'EEXIST' }));
    expect(readFileSync(at('a'), 'utf8')).toBe('new');
    writeWhole(at('a'), 'newest', 'replace');
    expect(readFileSync(at('a'), 'utf8')).toBe('newest');
    expect(parts()).toEqual([]);
  });

  it('goes through a link to the file behind it', () => {
    writeFileSync(at('target'), 'old');
    symlinkSync('target', at('link'));
    writeWhole(at('link'), 'new', 'replace');
    expect(readFileSync(at('target'), 'utf8')).toBe('new');
  });

  it('is not kept from it by what a killed process of the same number left', () => {
    writeFileSync(at(`.a.${process.pid}.part`), 'half');
    writeWhole(at('a'), 'new', 'keep');
    expect(readFileSync(at('a'), 'utf8')).toBe('new');
    expect(parts()).toEqual([`.a.${process.pid}.part`]);
  });

  it('takes away what a killed process left an hour ago, and nothing else', () => {
    const left = ['.a.77.part', '.a.77-3.part', '.b.77.part', '.a.notes.part', '.a.78.part'];
    for (const name of left) writeFileSync(at(name), 'half');
    const longAgo = Date.now() / 1000 - 3700;
    for (const name of left.slice(0, 4)) utimesSync(at(name), longAgo, longAgo);
    writeWhole(at('a'), 'new', 'keep');
    expect(parts().sort()).toEqual(['.a.78.part', '.a.notes.part', '.b.77.part']);
  });

  it('leaves nothing behind where it fails', () => {
    mkdirSync(at('folder'));
    expect(() => writeWhole(at('folder'), 'x', 'replace')).toThrow();
    expect(parts()).toEqual([]);
    expect(() => writeWhole(at('none/a'), 'x', 'keep')).toThrow(expect.objectContaining({ code: 'ENOENT' }));
  });
});

describe('what is kept of a fault', () => {
  it('stands in a new file each time, which nobody else may read', () => {
    const paths = [processIo().keepFault('one'), processIo().keepFault('two')];
    try {
      expect(paths.map((path) => readFileSync(path, 'utf8'))).toEqual(['one', 'two']);
      for (const path of paths) expect(statSync(path).mode & 0o077).toBe(0);
    } finally {
      for (const path of paths) rmSync(dirname(path), { recursive: true });
    }
  });
});
