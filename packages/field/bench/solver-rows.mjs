export async function solverRows() {
  return [];
}
