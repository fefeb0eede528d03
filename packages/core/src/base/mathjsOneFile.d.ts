/** mathjs describes the types of its modules, not of its one file. */
declare module 'mathjs/lib/browser/math.js' {
  const math: { readonly create: () => import('mathjs').MathJsInstance };
  export = math;
}
