import type {Reporter, TestCase, TestModule} from 'vitest/node';

/** Prints what was skipped and why, and one last plain line, `N passed, N failed`, counted from what ran. */
export default class ClosingLine implements Reporter {
	onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
		let passed = 0;
		const skipped: string[] = [];
		let failed = unhandledErrors.length;
		for (const module of modules) {
			if (module.state() === 'failed' && module.errors().length > 0) failed++;
			for (const test of module.children.allTests()) {
				const {state} = test.result();
				if (state === 'passed') passed++;
				else if (state === 'failed') failed++;
				else skipped.push(nameOf(test));
			}
		}

		for (const name of skipped) console.log(`skipped: ${name}`);
		const {length} = skipped;
		console.log(`${passed} passed, ${failed} failed${length > 0 ? `, ${length} skipped` : ''}`);
	}
}

/** Where a test is, with the reason it was skipped for; a reason that holds for a whole group is part of the group's name. */
function nameOf(test: TestCase): string {
	const result = test.result();
	const note = result.state === 'skipped' ? result.note : undefined;
	return `${test.fullName}${note ? ` (${note})` : ''}`;
}
