const number = (value) => (value >= 100 ? value.toFixed(0) : value.toPrecision(3));

/** A row for people: the ratio, what is asked for, and the speeds it was made from. */
export function printTable({ processor, processors, node, load }, rows) {
  console.log(
    `${processor}, ${processors} processors, Node ${node}, load ${load.map((one) => one.toFixed(1)).join(' to ')}\n`,
  );
  for (const row of rows) {
    const sense = goal(row);
    const verdict = row.noisy ? 'noisy' : sense === '' ? '' : isMet(row) ? 'met' : 'MISSED';
    console.log(`${row.what.padEnd(78)} ${number(row.value).padStart(7)}   ${sense.padEnd(14)} ${verdict}`);
    for (const [name, value] of Object.entries(row.references))
      console.log(`    ${name.padEnd(74)} ${number(value).padStart(7)}`);
  }
}

const goal = ({ atLeast, atMost }) =>
  atLeast !== undefined ? `at least ${atLeast}` : atMost !== undefined ? `at most ${atMost}` : '';

const isMet = ({ value, atLeast, atMost }) => (atLeast === undefined ? value <= atMost : value >= atLeast);
