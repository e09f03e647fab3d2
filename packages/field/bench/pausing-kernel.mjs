/**
 * A kernel that stands still each time it has done so many steps, until `next` is called. `next` resolves when it stands
 * still again, so the time in between is that of these steps with all that the solver does around them. After `release`
 * it stands still no more.
 */
export function pausingKernel(maker, steps) {
  let done = 0;
  let isReleased = false;
  let go;
  let reached = () => {};
  const pause = () =>
    new Promise((resolve) => {
      go = resolve;
      reached();
    });
  const release = () => {
    isReleased = true;
    go?.();
  };
  const next = () => {
    const still = new Promise((resolve) => {
      reached = resolve;
    });
    go?.();
    return still;
  };
  const kernel = async (input) => {
    const inner = await maker(input);
    return {
      name: inner.name,
      close: () => inner.close(),
      async advance(count) {
        if (!isReleased && done % steps === 0) await pause();
        done += count;
        return inner.advance(count);
      },
    };
  };
  return { kernel, next, release };
}
