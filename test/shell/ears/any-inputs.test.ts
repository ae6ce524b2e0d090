import {expect, test} from 'vitest';
import {troubleOf} from '../../../source/listening/trouble.ts';
import {type Rng, rngFrom} from '../../../source/numeric/rng.ts';
import {benchOf} from '../../../source/session/bench-of.ts';
import type {EarEvent} from '../../../source/shell/ears/ears.ts';
import {askedPitch, semitonesUp} from '../../../source/shell/ears/asked-pitch.ts';
import {hear} from '../../../source/shell/ears/hear.ts';
import type {Ports} from '../../../source/shell/ports.ts';
import {regionsFor} from '../../../source/shell/regions.ts';
import {seenBy} from '../../../source/shell/seen.ts';
import {sittingFrame} from '../../../source/shell/sitting-frame.ts';
import type {Sitting, Wizard} from '../../../source/shell/state.ts';
import {press} from '../../../source/shell/wizard.ts';
import {unicodeGlyphs} from '../../../source/terminal/glyphs.ts';
import {widthOf} from '../../../source/terminal/line.ts';
import {isUndone} from '../../fuzz/laws.tsx';
import {askingPitch, earPorts, hzOf, pluckAt, sat, toneAt, viewAt} from '../../helpers/ears.ts';

/** Each a few keys as a person presses them; most questions are answered, most typing is finished. */
const fingers = [
	'enter',
	'enter',
	'=',
	'down',
	'escape',
	'escape',
	't',
	'u',
	'r',
	'!',
	'i',
	'o o',
	'- 1 5 enter',
	'5 :',
	'5 : - 2 enter',
	'- 1',
];

function pick<T>(rng: Rng, list: readonly T[]): T {
	return list[Math.min(list.length - 1, Math.floor(rng.uniform() * list.length))]!;
}

/** Anything that ears may tell: mostly a string near pitch, sometimes nonsense. */
function anyHeard(rng: Rng, sitting: Sitting, ports: Ports): EarEvent {
	const asked = askedPitch(seenBy(sitting, ports), sitting.entry);
	const near = hzOf(pick(rng, [1, 2, 3, 4, 5, 6]), 1200 * pick(rng, [0, 0, 0, 1]) + 60 * rng.normal());
	const wanted = asked ? hzOf(asked.string, 100 * semitonesUp(asked) + (asked.toCents ?? -5) + rng.normal()) : near;
	const hz = pick(rng, [wanted, wanted, wanted, near, 35 + 900 * rng.uniform()]);
	const tone = toneAt(hz, {sdCents: pick(rng, [0.02, 0.1, 2]), tunerOffCents: 3 * rng.normal()});
	return pick<() => EarEvent>(rng, [
		() =>
			pluckAt(hz, {sdCents: tone.sdCents, verdict: pick(rng, ['settled', 'settled', 'settled', 'unsure', 'moving'])}),
		() => pluckAt(hz, {isTurned: true}),
		() => pluckAt(hz),
		() => ({kind: 'now', tone}),
		() => ({kind: 'now'}),
		() =>
			viewAt({phase: pick(rng, ['waiting', 'settling', 'told', 'turning']), hz, sdCents: 0.4, settled: rng.uniform()}),
		() => viewAt({phase: 'attack', troubles: [troubleOf('clipping'), troubleOf('hum', '50')]}),
		() => ({kind: 'open', from: 'parec'}),
		() => (rng.uniform() < 0.2 ? {kind: 'end', from: 'take.wav'} : viewAt()),
		() => (rng.uniform() < 0.2 ? {kind: 'trouble', trouble: troubleOf('stopped', 'parec')} : viewAt()),
	])();
}

test.each([1, 2, 3, 4])(
	'anything heard between any keys, seed %d: nothing breaks, all is stored, replayed and undone',
	seed => {
		const rng = rngFrom(77, seed);
		const ports = earPorts();
		let wizard: Wizard = askingPitch(ports);
		let heard = 0;
		for (let step = 0; step < 400; step++) {
			const before = sat(wizard).journal;
			const {ear} = sat(wizard);
			if (!ear || rng.uniform() < 0.4) {
				const strokes = ear || rng.uniform() < 0.5 ? pick(rng, fingers).split(' ') : ['tab'];
				for (const stroke of strokes) wizard = press(wizard, stroke, ports);
			} else wizard = hear(wizard, anyHeard(rng, sat(wizard), ports), ports);
			const sitting = sat(wizard);
			if (sitting.journal !== before) expect(ports.store.journals.get(sitting.id)).toEqual(sitting.journal);
			const newest = sitting.journal.story.at(-1);
			if (sitting.journal !== before && newest?.type === 'PitchRead' && newest.heard) heard++;
			// Asking is never left without something to say and something to take.
			if (sitting.asking?.by === 'ear')
				expect([sitting.asking.deeds.length > 0, sitting.message?.text !== '']).toEqual([true, true]);
			const regions = regionsFor({columns: 80, rows: 24}, 6, sitting.ear !== undefined)!;
			const {above, panelHeight, below} = sittingFrame(sitting, ports, regions, unicodeGlyphs);
			expect(above.length + panelHeight + below.length).toBeLessThanOrEqual(23);
			for (const line of below) expect(widthOf(line)).toBeLessThanOrEqual(78);
		}

		expect(heard).toBeGreaterThan(5);
		// What the facts alone say is what the live wizard says.
		const {journal} = sat(wizard);
		const replayed = benchOf(JSON.parse(JSON.stringify(journal.story)));
		const live = seenBy(sat(wizard), ports).bench;
		expect(replayed.strings.map(({now, saddle}) => [now, saddle?.ears, saddle?.errorCents])).toEqual(
			live.strings.map(({now, saddle}) => [now, saddle?.ears, saddle?.errorCents]),
		);
		isUndone(sat(wizard), ports);
	},
);
