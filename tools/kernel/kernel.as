// The stage of a network's ducts, of their ends and of volumes, and the sums of a step, as the library has them in plain script, to the same bits: each
// sum in the same order. They work in the memory that packages/core/src/network/networkMemory.ts lays out. `npm run kernel` compiles them. The
// language is AssemblyScript.
export { areSound, balance, decode, raiseFastest } from './duct';
export { connect, keepStarts, lift } from './openEnd';
export { addScaled, carryOver } from './sums';
export { decodeVolumes } from './volume';
