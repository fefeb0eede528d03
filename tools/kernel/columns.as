// Columns of numbers in memory, by the address of their first.

/** Numbers at the head of a duct's block, before its columns. */
@inline
export const HEAD: usize = 20;

@inline
export function get(column: usize, i: i32): f64 {
  return load<f64>(column + (<usize>i << 3));
}
@inline
export function put(column: usize, i: i32, value: f64): void {
  store<f64>(column + (<usize>i << 3), value);
}
@inline
export function pair(column: usize, i: i32): v128 {
  return v128.load(column + (<usize>i << 3));
}
@inline
export function putPair(column: usize, i: i32, value: v128): void {
  v128.store(column + (<usize>i << 3), value);
}
