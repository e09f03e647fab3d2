/** Ids of what a design has holes for and no stock: a pole clamp, the screws of a connector's flange, a cable gland. */
export const mountHardware = ['u-bolt', 'u-bolt-nut', 'u-bolt-washer', 'flange-screw', 'cable-gland'] as const;
