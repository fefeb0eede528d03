// A step of a network, and the parts of one, as the library has them in plain script, to the same bits: each sum in the same order. They
// work in the memory that packages/core/src/network/networkMemory.ts lays out. `npm run kernel` compiles them. The language is AssemblyScript.
export { decode, isSound, keepStarts, raiseFastest, rates } from './network';
export { step } from './step';
