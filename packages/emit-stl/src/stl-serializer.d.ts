/** The serializer ships no types; this is the part of it that `solid.ts` calls. */
declare module '@jscad/stl-serializer' {
  export function serialize(options: { readonly binary: true }, ...solids: readonly object[]): readonly ArrayBuffer[];
}
