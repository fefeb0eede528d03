/** Bundles for a page, by an ordinary bundler in its ordinary settings; terser then takes a fortieth off what is packed. */
import { minify } from 'terser';
import { build, defaultClientConditions } from 'vite';

/** The one file that comes of it. */
export async function buildForPage(options) {
  const result = await build({
    configFile: false,
    logLevel: 'silent',
    // The sources, as the entry is one; the rest is what a browser gets.
    resolve: { conditions: ['@valvetide/source', ...defaultClientConditions] },
    build: { write: false, minify: true, target: 'es2023', ...options },
  });
  const [output] = Array.isArray(result) ? result : [result];
  if (!('output' in output)) throw new Error('the bundler watches in place of building');
  const chunks = output.output.filter(({ type }) => type === 'chunk');
  if (chunks.length !== 1) throw new Error(`${chunks.length} files in place of one`);
  const [chunk] = chunks;
  // A second pass takes out what the first lays bare; a third finds nothing.
  const { code } = await minify(chunk.code, { module: true, ecma: 2020, compress: { passes: 2 } });
  return { ...chunk, code };
}
