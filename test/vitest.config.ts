import {defineConfig} from 'vitest/config';

export default defineConfig({
	test: {
		root: new URL('..', import.meta.url).pathname,
		include: ['test/**/*.test.{ts,tsx}'],
		reporters: ['default', './test/helpers/closing-line.ts'],
		setupFiles: ['./test/helpers/chance.ts'],
		testTimeout: 60_000,
		hookTimeout: 60_000,
		// Two cores are usual where this runs; real-terminal walks start processes of their own.
		maxWorkers: 2,
	},
});
