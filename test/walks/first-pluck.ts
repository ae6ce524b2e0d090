import type {Program} from './harness.ts';

/** What stands on the screen on the way from the first question to the first pluck. */
const steps = [
	'How many strings',
	'Which strings',
	'Which notes',
	'How long',
	'Look it over',
	'Look before',
	'Read what',
	'Choose how',
	'Loosen',
	'Set every',
	'Unlocked',
	'Pluck string 1',
] as const;

/** Space at every question of a practice set-up that has just been begun, until the first pluck is asked for. */
export async function toFirstPluck(program: Program): Promise<void> {
	for (const [at, step] of steps.entries()) {
		if (at > 0) program.press(' ');
		await program.until(step);
	}
}
