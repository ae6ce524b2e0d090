import type {Moment, Person, Whim} from './walker.ts';

/** A set-up that somebody made up, to be played through the real session on a practice guitar. */
export interface DemoStory {
	/** As typed after `npm run demo`. */
	readonly name: string;
	readonly title: string;
	/** Who, with what, and why; a line each. */
	readonly told: readonly string[];
	/** Practice guitars that it must end well on; the first is the one printed. */
	readonly seeds: readonly [number, ...number[]];
	/** How near their harmonics the fretted 12ths must end; absent where saddles are not this story's business. */
	readonly frettedCents?: number;
	/** What the person does beyond following what is asked. */
	readonly intentions: readonly Intention[];
}

/** Something the person has in mind: done at the first moment that fits, and had once. */
export interface Intention {
	/** Printed beside what is done. */
	readonly because: string;
	readonly when: (moment: Moment) => boolean;
	/** One after the other, at this task and those that follow at once. */
	readonly does: readonly Act[];
}

type Act = Whim | ((moment: Moment) => Whim);

/** Somebody with these intentions. Made anew for every walk, because it remembers what has been done. */
export function personOf(intentions: readonly Intention[]): Person {
	const open = new Set(intentions);
	const begun: Act[] = [];
	return moment => {
		const next = begun.shift();
		if (next) return whimAt(next, moment);
		const intention = [...open].find(({when}) => when(moment));
		if (!intention) return undefined;
		open.delete(intention);
		const [first, ...rest] = intention.does;
		begun.push(...rest);
		return first && {...whimAt(first, moment), because: intention.because};
	};
}

function whimAt(act: Act, moment: Moment): Whim {
	return typeof act === 'function' ? act(moment) : act;
}

/** True where this is asked: a stage, and how its headline begins. */
export function asked(stage: string, beginning = ''): Intention['when'] {
	return moment => moment.stage.id === stage && moment.task.headline.startsWith(beginning);
}

/** Intake: answers to what it asks, by the beginning of the question. */
export function says(beginning: string, text: string, because: string): Intention {
	return {because, when: asked('intake', beginning), does: [{kind: 'types', text}]};
}
