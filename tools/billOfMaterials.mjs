/**
 * Bill of materials of what an installation brings, CycloneDX, from the lockfile: `sbom.json`, or what is named. Fails where a part
 * has a licence that the list doesn't allow or no checksum.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const target = process.argv[2] ?? 'sbom.json';
const { allowed } = JSON.parse(readFileSync(new URL('licences.json', import.meta.url), 'utf8'));

const words = [
  'sbom',
  '--sbom-format',
  'cyclonedx',
  '--omit',
  'dev',
  '--omit',
  'optional',
  '--package-lock-only',
];
const { status, stdout, stderr } = spawnSync('npm', words, {
  cwd: root,
  encoding: 'utf8',
  maxBuffer: 64_000_000,
});
if (status !== 0) {
  process.stderr.write(stderr);
  process.exit(1);
}
const bill = JSON.parse(stdout);
const faults = [];
for (const { name, version, licenses = [], hashes = [], purl = '', properties = [] } of bill.components) {
  // Our own parts are no third party's.
  if (name.startsWith('@valvetide/') || purl.includes('valvetide')) continue;
  // Nor are the workspaces that stand for somebody else's.
  if (properties.some(({ name: key, value }) => key === 'cdx:npm:package:private' && value === 'true'))
    continue;
  const found = licenses.map(({ license, expression }) => expression ?? license?.id ?? license?.name);
  if (found.length === 0 || found.some((licence) => !allowed.includes(licence)))
    faults.push(`${name} ${version}: licence ${found.join(', ') || 'not stated'} is not among those allowed`);
  if (hashes.length === 0) faults.push(`${name} ${version}: no checksum`);
}
if (bill.bomFormat !== 'CycloneDX' || bill.components.length < 10)
  faults.push('this is no bill of materials');
for (const fault of faults) console.error(fault);
writeFileSync(target, stdout);
console.log(`${target}: ${bill.components.length} parts, CycloneDX ${bill.specVersion}`);
process.exitCode = faults.length > 0 ? 1 : 0;
