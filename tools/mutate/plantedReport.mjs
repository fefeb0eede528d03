/** The page that says what became of planted faults. */

/**
 * The share noticed with its standard error; of a sample without a survivor, or of survivors alone, as if one more went each way.
 *
 * @param {number} noticed
 * @param {number} of
 */
export function shareNoticed(noticed, of) {
  const doubt = (noticed + 1) / (of + 2);
  const error = Math.sqrt((doubt * (1 - doubt)) / of);
  return `${((100 * noticed) / of).toFixed(1)} % noticed (standard error ${(100 * error).toFixed(1)})`;
}

/**
 * @param {string} command - that made it
 * @param {readonly { what: string, caught: boolean }[]} planted - each fault as `path:line kind: was -> is`
 */
export function plantedReport(command, planted) {
  const roomOf = ({ what }) => what.replace('packages/core/src/', '').split('/')[0];
  const rooms = [...new Set(planted.map(roomOf))].sort();
  const count = (of) => of.filter(({ caught }) => caught).length;
  const widest = Math.max(4, ...rooms.map((room) => room.length + 2));
  const row = (...cells) =>
    `| ${cells.map((cell, i) => `${cell}`.padEnd(i === 0 ? widest : 7)).join(' | ')} |`;
  const rows = rooms.map((room) => {
    const here = planted.filter((fault) => roomOf(fault) === room);
    return row(`\`${room}\``, here.length, count(here));
  });
  const survivors = planted.filter(({ caught }) => !caught).map(({ what }) => `- \`${what}\``);
  const listed = survivors.length === 0 ? '' : `\nNot noticed:\n\n${survivors.join('\n')}\n`;
  return `# Planted faults

Written by \`${command}\`. Each fault is one small edit of the library: a sign, a constant by 5 %, a count by one, a guard removed, a
comparison turned around; every place that can be edited so is as likely as any other. With \`--near\` only the nearest of the test files that run
the edited function are tried, fifteen at most, so that a fault that none of them notices may still be noticed by another.
Faults that change nothing are left out (\`tools/mutate/equivalents.json\` says why).

${shareNoticed(count(planted), planted.length)}, of ${planted.length} planted.

${row('room', 'planted', 'noticed')}
${row('-'.repeat(widest), '-------', '-------')}
${rows.join('\n')}
${listed}`;
}
