/** What covers are made of: relative permittivity and loss tangent at 1 to 10 GHz, the middle of what tables give (handbook tables, memory). */
export const coverMaterials = Object.freeze({
  asa: { permittivity: 2.7, lossTangent: 0.009 },
  abs: { permittivity: 2.6, lossTangent: 0.007 },
  petg: { permittivity: 2.7, lossTangent: 0.011 },
  polycarbonate: { permittivity: 2.8, lossTangent: 0.006 },
  acrylic: { permittivity: 2.6, lossTangent: 0.007 },
  polypropylene: { permittivity: 2.23, lossTangent: 0.0003 },
  polyethylene: { permittivity: 2.3, lossTangent: 0.0003 },
  pvc: { permittivity: 2.85, lossTangent: 0.008 },
  ptfe: { permittivity: 2.07, lossTangent: 0.0003 },
});

export type CoverMaterial = keyof typeof coverMaterials;
export const coverMaterialNames = Object.freeze(Object.keys(coverMaterials)) as readonly CoverMaterial[];
