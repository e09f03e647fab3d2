import { defineConfig } from 'vitest/config';

// Cross-package tests run twice: on the TypeScript sources, and on the built output loaded by Node itself.
// The second run catches imports that a bundler forgives and plain Node does not.
export default defineConfig({
  test: {
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Much of the time goes to programs that a test waits for, so no core need be kept free.
    maxWorkers: '100%',
    projects: [
      {
        resolve: { conditions: ['sheetwave-source'] },
        ssr: { resolve: { conditions: ['sheetwave-source'] } },
        test: {
          name: 'source',
          provide: { testedCode: 'source' },
          include: ['packages/*/src/**/*.test.ts', 'test/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'built',
          provide: { testedCode: 'built' },
          include: ['test/**/*.test.ts'],
          exclude: [
            '**/node_modules/**',
            'test/clients/**',
            'test/boundaries/**',
            'test/golden/**',
            // The main job runs the command, which is the built output already.
            'test/main-job/**',
            'test/fuzz/**',
            // It loads the built packages in any case.
            'test/validation/**',
            // Sources and output hold the same arithmetic: of the long runs, the short ones of these folders show that it loads.
            'test/differential/simd-kernel.test.ts',
            'test/physics/!(lines|two-ports|progress-and-abort|bad-input|dipoles).test.ts',
          ],
          server: { deps: { external: [/\/packages\/[^/]+\/dist\//] } },
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
