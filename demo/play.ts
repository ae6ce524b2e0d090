import {type Truth, truth} from '../source/practice/index.ts';
import type {Bench} from '../source/session/bench.ts';
import {benchOf} from '../source/session/bench-of.ts';
import {defaultSheet} from '../source/session/catalog/default-sheet.ts';
import type {Story} from '../source/session/facts.ts';
import {practiceGuitarOf} from '../source/session/practice-world.ts';
import {type DemoStory, personOf} from './story.ts';
import {type Step, walk} from './walker.ts';

/** A story played to its end: every step, what the tool believed then, and what was so. */
export interface Played {
	readonly seed: number;
	readonly steps: readonly Step[];
	readonly story: Story;
	readonly believed: Bench;
	readonly truth: Truth;
}

/** @throws {Error} If it does not reach its end. */
export function play({intentions}: DemoStory, seed: number): Played {
	const sheet = {...defaultSheet(), name: 'Practice guitar', practiceSeed: seed};
	const steps = [...walk(sheet, personOf(intentions))];
	const {story} = steps.at(-1)!.journal;
	return {seed, steps, story, believed: benchOf(story), truth: truth(practiceGuitarOf(story)!)};
}
