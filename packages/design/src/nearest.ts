/** Number of single-letter insertions, deletions and replacements between two words (Levenshtein 1966), by rows. */
export function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const current = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (previous[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      current.push(Math.min(replaced, (previous[j] ?? 0) + 1, (current[j - 1] ?? 0) + 1));
    }
    previous = current;
  }
  return previous[b.length] ?? 0;
}

/** Words longer than this are not compared. */
const LONGEST = 60;

/** Up to `count` of the known words that are nearest to `word`, nearest first, none that differs in more than half its letters. */
export function nearestWords(word: string, known: readonly string[], count: number): string[] {
  if (word.length > LONGEST) return [];
  const lower = word.toLowerCase();
  const beginsAlike = (candidate: string) => Number(candidate.toLowerCase()[0] === lower[0]);
  return (
    known
      .map((candidate) => ({ candidate, distance: editDistance(lower, candidate.toLowerCase()) }))
      .filter(({ candidate, distance }) => distance <= Math.max(candidate.length, word.length) / 2)
      // Of words as near as each other the one that begins alike: "5.8 GHz" was meant to be "5 GHz" rather than "2.4 GHz".
      .sort((a, b) => a.distance - b.distance || beginsAlike(b.candidate) - beginsAlike(a.candidate))
      .slice(0, count)
      .map(({ candidate }) => candidate)
  );
}
