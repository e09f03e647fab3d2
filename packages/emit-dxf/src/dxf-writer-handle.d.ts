declare module 'dxf-writer/src/Handle.js' {
  /** The counter behind the handles of every drawing of the process. */
  const Handle: { seed: number };
  export default Handle;
}
