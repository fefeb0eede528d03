/** Compiles the kernel of ducts into the library, as text: `npm run kernel`; `-- --check` only compares. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const source = readFileSync(new URL('./ductKernel.as', import.meta.url), 'utf8');
const target = fileURLToPath(new URL('../../packages/core/src/network/ductKernelBytes.ts', import.meta.url));

let bytes = null;
const options = ['-O3', '--noAssert', '--runtime', 'stub', '--importMemory'];
const { error, stderr } = await asc.main(
  ['kernel.ts', '-o', 'kernel.wasm', ...options, '--enable', 'simd', '--enable', 'nontrapping-f2i'],
  {
    readFile: (name) => (name === 'kernel.ts' ? source : null),
    writeFile: (_name, contents) => {
      bytes = contents;
    },
    listFiles: () => [],
  },
);
if (error !== null) throw new Error(`${error.message}\n${stderr.toString()}`);
/** As `bytesOf` in ductMemory.ts reads it. */
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

const text = `/** Made by \`npm run kernel\` of tools/kernel/ductKernel.as; not to be edited. WebAssembly, a character a byte. */
export const DUCT_KERNEL_BYTES =
  '${Array.from(bytes, character).join('')}';
`;
if (!process.argv.includes('--check')) writeFileSync(target, text);
else if (readFileSync(target, 'utf8') !== text) {
  console.error('packages/core/src/network/ductKernelBytes.ts is not what its source makes: npm run kernel');
  process.exitCode = 1;
}
