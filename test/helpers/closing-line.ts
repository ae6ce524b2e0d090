import type {Reporter, TestModule} from 'vitest/node';

/** Prints one last plain line, `N passed, N failed`, counted from what ran. */
export default class ClosingLine implements Reporter {
	onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
		let passed = 0;
		let skipped = 0;
		let failed = unhandledErrors.length;
		for (const module of modules) {
			if (module.state() === 'failed' && module.errors().length > 0) failed++;
			for (const test of module.children.allTests()) {
				const {state} = test.result();
				if (state === 'passed') passed++;
				else if (state === 'failed') failed++;
				else skipped++;
			}
		}

		console.log(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
	}
}
