/** mathjs describes the types of its modules, not of its one file. */
declare module 'mathjs/lib/browser/math.js' {
  const math: { readonly create: () => { readonly Unit: import('./unitClass.ts').UnitClass } };
  export = math;
}

declare module 'mathjs' {
  /** Exported, but not described. */
  export function createUnitClass(
    arithmetic: Readonly<Record<string, unknown>>,
  ): import('./unitClass.ts').UnitClass;
}
