import {xoroshiro128plus} from 'pure-rand/generator/xoroshiro128plus';
import {uniformInt} from 'pure-rand/distribution/uniformInt';
import {expect, test} from 'vitest';
import {entryCount} from '../../source/session/journal.ts';
import {seenBy} from '../../source/shell/seen.ts';
import {regionsFor} from '../../source/shell/regions.ts';
import {sittingFrame} from '../../source/shell/sitting-frame.ts';
import type {Wizard} from '../../source/shell/state.ts';
import {paste, press} from '../../source/shell/wizard.ts';
import {unicodeGlyphs} from '../../source/terminal/glyphs.ts';
import {widthOf} from '../../source/terminal/line.ts';
import {namedKeys} from '../fuzz/keys.ts';
import {opening, simpleBench, simplePorts} from '../helpers/simple-wizard.ts';

const keys = [
	...'0123456789+-.,:;!?<> abcdefghijklmnoprstuvwxyzABCDEFGH#\u00e9\u{1F3B8}',
	'enter',
	'enter',
	'enter',
	...namedKeys,
];
const pastes = ['-12\n', '5: +3\r\n', 'E2 -12', '\u0007\u001b[31m', '', '9'.repeat(500), 'Blue\none\n', '!\n'];

/** Many keys in a row, leaving out those that leave. */
function walk(seed: number, count: number) {
	const rng = xoroshiro128plus(seed);
	const pick = <T>(list: readonly T[]): T => list[uniformInt(rng, 0, list.length - 1)]!;
	const ports = simplePorts({strings: pick([6, 7, 8] as const)});
	let wizard: Wizard = opening(ports);
	for (let step = 0; step < count; step++) {
		wizard = uniformInt(rng, 0, 30) === 0 ? paste(wizard, pick(pastes), ports) : press(wizard, pick(keys), ports);
		if (wizard.screen === 'left') wizard = opening(ports);
		if (wizard.screen === 'sitting' && wizard.isStored)
			expect(ports.store.journals.get(wizard.id)).toEqual(wizard.journal);
	}

	return {wizard, ports};
}

test.each([1, 2, 3, 4, 5, 6, 7, 8])(
	'2500 random keys and pastes, seed %d: nothing breaks, all is stored, all can be undone',
	seed => {
		const {ports} = walk(seed, 2500);
		expect(ports.store.list().length).toBeGreaterThan(0);
		for (const {id, guitarId} of ports.store.list()) {
			const journal = ports.store.journals.get(id)!;
			let wizard: Wizard = {
				screen: 'sitting',
				id,
				guitarId,
				journal,
				isStored: true,
				isLookOnly: false,
				entry: {text: '', cursor: 0},
				writing: 'answer',
				scroll: 0,
				cautionsRead: [],
			};
			// A replay from the facts alone shows what the live wizard shows.
			const copy = structuredClone(journal.story);
			expect(seenBy({journal: {story: copy, undone: []}}, ports).task).toEqual(seenBy(wizard, ports).task);
			expect(simpleBench(copy).passedStages).toEqual(simpleBench(journal.story).passedStages);
			const {above, below} = sittingFrame(wizard, ports, regionsFor({columns: 80, rows: 24}, 6)!, unicodeGlyphs);
			for (const line of [...above, ...below]) expect(widthOf(line)).toBeLessThanOrEqual(78);
			for (let left = entryCount(journal.story); left > 1; left--) wizard = press(wizard, 'ctrl+u', ports);
			expect(wizard.screen === 'sitting' && wizard.journal.story).toEqual(journal.story.slice(0, 1));
		}
	},
);
