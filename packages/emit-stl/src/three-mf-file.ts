import { strToU8, zipSync } from 'fflate';
import { meshFaults, numbering, type Triangle, type Vertex } from './mesh.ts';

const CONTENT_TYPES = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
`;
const RELATIONSHIPS = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
`;
/** Zip files carry a local time; this one is the same everywhere, and the least that the format can say is half a day before. */
const STAMP = '1980-01-01T12:00:00';
/** Six decimals of a millimetre: finer than any number a mesh here is made of. */
const DECIMALS = 6;

/**
 * One solid as a 3MF package (3MF Core Specification: OPC package with one relationship of its kind; unit millimeter; vertices
 * counter-clockwise seen from outside). Unlike in STL, facets share their corners and the unit is in the file.
 * Throws when the mesh is not closed once its corners are joined.
 */
export function write3mf(
  triangles: readonly Triangle[],
  words: { readonly title: string; readonly description: string },
): Uint8Array {
  const model = modelText(triangles, words);
  return zipSync(
    {
      '[Content_Types].xml': strToU8(CONTENT_TYPES),
      '_rels/.rels': strToU8(RELATIONSHIPS),
      '3D/3dmodel.model': strToU8(model),
    },
    { level: 6, mtime: STAMP },
  );
}

function modelText(
  triangles: readonly Triangle[],
  { title, description }: { readonly title: string; readonly description: string },
): string {
  const { corners, facets } = welded(triangles);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<model unit="millimeter" xml:lang="en-GB" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">',
    ` <metadata name="Title">${escaped(title)}</metadata>`,
    ` <metadata name="Description">${escaped(description)}</metadata>`,
    ' <metadata name="Application">sheetwave</metadata>',
    ' <resources>',
    `  <object id="1" type="model" name="${escaped(title)}">`,
    '   <mesh>',
    '    <vertices>',
    ...corners.map(([x, y, z]) => `     <vertex x="${decimal(x)}" y="${decimal(y)}" z="${decimal(z)}"/>`),
    '    </vertices>',
    '    <triangles>',
    ...facets.map(([a, b, c]) => `     <triangle v1="${a}" v2="${b}" v3="${c}"/>`),
    '    </triangles>',
    '   </mesh>',
    '  </object>',
    ' </resources>',
    ' <build>',
    '  <item objectid="1"/>',
    ' </build>',
    '</model>',
    '',
  ].join('\n');
}

interface Welded {
  readonly corners: readonly Vertex[];
  /** Three indexes of corners each. */
  readonly facets: readonly (readonly [number, number, number])[];
}

function welded(triangles: readonly Triangle[]): Welded {
  const numberOf = numbering();
  const corners: Vertex[] = [];
  const index = (vertex: Vertex): number => {
    const corner: Vertex = [rounded(vertex[0]), rounded(vertex[1]), rounded(vertex[2])];
    const number = numberOf(corner);
    if (number === corners.length) corners.push(corner);
    return number;
  };
  const facets = triangles.map(([a, b, c]) => [index(a), index(b), index(c)] as const);
  const at = (i: number): Vertex => corners[i] ?? [Number.NaN, 0, 0];
  const faults = meshFaults(facets.map(([a, b, c]): Triangle => [at(a), at(b), at(c)]));
  if (faults.length > 0) throw new Error(`joined corners spoil a mesh: ${faults.join('; ')}`);
  return { corners, facets };
}

/** To as many decimals as are written, without a sign on zero. */
const rounded = (mm: number): number => Math.round(mm * 10 ** DECIMALS) / 10 ** DECIMALS + 0;

/** Without an exponent. */
const decimal = (mm: number): string =>
  rounded(mm)
    .toFixed(DECIMALS)
    .replace(/\.?0+$/, '');

function escaped(text: string): string {
  const names: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
  return text.replace(/[&<>"]/g, (character) => names[character] ?? character);
}
