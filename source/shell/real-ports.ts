import {randomInt} from 'node:crypto';
import {benchOf} from '../session/bench-of.ts';
import {defaultSheet} from '../session/catalog/default-sheet.ts';
import {decide} from '../session/decide.ts';
import {stateOf} from '../session/evolve.ts';
import {lessonOf} from '../session/lesson.ts';
import {outlookOf} from '../session/outlook.ts';
import {performPractice} from '../session/practice-world.ts';
import {stages} from '../stages/index.ts';
import type {Store} from '../storage/store.ts';
import type {HearChoice} from './ears/hear-choice.ts';
import {realEars} from './ears/real-ears.ts';
import type {Ports} from './ports.ts';
import {writeBeside} from './write-beside.ts';

/** Seeds stay short enough to be typed again. */
const seeds = 1_000_000;

/** The wizard's real surroundings. */
export function realPorts(store: Store, now: () => number, hear?: HearChoice): Ports {
	return {
		ears: realEars(hear, process.stdin),
		stages,
		store,
		now,
		writeFile: (name, text) => writeBeside([process.cwd(), store.folder], name, text),
		seed: () => randomInt(seeds),
		benchOf,
		outlookOf,
		lessonOf,
		decide: (deeds, story) => decide(deeds, stateOf(story)),
		practise: performPractice,
		firstSheet: practiceSeed =>
			practiceSeed === undefined ? defaultSheet() : {...defaultSheet(), name: 'Practice guitar', practiceSeed},
	};
}
