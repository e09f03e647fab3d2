// The page that `npm run gallery` writes: one drawing at a time, old beside changed, turned over with the keyboard.

const STYLE = `
  body { margin: 0; font: 16px/1.5 sans-serif; background: #e8e4da; color: #222; display: flex; flex-direction: column; height: 100vh; }
  header { padding: 0.5rem 1rem; background: #2f4034; color: #f4f0e6; display: flex; gap: 1.5rem; flex-wrap: wrap; align-items: baseline; }
  header h1 { font-size: 1rem; margin: 0; }
  header small { opacity: 0.85; }
  main { flex: 1; min-height: 0; display: flex; gap: 0.5rem; padding: 0.5rem; }
  figure { flex: 1; min-width: 0; margin: 0; display: flex; flex-direction: column; background: #fff; border: 1px solid #a9a294; }
  figcaption { padding: 0.2rem 0.5rem; background: #f4f0e6; }
  figure div { flex: 1; min-height: 0; position: relative; }
  figure img { position: absolute; inset: 0; width: 100%; height: 100%; object-fit: contain; }
  .changes img + img { mix-blend-mode: difference; }
`;

/** Runs in the page. */
function turnPages(pictures) {
  let at = 0;
  let view = 'both';
  const byId = (id) => document.getElementById(id);
  const figure = (title, ...sources) => {
    const box = document.createElement('figure');
    const caption = document.createElement('figcaption');
    caption.textContent = title;
    const stage = document.createElement('div');
    for (const source of sources)
      stage.append(Object.assign(document.createElement('img'), { src: source, alt: title }));
    box.append(caption, stage);
    return box;
  };
  const sheets = ({ old, changed }) => {
    if (changed === undefined) return [figure('golden, unchanged', old)];
    if (old === undefined) return [figure('new: there is no golden drawing yet', changed)];
    if (view === 'old') return [figure('old', old)];
    if (view === 'changed') return [figure('changed', changed)];
    if (view === 'both') return [figure('old', old), figure('changed', changed)];
    const overlay = figure('only what differs is bright', old, changed);
    overlay.classList.add('changes');
    return [overlay];
  };
  const show = () => {
    const picture = pictures[at];
    byId('name').textContent =
      picture === undefined ? 'no golden drawings' : `${at + 1}/${pictures.length} ${picture.name}`;
    byId('sheets').replaceChildren(...(picture === undefined ? [] : sheets(picture)));
  };
  const keys = {
    ArrowRight: () => {
      at = Math.min(at + 1, pictures.length - 1);
    },
    ArrowLeft: () => {
      at = Math.max(at - 1, 0);
    },
    ' ': () => {
      view = view === 'old' ? 'changed' : 'old';
    },
    b: () => {
      view = 'both';
    },
    d: () => {
      view = 'changes';
    },
  };
  document.addEventListener('keydown', (event) => {
    const act = keys[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
    show();
  });
  show();
}

/** The whole page. `pictures`: name, and the addresses of the old and the changed drawing where there is one. */
export function galleryPage(pictures) {
  const data = JSON.stringify(pictures).replaceAll('<', '\\u003c');
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Golden drawings</title>
<style>${STYLE}</style>
<header>
  <h1 id="name"></h1>
  <small>← → previous, next · space: old, changed · b: both · d: only what differs</small>
</header>
<main id="sheets"></main>
<script>(${turnPages})(${data});</script>
</html>
`;
}
