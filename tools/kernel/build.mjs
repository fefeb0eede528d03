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
const text = `/** Made by \`npm run kernel\` of tools/kernel/ductKernel.as; not to be edited. WebAssembly, as base64. */
export const DUCT_KERNEL_BYTES =
  '${Buffer.from(bytes).toString('base64')}';
`;
if (!process.argv.includes('--check')) writeFileSync(target, text);
else if (readFileSync(target, 'utf8') !== text) {
  console.error('packages/core/src/network/ductKernelBytes.ts is not what its source makes: npm run kernel');
  process.exitCode = 1;
}
