/** Longest line that is read: more than the row of a hundred-port file needs, little enough to hold. */
const LONGEST_LINE = 1_000_000;

export interface LineSplitter {
  push(text: string): void;
  /** Gives the last line when the file does not end with a line break. */
  end(): void;
}

/**
 * Cuts text that comes in pieces into lines (LF, CR LF or CR), holding no more than one line. `onLine` says false to be left alone
 * from then on; `onLong` is told of a line that does not end, and nothing more is read.
 */
export function splitLines(onLine: (line: string) => boolean, onLong: () => void): LineSplitter {
  let rest = '';
  let afterReturn = false;
  let reading = true;
  return {
    push(text) {
      if (!reading || text === '') return;
      // A line feed that belongs to the carriage return at the end of the piece before.
      const piece = afterReturn && text.startsWith('\n') ? text.slice(1) : text;
      afterReturn = text.endsWith('\r');
      const lines = piece.split(/\r\n|\r|\n/);
      const last = lines.pop() ?? '';
      for (const [i, line] of lines.entries()) {
        reading = onLine(i === 0 ? rest + line : line);
        if (!reading) return;
      }
      rest = lines.length === 0 ? rest + last : last;
      if (rest.length <= LONGEST_LINE) return;
      reading = false;
      rest = '';
      onLong();
    },
    end() {
      if (reading && rest !== '') onLine(rest);
      reading = false;
    },
  };
}
