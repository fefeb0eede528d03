// The stage of a network, and the sums of a step, as the library has them in plain script, to the same bits: each sum in the same order. They
// work in the memory that packages/core/src/network/networkMemory.ts lays out. `npm run kernel` compiles them. The language is AssemblyScript.
export { decode, isSound, keepStarts, raiseFastest, rates, stage } from './network';
export { addScaled, carryOver } from './sums';
