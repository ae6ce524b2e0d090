import {describe, expect, test} from 'vitest';
import {lawWithFirstPartial} from '../../../source/listening/partial-law.ts';
import type {SoundListener, SoundSource} from '../../../source/listening/sources/sound-source.ts';
import {troubleOf} from '../../../source/listening/trouble.ts';
import {centsBetween} from '../../../source/music/pitch.ts';
import {openDeskHere} from '../../../source/shell/ears/desk-work.ts';
import type {EarEvent} from '../../../source/shell/ears/ears.ts';
import {earsAtDesk} from '../../../source/shell/ears/ears-at-desk.ts';
import {onePluck} from '../../listening/synthesis/pluck.ts';

/** A source that gives what a test puts in, and says whether it was held. */
function madeSource() {
	let listener: SoundListener | undefined;
	let isHeld = false;
	let isStopped = false;
	const source: SoundSource = {
		stop: () => {
			isStopped = true;
		},
		hold: () => {
			isHeld = true;
		},
		goOn: () => {
			isHeld = false;
		},
	};
	return {
		open: (take: SoundListener) => {
			listener = take;
			return source;
		},
		give: (event: Parameters<SoundListener>[0]) => listener?.(event),
		isHeld: () => isHeld,
		isStopped: () => isStopped,
	};
}

const hz = 110;
const {samples, sampleRateHz} = onePluck({law: lawWithFirstPartial(hz, 6e-5)});
const blocks = Array.from({length: Math.ceil(samples.length / 8192)}, (_, at) =>
	samples.slice(8192 * at, 8192 * (at + 1)),
);

/** Everything the desk has to say by now. */
const settle = async () => {
	for (let turn = 0; turn < 200; turn++) await Promise.resolve();
};

function listening({isRecording}: {readonly isRecording: boolean}) {
	const source = madeSource();
	const told: EarEvent[] = [];
	const ears = earsAtDesk({
		openSource: source.open,
		openDesk: openDeskHere,
		isRecording,
		hasEnd: isRecording,
		startsOn: true,
	});
	const open = ears.open(event => told.push(event));
	return {source, told, open, kinds: () => [...new Set(told.map(({kind}) => kind))]};
}

describe('live sound', () => {
	test('a pluck is told with its pitch, views on the way, whether or not a pitch is wanted', async () => {
		const {source, told, kinds} = listening({isRecording: false});
		source.give({kind: 'open', sampleRateHz, from: 'parec'});
		for (const block of blocks) {
			source.give({kind: 'samples', samples: block});
			await settle();
		}

		expect(kinds()).toEqual(['open', 'view', 'pluck']);
		const pluck = told.find(event => event.kind === 'pluck');
		expect(Math.abs(centsBetween(pluck!.pluck.tone!.hz, hz))).toBeLessThan(0.2);
		const phases = told.flatMap(event => (event.kind === 'view' ? [event.view.phase] : []));
		expect([...new Set(phases)]).toEqual(['waiting', 'attack', 'settling', 'told']);
	});

	test('"now" is answered with what sounds', async () => {
		const {source, told, open} = listening({isRecording: false});
		source.give({kind: 'open', sampleRateHz, from: 'parec'});
		for (const block of blocks.slice(0, 9)) source.give({kind: 'samples', samples: block});
		open.now();
		await settle();
		const now = told.find(event => event.kind === 'now');
		expect(Math.abs(centsBetween(now!.tone!.hz, hz))).toBeLessThan(1);
	});

	test('sound that the desk cannot keep up with is let go, and that is known', async () => {
		const {source, told} = listening({isRecording: false});
		source.give({kind: 'open', sampleRateHz, from: 'parec'});
		// Ten seconds at once, nobody answering in between.
		for (let time = 0; time < 60; time++) source.give({kind: 'samples', samples: new Float32Array(8192).fill(0.001)});
		await settle();
		source.give({kind: 'samples', samples: new Float32Array(8192).fill(0.001)});
		await settle();
		const last = told.findLast(event => event.kind === 'view');
		expect(last!.view.troubles.map(({code}) => code)).toContain('losing-samples');
	});

	test('a trouble ends it; stopping ends it silently', async () => {
		const one = listening({isRecording: false});
		one.source.give({kind: 'trouble', trouble: troubleOf('no-device', 'arecord')});
		expect(one.told).toEqual([{kind: 'trouble', trouble: troubleOf('no-device', 'arecord')}]);
		expect(one.source.isStopped()).toBe(true);
		one.source.give({kind: 'samples', samples});
		expect(one.told).toHaveLength(1);

		const other = listening({isRecording: false});
		other.open.stop();
		other.source.give({kind: 'open', sampleRateHz, from: 'parec'});
		await settle();
		expect([other.told, other.source.isStopped()]).toEqual([[], true]);
	});
});

describe('a recording', () => {
	test('waits until a pitch is wanted, then is heard to its end', async () => {
		const {source, kinds, open, told} = listening({isRecording: true});
		source.give({kind: 'open', sampleRateHz, from: 'take.wav'});
		for (const block of blocks) source.give({kind: 'samples', samples: block});
		source.give({kind: 'end'});
		await settle();
		expect(kinds()).toEqual(['open']);
		expect(source.isHeld()).toBe(true);

		open.attend({believedHz: [hz], isWanted: true});
		await settle();
		expect(kinds()).toEqual(['open', 'view', 'pluck', 'end']);
		expect(told.at(-1)).toEqual({kind: 'end', from: 'take.wav'});
		expect(source.isStopped()).toBe(true);
	});

	test('is not read on while nothing is wanted: what was played for the next question is kept for it', async () => {
		const source = madeSource();
		const ears = earsAtDesk({
			openSource: source.open,
			openDesk: openDeskHere,
			isRecording: true,
			hasEnd: true,
			startsOn: true,
		});
		const plucks: EarEvent[] = [];
		const open = ears.open(event => {
			if (event.kind !== 'pluck') return;
			plucks.push(event);
			open.attend({believedHz: [], isWanted: false});
		});
		open.attend({believedHz: [], isWanted: true});
		source.give({kind: 'open', sampleRateHz, from: 'take.wav'});
		for (const block of [...blocks, ...blocks]) source.give({kind: 'samples', samples: block});
		source.give({kind: 'end'});
		await settle();
		expect(plucks).toHaveLength(1);
		open.attend({believedHz: [], isWanted: true});
		await settle();
		expect(plucks).toHaveLength(2);
	});
});
