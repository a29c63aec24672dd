// @ts-check
/** A name that nothing else has. */
export function freshKey() {
  return Array.from(crypto.getRandomValues(new Uint32Array(4)), (part) => part.toString(36)).join("");
}
