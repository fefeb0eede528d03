/** Compiles the kernel of networks into the library, as text: `npm run kernel`; `-- --check` only compares. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const target = fileURLToPath(new URL('../../packages/core/src/network/kernelBytes.ts', import.meta.url));

/** The compiler asks for a file by the name it would have in its own language; null where there is none, as it looks in several places. */
function source(name) {
  const file = new URL(name.replace(/\.ts$/, '.as'), import.meta.url);
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}

let bytes = null;
const options = ['-O3', '--noAssert', '--runtime', 'stub', '--importMemory'];
const { error, stderr } = await asc.main(
  [
    'kernel.ts',
    '-o',
    'kernel.wasm',
    ...options,
    '--enable',
    'simd',
    '--enable',
    'nontrapping-f2i',
    '--enable',
    'bulk-memory',
  ],
  {
    readFile: source,
    writeFile: (_name, contents) => {
      bytes = contents;
    },
    listFiles: () => [],
  },
);
if (error !== null) throw new Error(`${error.message}\n${stderr.toString()}`);
/** As `bytesOf` in networkMemory.ts reads it. */
const FIRST_CHARACTER = 48;

/**
 * A character a byte, which a page's compression packs as tightly as the bytes: base64 shifts them against each other. Bytes that would be
 * no plain sign, or a quote, are letters of the next 256.
 */
function character(byte) {
  const code = (byte + FIRST_CHARACTER) & 0xff;
  const isPlain = code >= 0x20 && code < 0x7f && !"'\\`$".includes(String.fromCharCode(code));
  return String.fromCharCode(isPlain ? code : code + 0x100);
}

const text = `/** Made by \`npm run kernel\` of tools/kernel; not to be edited. WebAssembly, a character a byte. */
export const KERNEL_BYTES =
  '${Array.from(bytes, character).join('')}';
`;
if (!process.argv.includes('--check')) writeFileSync(target, text);
else if (readFileSync(target, 'utf8') !== text) {
  console.error('packages/core/src/network/kernelBytes.ts is not what its source makes: npm run kernel');
  process.exitCode = 1;
}
