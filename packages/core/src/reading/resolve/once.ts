/** Several parts ask for the same estimate; it is made, and listed, once, and only if any part asks. */
export function once<Value extends number | string | object>(make: () => Value): () => Value {
  let value: Value | undefined;
  return () => {
    value ??= make();
    return value;
  };
}
